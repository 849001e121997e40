import { isMapped, OWN_SECTIONS } from "../../dialect/sections.ts";
import type { Workspace } from "../../model/workspace.ts";
import { parseLine } from "../../syntax/parse-line.ts";
import { factCommentStart } from "../../syntax/scanner.ts";
import type { CursorContext } from "../context/cursor-context.ts";
import { factLineIn, sectionOfFact } from "../dialect-files/fact-line.ts";
import { LINE_WORDS, TEXT_WORDS } from "../dialect-files/words.ts";
import type { Offer } from "./completion-item.ts";
import { offerCode } from "./dialect-codes.ts";
import { type InDialect, wordOffer } from "./dialect-context.ts";
import { offerRightSide } from "./dialect-right.ts";
import { offerSlot } from "./dialect-slots.ts";

/** Sections of a dialect: its own first, then those of a craft. */
export function offerDialectSections({ catalogue }: Workspace, { script, line }: CursorContext): Offer[] {
  const written = new Set(script.tree.sections.filter((each) => each.line !== line).map(({ name }) => name));
  const own = OWN_SECTIONS.map(
    (name): Offer => ({
      label: name,
      kind: "section",
      detail: written.has(name) ? "written already: repeated sections join" : OWN[name].detail,
      text: `${name}\n  ${written.has(name) ? "$0" : OWN[name].text}`,
      snippet: true,
      group: written.has(name) ? 7 : 1,
      doc: { of: "text", text: OWN[name].doc },
      retrigger: true,
    }),
  );
  const mapped = catalogue.sections.filter(isMapped).map(
    (spec): Offer => ({
      label: spec.name,
      kind: "section",
      detail: spec.what,
      text: spec.like ? `${spec.name}\n  under "$1"\n  $0` : `${spec.name}\n  "$1"  $0`,
      snippet: true,
      group: written.has(spec.name) ? 7 : 2,
      doc: { of: "section", name: spec.name },
    }),
  );
  return [...own, ...mapped];
}

const OWN = {
  text: {
    detail: "how the board's text is built as a whole",
    text: 'known-by  "$1"\n  $0',
    doc: "Comments, headings, what is sent first and last, how a text is recognised.",
  },
  codes: {
    detail: "how the board spells values",
    text: "$0",
    doc: "Numbers in steps, words, letters, lists, bits, sets and text. A slot names a code as `{w:volts}`.",
  },
} as const;

/** What may be written on an indented line; none inside board text but for slots. */
export function offerInDialect(workspace: Workspace, cursor: CursorContext, before: string): Offer[] {
  const section = sectionOfFact(cursor.script.tree, cursor.line);
  if (section === null || factCommentStart(before) >= 0) return [];
  const factOf = (text: string) => factLineIn(section, parseLine(text, "dialect"), workspace.catalogue);
  const at: InDialect = { workspace, cursor, section, before, fact: factOf(before), whole: factOf(cursor.text) };
  const slot = offerSlot(at);
  if (slot) return slot;
  const open = at.fact?.texts.at(-1);
  if (open && !open.closed) return isHeadingText(at) ? offerHeadings(at) : [];
  if (section === "text") return offerTextFact(at);
  if (section === "codes") return offerCode(at);
  if (/^\s+[a-z-]*$/.test(before)) return offerLineBegin(at);
  return offerRightSide(at);
}

function isHeadingText({ fact }: InDialect): boolean {
  return fact?.kind === "under";
}

/** The board text of headings that are known, for an `under`. */
function offerHeadings({ cursor }: InDialect): Offer[] {
  const { tree } = cursor.script;
  const texts = tree.sections
    .flatMap(({ entries }) => entries)
    .filter((line) => line !== cursor.line)
    .flatMap((line) => /^\s+(?:heading|under)\s+"((?:[^"\\]|\\.)*)"/.exec(tree.lines[line]!.text)?.[1] ?? []);
  return [...new Set(texts)].map((label): Offer => ({ label, kind: "value", detail: "a heading of the board's text" }));
}

function offerTextFact({ before, cursor }: InDialect): Offer[] {
  if (/^\s+[a-z-]*$/.test(before)) {
    const { tree } = cursor.script;
    const said = new Set(
      tree.sections
        .filter(({ name }) => name === "text")
        .flatMap(({ entries }) =>
          entries.filter((line) => line !== cursor.line).map((line) => tree.lines[line]!.text.trim().split(/\s/)[0]),
        ),
    );
    return TEXT_WORDS.map((word) => wordOffer(word, said.has(word.word) && ONCE.has(word.word) ? 6 : 1));
  }
  const choice = (words: readonly (readonly [string, string])[]) =>
    words.map(([label, detail]): Offer => ({ label, kind: "choice", detail, group: 1 }));
  if (/^\s+blanks\s+\S*$/.test(before))
    return choice([
      ["loose", "one blank or more; none counts at the ends"],
      ["exact", "every blank counts"],
    ]);
  if (/^\s+ends\s+\S*$/.test(before))
    return choice([
      ["lf", "as most systems end a line"],
      ["crlf", "carriage return and line feed"],
    ]);
  return [];
}

const ONCE: ReadonlySet<string> = new Set(["blanks", "ends", "longest"]);

/** A line of a section begins with board text, or with one of a few words. */
function offerLineBegin({ workspace, section }: InDialect): Offer[] {
  const spec = workspace.catalogue.section(section);
  if (!spec || !isMapped(spec)) return [];
  const example = EXAMPLES[spec.holds] ?? `"\${1:board text} {\${2:v}}"  \${3:name} {\${2:v}}`;
  return [
    {
      label: '"…"  what it means',
      kind: "snippet",
      detail: "a line of the board, and the entry that it means",
      text: example,
      snippet: true,
      group: 0,
      words: ["line", "board text"],
      doc: {
        of: "text",
        text: "Left the board's text, with slots where lines differ: `{v}`. Right the entry, with the same slots.",
      },
    },
    ...LINE_WORDS.map((word) => wordOffer(word, 3)),
  ];
}

const EXAMPLES: Readonly<Record<string, string>> = {
  modes: `"\${1:row} {#:0 to 9} {m:\${2:does}} {c:\${3:channel}} {a} {b}"  {m} when {c} in {a} us to {b} us`,
  outputs: `"\${1:row} {c:\${2:channel}} {a} {b}"  \${3:nose-light} when {c} in {a} us to {b} us`,
  places: `"\${1:text} {e:\${2:element}} {x} {y}"  {e} at {x}, {y}`,
  follows: `"\${1:turn} {s:\${2:setting}} {d:\${3:channel}} {a} {b}"  {s} follows {d} from {a} to {b}`,
};
