import { expect, test } from "vitest";
import { loopPictureOf, packPicturesOf } from "../../../shared/ide/panel/pack-and-loop.ts";
import { panelOf } from "../../../shared/ide/panel/panel.ts";
import { workspaceOf } from "../../rules/check.ts";
import { atCursor } from "../cursor.ts";

const craft = `craft "Kiln"

pack
  chemistry     lipo
  cells         6
  capacity      1100 mAh
  warn-at       3.5 V/cell
  hover-current 6.6 A

pack "long"
  chemistry  li-ion
  capacity   3000 mAh
  land-at    2.9 V/cell

sensors
  gyro-rate  8 kHz
  loop-rate  4 kHz

motors
  esc-signal  digital
  esc-rate    300 kbit/s
  esc-pause   2 us
`;

function open(text: string) {
  const workspace = workspaceOf({ "kiln.fettle": text });
  return [workspace.craft("kiln.fettle")!, workspace] as const;
}

test("each pack has the thresholds that are said, with their lines; a named one lies over the plain one", () => {
  const [plain, long] = packPicturesOf(...open(craft));
  expect(plain).toMatchObject({
    section: "pack",
    cells: 6,
    bears: { fromCellV: 3, toCellV: 4.2 },
    capacityMah: 1100,
  });
  expect(plain!.marks.map(({ name, cellV, at }) => [name, cellV, at!.line])).toEqual([["warn-at", 3.5, 6]]);
  // Four fifths of 1100 mAh at 6.6 A: 880 mAh · 3.6 / 6.6 A = 480 s.
  expect(plain!.usableMah).toBeCloseTo(880);
  expect(plain!.hoverS).toBeCloseTo(480);
  expect(long).toMatchObject({ section: "pack/long", cells: 6, capacityMah: 3000 });
  expect(long!.marks.map(({ name, cellV, at }) => [name, cellV, at!.line])).toEqual([
    ["warn-at", 3.5, 6],
    ["land-at", 2.9, 12],
  ]);
});

test("the command to the motors in a round of the loop", () => {
  const loop = loopPictureOf(...open(craft))!;
  // 16 bits at 300 kbit/s and 2 us of silence; a round at 4 kHz.
  expect(loop.frameUs).toBeCloseTo(16_000 / 300 + 2);
  expect(loop.roundUs).toBe(250);
  expect(loop.gyroRatio).toBe(2);
  expect(loop.at!.line).toBe(16);
  expect(loop.answerUs).toBeNull();
  // The controller answers on the same wire: 25 us to turn it round, and 20 bits.
  const answered = loopPictureOf(...open(craft.replace("esc-signal", "rpm-feedback  yes\n  esc-signal")))!;
  expect(answered.answerUs).toBeCloseTo(25 + 20_000 / 300);
});

test("a craft that says neither has neither", () => {
  const opened = open('craft "Kiln"\n\nmotors\n  esc-signal  pulse\n');
  expect(packPicturesOf(...opened)).toEqual([]);
  expect(loopPictureOf(...opened)).toBe(null);
});

test("a pack has the severity of the worst finding on its own lines", () => {
  const craft = `craft "Jug"

pack
  chemistry  lipo
  cells      6
  warn-at    3.5 V/cell

pack "good"
  capacity  1100 mAh

pack "bad"
  warn-at  3.2 V/cell
  land-at  3.4 V/cell

pack "odd"
  capacity  9000 Ah
`;
  const { workspace, file } = atCursor(craft);
  const { numbers, findings } = panelOf(workspace, file, 1, { view: "numbers" });
  expect(findings.map(({ code }) => code)).toContain("pack-order");
  expect(numbers?.packs.map(({ section, worst }) => [section, worst])).toEqual([
    ["pack", null],
    ["pack/good", null],
    ["pack/bad", "error"],
    ["pack/odd", "error"],
  ]);
});
