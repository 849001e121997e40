/** What the rules of the OSD find, in whole craft, and the repairs that they offer. */
import { describe, expect, test } from "vitest";
import { pictureOf } from "../../../shared/osd/safe-area.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { swapped } from "../../swapped.ts";
import { understood, WHEEL, workspaceOf } from "../check.ts";

const CODES = /^(osd-|grid-mismatch)/;

function allFindings(text: string, more: Record<string, string> = {}) {
  return findingsOf(workspaceOf({ "jug.fettle": text, ...more }), "jug.fettle");
}
function findings(text: string, more: Record<string, string> = {}) {
  return allFindings(text, more).filter(({ code }) => CODES.test(code));
}
const craft = (osd: string, before = "") => `craft "Jug"\n${before}\nosd\n${osd.replace(/^/gm, "  ")}\n`;
/** Codes with the entry that each stands on; without what every short layout lacks. */
function found(osd: string, before = "", after = "") {
  const text = craft(osd, before) + after;
  return understood(allFindings(text))
    .filter(({ code }) => CODES.test(code) && code !== "osd-essentials")
    .map(({ code, range }) => `${code}: ${text.split("\n")[range.start.line]!.trim()}`);
}
/** The text after the only repair of the only finding of a code. */
function repaired(code: string, osd: string, before = "") {
  const text = craft(osd, before);
  const [finding] = findings(text).filter((each) => each.code === code);
  const [edit] = finding!.fixes[0]!.edits;
  const lines = text.split("\n");
  const line = lines[edit!.range.start.line]!;
  return (line.slice(0, edit!.range.start.character) + edit!.text + line.slice(edit!.range.end.character)).trim();
}

const ANALOGUE = "video\n  signal analogue";

describe("osd-unsafe-area", () => {
  // BKSTS Illustrated Dictionary, 4th ed., App. B: 90 % at 4:3, 93 % at 16:9 (read). Whole cells inside,
  // computed from it: columns 2-27; rows 1-14 of 16, 1-11 of 13.
  test.each([
    ["grid pal\npack-volts at 2, 1", []],
    ["grid pal\npack-volts at 1, 1", ["osd-unsafe-area: pack-volts at 1, 1"]],
    ["grid pal\npack-volts at 23, 14", []],
    ["grid pal\npack-volts at 24, 14", ["osd-unsafe-area: pack-volts at 24, 14"]],
    ["grid pal\npack-volts at 2, 15", ["osd-unsafe-area: pack-volts at 2, 15"]],
    ["grid ntsc\npack-volts at 2, 11", []],
    ["grid ntsc\npack-volts at 2, 12", ["osd-unsafe-area: pack-volts at 2, 12"]],
    ["grid ntsc\npicture 16:9\npack-volts at 2, 12", ["osd-unsafe-area: pack-volts at 2, 12"]],
    ["grid pal\nalerts at 0, 0", ["osd-unsafe-area: alerts at 0, 0"]],
  ])("%j", (osd, expected) => expect(found(osd, ANALOGUE)).toEqual(expected));

  test("the picture's shape is as said, else the camera's, else what the signal mostly has", () => {
    const shape = (text: string) =>
      pictureOf(workspaceOf({ "jug.fettle": `craft "Jug"\n${text}` }).craft("jug.fettle")!);
    expect(shape("")).toBe("4:3");
    expect(shape("video\n  signal analogue\n")).toBe("4:3");
    expect(shape("video\n  signal digital\n")).toBe("16:9");
    expect(shape("video\n  signal digital\n  camera-picture 4:3\n")).toBe("4:3");
    expect(shape("video\n  signal analogue\n  camera-picture 16:9\n")).toBe("16:9");
    expect(shape("video\n  signal digital\n  camera-picture 16:9\nosd\n  picture 4:3\n")).toBe("4:3");
  });

  test("a digital picture is shown whole, and without a signal nothing is known", () => {
    expect(found("grid pal\npack-volts at 0, 0", "video\n  signal digital")).toEqual([]);
    expect(found("grid pal\npack-volts at 0, 0")).toEqual([]);
  });

  test("what leaves the grid is said once", () => {
    expect(found("grid pal\npack-volts at 28, 0", ANALOGUE)).toEqual(["osd-off-grid: pack-volts at 28, 0"]);
  });

  test("both pages, and the repair moves it in by as little as can be", () => {
    expect(found("grid pal\namps at 2, 2", ANALOGUE, "osd-second\n  amps at 0, 2\n")).toEqual([
      "osd-unsafe-area: amps at 0, 2",
    ]);
    expect(repaired("osd-unsafe-area", "grid pal\namps at right, bottom  # by the rim", ANALOGUE)).toBe(
      "amps at right-2, bottom-1  # by the rim",
    );
  });
});

