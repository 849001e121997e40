/** The bench list of a craft: what to do, in the order that is safe, and what of it is due. */
import type { Craft } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { BenchCheckState, BenchDue, BenchList, BenchPhase, BenchStep } from "../../protocol/bench.ts";
import { BENCH_CHECKS } from "../../rules/lib/bench-checks.ts";
import { changesInWords, dueOf, isStale } from "../../rules/lib/check-due.ts";
import { joinWithAnd } from "../../text/list.ts";
import { missingParts } from "../context/missing-parts.ts";
import { adjustSteps } from "./adjust-steps.ts";
import { armedAtRest } from "./armed-at-rest.ts";
import { armingSteps } from "./arming-steps.ts";
import { sentences } from "./bench-step.ts";
import { type BenchView, benchView } from "./bench-view.ts";
import { helperSteps } from "./helper-steps.ts";
import { linkSteps } from "./link-steps.ts";
import { lossSteps } from "./loss-steps.ts";
import { meterSteps } from "./meter-steps.ts";
import { motorSteps } from "./motor-steps.ts";
import { mountSteps } from "./mount-steps.ts";
import { OPEN_PLACE, outdoorSteps, PROPELLERS_ON } from "./outdoor-steps.ts";
import { pictureSteps } from "./picture-steps.ts";
import { powerSteps } from "./power-steps.ts";
import { stickSteps } from "./stick-steps.ts";
import { switchSteps } from "./switch-steps.ts";
import { ANTENNAS, PROPELLERS_OFF, unpoweredSteps } from "./unpowered-steps.ts";

export interface BenchOptions {
  /** Only what is due, with what safety asks before it; the usual is the whole list. */
  readonly only?: "due";
  /** The board gets new software on this day, whatever the script says: what rests on it is to be checked again. */
  readonly flashedOn?: string;
}

/** Said once, in bold, above everything. */
export const BENCH_WARNING =
  "Propellers OFF: take every one off first, and leave them off until this list says that they go on.";

interface Phase {
  readonly name: string;
  readonly title: string;
  readonly how: string | null;
  readonly steps: (view: BenchView) => readonly BenchStep[];
}

/** In the order that is safe: nothing that can spin before the propellers are off, nothing that flies before the last. */
const PHASES: readonly Phase[] = [
  { name: "unpowered", title: "Before any power", how: null, steps: unpoweredSteps },
  { name: "first-power", title: "First power", how: null, steps: powerSteps },
  { name: "link", title: "Link", how: null, steps: linkSteps },
  {
    name: "sticks",
    title: "Sticks",
    how: "With the board's own figures in view, or those of the goggles.",
    steps: stickSteps,
  },
  { name: "mount", title: "Mount and sensors", how: "The craft in the hand, disarmed.", steps: mountSteps },
  {
    name: "switches",
    title: "Switches and modes",
    how: "By the fewest movements that show every position, and every mode on and off.",
    steps: (view) => [...switchSteps(view), ...adjustSteps(view)],
  },
  {
    name: "arming",
    title: "Arming",
    how: "Each try that must be refused differs from the one that arms in one thing.",
    steps: armingSteps,
  },
  {
    name: "motors",
    title: "Motors",
    how: "By the board's own motor test, one at a time, the craft tied down.",
    steps: motorSteps,
  },
  { name: "loss", title: "Handset off", how: "Times count from the last packet.", steps: lossSteps },
  { name: "meters", title: "Meters", how: null, steps: meterSteps },
  { name: "helpers", title: "Finder, lights, recorder, camera", how: null, steps: helperSteps },
  { name: "picture", title: "Picture", how: null, steps: pictureSteps },
  { name: "outdoors", title: "Outdoors", how: null, steps: outdoorSteps },
];

/** Phases that take the craft for disarmed, with its propellers off. */
const DISARMED: ReadonlySet<string> = new Set(["sticks", "mount", "meters", "helpers", "picture"]);

