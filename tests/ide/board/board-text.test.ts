/** A board's text in the editor: its states, its lines in words, the script and the offer that it becomes, and what is to be known of a text that is written. */
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { dialectOf } from "../../../shared/dialect/dialects.ts";
import { writeBoard } from "../../../shared/dialect/write/write-board.ts";
import { offerOfBoard } from "../../../shared/ide/board/board-offer.ts";
import { boardScript } from "../../../shared/ide/board/board-script.ts";
import { leadsTo, lineWords, saidIn } from "../../../shared/ide/board/line-words.ts";
import { boardNames } from "../../../shared/ide/board/names.ts";
import { lineCount, remarksOn } from "../../../shared/ide/board/remarks.ts";
import { boardStates } from "../../../shared/ide/board/states.ts";
import { reviewOf } from "../../../shared/ide/review/review.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { finish } from "../../../shared/text/steps.ts";

const TIDE = `dialect "Tide"

text
  known-by  "tide table"
  comment   "~"

codes
  tide  number 0 to 250 each 0.02 V/cell
  gate  number 1 to 12 from ch0

pack
  "bell at {w:tide}, ashore at {l:tide}"  warn-at {w}
  "bell at {w}, ashore at {l}"            land-at {l}
  "{c:100 to 9000} buckets"               capacity {c} mAh

modes
  "flag {#:0 to 3} sail while gate {c:gate=1} stands {a=0} to {b=0}"  arm when {c} in {a} us to {b} us
`;
const OTHER = `dialect "Ebb"\n\ntext\n  known-by  "second printing"\n`;
const TEXT = `tide table, first printing
~ by Wren
bell at 180, ashore at 165
20000 buckets
flag 0 sail while gate 5 stands 1500 to 2100
the gull sleeps
the crew sings
`;
const WHEEL = `handset "Wheel"\n\ncontrols\n  TL  switch  ch5  up 1000 us  down 2000 us\n`;
const JUG = `craft "Jug"

use "wheel.fettle"

board
  dialect  "tide.fettle"
  text     "boards/jug.txt"

pack
  chemistry  lipo
  capacity   1305.5 mAh
  warn-at    3.5 V/cell
  land-at    3.3 V/cell

modes
  arm  when TL is down

osd
  grid        30 x 16
  pack-volts  at right-6, bottom-1
`;
const files = { "/shed/tide.fettle": TIDE, "/shed/wheel.fettle": WHEEL, "/shed/jug.fettle": JUG };
const FILE = "/shed/boards/jug.txt";

function shed(more: Record<string, string> = {}) {
  return makeCore(makeCatalogue()).at(memoryFiles({ ...files, ...more }));
}
const workspace = shed();
const dialect = dialectOf(workspace, "/shed/tide.fettle")!;
const jug = workspace.craft("/shed/jug.fettle")!;

describe("the states of a text", () => {
  test("each line has one, and they are counted", () => {
    const states = boardStates(workspace, FILE, TEXT, null);
    if (states.kind !== "read") throw new Error(states.kind);
    expect(states.lines.map(({ state }) => state)).toEqual([
      ...["kept", "idle", "read", "odd", "read", "kept", "kept"],
    ]);
    expect(states.counts).toEqual({ read: 2, odd: 1, kept: 3, idle: 1 });
    expect(states.craft.map(({ name }) => name)).toEqual(["Jug"]);
  });

  test("the chosen dialect comes before the craft's, that before the one that knows the text; of two one is chosen", () => {
    const both = `${TEXT}second printing\n`;
    const more = shed({ "/shed/ebb.fettle": OTHER });
    const name = (file: string, text: string, chosen: string | null) => {
      const states = boardStates(more, file, text, chosen);
      if (states.kind === "read") return states.dialect.name;
      return states.kind === "several" ? states.dialects.map((each) => each.name).join(" or ") : "none";
    };
    expect(name(FILE, both, "/shed/ebb.fettle")).toBe("Ebb");
    expect(name(FILE, both, "/shed/gone.fettle")).toBe("Tide");
    expect(name(FILE, "no greeting\n", null)).toBe("Tide");
    expect(name("/shed/other.txt", "second printing\n", null)).toBe("Ebb");
    expect(name("/shed/other.txt", both, null)).toBe("Ebb or Tide");
    expect(name("/shed/other.txt", "no greeting\n", null)).toBe("none");
  });
});

