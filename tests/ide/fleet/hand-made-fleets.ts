/** Fleets written by hand, for what shows them. */
import type { Fleet, FleetCell, FleetTable, FleetVideo } from "../../../shared/protocol/fleet.ts";

export const cell = (text: string, most: string | null = null): FleetCell => ({ text, most, at: null });

/** A table of columns `c1`, `c2` …, a row for each list of texts. */
export function tableOf(title: string, rows: readonly (readonly FleetCell[])[]): FleetTable {
  return {
    title,
    columns: (rows[0] ?? []).map((_, at) => ({ name: `c${at + 1}`, what: null })),
    rows: rows.map((cells, craft) => ({ craft, cells })),
  };
}

const EMPTY: FleetTable = { title: "Nothing", columns: [], rows: [] };
const NO_VIDEO: FleetVideo = { table: EMPTY, together: [], conflicts: [], plan: null, noPlan: null };

/** Craft of these names, with nothing known of them but what is said besides. */
export function fleetOfNames(names: readonly string[], more: Partial<Fleet> = {}): Fleet {
  const craft = names.map((name, index) => ({ file: `craft/${index + 1}.fettle`, name, handset: null }));
  return { craft, controls: [], settings: EMPTY, layers: EMPTY, checks: EMPTY, video: NO_VIDEO, missing: [], ...more };
}

export function video(more: Partial<FleetVideo>): FleetVideo {
  return { ...NO_VIDEO, ...more };
}

const POTS = ["Tankard", "Jug", "Saucer", "Amphora", "Eggcup", "Pipkin", "Gravy boat", "Beaker"];
const DOES = [
  "up –, down arm",
  "up –, mid level, down level-blend",
  "up finder, down arm + recorder",
  "",
  "up –, mid rates-second, down video-high",
];

/** A club's fleet: every table has something, and some cells are not as on most craft. */
export function richFleet(count: number, columns = 32): Fleet {
  const names = Array.from({ length: count }, (_, index) => {
    const pot = POTS[index % POTS.length]!;
    return index < POTS.length ? pot : `${pot} ${1 + Math.floor(index / POTS.length)}`;
  });
  const grid = (title: string, across: number, texts: readonly string[]): FleetTable => {
    const table = tableOf(
      title,
      names.map((_, row) =>
        Array.from({ length: across }, (_, at) => {
          const usual = texts[at % texts.length]!;
          return (row + at) % 7 === 3 ? cell(texts[(at + 1) % texts.length]!, usual) : cell(usual);
        }),
      ),
    );
    return {
      ...table,
      columns: table.columns.map(({ name }, at) => ({
        name: `section.setting-${name}`,
        what: at % 3 === 0 ? "on the left shoulder" : null,
      })),
    };
  };
  return fleetOfNames(names, {
    controls: [grid("Controls of Wheel (handsets/wheel.fettle)", 7, DOES)],
    settings: grid("Key settings", columns, [
      "stop",
      "250 Hz",
      "3.5 V/cell",
      "slope 120 deg/s  end 720 deg/s  bend 3",
      "2026-03-14",
    ]),
    layers: grid("Layers, in the order in which they are merged", 7, ["1", "2", "", "3"]),
    checks: grid("Checks on the bench", 8, ["2026-03-14", "never"]),
    video: video({
      table: grid("Video", 5, ["digital", "5806 MHz", "20 MHz", "25 mW"]),
      together: [0, 1, 2],
      conflicts: [
        { kind: "overlap", message: "Tankard and Jug are 20 MHz apart, and each is 20 MHz wide.", craft: [0, 1] },
      ],
      plan: [{ craft: 1, fromMhz: 5806, toMhz: 5843, note: null }],
    }),
    missing: [{ file: "craft/broken.fettle", why: "it is no script" }],
  });
}
