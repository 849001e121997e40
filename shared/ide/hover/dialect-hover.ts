/** Hovers in a dialect: what a line reads, how a code spells, what a slot holds, and our names as everywhere. */
import type { ValueType } from "../../catalogue/specs.ts";
import type { Code, Dialect, Meaning } from "../../dialect/dialect.ts";
import { dialectOf } from "../../dialect/dialects.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Cols, Position } from "../../syntax/span.ts";
import { plainText } from "../../text/plain-text.ts";
import { coversColumn } from "../context/cursor-context.ts";
import { describeName, describeSection } from "../context/describe.ts";
import { formatCount } from "../context/format.ts";
import { codeBlock, codeSpan, list, paragraphs } from "../context/markdown.ts";
import { settingsMeant, usesOfCode } from "../dialect-files/code-uses.ts";
import { exampleOf } from "../dialect-files/examples.ts";
import { type FactLine, factLineAt } from "../dialect-files/fact-line.ts";
import type { SlotUse } from "../dialect-files/slot-uses.ts";
import { spellingsOf } from "../dialect-files/spellings.ts";
import { CODE_WORDS, type DialectWord, dialectWord } from "../dialect-files/words.ts";
import type { PageName } from "../reference/page-names.ts";
import { type LinkTargets, pageLink } from "./links.ts";
import { whatText } from "./what-text.ts";

/** The words of a hover, and the columns that they are about. */
export interface FactHover {
  readonly markdown: string;
  readonly at: Cols;
}

/** What a hover is made of. */
interface At {
  readonly workspace: Workspace;
  readonly dialect: Dialect;
  readonly fact: FactLine;
  readonly line: number;
  readonly text: string;
  readonly links: LinkTargets;
}

/** The hover of a fact or of a section's name; null where nothing is to be told. */
export function hoverInDialect(
  workspace: Workspace,
  script: Script,
  at: Position,
  links: LinkTargets,
): FactHover | null {
  const dialect = dialectOf(workspace, script.file);
  const line = script.tree.lines[at.line];
  if (!dialect || !line) return null;
  const hover = (markdown: string | null, at: Cols): FactHover | null => (markdown ? { markdown, at } : null);
  if (line.node.kind === "section") {
    const { name } = line.node;
    return coversColumn(name, at.character) ? hover(hoverDialectSection(workspace, name.text, links), name) : null;
  }
  const fact = factLineAt(script.tree, at.line, workspace.catalogue);
  if (!fact) return null;
  const here: At = { workspace, dialect, fact, line: at.line, text: line.text, links };
  const slot = fact.slots.find((each) => at.character > each.start && at.character < each.end);
  if (slot) return hover(hoverSlot(here, slot), slot);
  const piece = fact.pieces.findLast((each) => coversColumn(each, at.character));
  if (!piece) return null;
  const word = line.text.slice(piece.start, piece.end);
  switch (piece.kind) {
    case "left": {
      const whole = fact.texts.find((each) => coversColumn(each, at.character));
      return fact.kind === "line" && whole ? hover(hoverLeft(here), whole) : hover(hoverFactText(here), whole ?? piece);
    }
    case "code":
      return hover(hoverCode(here, word), piece);
    case "keyword":
      return hover(hoverWord(here, word), piece);
    case "setting":
    case "mode":
    case "element":
      return hover(hoverOurs(here, word, piece.kind), piece);
    case "choice":
      return fact.kind === "code" ? hover(hoverOursInCode(here, word), piece) : null;
    default:
      return null;
  }
}

const OWN_SECTIONS: Readonly<Record<string, { readonly what: string; readonly page: string }>> = {
  text: {
    what: "How the board's text is built as a whole: comments, headings, what is sent first and last.",
    page: "dialect",
  },
  codes: {
    what: "How the board spells values: numbers in steps, words, bits. Slots name a code: `{w:volts}`.",
    page: "dialect-codes",
  },
};

function hoverDialectSection(workspace: Workspace, name: string, links: LinkTargets): string | null {
  const own = OWN_SECTIONS[name];
  if (own) return paragraphs(`**${name}** — ${own.what}`, explain(own.page, links));
  const spec = workspace.catalogue.section(name);
  if (!spec) return null;
  return paragraphs(
    whatText(describeSection(spec), { kind: "section", name }, links),
    "Here each line says what the board writes, and what it means in this section.",
  );
}

function explain(name: string, links: LinkTargets): string {
  const page: PageName = { kind: "word", name };
  return pageLink(page, links) ?? "";
}

