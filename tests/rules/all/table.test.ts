/**
 * Small craft, each with all that is found in it and how grave that is: the conditions, limits and
 * silences of the rules one after another. Limits with their sources stand in the rules' own tests.
 */
import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { workspaceOf } from "../check.ts";

/** “pack: cells 6; capacity 1 Ah | ports: port1 gps” as the sections of a script. */
function sections(text: string): string {
  const parts = text.split(" | ").map((part) => {
    const [, title = "", entries = ""] = /^([^:]+): ?(.*)$/.exec(part) ?? [];
    const lines = entries.split("; ").map((entry) => `  ${entry}\n`);
    return `\n${title}\n${lines.join("")}`;
  });
  return parts.join("");
}

function found(craft: string, layer?: string): string {
  const use = layer === undefined ? "" : '\nuse "base.fettle"\n';
  const files = {
    "jug.fettle": `craft "Jug"\n${use}${sections(craft)}`,
    ...(layer !== undefined && { "base.fettle": `layer "Base"\n${sections(layer)}` }),
  };
  const findings = findingsOf(workspaceOf(files), "jug.fettle");
  return findings
    .map(({ code, severity }) => `${code} ${severity}`)
    .sort()
    .join(", ");
}

const OSD = "link-quality at right-2, top+1; alerts at centre, bottom-3; flight-time at right-2, bottom-1";

test.each([
  // A pack's volts: in order, and such as its cells bear.
  ["pack: chemistry lipo; full-at 4.2 V/cell; warn-at 3.5 V/cell; land-at 3.3 V/cell", ""],
  ["pack: chemistry lipo; warn-at 3.3 V/cell; land-at 3.3 V/cell", "pack-order error"],
  ["pack: chemistry lipo; warn-at 3.5 V/cell; land-at 2.7 V/cell", "pack-chemistry error, pack-order error"],
  ["pack: chemistry li-ion; warn-at 3.1 V/cell; land-at 2.5 V/cell", ""],
  [
    "pack: chemistry li-ion; warn-at 3.1 V/cell; land-at 2.45 V/cell",
    "pack-chemistry error, pack-order error, unusual-value hint",
  ],
  ["pack: chemistry lipo; warn-at 3.3 V/cell; land-at 3 V/cell", ""],
  ["pack: chemistry lipo; warn-at 3.3 V/cell; land-at 2.9 V/cell", "pack-chemistry error, pack-order error"],
  ["pack: chemistry li-ion; warn-at 3.5 V/cell; land-at 3.1 V/cell", "pack-chemistry warning"],
  ["pack: chemistry lipo; full-at 4.35 V/cell", "pack-chemistry error"],
  ["pack: full-at 4.35 V/cell", ""],
  ["pack: warn-at 3.2; land-at 3.3 V/cell", "missing-unit error"],
  ['pack: warn-at 3.3 V/cell; land-at 3.4 V/cell | pack "A": capacity 850 mAh | pack "B": cells 4', "pack-order error"],
  ['pack "A": chemistry lipo; full-at 4.3 V/cell', "pack-chemistry error"],
  // Cells, currents, meters.
  ["pack: cells detect", ""],
  ["pack: chemistry lipo; cells detect", "cells-ambiguous warning"],
  ["pack: chemistry lipo; cells detect | board: input-limit 9 V", ""],
  ["pack: capacity 1500 mAh; discharge-rating 100 C; full-current 150 A", ""],
  ["pack: capacity 1500 mAh; discharge-rating 100 C; full-current 151 A", "current-over-rating hint"],
  ["pack: full-current 121 A | motors: esc-rating 30 A", "current-over-rating hint"],
  ["pack: chemistry lipo; cells 6; divider-top 10 kohm; divider-bottom 2 kohm", "divider-clips warning"],
  ["pack: cells 6; divider-top 10 kohm; divider-bottom 2 kohm", ""],
  ["pack: full-current 40 A; shunt 5 mohm; shunt-gain 20", "shunt-clips warning"],
  ["pack: full-current 33 A; shunt 5 mohm; shunt-gain 20", ""],
  ["pack: shunt 5 mohm; shunt-gain 20", ""],
  // Ports, and the way home.
  ["ports: port1 receiver; port1 gps", "duplicate-entry warning, port-clash error"],
  ["ports: port1 receiver; port2 receiver", ""],
  ["navigation: return-height 40 m | ports: port1 receiver", "port-missing error"],
  ["navigation: return-height 40 m", ""],
  ["navigation: fence-distance 300 m | ports: port1 receiver", "port-missing error"],
  ["navigation: fence-distance none | ports: port1 receiver", ""],
  // What flies by itself leans, and leans by the accelerometer.
  ...["return-home", "hold-place"].flatMap((mode): [string, string][] => {
    const modes = `modes: arm when ch5 above 1700 us; ${mode} when ch6 above 1700 us | ports: port1 gps | failsafe: then stop`;
    return [
      [`${modes} | sensors: accelerometer no`, "mode-needs error"],
      [`${modes} | sensors: accelerometer yes`, ""],
      [modes, ""],
    ];
  }),
  ["failsafe: then return | navigation: obstacle-height 30 m; return-height 30 m", "return-unready warning"],
  ["failsafe: then return | safety: arm-needs-fix no", "return-unready warning"],
  ["failsafe: then return | navigation: return-height 30 m", ""],
  // The loop and its filters.
  [
    "motors: esc-signal digital; esc-rate 150 kbit/s; esc-pause 30 us | sensors: loop-rate 8 kHz",
    "loop-budget warning",
  ],
  ["motors: esc-signal digital; esc-rate 150 kbit/s | sensors: loop-rate 8 kHz", ""],
  ["motors: esc-rate 150 kbit/s; esc-pause 30 us | sensors: loop-rate 8 kHz", ""],
  ["filters: smooth-gyro cut 76 Hz order 2", ""],
  ["frame: propeller-diameter 5 in | filters: smooth-gyro cut 73 Hz order 2", "filter-delay hint"],
  ["frame: propeller-diameter 5 in | filters: smooth-gyro cut 100 Hz; smooth-d cut 100 Hz", "filter-delay hint"],
  // The picture: where it is sent, and what stands in it.
  ["video: frequency 5658 MHz; region europe", "video-band warning"],
  ["video: signal digital; frequency 5.658 GHz; region europe", "video-band warning"],
  ["video: signal analogue; frequency 5732 MHz; region europe", ""],
  ["video: frequency 5658 MHz; power 2 W", ""],
  ["video: frequency 5769 MHz; power 200 mW; region europe", "video-power warning"],
  ["video: frequency 5769 MHz; power 14 dBm; region europe", ""],
  [`video: signal analogue | osd: grid pal; cell-volts at left, bottom-1; ${OSD}`, "osd-unsafe-area hint"],
  [`video: signal digital | osd: grid 53 x 20; cell-volts at left, bottom-1; ${OSD}`, ""],
  [`osd: grid pal; cell-volts at centre, middle; ${OSD}`, "osd-centre-clutter hint"],
  [`osd: grid pal; sight at centre, middle; ${OSD}`, "osd-essentials warning"],
  ["osd: grid pal; cell-volts at left+2, bottom-1; flight-time at right-2, bottom-1", "osd-essentials hint"],
  ["osd: grid pal", ""],
  ["video: viewer-grid 53 x 20 | osd: grid 50 x 18", "grid-mismatch warning"],
  ["video: signal analogue | osd: grid 50 x 18", "grid-mismatch warning"],
  ["video: signal analogue; viewer-grid 30 x 16 | osd: grid pal", ""],
  ["video: viewer-grid 53 x 20", ""],
  // Sizes and the bench.
  ["frame: propeller-diameter 5 in | motors: kv 9000 rpm/V", "unusual-value hint"],
  ["motors: kv 9000 rpm/V", ""],
  ["bench: roll 1000 us to 2000 us", "direction-unchecked hint"],
  ["bench: order-checked 2026-04-02", ""],
])("%s: %s", (craft, expected) => {
  expect(found(craft)).toBe(expected);
});