describe("osd-centre-clutter", () => {
  // The middle third is the project's own figure: columns 10-19 and rows 5-10 of 30 x 16.
  test.each([
    ["pack-volts at 5, 5", []],
    ["pack-volts at 6, 5", ["osd-centre-clutter: pack-volts at 6, 5"]],
    ["pack-volts at 19, 10", ["osd-centre-clutter: pack-volts at 19, 10"]],
    ["pack-volts at 20, 10", []],
    ["pack-volts at 12, 4", []],
    ["pack-volts at 12, 11", []],
    ["sight at centre, middle\nhorizon-line at centre, middle\nalerts at centre, middle-3", []],
    ["message at centre, middle", []],
    ["home-arrow at centre, middle", []],
  ])("%j", (osd, expected) => expect(found(`grid pal\n${osd}`)).toEqual(expected));
});

describe("osd-essentials", () => {
  const lacking = (osd: string, after = "") =>
    findings(craft(osd) + after)
      .filter(({ code }) => code === "osd-essentials")
      .map(({ severity, message }) => `${severity}: ${message}`);
  const all = "grid pal\npack-volts at 2, 2\nflight-time at 2, 3\nlink-quality at 2, 4\nalerts at 2, 14";

  test("nothing is missing, nothing is placed, or one of three is left out", () => {
    expect(lacking(all)).toEqual([]);
    expect(lacking(swapped(swapped(all, "pack-volts", "cell-volts"), "link-quality", "signal"))).toEqual([]);
    expect(lacking(all.replace("alerts at 2, 14", ""))).toEqual([]);
    expect(lacking(all.replace("flight-time at 2, 3", ""))).toEqual([]);
    expect(lacking("grid pal")).toEqual([]);
    expect(lacking('pilot-name "Ada"')).toEqual([]);
  });

  test("what is missing is named, in one finding; without volts it is a warning", () => {
    expect(lacking("grid pal\npack-volts at 2, 2\nalerts at 2, 14")).toEqual([
      "hint: In flight the display shows no link figure (link-quality or signal) and no flight-time.",
    ]);
    expect(lacking(all.replace("pack-volts at 2, 2\n", ""))).toEqual([
      "warning: In flight the display shows no voltage (pack-volts or cell-volts).",
    ]);
    expect(lacking("grid pal\nsight at centre, middle")).toEqual([expect.stringMatching(/^warning: .* no voltage /)]);
  });

  test("a line with a fault counts", () => {
    expect(lacking(swapped(all, "at 2, 2", "at 2"))).toEqual([]);
  });

  test("each page that flies is looked at by itself", () => {
    const second = (when: string) => `modes\n  arm when TL is down\n${when}osd-second\n  amps at 2, 2\n`;
    const wheel = (text: string) =>
      findings(`craft "Jug"\nuse "wheel.fettle"\nosd\n${all.replace(/^/gm, "  ")}\n${text}`, { "wheel.fettle": WHEEL })
        .filter(({ code }) => code === "osd-essentials")
        .map(({ severity, message }) => `${severity}: ${message}`);
    expect(wheel(second("  osd-second when TR is up\n"))).toEqual([
      expect.stringMatching(/^warning: In flight the second page shows no voltage /),
    ]);
    // It comes on only while the craft is disarmed, or never.
    expect(wheel(second("  osd-second when TL is up\n"))).toEqual([]);
    expect(wheel(second(""))).toEqual([]);
    expect(lacking("grid pal", "osd-second\n  pack-volts at 2, 2\n  flight-time at 2, 3\n")).toHaveLength(1);
    expect(lacking("grid pal", "osd-second\n  pack-volts at 2, 2\n  flight-time at 2, 3\n  alerts at 2, 14\n")).toEqual(
      [],
    );
  });

  test("a note over the section accepts it", () => {
    expect(
      findings('craft "Jug"\n# allow osd-essentials: the sounder tells\nosd\n  grid pal\n  amps at 2, 2\n'),
    ).toEqual([]);
  });

  test("it stands on the section; where a layer says it, on the line that uses the layer", () => {
    const own = findings(craft("grid pal\namps at 2, 2"))[0]!;
    expect(own.range.start).toEqual({ line: 2, character: 0 });
    const layer = { "narrow.fettle": 'layer "Narrow"\nosd\n  grid pal\n  amps at 2, 2\n' };
    expect(findings('craft "Jug"\nuse "narrow.fettle"\n', layer)[0]!.range.start.line).toBe(1);
  });
});

