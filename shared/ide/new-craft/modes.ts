/** Assigns the modes of a new craft to the switches of its handset. */
import { linkOf } from "../../logic/from-craft.ts";
import type { Craft, Mode } from "../../model/craft.ts";
import { walkCondition } from "../../syntax/condition.ts";
import type { ControlPosition, ControlValue } from "../../syntax/value.ts";
import { entry, placeholder, type ScriptLine } from "./script-text.ts";

/** The conditions of modes on which most other craft with the same handset agree. */
export type Habits = ReadonlyMap<string, Mode>;

export interface ModesInput {
  /** The craft made of the handset and the layers alone. */
  readonly below: Craft;
  readonly habits: Habits;
  /** Whether the craft levels itself with the switch at rest, as for beginners. */
  readonly levelAtRest: boolean;
  readonly returnHome: boolean;
  readonly turtle: boolean;
}

interface Switch {
  readonly name: string;
  /** From the rest position outward. */
  readonly positions: readonly ControlPosition[];
  /** The position that may arm: an end, not the rest position, with the highest pulse. Null where there is none. */
  readonly arms: ControlPosition | null;
}

const ARM_NOTE = "The motors may start with this switch here, and nowhere else.";
const NO_ARM_NOTE =
  "No switch of the handset can arm it: arming needs one with two or three positions whose highest pulse is at an end, and not where it rests. Add one, write its name here and remove the #.";
const NO_HANDSET_NOTE =
  "No switch does anything yet, so the motors cannot start. Write your handset down first (“New Handset…” in the editor, “fettle new handset” elsewhere), “use” it above, then write your switches' names here and remove the #.";

const HOME_NOTE = "Flies home by itself: try it near, high and in sight first.";
const NO_HOME_NOTE =
  "No switch is left for the way home: without one it flies home only when the signal is lost. Free a switch, or write here the far end of one that levels:";

/**
 * The lines of the section `modes`; without a switch that can arm they are placeholders. Modes of a layer are not
 * repeated.
 */
export function planModes({ below, habits, levelAtRest, returnHome, turtle }: ModesInput): readonly ScriptLine[] {
  const has = (name: string) => below.modes.has(name);
  const habitsToWrite = new Map([...habits].filter(([name]) => !has(name)));
  const free = freeSwitches(below, writtenModes(below, habitsToWrite));
  const take = (fits: (one: Switch) => boolean): Switch | undefined => {
    const at = free.findIndex(fits);
    return at < 0 ? undefined : free.splice(at, 1)[0];
  };
  const lines: ScriptLine[] = [];

  if (habitsToWrite.has("arm"))
    lines.push(entry("arm", `when ${habitsToWrite.get("arm")!.text}`, `${ARM_NOTE} Your other craft do the same.`));
  else if (!has("arm")) {
    const arming = take(withTwoPositions("arms")) ?? take(({ arms }) => arms !== null);
    if (!arming) return notYet(below, returnHome);
    lines.push(entry("arm", whenAt(arming, arming.arms!), ARM_NOTE));
  }
  if (habitsToWrite.has("level") || habitsToWrite.has("level-blend")) {
    for (const name of ["level", "level-blend"]) {
      if (habitsToWrite.has(name)) lines.push(entry(name, `when ${habitsToWrite.get(name)!.text}`));
    }
  } else if (!has("level") && !has("level-blend")) {
    const holding = take(({ positions }) => positions.length === 3) ?? take(() => true);
    const selectors = freeSelectors(below, writtenModes(below, habitsToWrite));
    const shares = needsHome(below, habitsToWrite, returnHome) && free.length === 0 && selectors.length === 0;
    if (holding && shares) return [...lines, ...sharedLines(holding, levelAtRest)];
    lines.push(
      ...(holding
        ? levelLines(holding, levelAtRest)
        : [placeholder("level", "when …", "No switch is left for levelling:")]),
    );
  }
  if (returnHome && !has("return-home")) {
    const home = habitsToWrite.get("return-home");
    const selectors = freeSelectors(below, writtenModes(below, habitsToWrite));
    const homing = home ? undefined : (take(withTwoPositions("positions")) ?? take(() => true) ?? selectors[0]);
    const when = home ? `when ${home.text}` : homing ? whenAt(homing, homing.positions.at(-1)!) : null;
    lines.push(when ? entry("return-home", when, HOME_NOTE) : placeholder("return-home", "when …", NO_HOME_NOTE));
  }
  if (turtle && !has("turtle") && !habitsToWrite.has("turtle") && free.length > 0) {
    const [turning] = free;
    const note =
      "Turns it over after a crash, where the motors can run backwards. Short bursts, nobody near: blocked motors burn.";
    lines.push(placeholder("turtle", whenAt(turning!, turning!.positions.at(-1)!), note));
  } else if (habitsToWrite.has("turtle") && turtle)
    lines.push(
      placeholder(
        "turtle",
        `when ${habitsToWrite.get("turtle")!.text}`,
        "As on your other craft, where the motors can run backwards:",
      ),
    );
  return lines;
}