describe("a line in words", () => {
  const links = {
    line: ({ file, line }: { file: string; line: number }) => `${file}#${line + 1}`,
    page: (kind: string, name: string) => `page:${kind}/${name}`,
  };
  const states = boardStates(workspace, FILE, TEXT, null);
  const lines = states.kind === "read" ? states.lines : [];
  const words = (line: number) => lineWords(workspace, dialect.file, lines[line]!, TEXT.split("\n")[line]!, links);

  test("says our names, what each piece means, and which lines of the dialect read it", () => {
    const said = words(2);
    expect(said).toContain("`pack warn-at 3.6 V/cell`, `pack land-at 3.3 V/cell`");
    expect(said).toContain("`180` is `3.6 V/cell`");
    expect(said).toContain("**pack.land-at** — ");
    expect(said).toContain("[Explain pack.warn-at](page:setting/pack.warn-at)");
    expect(said).toContain("[line 12 of Tide](/shed/tide.fettle#12)");
    expect(words(4)).toContain("**arm** — ");
  });

  test("says why a line is odd, that one is kept, and that one says nothing", () => {
    expect(words(3)).toContain("**Odd**");
    expect(words(3)).toContain("20000");
    expect(words(5)).toMatch(/^\*\*Kept\*\*/);
    expect(words(1)).toMatch(/^Says nothing/);
  });

  test("leads to its facts, then to the craft's lines of the same names", () => {
    expect(leadsTo(workspace, dialect.file, lines[2]!, [jug])).toEqual([
      { file: "/shed/tide.fettle", line: 11 },
      { file: "/shed/tide.fettle", line: 12 },
      { file: "/shed/jug.fettle", line: 11 },
      { file: "/shed/jug.fettle", line: 12 },
    ]);
    expect(leadsTo(workspace, dialect.file, lines[4]!, [jug]).at(-1)).toEqual({ file: "/shed/jug.fettle", line: 15 });
  });

  test("knows the section of a named pack", () => {
    expect(saidIn(makeCatalogue(), 'pack "Old red" cells 6')).toMatchObject({ section: "pack/Old red", name: "cells" });
    expect(saidIn(makeCatalogue(), "osd amps at 1, 2")).toMatchObject({ kind: "element", value: "at 1, 2" });
  });
});

test("names are found by plain words, with what the craft says; an element has its cells and no anchors, a condition its channel", () => {
  const [first] = boardNames(workspace, "low battery warning", jug);
  expect(first).toMatchObject({ section: "pack", name: "warn-at", value: "3.5 V/cell" });
  expect(boardNames(workspace, "pack-volts", jug)[0]).toMatchObject({ section: "osd", value: "at 19, 14" });
  expect(boardNames(workspace, "arm", jug)[0]).toMatchObject({
    section: "modes",
    value: "when ch5 in 1500 us to 2000 us",
  });
  expect(boardNames(workspace, "", jug)[0]?.value).not.toBeNull();
  expect(boardNames(workspace, "", null).every(({ value }) => value === null)).toBe(true);
});

test("the script beside a text names its handset, its dialect and the text, and keeps what nobody understood", () => {
  const place = { file: "/shed/boards/jug.fettle", textFile: FILE };
  const { text, counts } = finish(boardScript(workspace, dialect, TEXT, workspace.script("/shed/wheel.fettle"), place));
  expect(text).toBe(`craft "Jug"

use "../wheel.fettle"

board
  dialect  "../tide.fettle"
  text     "jug.txt"

pack
  warn-at  3.6 V/cell
  land-at  3.3 V/cell

modes
  arm  when TL is down

verbatim "Tide"
  |tide table, first printing
  |~ by Wren
  |20000 buckets
  |the gull sleeps
  |the crew sings
`);
  expect(counts.read).toBe(2);
});

test("a text is reviewed against a craft: what differs as rows, neighbours that are kept together, what is odd with its reason", () => {
  const offered = offerOfBoard(workspace, dialect, TEXT, "jug.txt", jug);
  if (offered.kind !== "offer") throw new Error(offered.kind);
  expect(offered.offer.unknown.map(({ lines }) => lines)).toEqual([[0], [3], [5, 6]]);
  expect(offered.offer.unknown[1]!.reason).toContain("20000");
  const query = { purpose: "review", chosen: null, mapping: {}, into: null, dialect: "Tide" } as const;
  const review = reviewOf(workspace, jug, offered.offer, query);
  const row = (what: string) => review.rows.find((each) => each.what === what);
  expect(row("pack.warn-at")).toMatchObject({ mine: "3.5 V/cell", theirs: "3.6 V/cell", lines: [2], chosen: true });
  expect(row("modes.arm")).toMatchObject({ class: "same" });
  expect(review.rows.filter(({ class: of }) => of === "unknown")).toHaveLength(3);
  const none = offerOfBoard(workspace, dialect, "nothing here\n", "jug.txt", jug);
  expect(none.kind).toBe("no-script");
});

test("what is to be known of a written text leads to the craft's lines, the gravest first", () => {
  const written = writeBoard(dialect, jug, workspace, TEXT);
  const remarks = remarksOn(written, jug, workspace.catalogue);
  expect(written.changes).toContain("bell at 175, ashore at 165\n");
  expect(lineCount(written.changes)).toBe(written.changes.split("\n").length - 1);
  const rounded = remarks.find(({ kind }) => kind === "rounded");
  expect(rounded).toMatchObject({ what: "pack capacity", at: { file: "/shed/jug.fettle", line: 10 } });
  const order = ["cannot", "by-hand", "rounded", "curve", "filled", "unsaid", "only-base", "note"];
  const places = remarks.map(({ kind }) => order.indexOf(kind));
  expect(places).toEqual(places.toSorted((a, b) => a - b));
});
