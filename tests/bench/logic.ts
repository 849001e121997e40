/** How long the logic of switches takes, beside plain enumeration where that ends at all. */
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { makeSwitchboard } from "../../shared/logic/switchboard.ts";
import type { ConditionSpec, SwitchInput } from "../../shared/logic/switchboard-types.ts";
import { countEveryState, everyState, modeHolds } from "../logic/enumerate.ts";
import { readInput } from "../logic/read-board.ts";
import { USUAL_CONTROLS, USUAL_MODES } from "./scripts.ts";

/** Plain enumeration is not begun above so many states. */
const MOST_STATES = 2_000_000;
const CLASHES: readonly (readonly [string, string])[] = [
  ["video-low", "video-high"],
  ["lights", "lights-off"],
];

export const usual = (): SwitchInput => readInput(USUAL_CONTROLS + USUAL_MODES);

/** Selectors of six positions; modes over one to three of them that lie near each other, some naming earlier ones. */
export function large(seed: number): SwitchInput {
  const random = mulberry32(seed);
  const pick = (count: number): number => Math.floor(random() * count);
  const positions = ["one", "two", "three", "four", "five", "six"];
  const lines: string[] = [];
  for (let i = 0; i < 28; i++) {
    lines.push(`S${i} selector ch${5 + i} ${positions.map((name, p) => `${name} ${1000 + 200 * p} us`).join(" ")}`);
  }
  for (let m = 0; m < 60; m++) {
    const first = pick(28);
    const parts = Array.from({ length: 1 + pick(3) }, () => {
      const at = Math.min(27, first + pick(3));
      return `S${at} is ${pick(4) === 0 ? "not " : ""}${positions[pick(6)]}`;
    });
    if (m > 0 && pick(5) === 0) parts.push(`${pick(2) === 0 ? "not " : ""}m${Math.max(0, m - 1 - pick(3))}`);
    lines.push(`m${m} when ${parts.join(pick(3) === 0 ? " or " : " and ")}`);
  }
  return readInput(lines.join("\n"));
}

/** Small generator of even numbers from 0 to 1 (Tommy Ettinger's Mulberry32; from memory). */
function mulberry32(seed: number): () => number {
  let a = seed;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Everything that rules, the map and the panel ask of a craft. */
function askAll(input: SwitchInput, pairs: readonly (readonly [string, string])[]): number | null {
  const board = makeSwitchboard(input);
  for (const name of board.names) {
    const set = board.selected(name)!;
    board.witness(set);
    board.acts(name);
    board.sets.dependsOn(set);
    board.sets.meet(set, board.atRest);
  }
  board.clashes(pairs);
  board.map();
  board.idlePositions();
  board.margins(20);
  board.loss();
  board.stateAt(board.rest);
  if (board.armed !== null) {
    board.waysTo(board.armed);
    board.movesTo(board.armed, board.rest);
  }
  return board.countStates();
}

/** The middle of the times and the shortest: on a machine that others use too, the latter is the work itself. */
function timesMs(times: number, work: () => void): { readonly median: number; readonly least: number } {
  const taken = Array.from({ length: times }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  });
  taken.sort((a, b) => a - b);
  return { median: taken[times >> 1]!, least: taken[0]! };
}

function plainMs(input: SwitchInput): string {
  const states = countEveryState(input);
  if (states > MOST_STATES) return `plain enumeration: not begun, ${states.toExponential(2)} states`;
  const names = input.conditions.map(({ name }: ConditionSpec) => name);
  const distinct = new Set<string>();
  const start = performance.now();
  for (const state of everyState(input)) distinct.add(names.filter((name) => modeHolds(input, name, state)).join());
  return `plain enumeration: ${(performance.now() - start).toFixed(0)} ms for ${states} states, ${distinct.size} distinct`;
}

/** Bytes of the heap that are still in use. */
function liveBytes(): number {
  setFlagsFromString("--expose-gc");
  (runInNewContext("gc") as () => void)();
  return process.memoryUsage().heapUsed;
}

/** Times in ms of asking everything, the distinct states found, and how memory grows. */
export async function run(): Promise<string> {
  const report: string[] = [];
  const measure = (title: string, input: SwitchInput, pairs: readonly (readonly [string, string])[]): void => {
    for (let i = 0; i < 300; i++) askAll(input, pairs);
    let states: number | null = 0;
    const { median, least } = timesMs(51, () => {
      states = askAll(input, pairs);
    });
    report.push(
      `${title}: median ${median.toFixed(2)} ms, least ${least.toFixed(2)} ms, ${states} distinct states; ${plainMs(input)}`,
    );
  };
  const craft = usual();
  const stepped = { ...craft, controls: craft.controls.filter(({ kind }) => kind !== "dial") };
  const noDial = {
    ...stepped,
    conditions: craft.conditions.filter(({ name }) => !/^(video|rates|arm-permit)/.test(name)),
  };
  measure("usual craft, 8 controls, 14 modes", craft, CLASHES);
  measure("the same without its dial and channel", noDial, [["lights", "lights-off"]]);
  const pairs = Array.from({ length: 59 }, (_, i) => [`m${i}`, `m${i + 1}`] as const);
  for (const seed of [1, 2, 3]) measure(`28 selectors of six, 60 modes (made ${seed})`, large(seed), pairs);
  const before = liveBytes();
  for (let i = 0; i < 500; i++) askAll(craft, CLASHES);
  report.push(`heap after 500 more usual craft: ${((liveBytes() - before) / 1e6).toFixed(1)} MB more`);
  return report.join("\n");
}