/** What a line reads: an example and what becomes of it, then the slots. */
function hoverLeft(at: At): string | null {
  const { dialect, line, links } = at;
  const meanings = dialect.meanings.filter((each) => each.line === line);
  const [meaning] = meanings;
  if (!meaning) return paragraphs("This line has a fault, so it reads nothing yet.", explain("dialect-lines", links));
  return paragraphs(
    exampleText(at, meaning),
    togetherText(meaning),
    besideText(meaning),
    explain("dialect-lines", links),
  );
}

function exampleText({ workspace, dialect }: At, meaning: Meaning): string {
  const example = exampleOf(dialect, meaning, workspace.catalogue);
  if (!example) return "No example was found that this line reads: look at its bounds and codes.";
  const says = example.says.length === 0 ? "nothing is set" : example.says.join("\n");
  return paragraphs(
    "The board writes, for example",
    codeBlock(example.board.join("\n")),
    "which means",
    codeBlock(says),
  );
}

function togetherText({ lefts, line }: Meaning): string {
  const others = lefts[0]?.meanings.filter((each) => each.line !== line) ?? [];
  return [
    ...(lefts.length > 1 ? [`${lefts.length} lines of the board mean this entry together, in any order.`] : []),
    ...(others.length > 0
      ? [`The same text means more in ${others.map((each) => `line ${each.line + 1}`).join(", ")}.`]
      : []),
  ].join(" ");
}

function besideText({ lefts }: Meaning): string {
  const beside = [...new Set(lefts.flatMap((left) => left.beside))];
  if (beside.length === 0) return "";
  const names = beside.map((name) => `\`{${name}}\``).join(", ");
  return `${names} ${beside.length === 1 ? "stands" : "stand"} beside: not in the entry. Where the board has anything but the default there, the line is also kept.`;
}

/** A text of the section `text`, or of an `under`. */
function hoverFactText({ fact, text, links }: At): string | null {
  if (!fact.head || (fact.kind !== "text" && fact.kind !== "under")) return null;
  const word = dialectWord(text.slice(fact.head.start, fact.head.end), fact.kind === "text" ? "text" : "line");
  return word && wordText(word, fact.kind === "text" ? "dialect" : "dialect-reading", links);
}

function hoverWord({ fact, text, links }: At, word: string): string | null {
  const kind = fact.kind === "code" ? codeKindOf(fact, text) : null;
  if (fact.kind === "text") return wordOf(word, "text", "dialect", links);
  if (kind === null) return wordOf(word, "line", word === "under" ? "dialect-reading" : "dialect-lines", links);
  return wordOf(word, word === kind ? "kind" : kind, "dialect-codes", links);
}

function wordOf(
  word: string,
  within: Parameters<typeof dialectWord>[1],
  page: string,
  links: LinkTargets,
): string | null {
  const found = dialectWord(word, within);
  return found && wordText(found, page, links);
}

function wordText({ word, what, more }: DialectWord, page: string, links: LinkTargets): string {
  return paragraphs(`**${word}** — ${what}`, more, explain(page, links));
}

/** The kind that a code's line says; null where it is none. */
function codeKindOf({ pieces }: FactLine, text: string): Code["kind"] | null {
  const said = pieces[1] && text.slice(pieces[1].start, pieces[1].end);
  return CODE_WORDS.find(({ word }) => word === said)?.word ?? null;
}

function hoverCode({ dialect, links, text, fact }: At, name: string): string | null {
  const code = dialect.codes.get(name);
  if (!code) {
    const why =
      fact.kind === "code" && text.trimStart().startsWith(name)
        ? "Its line has a fault."
        : "There is none of this name.";
    return paragraphs(`**${name}** — a code. ${why}`, explain("dialect-codes", links));
  }
  return paragraphs(
    `**${name}** — ${codeInWords(code)}`,
    pairsText(code),
    usersText(dialect, code),
    explain("dialect-codes", links),
  );
}

function codeInWords({ kind }: Code): string {
  return `a code: ${CODE_WORDS.find(({ word }) => word === kind)!.what}`;
}

/** What the board writes, and what it means: the same pairs are how a value is written. */
function pairsText(code: Code): string {
  const pairs = spellingsOf(code).map(({ theirs, ours }) => `${codeMarks(theirs)} is ${codeMarks(ours)}`);
  const more = code.kind === "words" ? code.words.length - pairs.length : 0;
  return list([...pairs, ...(more > 0 ? [formatCount(more, "more word")] : [])]);
}

function codeMarks(text: string): string {
  return text === "" ? "nothing" : codeSpan(text);
}

function usersText({ lefts }: Dialect, code: Code): string {
  const count = lefts.reduce(
    (sum, { pattern }) => sum + [...pattern.slots.values()].filter((slot) => slot.code === code).length,
    0,
  );
  return count === 0 ? "No slot names it." : `Named by ${formatCount(count, "slot")}.`;
}

