/** The grammar as an editor applies it: text, and under each word the scope that it has. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { beforeAll, expect, test } from "vitest";
import type { IGrammar } from "vscode-textmate";

const require = createRequire(import.meta.url);
const { Registry, INITIAL, parseRawGrammar } = require("vscode-textmate") as typeof import("vscode-textmate");
const oniguruma = require("vscode-oniguruma") as typeof import("vscode-oniguruma");

let grammar: IGrammar;
beforeAll(async () => {
  await oniguruma.loadWASM(readFileSync(require.resolve("vscode-oniguruma/release/onig.wasm")));
  const registry = new Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async () => {
      const path = "grammars/fettle.tmLanguage.json";
      return parseRawGrammar(readFileSync(path, "utf8"), path);
    },
  });
  grammar = (await registry.loadGrammar("source.fettle"))!;
});

interface Piece {
  readonly start: number;
  readonly end: number;
  readonly scope: string;
}

function scopesOf(text: string): { line: string; pieces: Piece[] }[] {
  let stack = INITIAL;
  return text.split("\n").map((line) => {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, stack);
    stack = ruleStack;
    const pieces: Piece[] = [];
    for (const { startIndex: start, endIndex, scopes } of tokens) {
      const scope = scopes.at(-1)!.replace(/\.fettle$/, "");
      const end = Math.min(endIndex, line.length);
      const last = pieces.at(-1);
      // The delimiters of a string are tokens of their own under the same scope.
      if (last?.scope === scope) pieces[pieces.length - 1] = { ...last, end };
      else pieces.push({ start, end, scope });
    }
    return { line, pieces };
  });
}

/** Lines of `^^^ scope` under a line of text say what each marked word is. */
function check(marked: string): void {
  const rows = marked.replace(/^\n/, "").split("\n");
  const isMark = (row: string) => /^\s*\^+ \S+$/.test(row);
  const text = rows.filter((row) => !isMark(row));
  const scopes = scopesOf(text.join("\n"));
  const shown: string[] = [];
  let at = -1;
  for (const row of rows) {
    if (!isMark(row)) {
      at++;
      shown.push(row);
      continue;
    }
    const start = row.indexOf("^");
    const end = row.lastIndexOf("^") + 1;
    const inside = scopes[at]!.pieces.filter((piece) => piece.start < end && piece.end > start);
    const whole = inside.length === 1 && inside[0]!.start === start && inside[0]!.end === end;
    const scope = whole
      ? inside[0]!.scope
      : inside.map((piece) => `${piece.start}-${piece.end}:${piece.scope}`).join(" ");
    shown.push(`${" ".repeat(start)}${"^".repeat(end - start)} ${scope}`);
  }
  expect(shown.join("\n")).toBe(rows.join("\n"));
}

test("headers, uses and sections", () => {
  check(`
craft "Tankard" edition 1
^^^^^ keyword.control.header
      ^^^^^^^^^ string.quoted.double.title
                ^^^^^^^ keyword.control.edition
                        ^ constant.numeric
use "handsets/wheel.fettle"
^^^ keyword.control.use
    ^^^^^^^^^^^^^^^^^^^^^^^ string.quoted.double.path
pack "long"
^^^^ entity.name.section
     ^^^^^^ string.quoted.double.title
teapot
^^^^^^ entity.name.section.unknown`);
});

test("settings with their values and units", () => {
  check(`
pack
  chemistry  lipo
  ^^^^^^^^^ variable.other.property
             ^^^^ constant.language.choice
  capacity   1100 mAh
  ^^^^^^^^ variable.other.property
             ^^^^ constant.numeric
                  ^^^ keyword.other.unit
  warn-at    3.5 V/cell  # when the wind blows
             ^^^ constant.numeric
                 ^^^^^^ keyword.other.unit
  wran-at    3.5 V/cell
  ^^^^^^^ variable.other.name
  bought-on  2026-03-01
             ^^^^^^^^^^ constant.numeric.date
sensors
  accelerometer  yes
                 ^^^ constant.language.boolean`);
});

