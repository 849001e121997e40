/** Two handsets, and conditions written for the first: what becomes of each control on the second, and why. */
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { type MapQuery, mapControlsOf } from "../../../shared/ide/edits/map-controls.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { edited } from "./scripts-edited.ts";

const core = makeCore(makeCatalogue());
type Files = Readonly<Record<string, string>>;

const handset = (name: string, ...lines: string[]) =>
  `handset "${name}"\n\ncontrols\n${lines.map((line) => `  ${line}\n`).join("")}`;
const craft = (uses: readonly string[], ...modes: string[]) =>
  `craft "Jug"\n\n${uses.map((use) => `use "${use}"\n`).join("")}\nmodes\n${modes.map((mode) => `  ${mode}\n`).join("")}`;

function map(files: Files, query: Partial<MapQuery> = {}) {
  return mapControlsOf(core.at(memoryFiles(files)), "jug.fettle", { chosen: {}, layers: [], ...query });
}

/** “TL → SA (down → front): the same channel, ch5”, a row each. */
function rows(files: Files, query: Partial<MapQuery> = {}): string[] {
  const result = map(files, query);
  if (result.kind === "refused") return [result.message];
  return result.rows.map(({ from, to, why, positions }) => {
    const changed = positions.filter(([before, after]) => before !== after);
    const words = changed.map(([before, after]) => `${before} → ${after}`).join(", ");
    return `${from} → ${to ?? "–"}${words === "" ? "" : ` (${words})`}: ${why}`;
  });
}

const OLD = [
  "TL switch ch5 up 1000 us down 2000 us lies left shoulder",
  "TR switch ch6 up 1000 us mid 1500 us down 2000 us lies right shoulder",
  "PB button ch7 rest 1000 us held 2000 us",
  "KN dial ch9 1000 us to 2000 us",
];

