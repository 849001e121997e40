/** The measure by itself: what a gesture may change is let pass, and a line beside it is told. */
import { expect, test } from "vitest";
import { changedLines, unnamedLines, type Written } from "./named-lines.ts";

const BEFORE = `craft "Jug"

osd
  grid        30 x 16
  # in the way of nothing
  pack-volts  at left+2, bottom-2
  sight       at centre, middle

osd-second
  pack-volts  at 1, 1

motors
  motor1  place front-left
  motor2  place front-right
`;

const osd = (kind: string): Written => ({ kind: "osd", page: "osd", gesture: { kind, element: "pack-volts" } });
/** What is told where these lines stand in the place of others. */
const told = (written: Written, from: string, to: string) =>
  unnamedLines(written, { before: BEFORE, after: BEFORE.replace(from, to) });

test("a line that a gesture names may change, in its section", () => {
  expect(told(osd("move"), "left+2", "left+3")).toEqual([]);
  expect(told(osd("move"), "at 1, 1", "at 2, 1")).toEqual([
    "-[osd-second]   pack-volts  at 1, 1",
    "+[osd-second]   pack-volts  at 2, 1",
  ]);
});

test("a line beside it is told, and what only looks alike as well", () => {
  expect(told(osd("move"), "  sight       at centre", "  sight       at left")).toHaveLength(2);
  expect(told(osd("move"), "  # in the way of nothing\n", "")).toEqual(["-[osd]   # in the way of nothing"]);
  expect(told(osd("move"), 'craft "Jug"', 'craft "Jar"')).toHaveLength(2);
});

test("a line that is removed takes its notes with it", () => {
  expect(told(osd("remove"), "  # in the way of nothing\n  pack-volts  at left+2, bottom-2\n", "")).toEqual([]);
  expect(told(osd("remove"), "  pack-volts  at left+2, bottom-2\n", "  drop pack-volts\n")).toEqual([]);
});

test("a motor that comes where another stands changes places with it; one that turns changes nothing else", () => {
  const place: Written = { kind: "motor", gesture: { kind: "place", motor: 1 } };
  const turn: Written = { kind: "motor", gesture: { kind: "turn", motor: 1 } };
  expect(told(place, "motor2  place front-right", "motor2  place front-left")).toEqual([]);
  expect(told(turn, "motor2  place front-right", "motor2  place front-left")).toHaveLength(2);
});

test("lines that were moved on are no change", () => {
  const { went, came } = changedLines({ before: BEFORE, after: `# above\n\n${BEFORE}` });
  expect(went).toEqual([]);
  expect(came.map(({ text }) => text)).toEqual(["# above", ""]);
});
