/** A fleet that nobody flies, of any size: with cells that are empty, long, and other than on most craft. */
import { asUri } from "../../shared/protocol/addresses.ts";
import type { Fleet, FleetCell, FleetTable } from "../../shared/protocol/fleet.ts";
import { type PackedFleet, packFleet } from "../../shared/protocol/fleet-messages.ts";

const POTS = ["Tankard", "Jug", "Saucer", "Amphora", "Beaker", "Crock", "Ewer", "Flagon"];
const SAID = ["arm", "finder, lights", "level", "hold-height, return-home while armed"];

/** So many craft, and so many columns of settings. */
export function handMadeFleet(count: number, columns: number): PackedFleet {
  const craft = Array.from({ length: count }, (_, index) => ({
    file: `/shed/craft/${index}.fettle`,
    name: index < POTS.length ? POTS[index]! : `${POTS[index % POTS.length]} ${index}`,
    handset: index % 9 === 8 ? null : { name: "Wheel", file: "/shed/handsets/wheel.fettle" },
  }));
  const cell = (row: number, column: number, said: (row: number, column: number) => string): FleetCell => {
    const isOther = (row * 7 + column * 3) % 11 === 0;
    const text = isOther ? ((row + column) % 4 === 0 ? "" : `${said(row, column)} else`) : said(row, column);
    const at = text === "" ? null : { file: craft[row]!.file, line: 4 + column };
    return { text, most: isOther ? said(row, column) : null, at };
  };
  const table = (
    title: string,
    names: readonly string[],
    what: string | null,
    said: (row: number, column: number) => string,
  ): FleetTable => ({
    title,
    columns: names.map((name) => ({ name, what })),
    rows: craft.map((_, row) => ({ craft: row, cells: names.map((_, column) => cell(row, column, said)) })),
  });
  const fleet: Fleet = {
    craft,
    controls: [
      table("Controls of “Wheel”", ["TL", "TR", "FL", "PB", "KN"], "left shoulder", (_, column) => SAID[column % 4]!),
    ],
    settings: table(
      "Settings",
      Array.from({ length: columns }, (_, column) => `pack.cells-${column}`),
      null,
      (_, column) => `${column + 1} S`,
    ),
    layers: table("Layers", ["habits", "osd-wide"], null, () => "used"),
    checks: table("Checks", ["motors", "mount"], "propellers off", () => "due"),
    video: {
      table: table("Video", ["frequency", "power"], null, () => "5,800 MHz"),
      together: [0, 1],
      conflicts: [
        {
          kind: "overlap",
          message: "The channels of “Tankard” and “Jug” are 20 MHz apart, and overlap.",
          craft: [0, 1],
        },
      ],
      plan: [{ craft: 1, fromMhz: 5820, toMhz: 5880, note: "its spare frequency" }],
      noPlan: null,
    },
    missing: [{ file: "/shed/craft/broken%20one.fettle", why: "its text is no UTF-8" }],
  };
  return packFleet(fleet, (file) => asUri(`file://${file}`));
}
