/** Controls of one handset as `NAME positions`, of another as lines of a handset, and the mapping in words. */
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { mapControls, mappingInWords, type UsedControl } from "../../shared/logic/handset-mapping.ts";
import { controlsUsed, renameEdits } from "../../shared/logic/rename-controls.ts";
import type { ControlSpec } from "../../shared/logic/switchboard-types.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";

const core = makeCore(makeCatalogue());

function scriptOf(text: string) {
  return core.at(memoryFiles({ "a.fettle": text })).script("a.fettle")!;
}

function controlsOf(...lines: string[]): ControlSpec[] {
  return scriptOf(`handset "H"\ncontrols\n${lines.map((each) => `  ${each}\n`).join("")}`).entries.flatMap(
    ({ name, value }) => (value?.kind === "control" ? { ...value, name, kind: value.control } : []),
  );
}

/** `SA up down` uses two positions, `KA` is tested by its pulse. */
function usedOf(text: string, others: readonly ControlSpec[] = []): UsedControl[] {
  return text.split(", ").map((each) => {
    const [name = "", ...positions] = each.split(" ");
    return { name, positions, isPulsed: positions.length === 0, spec: others.find((spec) => spec.name === name) };
  });
}

const OURS = controlsOf(
  "SA switch ch5 back 1000 us front 2000 us",
  "SB switch ch6 back 1000 us mid 1500 us front 2000 us",
  "SC switch ch7 back 1000 us mid 1500 us front 2000 us",
  "PX button ch8 rest 1000 us held 2000 us",
  "DX dial ch9 1000 us to 2000 us",
);

function mapped(used: UsedControl[], ours = OURS, taken: string[] = []): string {
  return mappingInWords(mapControls(used, ours, new Set(taken)));
}

describe("without knowing the other handset", () => {
  test("a control goes to one of its kind and number of positions, in order; positions by order", () => {
    expect(mapped(usedOf("TL down, TR up mid down, FL up mid, PB held, KN"))).toBe(
      "TL → SA (down → front), TR → SB (up → back, down → front), FL → SC (up → back), PB → PX, KN → DX",
    );
  });

  test("the order of the text is not that of the positions", () => {
    expect(mapped(usedOf("TR down up"))).toBe("TR → SA (down → front, up → back)");
    expect(mapped(usedOf("TR down mid up"))).toBe("TR → SB (down → front, up → back)");
  });

  test("a control of the same name, and one with the same positions, comes first", () => {
    expect(mapped(usedOf("TL front, sc back front"))).toBe("TL → SA, sc → SC");
    const ours = controlsOf("SA switch ch5 a 1000 us b 2000 us", "SB switch ch6 up 1000 us down 2000 us");
    expect(mapped(usedOf("TL down, TR up down"), ours)).toBe("TL → SB, TR → SA (up → a, down → b)");
  });

  test("with more positions than ours there is no counterpart, and none is used twice or against its will", () => {
    expect(mapped(usedOf("SX one two three four"))).toBe("");
    expect(mapped(usedOf("TL down, TR down"), OURS.slice(0, 1))).toBe("TL → SA (down → front)");
    expect(mapped(usedOf("TL down"), OURS.slice(0, 2), ["SA"])).toBe("TL → SB (down → front)");
    expect(mapped(usedOf("TL down"), OURS.slice(4))).toBe("");
  });
});

test("with the other handset known, by channel, and positions by their order on it", () => {
  const theirs = controlsOf(
    "TL switch ch7 red 1000 us blue 1500 us green 2000 us",
    "TR switch ch5 near 1000 us far 2000 us",
    "KN dial ch9 1000 us to 2000 us",
  );
  expect(mapped(usedOf("TL blue green, TR near, KN", theirs))).toBe(
    "TL → SC (blue → mid, green → front), TR → SA (near → back), KN → DX",
  );
});

test("a position of the same name counts before the order: it is where the hand goes", () => {
  const theirs = controlsOf(
    "TL switch ch5 up 1000 us down 2000 us",
    "TR switch ch6 up 1000 us mid 1500 us down 2000 us",
  );
  const ours = controlsOf("SA switch ch5 down 2000 us up 1000 us", "SB switch ch6 down 1000 us mid 1500 us up 2000 us");
  expect(mapped(usedOf("TL down, TR up mid", theirs), ours)).toBe("TL → SA, TR → SB");
});

test("between other numbers of positions an end stays an end, and the middle stays between", () => {
  const theirs = controlsOf(
    "SX selector ch5 a 1000 us b 1200 us c 1400 us d 1600 us e 1800 us f 2000 us",
    "TR switch ch6 near 1000 us half 1500 us far 2000 us",
  );
  const three = controlsOf("SA switch ch5 up 1000 us mid 1500 us down 2000 us");
  expect(mapped(usedOf("SX c", theirs), three)).toBe("SX → SA (c → mid)");
  expect(mapped(usedOf("SX f a", theirs), three)).toBe("SX → SA (f → down, a → up)");
  expect(mapped(usedOf("SX d e", theirs), three)).toBe("SX → SA (d → mid, e → down)");
  const keys = controlsOf(
    "KY selector ch6 one 1000 us two 1200 us three 1400 us four 1600 us five 1800 us six 2000 us",
  );
  expect(mapped(usedOf("TR half far", theirs), keys)).toBe("TR → KY (half → four, far → six)");
});

test("all conditions of a script are renamed, and nothing else", () => {
  const text = `layer "L"
modes
  arm when TL is down and not (KN above 1500 us) # TL
  level when TL is not up or ch9 above 1200 us
outputs
  TL when TL is down
adjust
  overall follows KN from 0.9 to 1.1
`;
  const script = scriptOf(text);
  expect(controlsUsed(script).map(({ name, positions, isPulsed }) => [name, ...positions, isPulsed])).toEqual([
    ["TL", "down", "up", false],
    ["KN", true],
  ]);
  const lines = text.split("\n");
  const edits = renameEdits(script, mapControls(controlsUsed(script), OURS)).reverse();
  for (const { range, text: word } of edits) {
    const line = lines[range.start.line]!;
    lines[range.start.line] = line.slice(0, range.start.character) + word + line.slice(range.end.character);
  }
  expect(lines.join("\n")).toBe(`layer "L"
modes
  arm when SA is front and not (DX above 1500 us) # TL
  level when SA is not back or ch9 above 1200 us
outputs
  TL when TL is down
adjust
  overall follows DX from 0.9 to 1.1
`);
});