describe("from one handset to another that is chosen", () => {
  test.each<[string, { old?: string[]; ours: string[]; modes: string[]; expected: string[] }]>([
    [
      "the same channels under other names",
      {
        ours: ["SA switch ch5 back 1000 us front 2000 us", "SB switch ch6 back 1000 us mid 1500 us front 2000 us"],
        modes: ["arm when TL is down", "level when TR is mid"],
        expected: ["TL → SA (down → front): the same channel, ch5", "TR → SB: the same channel, ch6"],
      },
    ],
    [
      "channels crossed over",
      {
        ours: ["SA switch ch6 a 1000 us b 1500 us c 2000 us", "SB switch ch5 a 1000 us b 2000 us"],
        modes: ["arm when TL is down", "level when TR is down"],
        expected: ["TL → SB (down → b): the same channel, ch5", "TR → SA (down → c): the same channel, ch6"],
      },
    ],
    [
      "the same name on another channel",
      {
        ours: ["TL switch ch8 up 1000 us down 2000 us"],
        modes: ["arm when TL is down"],
        expected: ["TL → TL: the same name"],
      },
    ],
    [
      "the same name in small letters",
      {
        ours: ["Tl switch ch8 up 1000 us down 2000 us"],
        modes: ["arm when TL is down"],
        expected: ["TL → Tl: the same name"],
      },
    ],
    [
      "the same place in the hand",
      {
        ours: [
          "SA switch ch10 up 1000 us down 2000 us lies right shoulder",
          "SB switch ch11 up 1000 us down 2000 us lies left shoulder",
        ],
        modes: ["arm when TL is down"],
        expected: ["TL → SB: the same place, left shoulder"],
      },
    ],
    [
      "the same positions",
      {
        ours: ["SA switch ch10 fore 1000 us aft 2000 us", "SB switch ch11 up 1000 us down 2000 us"],
        modes: ["arm when TL is down"],
        expected: ["TL → SB: the same positions"],
      },
    ],
    [
      "the same kind",
      {
        ours: ["SA switch ch10 a 1000 us b 1500 us c 2000 us", "SB switch ch11 fore 1000 us aft 2000 us"],
        modes: ["arm when TL is down"],
        expected: ["TL → SB (down → aft): of the same kind"],
      },
    ],
    [
      "whatever is left that has enough positions",
      {
        ours: ["SA selector ch10 a 1000 us b 1500 us c 2000 us"],
        modes: ["arm when TL is down"],
        expected: ["TL → SA (down → c): it has positions enough"],
      },
    ],
    [
      "nothing that has enough positions",
      {
        ours: ["SA switch ch10 a 1000 us b 2000 us"],
        modes: ["level when TR is mid or TR is down"],
        expected: ["TR → –: no control of Ours can stand for it"],
      },
    ],
    [
      "a selector for a selector",
      {
        old: ["SX selector ch5 one 1000 us two 1250 us three 1500 us four 1750 us five 2000 us"],
        ours: ["RX selector ch5 a 1000 us b 1250 us c 1500 us d 1750 us e 2000 us"],
        modes: ["arm when SX is five", "lights when SX is two"],
        expected: ["SX → RX (five → e, two → b): the same channel, ch5"],
      },
    ],
    [
      "a dial for a dial, by its pulses",
      {
        ours: ["DX dial ch9 1000 us to 2000 us"],
        modes: ["lights when KN above 1500 us"],
        expected: ["KN → DX: the same channel, ch9"],
      },
    ],
    [
      "a dial that turns the other way is said to",
      {
        ours: ["DX dial ch9 2000 us to 1000 us"],
        modes: ["lights when KN above 1500 us"],
        expected: ["KN → DX: the same channel, ch9; it turns the other way"],
      },
    ],
    [
      "a dial for no switch",
      {
        ours: ["DX dial ch5 1000 us to 2000 us"],
        modes: ["arm when TL is down"],
        expected: ["TL → –: no control of Ours can stand for it"],
      },
    ],
    [
      "a button for a button",
      {
        ours: ["SA switch ch10 a 1000 us b 2000 us", "PX button ch11 free 1000 us pressed 2000 us"],
        modes: ["finder when PB is held"],
        expected: ["PB → PX (held → pressed): of the same kind"],
      },
    ],
    [
      "a button in place of a switch is the last resort, and said",
      {
        ours: ["PX button ch10 rest 1000 us held 2000 us"],
        modes: ["arm when TL is down"],
        expected: ["TL → PX (down → held): it has positions enough; it springs back"],
      },
    ],
    [
      "two controls, one counterpart",
      {
        ours: ["SA switch ch6 a 1000 us b 1500 us c 2000 us"],
        modes: ["arm when TL is down", "level when TR is mid"],
        expected: ["TL → –: no control of Ours can stand for it", "TR → SA (mid → b): the same channel, ch6"],
      },
    ],
    [
      "both handsets alike",
      {
        ours: OLD,
        modes: ["arm when TL is down", "level when TR is mid"],
        expected: ["TL → TL: the same channel, ch5", "TR → TR: the same channel, ch6"],
      },
    ],
    [
      "a control that nothing names is not asked about",
      {
        ours: ["SA switch ch5 a 1000 us b 2000 us"],
        modes: ["lights when ch9 above 1500 us"],
        expected: [],
      },
    ],
    [
      "tested by pulse and by position at once",
      {
        ours: ["SA switch ch5 a 1000 us b 2000 us"],
        modes: ["arm when TL is down", "lights when TL above 1500 us"],
        expected: ["TL → SA (down → b): the same channel, ch5"],
      },
    ],
    [
      "not and brackets",
      {
        ours: ["SA switch ch6 a 1000 us b 1500 us c 2000 us"],
        modes: ["arm when not (TR is up or TR is not mid)"],
        expected: ["TR → SA (up → a, mid → b): the same channel, ch6"],
      },
    ],
  ])("%s", (_, { old = OLD, ours, modes, expected }) => {
    const files = {
      "old.fettle": handset("Old", ...old),
      "ours.fettle": handset("Ours", ...ours),
      "jug.fettle": craft(["old.fettle"], ...modes),
    };
    expect(rows(files, { handset: "ours.fettle" })).toEqual(expected);
  });
});

