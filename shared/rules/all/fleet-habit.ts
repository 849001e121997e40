import { boardOf } from "../../logic/from-craft.ts";
import type { Craft } from "../../model/craft.ts";
import type { FleetHabits, HabitPlace, HabitVote } from "../../model/habits.ts";
import { perFile } from "../../model/memo.ts";
import type { Workspace } from "../../model/workspace.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { CraftRule, ExampleFiles, Report } from "../engine/rule.ts";
import { conditionLocation } from "../lib/condition-locations.ts";
import { WHEEL } from "../lib/example-files.ts";
import { MOST_NAMES, mostOf, placeKey } from "../lib/fleet-habits.ts";
import { habitPlace, includesPlace, isGuarded } from "../lib/habit-places.ts";
import { habitTexts } from "../lib/habit-texts.ts";
import { EVERY_MODE } from "../lib/name-groups.ts";

/** Looked for in the wrong place, these hurt somebody or lose the craft. */
const GRAVE: ReadonlySet<string> = new Set(["arm", "turtle", "return-home"]);

/** The votes with this craft's as it is now, in place of the one for which it was counted. */
function votesNow(votes: readonly HabitVote[], counted: HabitPlace | undefined, now: HabitPlace): HabitVote[] {
  const others = votes.map((vote) => (vote.place.key === counted?.key ? { ...vote, count: vote.count - 1 } : vote));
  const own = others.find(({ place }) => place.key === now.key);
  if (!own) return [...others, { place: now, count: 1, first: [] }];
  return others.map((vote) => (vote === own ? { ...vote, count: vote.count + 1 } : vote));
}

function placeNow(craft: Craft, workspace: Workspace, mode: string, text: string, { handset, places }: FleetHabits) {
  const known = places.get(placeKey(handset, mode, text));
  return known === undefined ? habitPlace(craft, workspace, mode) : known;
}

/**
 * Whether the hand finds the mode where it is on most, and only has to open a guard as well: that of arming, which may
 * ask for more on one craft than on others, and which every mode that follows arming then asks for too.
 */
function asksForGuard(mode: string, now: HabitPlace, most: HabitPlace, arm: HabitPlace | null): boolean {
  const isGuard = (control: string, at: readonly string[]) =>
    mode === "arm" || (arm?.ways.some((way) => way.get(control)?.join() === at.join()) ?? false);
  return isGuarded(now, most, isGuard);
}

/** The texts last written of a file's craft, and the switches and the handset that they were written from. */
const writtenIn = perFile((): { from: readonly unknown[]; texts: ReadonlyMap<string, string> } => ({
  from: [],
  texts: new Map(),
}));

/** As `habitTexts`, and the same for as long as a key touches no switch. */
function textsOf(craft: Craft, workspace: Workspace): ReadonlyMap<string, string> {
  const last = writtenIn(craft);
  const from = [boardOf(craft, workspace), craft.handset];
  if (from.some((each, i) => each !== last.from[i])) Object.assign(last, { from, texts: habitTexts(craft) });
  return last.texts;
}

interface Told {
  readonly mode: string;
  readonly now: HabitPlace;
  readonly votes: readonly HabitVote[];
  readonly arm: HabitPlace | null;
}

function reportOf(craft: Craft, workspace: Workspace, { mode, now, votes, arm }: Told) {
  const most = mostOf(votes);
  if (!most || most.vote.place.key === now.key) return [];
  const { vote, of } = most;
  if (asksForGuard(mode, now, vote.place, arm)) return [];
  const others = vote.first.filter(({ file }) => file !== craft.file).slice(0, MOST_NAMES);
  const names = joinWithAnd(others.map(({ name }) => `“${name}”`));
  const why = includesPlace(now, vote.place)
    ? "A hand that knows the others does not expect it there as well"
    : includesPlace(vote.place, now)
      ? "A hand that knows the others may find it off there"
      : "A hand that knows the others looks for it in the wrong place";
  const report: Report = {
    ...conditionLocation(craft, workspace, mode),
    message: `On ${vote.count} of ${of} craft with “${craft.handset!.name}”, such as ${names}, ${mode} is ${vote.place.words}; here it is ${now.words}. ${why}. Put ${mode} where it is on most, or accept this with the reason.`,
    severity: GRAVE.has(mode) ? "warning" : "hint",
  };
  return [report];
}

const craftText = (name: string, turtle: string) =>
  `craft "${name}"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  turtle when ${turtle}\n`;

const others: ExampleFiles = {
  "cup.fettle": craftText("Cup", "TR is down"),
  "saucer.fettle": craftText("Saucer", "TR is down"),
  ...WHEEL,
};

export const rule: CraftRule = {
  code: "fleet-habit",
  severity: "hint",
  scope: "craft",
  summary: "A mode is at another control or position than on most craft that are flown with the same handset.",
  prose:
    "A hand learns where a mode is once for all craft, and in a hurry it goes there, whichever craft is in the air. Of the craft in the workspace that use the same handset file, those that set the mode up so that a hand can turn it on are counted; where more than half agree, the others are told. What counts is what the hand moves from rest, not how the condition is written: what is so at rest anyway, what arms the craft, a further guard on arming, and where a stick is make no difference, and a range of a dial counts by the third of the travel in which its middle lies. It is a warning for arm, turtle and return-home. Put the mode where the hand looks for it, best by a layer of habits that all craft use, or accept the difference with its reason.",
  examples: {
    bad: { "jug.fettle": craftText("Jug", "PB is held"), ...others },
    good: { "jug.fettle": craftText("Jug", "TR is not up and not TR is mid"), ...others },
  },
  restsOnMore: true,
  looksAt: { modes: [EVERY_MODE] },
  restsOn: (craft, workspace) => (craft.handset ? (workspace.view.habits?.(craft.file)?.id ?? "") : ""),
  check(craft, workspace) {
    if (!craft.handset || craft.modes.size === 0) return [];
    const habits = workspace.view.habits?.(craft.file);
    if (habits?.handset !== craft.handset.file) return [];
    const texts = textsOf(craft, workspace);
    const armText = texts.get("arm");
    const arm = armText === undefined ? null : placeNow(craft, workspace, "arm", armText, habits);
    return [...texts].flatMap(([mode, text]) => {
      const votes = habits.votes.get(mode);
      if (!votes) return [];
      const now = placeNow(craft, workspace, mode, text, habits);
      if (!now) return [];
      return reportOf(craft, workspace, { mode, now, votes: votesNow(votes, habits.own.get(mode), now), arm });
    });
  },
};
