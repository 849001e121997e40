/** A change of several craft as nobody asked for it: with craft of every kind in it. */
import { asUri } from "../../shared/protocol/addresses.ts";
import type { FleetChange, FleetChangeCraft } from "../../shared/protocol/fleet-change.ts";

const craft = (name: string, some: Partial<FleetChangeCraft>): FleetChangeCraft => ({
  file: `file:///shed/craft/${name.toLowerCase()}.fettle`,
  name,
  notOffered: null,
  chosen: true,
  lines: [
    {
      what: "modes.finder",
      words: "finder moves from PB held to TR down",
      risk: "medium",
      before: "PB is held and not arm",
      after: "TR is down",
      at: { file: "file:///shed/layers/habits.fettle", line: 12 },
      into: null,
      choice: "none",
      notTaken: null,
    },
  ],
  findings: [],
  notes: [],
  ...some,
});

const tankard = craft("Tankard", {});

export const handMadeChange: FleetChange = {
  kind: "change",
  title: "finder when TR is down",
  notes: ["“Shed habits” is changed once, and 2 craft follow it.", "So already: “Ewer”."],
  craft: [
    { ...tankard, lines: [{ ...tankard.lines[0]!, into: "Shed habits" }] },
    craft("Jug", { notes: ["TR down is also named by level-blend."] }),
    craft("Saucer", {
      chosen: false,
      findings: [
        {
          code: "mode-clash",
          severity: "error",
          message: "“lights” and “lights-off” can be on together, with TR down.",
        },
        { code: "thin-margin", severity: "warning", message: "TR down lies 10 us from the bound of this test." },
      ],
    }),
    craft("Flagon", { chosen: false, lines: [], notOffered: "“Flagon” has no control “TR”." }),
  ],
  edits: {
    kind: "edits",
    files: [{ file: asUri("file:///shed/layers/habits.fettle"), version: 1, edits: [] }],
  },
};

const line = tankard.lines[0]!;

/** The same with a box for each line. */
export const handMadeAlike: FleetChange = {
  ...handMadeChange,
  title: "Like “Jug”",
  notes: [],
  craft: [
    craft("Tankard", {
      lines: [
        { ...line, risk: "high", choice: "chosen" },
        { ...line, what: "rates.yaw", words: "yaw of rates differs", choice: "left-out" },
        { ...line, what: "modes.arm", words: "arm is new", notTaken: "It is on another handset.", before: null },
      ],
    }),
    craft("Saucer", {
      chosen: false,
      lines: [
        { ...line, choice: "left-out" },
        { ...line, what: "osd.amps", choice: "left-out" },
      ],
    }),
  ],
};
