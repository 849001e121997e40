/** tune-hot: what sends more vibration into the motors than the file below it did. */
import { expect, test } from "vitest";
import { checkOnly } from "../check.ts";

const check = (marked: string, layers: Readonly<Record<string, string>> = {}) => checkOnly("tune-hot", marked, layers);

const TUNE = `layer "Tune"
gains
  roll p 0.9 i 1 d 0.6 feed 1
  pitch p 1 i 1 d 0.7
  yaw p 1 d 0
filters
  smooth-gyro cut 250 Hz order 2
  smooth-gyro cut 400 Hz
  smooth-d cut 120 Hz
  motor-notches count 3 floor 100 Hz width 30 Hz
  notch at 180 Hz width 20 Hz
`;
const over = (...lines: string[]) =>
  check(['craft "Jug"', 'use "tune.fettle"', ...lines].join("\n"), { "tune.fettle": TUNE });

test("more d gain on an axis, at the field; less, or the same, or another gain is nothing", () => {
  const [roll] = over(
    "gains",
    "  roll p 1.1 d 0.65",
    "             ^^^^^^ tune-hot",
    "  pitch d 0.7",
    "  yaw p 1.3 feed 2",
  );
  expect(roll).toMatchObject({ severity: "warning" });
  expect(roll!.message).toContain("roll d is 0.65, up from 0.6");
  expect(roll!.message).toContain("Hover for 30 s");
  expect(roll!.related).toMatchObject([
    { file: "tune.fettle", range: { start: { line: 2, character: 17 }, end: { line: 2, character: 22 } } },
  ]);
  expect(roll!.fixes).toMatchObject([
    {
      title: "Go back to 0.6",
      edits: [{ text: "0.6", range: { start: { line: 3, character: 15 }, end: { line: 3, character: 19 } } }],
    },
  ]);
  over("gains", "  roll d 0.5", "  pitch d 0.7 p 3");
});

test("a craft's own two lines are one file; what counts is what stands in it last", () => {
  over("gains", "  roll d 0.9", "  roll d 0.6");
  over("gains", "  roll d 0.5", "  roll d 0.9", "       ^^^^^ tune-hot");
});

test("without a layer below there is nothing to be hotter than", () => {
  check(`
    craft "Jug"
    gains
      roll d 3
    filters
      smooth-d cut 900 Hz
  `);
});

test("a cut that is lifted, an order that is lowered, a filter that is left out", () => {
  over("filters", "  smooth-d cut 121 Hz", "           ^^^^^^^^^^ tune-hot");
  over("filters", "  smooth-d cut 0.121 kHz", "           ^^^^^^^^^^^^^ tune-hot");
  over("filters", "  smooth-d cut 119 Hz");
  over("filters", "  smooth-d cut 120 Hz order 1");
  over("filters", "  smooth-gyro cut 250 Hz", "  smooth-gyro cut 400 Hz", "              ^^^^^^^^^^ tune-hot");
  const [one] = over("filters", "  smooth-gyro cut 250 Hz order 2", "              ^^^^^^^^^^^^^^^^^^ tune-hot");
  expect(one!.message).toContain("(cut 250 Hz order 2, instead of cut 250 Hz order 2; cut 400 Hz)");
  // Two in another order are the same two, and one more takes out more.
  over("filters", "  smooth-gyro cut 400 Hz", "  smooth-gyro cut 250 Hz order 2");
  over("filters", "  smooth-d cut 120 Hz", "  smooth-d cut 300 Hz");
});

test("notches that are fewer, narrower or begin higher", () => {
  over("filters", "  motor-notches count 2", "                ^^^^^^^ tune-hot");
  over("filters", "  motor-notches width 40 Hz floor 120 Hz", "                            ^^^^^^^^^^^^ tune-hot");
  over("filters", "  motor-notches count 4 floor 80 Hz");
  over("filters", "  notch at 180 Hz width 10 Hz", "        ^^^^^^^^^^^^^^^^^^^^^ tune-hot");
  over("filters", "  notch at 200 Hz width 20 Hz");
});

test("a filter that is dropped and not said again; one that takes its place is no loss", () => {
  const [found] = over("filters", "  drop notch smooth-d", "             ^^^^^^^^ tune-hot", "       ^^^^^ tune-hot");
  expect(found!.message).toContain("notch (at 180 Hz width 20 Hz) is taken away");
  over("filters", "  drop smooth-d", "  moving-cut-d idle 80 Hz full 150 Hz");
  over("filters", "  drop smooth-d", "  smooth-d cut 150 Hz", "           ^^^^^^^^^^ tune-hot");
  over("gains", "  drop roll", "  roll d 0.7", "       ^^^^^ tune-hot");
  over("gains", "  drop roll", "  roll p 0.7");
});

test("a factor over all gains", () => {
  const base = { "base.fettle": 'layer "Base"\ngains\n  overall 1\n  d-fast roll 0.8\n' };
  const text = (line: string) => `craft "Jug"\nuse "base.fettle"\ngains\n  ${line}`;
  check(text("overall 1.05\n          ^^^^ tune-hot"), base);
  check(text("overall 0.95"), base);
  check(text("d-fast pitch 2 roll 0.9\n                 ^^^^^^^^ tune-hot"), base);
});

test("a layer's own line is not put back from a craft", () => {
  const layers = {
    "low.fettle": 'layer "Low"\ngains\n  roll p 1 d 0.4\n',
    "mid.fettle": 'layer "Mid"\ngains\n  roll d 0.6\n',
  };
  const text = 'craft "Jug"\nuse "low.fettle"\nuse "mid.fettle"\n    ^^^^^^^^^^^^ tune-hot';
  expect(check(text, layers)[0]!.fixes).toEqual([]);
});

test("one layer over another is reported on the use line of the upper", () => {
  const layers = {
    "low.fettle": 'layer "Low"\ngains\n  roll p 1 d 0.4\n',
    "mid.fettle": 'layer "Mid"\ngains\n  roll d 0.6\n',
    "top.fettle": 'layer "Top"\ngains\n  roll p 1.2\n',
  };
  check(
    `
    craft "Jug"
    use "low.fettle"
    use "mid.fettle"
        ^^^^^^^^^^^^ tune-hot
    use "top.fettle"
  `,
    layers,
  );
  check(
    `
    craft "Jug"
    use "low.fettle"
    use "mid.fettle"
    gains
      roll d 0.5
  `,
    layers,
  );
});

test("a hover that was felt afterwards settles it, and so does a reason", () => {
  over("gains", "  roll d 0.9", "bench", "  hover-checked 2026-05-03");
  over("gains", "  # allow tune-hot: flown all winter", "  roll d 0.9");
});

test("what has a fault is compared with nothing", () => {
  over("gains", "  roll d lots", "         ^^^^ wrong-type");
  over("filters", "  smooth-d cut 300", "               ^^^ missing-unit");
});