/** The list of a craft; a phase in which it has nothing to do is left out. */
export function benchList(craft: Craft, workspace: Workspace, { only, flashedOn }: BenchOptions = {}): BenchList {
  const view = benchView(craft, workspace);
  for (const { message } of missingParts(craft)) view.unknown(message);
  const states = statesOf(craft, workspace, flashedOn);
  const atRest = armedAtRest(view);
  const whole = PHASES.map(({ name, title, how, steps }): BenchPhase => {
    const isArmed = atRest !== null && DISARMED.has(name);
    return {
      name,
      title,
      how: isArmed ? sentences(how, "Never with every control at rest, where this craft is armed, or may be.") : how,
      steps: steps(view).map((step) => ({
        ...step,
        risk: isArmed && step.risk === "powered" ? "may-arm" : step.risk,
        due: dueOfStep(step, states),
      })),
    };
  }).filter(({ steps }) => steps.length > 0);
  // A craft on which no check was ever made has all of it before it.
  const isNew = [...states.values()].every(({ at }) => at === null);
  const phases = withCautionsOnce(only === "due" && !isNew ? duePhases(whole) : whole);
  const used = new Set(whole.flatMap(({ steps }) => steps.map(({ check }) => check)));
  return {
    craft: craft.name,
    file: craft.file,
    warning: BENCH_WARNING,
    phases,
    checks: [...states.values()].filter(({ name, at }) => used.has(name) || at !== null),
    unknown: view.unknowns,
  };
}

/** A caution that was told is not told again: who reads the same words at each step reads none of them. */
export function withCautionsOnce(phases: readonly BenchPhase[]): BenchPhase[] {
  const told = new Set<string>();
  const once = (step: BenchStep): BenchStep => {
    if (step.caution === null) return step;
    if (told.has(step.caution)) return { ...step, caution: null };
    told.add(step.caution);
    return step;
  };
  return phases.map((phase) => ({ ...phase, steps: phase.steps.map(once) }));
}

/** Readings by which a check is known to hold: without them its day alone says little. */
const NEEDED: ReadonlySet<string> = new Set(
  ["roll", "pitch", "throttle", "yaw", "pack-volts-read", "pack-volts-shown", "charge-counted", "charge-put-back"].map(
    (name) => `bench.${name}`,
  ),
);

/** A step is due if its check is, or if a line for what is read in it is missing. */
function dueOfStep({ check, due, readings }: BenchStep, states: ReadonlyMap<string, BenchCheckState>): BenchDue {
  const state = states.get(check ?? "")?.due ?? due;
  const missing = readings.flatMap(({ name, text }) => (text === null && NEEDED.has(name) ? [name] : []));
  if (state.state !== "done" || missing.length === 0) return state;
  return { state: "due", why: `Done on ${state.day}, but no line says what was read: ${joinWithAnd(missing)}.` };
}

function statesOf(
  craft: Craft,
  workspace: Workspace,
  flashedOn: string | undefined,
): ReadonlyMap<string, BenchCheckState> {
  return new Map(
    BENCH_CHECKS.map((check): [string, BenchCheckState] => {
      const { name, title } = check;
      const setting = settingOf(craft, name);
      const at = setting ? { file: setting.source.file, line: setting.source.line } : null;
      return [name, { name, title, due: stateOf(craft, workspace, check, flashedOn), at }];
    }),
  );
}

function stateOf(
  craft: Craft,
  workspace: Workspace,
  check: (typeof BENCH_CHECKS)[number],
  flashedOn: string | undefined,
): BenchDue {
  const made = dueOf(craft, workspace, check);
  if (!made) {
    const why = settingOf(craft, check.name)
      ? `The line of its day has a fault (${check.name}).`
      : `No line says that it was ever done (${check.name}).`;
    return { state: "due", why };
  }
  const { day, changes } = made;
  const isWiped = flashedOn !== undefined && check.restsOnSoftware && day < flashedOn;
  if (!isStale(made) && !isWiped) return { state: "done", day };
  const flashed = isWiped ? flashedOn : made.flashed?.text;
  const parts = [
    ...(flashed === undefined ? [] : [`the board was flashed on ${flashed}`]),
    ...(changes.length > 0 ? [`what it covers has changed: ${changesInWords(changes)}`] : []),
  ];
  return { state: "due", why: `Done on ${day}; since then ${parts.join(", and ")}.` };
}

/** What comes before anything that is due, and what comes before anything that flies. */
const ALWAYS: ReadonlySet<string> = new Set([PROPELLERS_OFF, ANTENNAS]);
const BEFORE_FLIGHT: ReadonlySet<string> = new Set([OPEN_PLACE, PROPELLERS_ON]);

function duePhases(phases: readonly BenchPhase[]): BenchPhase[] {
  const due = phases.flatMap(({ steps }) => steps).filter((step) => step.due.state === "due");
  if (due.length === 0) return [];
  const flies = due.some(({ risk }) => risk === "flies");
  const stays = (step: BenchStep) =>
    step.due.state === "due" || ALWAYS.has(step.id) || (flies && BEFORE_FLIGHT.has(step.id));
  return phases
    .map((phase) => ({ ...phase, steps: phase.steps.filter(stays) }))
    .filter(({ steps }) => steps.length > 0);
}
