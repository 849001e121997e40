/** Pictures to draw, as the server would send them. */
import type { GogglesPicture, PanelControl, PanelElement, SwitchesPicture } from "../../shared/protocol/panel.ts";

const file = "file:///shed/jug.fettle";

/** An element of one row of text, unless `more` says otherwise. */
export function element(name: string, column: number, row: number, text: string, more: Partial<PanelElement> = {}) {
  const made: PanelElement = {
    name,
    column,
    row,
    width: text.length,
    height: 1,
    drawn: "text",
    text: text === "" ? [] : [text],
    placed: `${column}, ${row}`,
    what: `What ${name} is.`,
    at: { file, line: row + column },
    blank: false,
    clashing: [],
    overlapsNothing: false,
    flashes: false,
    sharedWith: { named: [], more: 0 },
    faults: [],
    ...more,
  };
  return made;
}

export function picture(elements: readonly PanelElement[], more: Partial<GogglesPicture> = {}): GogglesPicture {
  return {
    columns: 30,
    rows: 16,
    aspect: 4 / 3,
    attitude: { pitchDeg: 0, rollDeg: 0 },
    safe: null,
    elements,
    page: "osd",
    pages: ["osd"],
    scenario: "mid-flight",
    canHide: false,
    addable: [],
    viewerGrid: null,
    preview: null,
    ...more,
  };
}

/** Some of everything: text, all figures, two that share cells, one off the grid. */
export const fullPicture = picture(
  [
    element("pack-volts", 2, 13, "22.2V"),
    element("flight-time", 2, 14, "03:12"),
    element("link-quality", 24, 1, "LQ 98", {
      clashing: [
        [27, 1],
        [28, 1],
      ],
    }),
    element("signal", 27, 1, "-71", {
      clashing: [
        [27, 1],
        [28, 1],
      ],
    }),
    element("alerts", 10, 11, "PACK EMPTY"),
    element("craft", 26, 14, "TANKARD", {
      clashing: [
        [30, 14],
        [31, 14],
        [32, 14],
      ],
    }),
    element("sight", 14, 7, "", { width: 3, height: 1, drawn: "sight" }),
    element("horizon-line", 8, 5, "", {
      width: 14,
      height: 7,
      drawn: "horizon",
      figure: { kind: "horizon", pitchDeg: -12, rollDeg: 8 },
    }),
    element("home-arrow", 15, 1, "", { width: 2, height: 1, drawn: "arrow", figure: { kind: "arrow", turnDeg: 47 } }),
    element("pack-bar", 2, 12, "", { width: 8, height: 1, drawn: "bar", figure: { kind: "bar", share: 0.6 } }),
    element("height-tape", 25, 4, "", {
      width: 5,
      height: 7,
      drawn: "tape",
      figure: { kind: "scale", value: 24.5, step: 5, unit: "m" },
    }),
    element("heading-tape", 9, 2, "", {
      width: 13,
      height: 1,
      drawn: "tape",
      figure: { kind: "compass", headingDeg: 218 },
    }),
    element("stick-trace-left", 0, 5, "", {
      width: 6,
      height: 4,
      drawn: "trace",
      figure: { kind: "stick", across: -0.03, up: -0.12 },
    }),
  ],
  { safe: { left: 1, top: 1, right: 28, bottom: 14 } },
);

export function rocker(
  name: string,
  channel: number,
  ways: Readonly<Record<string, readonly string[]>>,
  more: Partial<PanelControl> = {},
): PanelControl {
  const positions = Object.entries(ways).map(([position, modes], index) => ({
    name: position,
    pulseUs: 1000 + 500 * index,
    modes,
  }));
  const made = { name, kind: "switch" as const, channel, positions, spans: [], rest: positions[0]?.name ?? null };
  return { ...made, at: { file, line: channel }, ...more };
}

export function dial(name: string, channel: number, spans: PanelControl["spans"]): PanelControl {
  return { name, kind: "dial", channel, positions: [], spans, rest: null, at: { file, line: channel } };
}

export const fullSwitches: SwitchesPicture = {
  handset: "Wheel",
  controls: [
    rocker("TL", 5, { up: [], down: ["arm", "recorder"] }),
    rocker("TR", 6, { up: [], mid: ["level"], down: ["turtle"] }),
    rocker("PB", 7, { rest: [], held: ["beeper"] }, { kind: "button" }),
    dial("KN", 9, [
      { fromUs: 1000, toUs: 1299, modes: [] },
      { fromUs: 1300, toUs: 1700, modes: ["altitude-hold"] },
      { fromUs: 1701, toUs: 2000, modes: ["return-home", "lights-off"] },
    ]),
    rocker("SX", 10, { one: [], two: ["rates-second"], three: ["osd-second"], four: [] }, { kind: "selector" }),
  ],
  state: {
    positions: { TL: "up", TR: "mid", PB: "rest", KN: 1500, SX: "one" },
    atRest: true,
    armed: "no",
    on: [
      { name: "level", what: "Holds the craft level.", lines: [{ file, line: 3 }] },
      { name: "altitude-hold", what: "Holds the height.", lines: [] },
    ],
    possible: [],
    unknown: [],
    adjusts: { moving: [], idle: [], faulty: [] },
  },
  modes: [
    { name: "arm", what: "Lets the motors turn.", lines: [{ file, line: 2 }], ways: ["TL down"] },
    { name: "level", what: "Holds the craft level.", lines: [{ file, line: 3 }], ways: ["TR mid"] },
  ],
  loss: { receiver: "silent", armed: "kept", modes: [] },
  ready: { obstacles: [], moves: [] },
  states: 24,
};