/** Everything that has a condition before the new craft adds its own. */
function writtenModes(below: Craft, habits: Habits): Mode[] {
  return [...below.modes.values(), ...below.outputs.values(), ...habits.values()];
}

function needsHome(below: Craft, habits: Habits, returnHome: boolean): boolean {
  return returnHome && !below.modes.has("return-home") && !habits.has("return-home");
}

/** The way home on the far end of the only switch that is left; what levels has the rest of it. */
function sharedLines(holding: Switch, atRest: boolean): ScriptLine[] {
  const [rest, next] = holding.positions as [ControlPosition, ControlPosition];
  const far = holding.positions.at(-1)!;
  const calm = "Holds itself level: let go of the sticks and it stands up straight.";
  const level = atRest ? rest : next === far ? null : next;
  const home = `${HOME_NOTE}\nFor want of a further switch it shares this one: move it to the end only for that.`;
  return [
    level
      ? entry("level", whenAt(holding, level), calm)
      : placeholder("level", "when …", "No switch is left for levelling: the way home is worth more."),
    entry("return-home", whenAt(holding, far), home),
  ];
}

function levelLines(holding: Switch, atRest: boolean): ScriptLine[] {
  const [rest, next, far] = holding.positions as [ControlPosition, ControlPosition, ControlPosition?];
  const calm = "Holds itself level: let go of the sticks and it stands up straight.";
  if (!far) return [entry("level", whenAt(holding, atRest ? rest : next), calm)];
  const blend = `Levels near the middle of the sticks and flips at their ends. With ${holding.name} ${(atRest ? far : rest).name} nothing levels.`;
  return [
    entry("level", whenAt(holding, atRest ? rest : far), calm),
    entry("level-blend", whenAt(holding, next), blend),
  ];
}

/** Example lines, commented out. */
function notYet(below: Craft, returnHome: boolean): ScriptLine[] {
  const note = below.controls.size > 0 ? NO_ARM_NOTE : NO_HANDSET_NOTE;
  return [
    placeholder("arm", "when TL is down", note),
    placeholder("level", "when TR is mid"),
    ...(returnHome ? [placeholder("return-home", "when FR is near")] : []),
  ];
}

const withTwoPositions = (what: "arms" | "positions") => (one: Switch) =>
  one.positions.length === 2 && (what === "positions" || one.arms !== null);

const whenAt = ({ name }: Switch, position: ControlPosition) => `when ${name} is ${position.name}`;

/** Switches of two or three positions that no condition uses and that the link can transmit, in the handset's order. */
function freeSwitches(below: Craft, used: readonly Mode[]): Switch[] {
  return freeControls(below, used, "switch").filter(({ positions }) => positions.length <= 3);
}

/** The same of selectors; their first and last positions count as the ends. */
function freeSelectors(below: Craft, used: readonly Mode[]): Switch[] {
  return freeControls(below, used, "selector");
}

function freeControls(below: Craft, used: readonly Mode[], kind: "switch" | "selector"): Switch[] {
  const { channels, twoLevelChannels } = linkOf(below);
  const names = new Set<string>();
  for (const { condition } of used.flatMap(({ lines }) => lines)) {
    for (const node of condition ? walkCondition(condition) : []) {
      if (node.kind === "is") names.add(node.control);
      else if ("subject" in node && node.subject.kind === "control") names.add(node.subject.name);
    }
  }
  return [...below.controls.values()].flatMap(({ name, value }) => {
    if (value?.control !== kind || names.has(name)) return [];
    if (channels !== null && value.channel > channels) return [];
    if (value.positions.length > 2 && twoLevelChannels.includes(value.channel)) return [];
    return [{ name, positions: outward(value), arms: armingPosition(value) }];
  });
}

function outward({ positions, rest }: ControlValue): readonly ControlPosition[] {
  const at = Math.max(
    0,
    positions.findIndex(({ name }) => name === rest),
  );
  if (at === 0) return positions;
  if (at === positions.length - 1) return [...positions].reverse();
  return [positions[at]!, ...positions.filter((_, i) => i !== at)];
}

function armingPosition({ positions, rest }: ControlValue): ControlPosition | null {
  const high = positions.reduce((best, each) => (each.pulseUs > best.pulseUs ? each : best));
  const isEnd = high === positions[0] || high === positions.at(-1);
  return isEnd && high.name !== rest ? high : null;
}
