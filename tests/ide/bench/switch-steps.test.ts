import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { postureOf } from "../../../shared/ide/bench/arming-posture.ts";
import { benchView } from "../../../shared/ide/bench/bench-view.ts";
import { controlWords } from "../../../shared/ide/bench/control-words.ts";
import { switchSteps } from "../../../shared/ide/bench/switch-steps.ts";
import { boardOf } from "../../../shared/logic/from-craft.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { knotted } from "../../logic/shortest-tour.ts";
import { workspaceOf } from "../../rules/check.ts";
import { triedCraft } from "./craft-of-tests.ts";

/** Goes through the steps with the switchboard beside: what they say is what it says, and nothing is left out. */
function follow(craft: Craft, workspace: Workspace): void {
  const view = benchView(craft, workspace);
  const board = boardOf(view.craft, workspace);
  const steps = switchSteps(view);
  expect(new Set(steps.map(({ id }) => id)).size).toBe(steps.length);
  const at: Record<string, string | number> = { ...board.rest };
  const taken = new Set(Object.entries(at).map((place) => place.join()));
  const seenOn = new Set<string>();
  const seenOff = new Set<string>();
  for (const { id, moves, expect: seen, risk } of steps) {
    // What is asked for at once must be one hand's work, and leave nothing to be looked at in between.
    if (moves.length > 1) {
      expect(new Set(moves.map(({ control }) => control)).size, id).toBe(1);
      expect(moves.every(({ comesOn, goesOff }) => comesOn.length + goesOff.length === 0) && seen, id).toBe(
        "Nothing changes.",
      );
    }
    for (const move of moves) {
      expect(at[move.control], id).not.toBe(move.to);
      at[move.control] = move.to;
      taken.add(`${move.control},${move.to}`);
      const { on, possible } = board.stateAt(at);
      // What hangs on dials that were not turned yet is known to the tour, which says where they stand.
      for (const name of on) expect(move.on, id).toContain(name);
      for (const name of move.on) expect([...on, ...possible], id).toContain(name);
      for (const name of on) seenOn.add(name);
      for (const name of board.names) if (!on.includes(name) && !possible.includes(name)) seenOff.add(name);
      if (risk === "powered") expect(board.sets.within(board.sets.where(at), board.armed), id).not.toBe(true);
    }
  }
  const start = board.stateAt(board.rest);
  for (const { control, positions } of steps.length === 0 ? [] : board.map().controls)
    for (const { name } of positions) expect(taken, `${control.name} ${name}`).toContain(`${control.name},${name}`);
  const hangsOnDial = (set: NonNullable<ReturnType<typeof board.selected>>) =>
    board.sets
      .dependsOn(set)
      .some((name) => board.variables.find((each) => each.name === name)?.control?.positions.length === 0);
  for (const name of steps.length === 0 ? [] : board.names) {
    const set = board.selected(name);
    if (set === null || hangsOnDial(set) || (board.input.twoLevelChannels ?? []).length > 0) continue;
    if (board.sets.dependsOn(set).some((each) => /^ch\d+$/.test(each))) continue;
    expect(seenOn.has(name) || start.on.includes(name), `${name} on`).toBe(set !== board.sets.none);
    expect(seenOff.has(name) || !start.on.includes(name), `${name} off`).toBe(set !== board.sets.every);
  }
}

describe("every craft of the tests", () => {
  test.each(triedCraft().map((each) => [each.name, each] as const))("%s", (_, { craft, workspace }) => {
    follow(craft, workspace);
  });
});

const NAMES = ["arm", "arm-permit", "turtle", "level", "finder", "recorder", "lights"];

function madeCraft(text: string): { readonly craft: Craft; readonly workspace: Workspace } {
  const lines = text.split("\n");
  const controls = lines.filter((line) => !/^m\d/.test(line));
  const modes = lines.filter((line) => /^m\d/.test(line)).map((line) => line.replace(/^m(\d)/, (_, i) => NAMES[i]!));
  const workspace = workspaceOf({
    "desk.fettle": `handset "Desk"\ncontrols\n${controls.map((line) => `  ${line}\n`).join("")}`,
    "jug.fettle": `craft "Jug"\nuse "desk.fettle"\nmodes\n${modes.map((line) => `  ${line}\n`).join("")}`,
  });
  return { craft: workspace.craft("jug.fettle")!, workspace };
}

test("property: the steps of made craft say what the switchboard says, and leave nothing out", () => {
  fc.assert(
    fc.property(knotted, (text) => {
      const { craft, workspace } = madeCraft(text);
      follow(craft, workspace);
    }),
    { seed: 13, numRuns: 150 },
  );
});

test("property: what arms does, what is left out keeps it disarmed, and both differ in one control", () => {
  const seen = { postures: 0, leftOut: 0, permits: 0, back: 0, turned: 0 };
  fc.assert(
    fc.property(knotted, (text) => {
      const { craft, workspace } = madeCraft(text);
      const view = benchView(craft, workspace);
      const found = postureOf(view, controlWords(view));
      const board = boardOf(craft, workspace);
      if (found.kind !== "posture") {
        expect(found.kind === "never").toBe(board.armed === board.sets.none);
        return;
      }
      const { base, moves, leftOut, back, turtle } = found.posture;
      const isArmed = (at: Record<string, string | number>) => board.sets.within(board.sets.where(at), board.armed);
      const after = (from: Readonly<Record<string, string | number>>, list: typeof moves) => ({
        ...from,
        ...Object.fromEntries(list.map(({ name, to }) => [name, to])),
      });
      const armed = after(base, moves);
      expect(isArmed(armed)).toBe(true);
      if (moves.length === 0) return;
      seen.postures++;
      expect(isArmed({ ...base })).toBe(false);
      const isTurned = board.sets.meet(board.sets.where(armed), board.selected("turtle"));
      expect(isTurned).toBe(turtle === "always");
      if (turtle === "always") seen.turned++;
      for (const left of leftOut) {
        seen.leftOut++;
        const at: Record<string, string | number> = { ...after(base, left.moves), [left.name]: left.at };
        expect(isArmed(at)).toBe(false);
        expect(Object.keys(armed).filter((name) => armed[name as never] !== at[name])).toEqual([left.name]);
        if (left.armIsOn) seen.permits++;
        expect(left.armIsOn).toBe(board.stateAt(at).on.includes("arm"));
      }
      if (back !== null) {
        seen.back++;
        expect(isArmed(after(armed, back))).toBe(false);
      }
    }),
    { seed: 13, numRuns: 600 },
  );
  expect(seen.postures).toBeGreaterThan(100);
  expect(seen.leftOut).toBeGreaterThan(100);
  expect(seen.permits).toBeGreaterThan(20);
  expect(seen.back).toBe(seen.postures);
  expect(seen.turned).toBeGreaterThan(3);
});