const OURS = handset(
  "Ours",
  "SA switch ch5 back 1000 us front 2000 us",
  "SB switch ch6 back 1000 us mid 1500 us front 2000 us",
  "SC switch ch7 fore 1000 us aft 2000 us",
);
const two = { "old.fettle": handset("Old", ...OLD), "ours.fettle": OURS };

function written(files: Files, query: Partial<MapQuery> = {}): Files {
  const result = map(files, query);
  if (result.kind === "refused") throw new Error(result.message);
  const texts: Record<string, string> = { ...files };
  for (const { file, edits } of result.files) texts[file] = edited(files[file]!, edits);
  return texts;
}

describe("without another handset, only what the craft's own lacks", () => {
  const files = { ...two, "jug.fettle": craft(["ours.fettle"], "arm when TL is down", "level when SB is mid") };

  test("one control is enough, and what the handset has is spoken for", () => {
    expect(rows(files)).toEqual(["TL → SA (down → front): of the same kind"]);
    expect(written(files)["jug.fettle"]).toContain("  arm when SA is front\n  level when SB is mid\n");
  });

  test("a handset that used to be in use says more of its controls", () => {
    const both = { ...files, "jug.fettle": craft(["old.fettle", "ours.fettle"], "arm when TL is down") };
    expect(rows(both)).toEqual(["TL → SA (down → front): the same channel, ch5"]);
  });

  test("nothing is lacking: no rows and no edits", () => {
    expect(map({ ...two, "jug.fettle": craft(["ours.fettle"], "arm when SA is front") })).toMatchObject({
      kind: "mapping",
      rows: [],
      files: [],
    });
  });

  test("without a handset there is nothing to map to", () => {
    expect(rows({ "jug.fettle": craft([], "arm when TL is down") })[0]).toContain("uses no handset");
  });
});

describe("what the pilot chooses", () => {
  const files = { ...two, "jug.fettle": craft(["old.fettle"], "arm when TL is down", "level when TR is mid") };

  test("another control, and the rest is proposed around it", () => {
    const query = { handset: "ours.fettle", chosen: { TL: "SC" } };
    expect(rows(files, query)).toEqual(["TL → SC (down → aft): chosen", "TR → SB: the same channel, ch6"]);
  });

  test("what another one has is offered, with whose it is; both may then be one", () => {
    const result = map(files, { handset: "ours.fettle" });
    const choices = result.kind === "mapping" ? result.rows[0]!.choices : [];
    expect(choices.map(({ to, takenBy }) => [to, takenBy])).toEqual([
      ["SA", null],
      ["SB", "TR"],
      ["SC", null],
    ]);
    expect(rows(files, { handset: "ours.fettle", chosen: { TL: "SB" } })).toEqual([
      "TL → SB (down → front): chosen",
      "TR → –: no control of Ours can stand for it",
    ]);
  });

  test("to leave one as it is", () => {
    const query = { handset: "ours.fettle", chosen: { TL: null } };
    expect(rows(files, query)[0]).toBe("TL → –: left as it is");
    expect(written(files, query)["jug.fettle"]).toContain("arm when TL is down");
  });
});