test("modes and their conditions", () => {
  check(`
modes
  arm       when TL is down and not (KN above 1500 us)
  ^^^ entity.name.function.mode
            ^^^^ keyword.operator.word
                 ^^ variable.other.constant.control
                    ^^ keyword.operator.word
                       ^^^^ constant.language.position
                            ^^^ keyword.operator.word
                                     ^^ variable.other.constant.control
                                        ^^^^^ keyword.operator.word
  recorder  when arm or ch12 below 1300 us
                 ^^^ entity.name.function.mode
                        ^^^^ variable.language.channel
  drop all
  ^^^^ keyword.control.drop
       ^^^ keyword.control.drop`);
});

test("elements and places of the OSD", () => {
  check(`
osd
  grid        53 x 20
  ^^^^ variable.other.property
              ^^^^^^^ constant.numeric.size
  picture     16:9
              ^^^^ constant.language.choice
  pack-volts  at left+3, bottom-2
  ^^^^^^^^^^ variable.other.property.element
              ^^ keyword.operator.word
                 ^^^^ constant.language.anchor
                     ^ keyword.operator.arithmetic
                      ^ constant.numeric
                         ^^^^^^ constant.language.anchor`);
});

test("the controls of a handset", () => {
  check(`
controls
  TL  switch  ch5  up 1000 us  down 2000 us  rests down
  ^^ variable.other.constant.control
      ^^^^^^ storage.type.control
              ^^^ variable.language.channel
                   ^^ constant.language.position
                      ^^^^ constant.numeric
                           ^^ keyword.other.unit
                               ^^^^ constant.language.position
                                             ^^^^^ keyword.operator.word
                                                   ^^^^ constant.language.position
  KN  dial    ch9  1000 us to 2000 us  lies left shoulder
      ^^^^ storage.type.control
                           ^^ keyword.operator.word
                                       ^^^^ keyword.operator.word
                                            ^^^^ constant.language.choice
                                                 ^^^^^^^^ constant.language.choice
  FL  switch  ch7  left 1000 us  right 2000 us  lies middle
                   ^^^^ constant.language.position
                                                ^^^^ keyword.operator.word
                                                     ^^^^^^ constant.language.choice`);
});

test("comments end no section, and an accepted finding stands out in one", () => {
  check(`
modes
# at the first column
^^^^^^^^^^^^^^^^^^^^^ comment.line.number-sign
  # allow mode-clash: on purpose
    ^^^^^ keyword.control.allow
          ^^^^^^^^^^ entity.name.tag.code
  # allow mode-clash
    ^^^^^ keyword.control.allow
  # allow time to settle
  arm  when always
  ^^^ entity.name.function.mode
            ^^^^^^ keyword.operator.word`);
});

test("kept lines are neither strings nor comments within", () => {
  check(`
verbatim "kiln-text"
^^^^^^^^ entity.name.section
         ^^^^^^^^^^^ string.quoted.double.title
  | set x = "a # b
  ^ punctuation.definition.string.begin
   ^^^^^^^^^^^^^^^ string.unquoted.kept
osd
^^^ entity.name.section`);
});

test("an unclosed string ends with its line", () => {
  check(`
frame
  owner  "Ama
         ^^^^ string.quoted.double
modes
^^^^^ entity.name.section`);
});

test("a dialect: board text with slots, codes, our names", () => {
  check(`
dialect "Kiln"
^^^^^^^ keyword.control.header
text
^^^^ entity.name.section
  comment  ";"
  ^^^^^^^ keyword.control.fact
           ^^^ string.quoted.double.board
codes
^^^^^ entity.name.section
  glaze  number 0 to 220 each 0.02 V/cell
  ^^^^^ entity.name.type.code
         ^^^^^^ keyword.control.code
                         ^^^^ keyword.operator.word
                                   ^^^^^^ keyword.other.unit
pack
  "falls at {w:glaze}"  warn-at {w}  # why
            ^^ variable.parameter.slot
               ^^^^^ entity.name.type.code
                        ^^^^^^^ variable.other.property
                                ^^^ variable.parameter.slot
                                     ^^^^^ comment.line.number-sign
  'feet # {h}'  hole-spacing {h} mm
  ^^^^^^^^ string.quoted.single.board
                ^^^^^^^^^^^^ variable.other.property
                                 ^^ keyword.other.unit
  under "firing 1"
  ^^^^^ keyword.control.fact
  cannot all
  ^^^^^^ keyword.control.fact
`);
});