/** What a slot holds: by its code, in whole numbers, or as a script writes it. */
function hoverSlot(at: At, use: SlotUse): string | null {
  const { dialect, line, links } = at;
  const called = `**\`{${use.name.text}}\`**`;
  if (use.name.text === "") return null;
  const patterns = dialect.meanings
    .filter((each) => each.line === line)
    .flatMap(({ lefts }) =>
      lefts.flatMap(({ pattern, under }) => [pattern, ...(under.kind === "heading" ? [under.pattern] : [])]),
    );
  const slot = patterns.map(({ slots }) => slots.get(use.name.text)).find((each) => each !== undefined);
  if (!slot) {
    const code = use.how?.isCode ? dialect.codes.get(use.how.text) : undefined;
    return code
      ? paragraphs(`${called} — ${codeInWords(code)}`, pairsText(code), explain("dialect-lines", links))
      : null;
  }
  const { code, whole } = slot;
  const standsFor =
    slot.name === "#"
      ? `the number of the line, from ${whole?.from ?? 0} to ${whole?.to ?? 0}: reading forgets it, writing chooses it`
      : code
        ? `by the code \`${code.name}\`, ${codeInWords(code).replace("a code: ", "")}`
        : whole
          ? `a whole number from ${whole.from} to ${whole.to}`
          : "as a script writes it, less unit and quotes, which stand on the right";
  const part = use.part && code?.kind === "bits" ? code.parts.find(({ name }) => name === use.part!.text) : undefined;
  const partText = part
    ? `\`${plainText(part.name)}\` is ${part.from === part.to ? `bit ${part.from}` : `bits ${part.from} to ${part.to}`} of it.`
    : "";
  const usual =
    slot.default === null ? "" : `Where nobody says anything, the board has ${codeMarks(slot.default)} there.`;
  return paragraphs(
    `${called} — ${standsFor}.`,
    partText,
    code ? pairsText(code) : "",
    usual,
    explain("dialect-lines", links),
  );
}

/** Our name on the right, as its hover says it in a script. */
function hoverOurs({ workspace, fact, links }: At, name: string, kind: "setting" | "mode" | "element"): string | null {
  const { catalogue } = workspace;
  const section = fact.spec?.name;
  const figure = FIGURES[name];
  if (figure && section === "pack") return paragraphs(`**${name}** — ${figure}`, explain("dialect-lines", links));
  const owner = section !== undefined && fact.spec?.holds !== "follows" ? section : ownerOf(workspace, name);
  const inSection = kind === "mode" ? "modes" : kind === "element" ? "osd" : (owner ?? "");
  const what = describeName(catalogue, inSection, name);
  if (!what) return null;
  const page: PageName = kind === "setting" ? { kind, name: `${inSection}.${name}` } : { kind, name };
  return whatText(what, page, links);
}

/** Our word in a code: a setting, where the code spells its name; else what the value says. */
function hoverOursInCode({ workspace: { catalogue }, dialect, fact, text, links }: At, word: string): string | null {
  const code = fact.head ? text.slice(fact.head.start, fact.head.end) : "";
  for (const { meaning, as } of usesOfCode(dialect, code)) {
    const settings = settingsMeant(meaning, catalogue);
    if (as === "name") {
      const what = settings.some(({ name }) => name === word) ? describeName(catalogue, meaning.section, word) : null;
      if (what)
        return whatText(
          what,
          { kind: "setting", name: `${catalogue.section(meaning.section)?.like ?? meaning.section}.${word}` },
          links,
        );
      continue;
    }
    for (const { types, name } of settings)
      for (const type of types) {
        const choice = wordsOf(type).find((each) => each.word === word);
        if (choice) return paragraphs(`**${word}** — of \`${meaning.section}.${name}\`: ${choice.what}`);
      }
  }
  return null;
}

function wordsOf(type: ValueType): readonly { readonly word: string; readonly what: string }[] {
  if (type.is === "choice") return type.choices;
  if (type.is === "list") return wordsOf(type.of);
  return type.is === "fields" ? type.fields.flatMap((field) => field.types.flatMap(wordsOf)) : [];
}

const FIGURES: Readonly<Record<string, string>> = {
  "divider-ratio":
    "(top + bottom) / bottom of the divider. Read, it gives `divider-top` and `divider-bottom`: with the craft's bottom, else with 1 kohm.",
  "shunt-scale": "shunt × gain, in mohm. Read, it gives `shunt` and `shunt-gain`: with the craft's gain, else with 1.",
};

function ownerOf({ catalogue }: Workspace, name: string): string | undefined {
  return catalogue.sections.find(({ settings }) => settings.some((each) => each.name === name))?.name;
}
