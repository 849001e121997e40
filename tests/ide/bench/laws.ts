/** What must hold of every bench list, whatever the craft. */
import { expect } from "vitest";
import { BENCH_WARNING } from "../../../shared/ide/bench/bench-list.ts";
import { boardOf } from "../../../shared/logic/from-craft.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import { knownPart } from "../../../shared/model/known-part.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { BENCH_RISKS, type BenchList, type BenchRisk } from "../../../shared/protocol/bench.ts";
import { catalogue } from "../compare/made-lines.ts";

/** The phases in the order that is safe, each with the most that the craft may do in it. */
export const MOST_RISK: readonly (readonly [phase: string, most: BenchRisk])[] = [
  ["unpowered", "unpowered"],
  ["first-power", "powered"],
  ["link", "may-arm"],
  ["sticks", "may-arm"],
  ["mount", "may-arm"],
  ["switches", "spins"],
  ["arming", "spins"],
  ["motors", "spins"],
  ["loss", "spins"],
  ["meters", "may-arm"],
  ["helpers", "spins"],
  ["picture", "may-arm"],
  ["outdoors", "flies"],
];

const riskOf = (risk: BenchRisk) => BENCH_RISKS.indexOf(risk);

/** The order is safe, each step is there once, and each reading has a setting. */
export function expectLawful(list: BenchList): void {
  const steps = list.phases.flatMap((phase) => phase.steps.map((step) => ({ ...step, phase: phase.name })));
  const names = list.phases.map(({ name }) => name);
  expect(names).toEqual(MOST_RISK.map(([name]) => name).filter((name) => names.includes(name)));
  for (const { phase, risk, id } of steps) {
    const most = MOST_RISK.find(([name]) => name === phase)![1];
    expect(riskOf(risk), `${id} in ${phase}`).toBeLessThanOrEqual(riskOf(most));
  }
  expect(new Set(steps.map(({ id }) => id)).size).toBe(steps.length);
  const off = steps.findIndex(({ id }) => id === "unpowered.propellers");
  const first = steps.findIndex(({ risk }) => risk !== "unpowered");
  if (first >= 0) {
    expect(off).toBe(0);
    expect(list.warning).toBe(BENCH_WARNING);
  }
  // Nothing flies before the propellers are on, and they go on where nothing but flying comes after.
  const on = steps.findIndex(({ id }) => id === "outdoors.propellers");
  const flies = steps.findIndex(({ risk }) => risk === "flies");
  if (flies >= 0) expect(on).toBeGreaterThanOrEqual(0);
  for (const [i, { risk, id }] of steps.entries())
    if (on >= 0 && i > on) expect(["unpowered", "powered", "flies"], id).toContain(risk);
    else expect(risk, id).not.toBe("flies");
  const cautions = steps.flatMap(({ caution }) => caution ?? []);
  expect(new Set(cautions).size).toBe(cautions.length);
  for (const { readings, check } of steps) {
    for (const { name } of readings) expectSetting(name);
    if (check !== null) expectSetting(check);
  }
}

function expectSetting(path: string): void {
  const [section = "", rest = ""] = path.split(".");
  const [name = "", field] = rest.split(" ");
  const spec = catalogue.setting(section, name);
  expect(spec, path).toBeDefined();
  if (field !== undefined)
    expect(spec!.types.some((type) => type.is === "fields" && type.fields.some((each) => each.name === field))).toBe(
      true,
    );
}

/** Every mode and output that can be both on and off, by what is known of it, is shown on and off by some movement. */
export function expectModesShown(list: BenchList, craft: Craft, workspace: Workspace): void {
  const board = boardOf(knownPart(craft, workspace.catalogue), workspace);
  const moves = list.phases.flatMap(({ steps }) => steps.flatMap((step) => step.moves));
  if (moves.length === 0) return;
  const seen = new Set(moves.flatMap(({ comesOn, goesOff }) => [...comesOn, ...goesOff]));
  const named = board.input.conditions.map(({ name }) => name);
  const hidden = named.filter((name) => {
    const set = board.selected(name);
    const on = set === null ? [] : board.sets.dependsOn(set);
    return on.length > 0 && on.every((each) => craft.controls.has(each)) && !seen.has(name);
  });
  expect(hidden).toEqual([]);
}
