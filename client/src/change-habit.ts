/** Asks which mode is to be on with what from now on, and shows what becomes of each craft. */
import { type QuickPickItem, QuickPickItemKind } from "vscode";
import { asUri } from "../../shared/protocol/addresses.ts";
import {
  HABIT_CONDITION_REQUEST,
  HABITS_REQUEST,
  type Habit,
  type HabitConditionParams,
  type HabitConditionResult,
  type HabitsResult,
  type HandsetHabits,
} from "../../shared/protocol/fleet-change.ts";
import type { FleetChangeAbout } from "../../shared/protocol/fleet-change-messages.ts";
import type { Ask } from "./ask.ts";
import { makeList, pickOne, tellInformation } from "./shown-window.ts";

/** Which mode a line of a script is about: a mode by its name, an output as `outputs.NAME`. */
export interface HabitOfLine {
  readonly mode: string;
}

type ModeOfHandset = HandsetHabits["modes"][number];

interface ModeItem extends QuickPickItem {
  readonly handset: HandsetHabits;
  readonly mode: ModeOfHandset;
}

const TITLE = "Change a Habit Everywhere";

/** `line` says which mode is meant; without it that is asked first. */
export async function askHabit(ask: Ask, open: (about: FleetChangeAbout) => void, line?: HabitOfLine): Promise<void> {
  const { handsets } = await ask<HabitsResult>(HABITS_REQUEST, {});
  const items = modeItems(handsets).filter(({ mode }) => line === undefined || mode.name === line.mode);
  if (items.length === 0) {
    const what = line ? `sets up ${line.mode}` : "sets up a mode";
    void tellInformation(`No craft of the workspace with a handset ${what}, so there is no habit to change.`);
    return;
  }
  const chosen = items.length === 1 && line ? items[0]! : await pickMode(items);
  if (!chosen) return;
  const { handset, mode } = chosen;
  const from = await pickHabit(mode);
  if (from === undefined) return;
  const to = await pickCondition(ask, handset, mode, from);
  if (to === undefined) return;
  open({ kind: "habit", handset: asUri(handset.file), mode: mode.name, from, to });
}

function modeItems(handsets: readonly HandsetHabits[]): ModeItem[] {
  return handsets.flatMap((handset) =>
    handset.modes.map((mode) => ({
      handset,
      mode,
      label: mode.name,
      description: mode.habits.map(({ text, craft }) => `${craft.length} × ${text}`).join(", "),
      ...(handsets.length > 1 && { detail: `on the handset “${handset.name}”` }),
    })),
  );
}

function pickMode(items: readonly ModeItem[]): Thenable<ModeItem | undefined> {
  const placeHolder = "Which mode is to be on with something else?";
  return pickOne(items, { title: TITLE, placeHolder, matchOnDescription: true });
}

/** Null for every habit; undefined where it was cancelled. */
async function pickHabit({ name, habits }: ModeOfHandset): Promise<string | null | undefined> {
  const [only] = habits;
  if (habits.length === 1) return only!.text;
  const items: (QuickPickItem & { readonly text: string | null })[] = habits.map((habit) => ({
    text: habit.text,
    label: habit.text,
    description: namesOf(habit),
  }));
  items.push({ text: null, label: "All of them", description: `whatever ${name} is on with` });
  const placeHolder = `${name} when …: which of these habits is to change?`;
  return (await pickOne(items, { title: TITLE, placeHolder, matchOnDescription: true }))?.text;
}

const MOST_NAMED = 4;

function namesOf({ craft }: Habit): string {
  const names = craft.slice(0, MOST_NAMED).map(({ name }) => name);
  return craft.length > MOST_NAMED ? `${names.join(", ")} and ${craft.length - MOST_NAMED} more` : names.join(", ");
}

/** A condition that others have, one of a single position, or one that is typed, which is checked meanwhile. */
function pickCondition(
  ask: Ask,
  { tests }: HandsetHabits,
  { name, habits }: ModeOfHandset,
  from: string | null,
): Promise<string | undefined> {
  const box = makeList();
  const others = habits.filter(({ text }) => text !== from);
  const separator = (label: string): QuickPickItem => ({ label, kind: QuickPickItemKind.Separator });
  const listed: QuickPickItem[] = [
    ...(others.length > 0 ? [separator("as on other craft")] : []),
    ...others.map((habit) => ({ label: habit.text, description: namesOf(habit) })),
    separator("one position"),
    ...tests.filter((test) => test !== from && !others.some(({ text }) => text === test)).map((label) => ({ label })),
  ];
  box.title = TITLE;
  box.placeholder = `${name} when …: choose, or type a condition, as in “TR is down and not arm”`;
  box.ignoreFocusOut = true;
  box.items = listed;
  box.onDidChangeValue(async (value) => {
    const typed = value.trim();
    if (typed === "" || listed.some(({ label }) => label === typed)) {
      box.items = listed;
      return;
    }
    const params: HabitConditionParams = { mode: name, to: typed };
    const { fault } = await ask<HabitConditionResult>(HABIT_CONDITION_REQUEST, params);
    // Another key may have been pressed since.
    if (box.value.trim() !== typed) return;
    box.items = [
      ...listed,
      { label: typed, alwaysShow: true, description: "as typed", ...(fault !== null && { detail: fault }) },
    ];
  });
  return new Promise((resolve) => {
    box.onDidAccept(() => {
      const [chosen] = box.selectedItems;
      if (!chosen || chosen.detail !== undefined) return;
      resolve(chosen.label);
      box.hide();
    });
    box.onDidHide(() => {
      resolve(undefined);
      box.dispose();
    });
    box.show();
  });
}