describe("grid-mismatch", () => {
  test.each([
    ["grid 50 x 18\nsight at 0, 0", "video\n  viewer-grid 53 x 20", ["grid-mismatch: viewer-grid 53 x 20"]],
    ["grid 53 x 20\nsight at 0, 0", "video\n  viewer-grid 53 x 20", []],
    ["grid pal\nsight at 0, 0", "video\n  viewer-grid 30 x 16", []],
    ["grid pal\nsight at 0, 0", "video\n  viewer-grid 30 x 13", ["grid-mismatch: viewer-grid 30 x 13"]],
    ["grid 53 x 20\nsight at 0, 0", "video\n  viewer-grid same", []],
    // MAX7456 datasheet, 19-0576 Rev 0, 8/07, p. 10: 30 columns; 13 rows NTSC, 16 rows PAL (read).
    ["grid 30 x 16\nsight at 4, 4", ANALOGUE, []],
    ["grid 30 x 13\nsight at 4, 4", ANALOGUE, []],
    ["grid 53 x 20\nsight at 4, 4", ANALOGUE, ["grid-mismatch: grid 53 x 20"]],
    ["grid 53 x 20\nsight at 4, 4", "video\n  signal digital", []],
    ["sight at 4, 4", "video\n  viewer-grid 30 x 13", []],
  ])("%j with %j", (osd, before, expected) => expect(found(osd, before)).toEqual(expected));
});

describe("osd-off-grid and osd-overlap", () => {
  test("a repair moves it to the nearest free place, with the anchors that it has", () => {
    expect(repaired("osd-off-grid", "grid pal\npack-volts at right+1, 3")).toBe("pack-volts at right, 3");
    expect(repaired("osd-off-grid", "grid pal\namps at 24, 3\npack-volts at 28, 3")).toBe("pack-volts at 25, 2");
    expect(repaired("osd-overlap", "grid pal\namps at 2, 3\npack-volts at left+7, top+3")).toBe(
      "pack-volts at left+7, top+2",
    );
  });

  test("an element that lies over several has one repair, by which it is free of all of them", () => {
    const about = findings(craft("grid pal\namps at 2, 3\npack-volts at 6, 3\nmode at 3, 3"));
    const fixes = about.filter(({ range }) => range.start.line === 6).map((each) => each.fixes);
    expect(fixes).toHaveLength(2);
    expect(fixes[0]).toHaveLength(1);
    expect(fixes[1]).toEqual(fixes[0]);
  });

  test("on a grid with a slip in it no place is sought", () => {
    const startMs = performance.now();
    const about = findings(craft("grid 9999 x 9999\namps at left-3, top\npack-volts at 2, 1\nmode at 4, 1", ANALOGUE));
    expect(performance.now() - startMs).toBeLessThan(2000);
    expect(about.map(({ code }) => code)).toEqual(
      expect.arrayContaining(["osd-off-grid", "osd-overlap", "osd-unsafe-area"]),
    );
    expect(about.flatMap(({ fixes }) => fixes)).toEqual([]);
  });

  test("what is larger than the grid has no place, and no repair is offered", () => {
    const [finding] = findings(craft("grid 10 x 5\nmode at 0, 0")).filter(({ code }) => code === "osd-off-grid");
    expect(finding).toMatchObject({ message: expect.stringContaining("no place at all"), fixes: [] });
  });

  test("each page by itself, also one that a layer lays out", () => {
    const layer = {
      "two.fettle": 'layer "Two"\nosd\n  grid pal\n  amps at 2, 2\nosd-second\n  amps at 29, 2\n  watts at 25, 2\n',
    };
    const both = findings('craft "Jug"\nuse "two.fettle"\n', layer).filter(({ code }) => code !== "osd-essentials");
    expect(both.map(({ code }) => code)).toEqual(["osd-off-grid", "osd-overlap"]);
    // Other craft may use the layer: nothing is changed in it without asking.
    expect(both.flatMap(({ fixes }) => fixes)).toEqual([]);
  });

  test("an element on the page and on the second page overlaps nothing", () => {
    expect(found("grid pal\namps at 2, 2", "", "osd-second\n  watts at 2, 2\n")).toEqual([]);
  });
});
