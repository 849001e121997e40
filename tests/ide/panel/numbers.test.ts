import { expect, test } from "vitest";
import { filtersInWords } from "../../../shared/draw/filters.ts";
import { loopInWords } from "../../../shared/draw/loop.ts";
import { packInWords } from "../../../shared/draw/pack.ts";
import { rateInWords } from "../../../shared/draw/rates.ts";
import { numbersOf } from "../../../shared/ide/panel/numbers.ts";
import { panelOf } from "../../../shared/ide/panel/panel.ts";
import type { NumbersPicture } from "../../../shared/protocol/numbers.ts";
import type { LinePlace } from "../../../shared/protocol/panel.ts";
import { askFili, askWebAudio } from "../../numbers/oracles.ts";
import { workspaceOf } from "../../rules/check.ts";

const tune = `layer "Tune"

filters
  smooth-gyro    cut 100 Hz  order 2
  smooth-d       cut 100 Hz  order 1
  motor-notches  count 2  floor 100 Hz  width 20 Hz
`;
const craft = `craft "Kiln"

use "tune.fettle"

frame
  motors          4
  hover-throttle  25 %

pack
  chemistry      lipo
  cells          4
  capacity       2600 mAh
  full-at        4.2 V/cell
  warn-at        3.5 V/cell
  land-at        3.3 V/cell
  hover-current  10 A

pack "long"
  chemistry  li-ion
  warn-at    3.1 V/cell

sensors
  gyro-rate  8 kHz
  loop-rate  4 kHz

motors
  kv          2000 rpm/V
  esc-signal  digital
  esc-rate    300 kbit/s
  esc-pause   2 us

rates
  roll            slope 200 deg/s  end 700 deg/s  bend 3
  throttle-limit  90 %

rates-second
  roll  end 300 deg/s
`;

function open(text = craft) {
  const workspace = workspaceOf({ "kiln.fettle": text, "tune.fettle": tune });
  return [workspace.craft("kiln.fettle")!, workspace] as const;
}

/** All of it in words, each with the line that says it, from 1. */
function inWords({ rates, secondRates, packs, filters, loop, missing }: NumbersPicture): string {
  const at = (place: LinePlace | null | undefined) => (place ? `${place.file}:${place.line + 1}` : "nowhere");
  return [
    ...(rates?.axes ?? []).map((axis) => `${at(axis.at)} ${rateInWords(axis)}`),
    ...(secondRates?.axes ?? []).map((axis) => `${at(axis.at)} second: ${rateInWords(axis)}`),
    ...(rates?.throttle ? [`${at(rates.throttle.at)} limit ${rates.throttle.limit}`] : []),
    ...packs.map((pack) => `${at(pack.at)} ${packInWords(pack)}`),
    ...packs.flatMap(({ section, marks }) =>
      marks.map(({ name, cellV, usual, at: line }) => {
        const band = usual ? `${usual.fromCellV} to ${usual.toCellV}` : "unknown";
        return `${at(line)} ${section} ${name} ${cellV}, usually ${band}`;
      }),
    ),
    ...(filters ? [filtersInWords(filters)] : []),
    ...(filters?.parts ?? []).map((part) => `${at(part.at)} ${part.chain} ${part.name}`),
    ...(loop ? [`${at(loop.gyroAt)} ${at(loop.at)} ${at(loop.commandAt)} ${loopInWords(loop)}`] : []),
    ...missing.map(({ why }) => why),
  ].join("\n");
}

test("the numbers that a craft sets, each with its line", () => {
  // Use no more than about 80 %: 2600 mAh gives 2080 mAh (flying-club article); at 10 A that is 748.8 s.
  // 4.20 V charge limit (cell makers' summaries), cut-offs of 3.0 V for lipo and 2.5 V for li-ion (practice). Bands: common practice, no source.
  // Delay sampled at 4 kHz of order 2 and of order 1 at 100 Hz: 2.246 and 1.588 ms (computed).
  // Motors without load: 2000 rpm/V · 14.8 V · 0.25 / 60 and 2000 · 16.8 / 60 turns a second.
  // Notches of four motors at 123.3 and 246.7 Hz: 4 · width / (2 pi f²) each, 0.837 and 0.209 ms (computed).
  // Half the end: 200·0.74 + 500·0.74³ is 350.6, 200·0.63 + 100·0.63³ is 151.
  // A command: 16 bits at 300 kbit/s and 2 us.
  expect(inWords(numbersOf(...open())!)).toBe(
    `
kiln.fettle:33 Roll: 700 deg/s at full stick, half of it at 74 % of the stick.
kiln.fettle:37 second: Roll: 300 deg/s at full stick, half of it at 63 % of the stick.
kiln.fettle:34 limit 0.9
kiln.fettle:12 pack, 4 cells, 2600 mAh. A cell may have 3.00 to 4.20 V. full-at 4.20 V/cell, 16.8 V. warn-at 3.50 V/cell, 14.0 V. land-at 3.30 V/cell, 13.2 V. 2080 mAh last 12:29 in the hover.
kiln.fettle:12 long, 4 cells, 2600 mAh. A cell may have 2.50 to 4.20 V. full-at 4.20 V/cell, 16.8 V. warn-at 3.10 V/cell, 12.4 V. land-at 3.30 V/cell, 13.2 V. 2080 mAh last 12:29 in the hover.
kiln.fettle:13 pack full-at 4.2, usually 4 to 4.2
kiln.fettle:14 pack warn-at 3.5, usually 3.1 to 3.8
kiln.fettle:15 pack land-at 3.3, usually 3 to 3.7
kiln.fettle:13 pack/long full-at 4.2, usually 4 to 4.2
kiln.fettle:20 pack/long warn-at 3.1, usually 2.6 to 3.4
kiln.fettle:15 pack/long land-at 3.3, usually 2.5 to 3.2
The gyro arrives 3.30 ms late at low frequency. The damping arrives 4.89 ms late at low frequency. smooth-gyro, order 2 at 100 Hz: 2.25 ms. motor-notches, in the hover, from 123 Hz: 1.05 ms. smooth-d, order 1 at 100 Hz: 1.59 ms. The motors turn at 123 to 560 Hz. In the hover the motor notches stand at 123, 247 Hz. At full throttle the motor notches stand at 560, 1120 Hz.
tune.fettle:4 gyro smooth-gyro
tune.fettle:6 gyro motor-notches
tune.fettle:5 damping smooth-d
kiln.fettle:23 kiln.fettle:24 kiln.fettle:29 A command of 55.3 us in a round of 250 us: 194.7 us to spare. 2 gyro samples to a round.
`.trim(),
  );
});

