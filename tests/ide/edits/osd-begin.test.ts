/** A page of the OSD that begins: over the sound craft, each without what it had; and craft of every picture, one by one. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { beginningsOf } from "../../../shared/ide/edits/osd-beginnings.ts";
import { osdEditOf } from "../../../shared/ide/edits/osd-edit.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { parse } from "../../../shared/syntax/parse.ts";
import { scriptsIn } from "../../rules/fixtures.ts";
import { type BeginCase, beginCases, begun, offersFor, WIDE } from "./begin-corpus.ts";
import { edited, type Texts } from "./scripts-edited.ts";

const core = makeCore(makeCatalogue());

/** A script without its sections of the OSD, and without the notes above them. */
function stripped(text: string): string {
  const tree = parse(text);
  const gone = new Set<number>();
  for (const [index, { name, line }] of tree.sections.entries()) {
    if (!name.startsWith("osd")) continue;
    for (let at = line - 1; tree.lines[at]?.node.kind === "comment"; at--) gone.add(at);
    const next = tree.sections[index + 1]?.line ?? tree.lines.length;
    for (let at = line; at < next; at++) gone.add(at);
  }
  return tree.lines.flatMap((line, at) => (gone.has(at) ? [] : [line.text])).join("\n");
}

function told(files: Texts, file: string): string[] {
  return findingsOf(core.at(memoryFiles(files)), file).map(({ code, message }) => `${code}: ${message}`);
}
const sound = ["sound/rack", "sound/kitchen", "sound/field", "shelf", "sane"].map((room) => {
  const files = Object.fromEntries(Object.entries(scriptsIn(room)).map(([file, text]) => [file, stripped(text)]));
  return { room, files };
});

describe.each(sound)("of the sound craft none shows anything new: $room", ({ files }) => {
  const crafts = Object.keys(files).filter((file) => /^craft /m.test(files[file]!));
  test.each(crafts)("%s", (file) => {
    const workspace = core.at(memoryFiles(files));
    const craft = workspace.craft(file)!;
    const before = told(files, file);
    for (const page of ["osd", "osd-second"] as const) {
      const beginnings = beginningsOf(craft, workspace, page)!;
      for (const grid of beginnings.grids) {
        const answer = osdEditOf(workspace, file, {
          page,
          where: null,
          gesture: { kind: "begin", from: { kind: "usual", ...grid } },
        });
        if (answer.kind !== "edits") throw new Error(JSON.stringify(answer));
        const after = { ...files };
        for (const each of answer.files) after[each.file] = edited(files[each.file]!, each.edits);
        expect(
          told(after, file).filter((each) => !before.includes(each)),
          `${page} ${JSON.stringify(grid)}\n${after[file]}`,
        ).toEqual([]);
      }
    }
  });
});