// The craft, the layer below it, and what is found in the craft.
test.each([
  ["pack: land-at 3.6 V/cell", "pack: warn-at 3.5 V/cell", "pack-order error"],
  ["pack: drop warn-at; land-at 3.6 V/cell", "pack: warn-at 3.5 V/cell", ""],
  ["ports: port1 gps", "ports: port1 receiver", ""],
  ["gains: roll d 0.7", "gains: roll p 1 i 1 d 0.6", "tune-hot warning"],
  ["gains: roll p 1.2 d 0.6", "gains: roll p 1 i 1 d 0.6", ""],
  ["gains: roll d 0.7 | bench: hover-checked 2026-05-01", "gains: roll p 1 i 1 d 0.6", ""],
  ["gains-second: roll d 0.9", "gains: roll p 1 i 1 d 0.6", ""],
  ["filters: smooth-gyro cut 0.2 kHz", "filters: smooth-gyro cut 200 Hz", ""],
  ["filters: smooth-gyro cut 300 Hz", "filters: smooth-gyro cut 200 Hz", "tune-hot warning"],
  ["filters: drop notch", "filters: notch at 200 Hz width 20 Hz", "tune-hot warning"],
  ["video: region europe", "video: frequency 5880 MHz", "video-band warning"],
  ["frame: propeller-diameter 10 in", "motors: kv 5000 rpm/V", "unusual-value hint"],
  ["frame: propeller-diameter 10 in | motors: kv 900 rpm/V", "motors: kv 5000 rpm/V", ""],
  ["osd: drop cell-volts", `osd: grid pal; cell-volts at left+2, bottom-1; ${OSD}`, "osd-essentials warning"],
])("%s, over %s: %s", (craft, layer, expected) => {
  expect(found(craft, layer)).toBe(expected);
});