test("the response of a chain agrees with two libraries", () => {
  const still = craft.replace('use "tune.fettle"', "").concat("\nfilters\n  smooth-gyro  cut 100 Hz  order 2\n");
  const [gyro] = numbersOf(...open(still))!.filters!.chains;
  // fili 2.0.3 and node-web-audio-api 1.0.9; decibels are sent in hundredths.
  const expected = { kind: "low-pass", atHz: 100, rateHz: 4000, q: Math.SQRT1_2 } as const;
  const frequencies = gyro!.response.map(([hz]) => hz);
  expect(frequencies.length).toBeGreaterThan(100);
  for (const ask of [askFili, askWebAudio])
    for (const [index, { gain }] of ask(expected, frequencies).entries())
      expect(Math.abs(gyro!.response[index]![1] - 20 * Math.log10(gain))).toBeLessThan(0.02);
});

test("numbers can be sent as JSON: all are finite, even in the middle of a notch", () => {
  const picture = numbersOf(...open())!;
  expect(JSON.parse(JSON.stringify(picture))).toEqual(picture);
  const deepest = Math.min(...picture.filters!.chains[0]!.response.map(([, db]) => db));
  expect(deepest).toBeLessThan(-50);
});

test("what is missing is named, with a line that would set it", () => {
  const pack = 'craft "Kiln"\n\npack\n  cells  6\n';
  expect(inWords(numbersOf(...open(pack))!)).toBe(
    `
kiln.fettle:4 pack, 6 cells.
No rates are set: add a section “rates” with lines such as “roll slope 200 deg/s end 700 deg/s”.
No filters are set: add a section “filters” with lines such as “smooth-gyro cut 200 Hz”.
The loop's time is not known: add lines such as “loop-rate 4 kHz” in “sensors”, “esc-signal digital” in “motors” and “esc-rate 300 kbit/s” in “motors”.
Nothing is said of how the motors stand: add lines such as “motors 4” and “arm-layout true-x” to “frame”.
`.trim(),
  );
  const missing = (more: string) => numbersOf(...open(pack + more))!.missing.map(({ why }) => why);
  expect(missing("\nfilters\n  smooth-gyro  cut 200 Hz\n")[1]).toContain("as in “loop-rate 4 kHz”");
  expect(missing("\nmotors\n  esc-signal  pulse\n").at(-2)).toContain("these motors take pulses");
  const faulty =
    "\nsensors\n  loop-rate  4 kHz\n\nmotors\n  esc-signal  digital\n  esc-rate  300 kbit/s\n  esc-pause  2\n";
  expect(missing(faulty).at(-2)).toContain("a line that it needs has a fault");
});

test("numbers are computed only for their own view, and once for a craft", () => {
  const [, workspace] = open();
  const model = (view?: "goggles" | "switches" | "numbers") => panelOf(workspace, "kiln.fettle", 1, { view });
  for (const other of [model(), model("goggles"), model("switches")])
    expect(other).toMatchObject({ numbers: null, noNumbers: null });
  expect(model("numbers").numbers?.packs).toHaveLength(2);
  expect(model("numbers").numbers?.rates).toBe(model("numbers").numbers?.rates);
});

test("an empty craft has a sentence instead of numbers", () => {
  const [, workspace] = open('craft "Kiln"\n');
  const { numbers, noNumbers } = panelOf(workspace, "kiln.fettle", 1, { view: "numbers" });
  expect(numbers).toBe(null);
  expect(noNumbers).toContain("add sections such as “rates”, “pack” or “filters”");
});