const expected = new Map(
  readFileSync(inProject("tests/fixtures/begun.txt"), "utf8")
    .split(/^## /m)
    .slice(1)
    .map((part) => [part.slice(0, part.indexOf("\n")), part.slice(part.indexOf("\n") + 1).trimEnd()] as const),
);

describe("what is offered, and what the first of it writes", () => {
  test.each(beginCases)("$name", (each) => {
    expect(`${offersFor(each)}\n${begun(each)}`.trimEnd()).toBe(expected.get(each.name));
  });
  test("each case has its expectation, and the other way round", () => {
    expect([...expected.keys()]).toEqual(beginCases.map(({ name }) => name));
  });
});

const wide = "layers/wide.fettle";
const friends: BeginCase = {
  name: "friends",
  files: {
    "jug.fettle": 'craft "Jug"\n\nvideo\n  viewer-grid 60 x 22\n\nports\n  port1 receiver\n',
    [wide]: WIDE,
    "mug.fettle": `craft "Mug"\nuse "${wide}"\nosd\n  alert-on low-pack\n  home-arrow at centre, top+1\n  amps at 2, 2\n`,
  },
};

test("a layer is used: below the header with a blank line, or below the last use", () => {
  expect(begun(friends, { kind: "layer", file: wide })).toBe(`use "${wide}"\n! osd-essentials\n! grid-mismatch`);
  const answer = osdEditOf(core.at(memoryFiles(friends.files)), "jug.fettle", {
    page: "osd",
    where: null,
    gesture: { kind: "begin", from: { kind: "layer", file: wide } },
  });
  if (answer.kind !== "edits") throw new Error(answer.kind);
  expect(edited(friends.files["jug.fettle"]!, answer.files[0]!.edits)).toBe(
    `craft "Jug"\n\nuse "${wide}"\n\nvideo\n  viewer-grid 60 x 22\n\nports\n  port1 receiver\n`,
  );
});

test("the page of another craft is copied on its own grid, without what this craft cannot show", () => {
  // The craft has no satellites, as its ports are said; the arrow stays out.
  expect(begun(friends, { kind: "craft", file: "mug.fettle" }).split("\n")).toEqual([
    "osd",
    "  grid          53 x 20",
    "  alert-on      low-pack, weak-link, cannot-arm",
    "  cell-volts    at left+2, bottom-1",
    "  link-quality  at right-2, top+1",
    "  amps          at 2, 2",
    "! grid-mismatch",
    "! osd-essentials",
  ]);
});

test("on a grid that is said, the copied page is fitted to it", () => {
  const files = { ...friends.files, "jug.fettle": 'craft "Jug"\nosd\n  grid pal\n' };
  expect(begun({ name: "said", files }, { kind: "craft", file: "mug.fettle" })).toMatch(/^ {2}amps +at 2, 2$/m);
});

test("what is gone by then is refused, and nothing is written", () => {
  expect(begun(friends, { kind: "layer", file: "gone.fettle" })).toContain("is no layer (any more)");
  expect(begun(friends, { kind: "layer", file: "mug.fettle" })).toContain("is no layer");
  expect(begun(friends, { kind: "craft", file: "jug.fettle" })).toContain("nothing to copy");
  expect(begun(friends, { kind: "craft", file: "gone.fettle" })).toContain("nothing to copy");
  expect(begun(friends, { kind: "usual", columns: 99, rows: 20 })).toContain("at most 64 x 32");
  expect(begun(friends, { kind: "usual", columns: Number.NaN, rows: 20 })).toContain("whole columns and rows");
  const large = { ...friends, files: { "jug.fettle": 'craft "Jug"\nosd\n  grid 200 x 90\n' } };
  expect(begun(large, { kind: "usual", columns: 30, rows: 16 })).toBe(
    "The OSD's grid is 200 x 90, line 3, and no viewer has more than 64 x 32: correct that line, then begin the page.",
  );
  expect(offersFor(large)).toBe("nothing");
  const full = { ...friends, files: { "jug.fettle": 'craft "Jug"\nosd\n  grid pal\n  amps at 1, 1\n' } };
  expect(begun(full, { kind: "usual", columns: 30, rows: 16 })).toContain("shows something already");
});

test("drawn for a layer it begins there, after a question where other craft use it", () => {
  const files = {
    "jug.fettle": 'craft "Jug"\nuse "wide.fettle"\n',
    "mug.fettle": 'craft "Mug"\nuse "wide.fettle"\n',
    "wide.fettle": 'layer "Wide"\n',
  };
  const from = { kind: "usual", columns: 53, rows: 20 } as const;
  const asked = (texts: Texts, where: "there" | "override" | null) =>
    osdEditOf(core.at(memoryFiles(texts)), "wide.fettle", { page: "osd", where, gesture: { kind: "begin", from } });
  expect(asked(files, null)).toEqual({ kind: "choose", layer: "Wide", sharedWith: ["Mug"] });
  expect(asked(files, "there")).toMatchObject({ files: [{ file: "wide.fettle" }] });
  expect(asked(files, "override")).toMatchObject({ files: [{ file: "jug.fettle" }] });
  const { "mug.fettle": _, ...alone } = files;
  expect(asked(alone, null)).toMatchObject({ kind: "edits", files: [{ file: "wide.fettle" }] });
});
