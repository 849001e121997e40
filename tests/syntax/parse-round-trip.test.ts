/** For any text: the parser never throws, and printing the tree gives the text back. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import { findingsOf } from "../../shared/rules/engine/engine.ts";
import { parse, print } from "../../shared/syntax/parse.ts";

const core = makeCore(makeCatalogue());

/** Every stage of understanding a text; each must come to an end without throwing. */
function understand(text: string): void {
  const workspace = core.at(memoryFiles({ "jug.fettle": text, "layer.fettle": text.replace("craft", "layer") }));
  const odd = findingsOf(workspace, "jug.fettle").filter(({ message, range: { start, end } }) => {
    return message === "" || start.character < 0 || end.line < start.line || end.character < start.character;
  });
  expect(odd).toEqual([]);
  const script = workspace.script("jug.fettle")!;
  for (let line = 0; line < script.tree.lines.length; line++) script.noteOf(line);
}

const words = [
  "craft",
  "layer",
  "handset",
  '"Jug"',
  "edition",
  "1",
  "2",
  "use",
  '"wheel.fettle"',
  "pack",
  "modes",
  "osd",
  "controls",
  "verbatim",
  "adjust",
  "filters",
  "gains",
  "|",
  "drop",
  "all",
  "cells",
  "grid",
  "53 x 20",
  "roll",
  "p",
  "0.9",
  "notch",
  "arm",
  "level",
  "when",
  "TL",
  "is",
  "not",
  "or",
  "and",
  "(",
  ")",
  "above",
  "below",
  "in",
  "to",
  "1500",
  "us",
  "V/cell",
  "ch5",
  "ch9",
  "switch",
  "dial",
  "up",
  "down",
  "rests",
  "lies",
  "left",
  "shoulder",
  "follows",
  "from",
  "at",
  "left",
  "right-2",
  "centre",
  "+",
  "-",
  ",",
  "#",
  "allow",
  "syntax:",
  '"',
  "\\",
  "\t",
  "  ",
  "<<<<<<<",
  "=======",
  "|||||||",
  ">>>>>>>",
  "9".repeat(400),
  "\u00b5s",
  "\u00e9",
  "\ud800",
  "\0",
  "always",
  "16:9",
  "2026-05-01",
  "red",
  '"#ff8800"',
  "constructor",
  "__proto__",
];
const line = fc
  .tuple(
    fc.constantFrom("", "  ", "\t", " "),
    fc.array(fc.constantFrom(...words), { maxLength: 9 }),
    fc.constantFrom(" ", "", "  "),
  )
  .map(([indent, said, gap]) => indent + said.join(gap));
const script = fc
  .tuple(
    fc.constantFrom("", "\uFEFF"),
    fc.array(fc.tuple(line, fc.constantFrom("\n", "\r\n", "\r")), { maxLength: 25 }),
    line,
  )
  .map(([bom, lines, last]) => bom + lines.map(([said, end]) => said + end).join("") + last);

test("any text comes back", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary", maxLength: 400 }), (text) => void expect(print(parse(text))).toBe(text)),
    { numRuns: 600 },
  );
});

test("any text like a script comes back", () => {
  fc.assert(
    fc.property(script, (text) => void expect(print(parse(text))).toBe(text)),
    { numRuns: 800 },
  );
});

test("any text is understood to its end", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary", maxLength: 200 }), (text) => void understand(text)),
    { numRuns: 300 },
  );
});

test("any text like a script is understood to its end", () => {
  fc.assert(
    fc.property(script, (text) => void understand(`craft "Jug"\n${text}`)),
    { numRuns: 600 },
  );
});

test("any value of any section is understood to its end", () => {
  const section = fc.constantFrom(...core.catalogue.sections);
  const value = fc.array(fc.constantFrom(...words), { maxLength: 9 }).map((said) => said.join(" "));
  fc.assert(
    fc.property(section, fc.nat(), value, ({ name }, pick, said) => {
      const heads = [
        ...core.catalogue.settingsOf(name),
        ...(name === "modes" ? core.catalogue.modes : []),
        ...(name.startsWith("osd") ? core.catalogue.elements : []),
        { name: "TL" },
        { name: "cut" },
      ];
      understand(`craft "Jug"\n${name}\n  ${heads[pick % heads.length]!.name} ${said}\n`);
    }),
    { numRuns: 800 },
  );
});

test.each([
  ["nothing", ""],
  ["a byte-order mark alone", "\uFEFF"],
  ["1 MB on one line", `craft "${"x".repeat(1 << 20)}`],
  ["1 MB of words in an entry", `craft "Jug"\nmodes\n  arm when ${"TL is up or ".repeat(90_000)}TL is up\n`],
  ["1 MB of brackets", `craft "Jug"\nmodes\n  arm when ${"(".repeat(1 << 20)}\n`],
  ["1 MB of denials", `craft "Jug"\nmodes\n  arm when ${"not ".repeat(1 << 18)}TL is up\n`],
  ["1 MB of quotes", `craft "Jug"\nboard\n  note ${'"'.repeat(1 << 20)}\n`],
  ["1 MB of backslashes", `craft "Jug"\nboard\n  note "${"\\".repeat(1 << 20)}\n`],
  ["1 MB of one name", `craft "Jug"\npack\n  ${"a".repeat(1 << 20)} 4\n`],
  ["1 MB of one choice", `craft "Jug"\npack\n  chemistry ${"a".repeat(1 << 20)}\n`],
  ["1 MB of one control", `craft "Jug"\nuse "wheel.fettle"\nmodes\n  arm when ${"A".repeat(1 << 20)} is up\n`],
  ["1 MB of spaces", `craft "Jug"\npack\n${" ".repeat(1 << 20)}cells 4\n`],
  ["150,000 entries that say one thing", `craft "Jug"\npack\n${"  cells 4\n".repeat(150_000)}`],
  ["100,000 lines of one mode", `craft "Jug"\nmodes\n${"  arm when always\n".repeat(100_000)}`],
  ["100,000 conflict markers", `craft "Jug"\n${"<<<<<<< ours\n".repeat(100_000)}`],
  ["100,000 lines of one filter", `craft "Jug"\nfilters\n${"  notch at 200 Hz width 20 Hz\n".repeat(100_000)}`],
  ["100,000 uses of itself", `craft "Jug"\n${'use "jug.fettle"\n'.repeat(100_000)}`],
  ["a place far off the grid", `craft "Jug"\nosd\n  grid pal\n  sight at ${"9".repeat(400)}, left+${"9".repeat(30)}\n`],
])("%s is understood, and comes back", (_, text) => {
  expect(print(parse(text)) === text).toBe(true);
  understand(text);
});