describe("which handset a craft uses", () => {
  test("its own line is changed, with the conditions, and nothing is found afterwards", () => {
    const files = { ...two, "jug.fettle": craft(["old.fettle"], "arm when TL is down", "level when TR is mid") };
    const done = written(files, { handset: "ours.fettle" });
    expect(done["jug.fettle"]).toBe(craft(["ours.fettle"], "arm when SA is front", "level when SB is mid"));
    expect(findingsOf(core.at(memoryFiles(done)), "jug.fettle").filter(({ severity }) => severity === "error")).toEqual(
      [],
    );
  });

  test("a comment behind the line stays", () => {
    const text = craft(["old.fettle"], "arm when TL is down").replace('old.fettle"', 'old.fettle" # the walnut one');
    expect(written({ ...two, "jug.fettle": text }, { handset: "ours.fettle" })["jug.fettle"]).toContain(
      'use "ours.fettle" # the walnut one\n',
    );
  });

  test("a handset that a layer brings is overruled by a line of the craft's own", () => {
    const files = {
      ...two,
      "base.fettle": 'layer "Base"\n\nuse "old.fettle"\n',
      "jug.fettle": craft(["base.fettle"], "arm when TL is down"),
    };
    const done = written(files, { handset: "ours.fettle" });
    expect(done["jug.fettle"]).toBe(craft(["base.fettle", "ours.fettle"], "arm when SA is front"));
    expect(core.at(memoryFiles(done)).craft("jug.fettle")!.handset!.name).toBe("Ours");
  });

  test("a craft without any use gets one", () => {
    const files = { ...two, "jug.fettle": 'craft "Jug"\n\nmodes\n  arm when TL is down\n' };
    expect(written(files, { handset: "ours.fettle" })["jug.fettle"]).toBe(
      'craft "Jug"\n\nuse "ours.fettle"\n\nmodes\n  arm when SA is front\n',
    );
  });

  test("line ends are kept", () => {
    const files = { ...two, "jug.fettle": craft(["old.fettle"], "arm when TL is down").replaceAll("\n", "\r\n") };
    expect(written(files, { handset: "ours.fettle" })["jug.fettle"]).toBe(
      craft(["ours.fettle"], "arm when SA is front").replaceAll("\n", "\r\n"),
    );
    // The last line has none of its own that a new line could have.
    const ending = {
      ...files,
      "jug.fettle": 'craft "Jug"\r\nuse "habits.fettle"',
      "habits.fettle": 'layer "Habits"\r\n',
    };
    expect(written(ending, { handset: "ours.fettle" })["jug.fettle"]).toBe(
      'craft "Jug"\r\nuse "habits.fettle"\r\nuse "ours.fettle"',
    );
  });
});

describe("layers", () => {
  const files = {
    ...two,
    "habits.fettle": 'layer "Habits"\n\nmodes\n  arm when TL is down\n\nadjust\n  overall follows KN from 0.9 to 1.1\n',
    "jug.fettle": craft(["old.fettle", "habits.fettle"], "level when TR is mid"),
    "mug.fettle": 'craft "Mug"\nuse "old.fettle"\nuse "habits.fettle"\n',
  };

  test("those that name a control are offered, with whoever else uses them, and stay as they are unless asked for", () => {
    const result = map(files, { handset: "ours.fettle" });
    expect(result).toMatchObject({
      kind: "mapping",
      layers: [{ file: "habits.fettle", name: "Habits", lines: 2, alsoIn: ["Mug"] }],
    });
    const done = written(files, { handset: "ours.fettle" });
    expect(done["habits.fettle"]).toBe(files["habits.fettle"]);
    expect(done["jug.fettle"]).toContain("level when SB is mid");
  });

  test("asked for, they are changed with the craft", () => {
    expect(rows(files, { handset: "ours.fettle", layers: ["habits.fettle"] })).toEqual([
      "TR → SB: the same channel, ch6",
      "TL → SA (down → front): the same channel, ch5",
      "KN → –: no control of Ours can stand for it",
    ]);
    expect(written(files, { handset: "ours.fettle", layers: ["habits.fettle"] })["habits.fettle"]).toContain(
      "arm when SA is front",
    );
  });
});

describe("what is never written", () => {
  test("a script of a newer edition", () => {
    const text = craft(["old.fettle"], "arm when TL is down").replace('"Jug"', '"Jug" edition 9');
    expect(rows({ ...two, "jug.fettle": text }, { handset: "ours.fettle" })[0]).toContain("newer edition");
  });

  test("a handset that is none", () => {
    const files = { ...two, "jug.fettle": craft(["old.fettle"], "arm when TL is down") };
    expect(rows(files, { handset: "gone.fettle" })).toEqual(["There is no handset in gone.fettle."]);
    expect(rows(files, { handset: "jug.fettle" })).toEqual(["There is no handset in jug.fettle."]);
  });
});
