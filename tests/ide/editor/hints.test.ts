/** Figures beside the lines: which lines have one, and what it says. */
import { expect, test } from "vitest";
import { hintsOf } from "../../../shared/ide/editor/hints.ts";
import { atCursor } from "../cursor.ts";

const all = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };

function hinted(text: string, more: Record<string, string> = {}): string[] {
  const { workspace, file } = atCursor(text, more);
  const lines = workspace.script(file)!.tree.lines;
  return hintsOf(workspace, file, all).map(
    ({ at, label }) => `${lines[at.line]!.text.slice(0, at.character).trim()} [${label}]`,
  );
}

const craft = `craft "Jug"

pack
  chemistry lipo
  cells 6
  capacity 1100 mAh
  full-at 4.2 V/cell # as charged
  reserve 20 %
  hover-current 12 A
  divider-top 10 kohm
  divider-bottom 1 kohm

link
  packet-rate 250 Hz

motors
  kv 1750 rpm/V
  esc-signal digital
  esc-rate 300 kbit/s

sensors
  loop-rate 4 kHz

filters
  smooth-gyro cut 100 Hz
  smooth-gyro cut 180 Hz

rates
  roll slope 100 deg/s end 700 deg/s

video
  power 25 mW

osd
  grid 53 x 20
  amps at right, bottom
  clock at 3, 4
`;

test("the most useful figures, behind the value, at most one a line", () => {
  const hints = hinted(craft);
  expect(hints).toEqual([
    "capacity 1100 mAh [→ 880 mAh usable]",
    "full-at 4.2 V/cell [= 25.2 V]",
    "reserve 20 % [= 220 mAh]",
    "hover-current 12 A [→ 4 min 24 s]",
    "divider-top 10 kohm [→ reads to 36.3 V]",
    "packet-rate 250 Hz [→ 4 ms]",
    "kv 1750 rpm/V [→ 44100 rpm unloaded]",
    "esc-rate 300 kbit/s [→ 22 % of a round]",
    "loop-rate 4 kHz [→ 250 us]",
    "smooth-gyro cut 100 Hz [→ 1.6 ms]",
    "smooth-gyro cut 180 Hz [→ 0.88 ms]",
    "roll slope 100 deg/s end 700 deg/s [→ 125 deg/s at half stick]",
    "power 25 mW [= 14 dBm]",
    "amps at right, bottom [= 47, 19]",
  ]);
  const { workspace, file } = atCursor(craft);
  const lines = hintsOf(workspace, file, all).map(({ at }) => at.line);
  expect(new Set(lines).size).toBe(lines.length);
});

test("only the lines that are asked for, and only those that count", () => {
  const { workspace, file } = atCursor(craft);
  const asked = { start: { line: 6, character: 0 }, end: { line: 6, character: 4 } };
  expect(hintsOf(workspace, file, asked).map(({ label }) => label)).toEqual(["= 25.2 V"]);
  expect(hinted('craft "Jug"\n\npack\n  cells 4\n  warn-at 3.4 V/cell\n  warn-at 3.5 V/cell\n')).toEqual([
    "warn-at 3.5 V/cell [= 14 V]",
  ]);
  const layer = 'layer "Habits"\n\npack\n  warn-at 3.5 V/cell\n  land-at 3.3 V/cell\n';
  const mug = 'craft "Mug"\nuse "jug.fettle"\n\npack\n  cells 4\n  land-at 3.4 V/cell\n';
  expect(hinted(layer, { "mug.fettle": mug })).toEqual(["warn-at 3.5 V/cell [= 14 V]"]);
});

test("readings of the bench: how far off, and where nothing is left to correct", () => {
  const bench = (shown: string, counted: string) =>
    hinted(`craft "Jug"

pack
  divider-top 10 kohm
  divider-bottom 1 kohm
  shunt 4 mohm
  shunt-gain 20

bench
  pack-volts-read 16.4 V
  pack-volts-shown ${shown}
  charge-put-back 1000 mAh
  charge-counted ${counted}
`).filter((hint) => /^pack-volts|^charge/.test(hint));
  expect(bench("16.2 V", "1120 mAh")).toEqual([
    "pack-volts-shown 16.2 V [→ 1.2 % too low]",
    "charge-counted 1120 mAh [→ 12 % too high]",
  ]);
  // What has a finding on its line needs no hint beside it.
  expect(bench("15.8 V", "1250 mAh")).toEqual([]);
  expect(bench("16.4 V", "1000 mAh")).toEqual([
    "pack-volts-shown 16.4 V [→ right: nothing to correct]",
    "charge-counted 1000 mAh [→ right: nothing to correct]",
  ]);
});

test("the tooltip says the whole sentence, and the default it rests on", () => {
  const { workspace, file } = atCursor(craft);
  const tips = hintsOf(workspace, file, all).map(({ tooltip }) => tooltip);
  expect(tips).toContain(
    "The volts are read up to 36.3 V, in steps of 8.86 mV (with adc-reference 3.3 V and adc-bits 12, as the catalogue supposes)",
  );
});

test("positions have their pulses beside them, cell volts the pack's volts, anchored places their cells", () => {
  const text =
    'craft "Jug"\nuse "wheel.fettle"\n\npack\n  cells 6\n  warn-at 3.5 V/cell\nmodes\n  level when TR is mid and not TL is up\nosd\n  grid 53 x 20\n  amps at right, bottom\n  clock at 3, 4\n';
  expect(hinted(text)).toEqual([
    "warn-at 3.5 V/cell [= 21 V]",
    "level when TR is mid and not TL is up [= 1500, 1000 us]",
    "amps at right, bottom [= 47, 19]",
  ]);
});
