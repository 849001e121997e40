/** What is wrong with a dialect as a whole, once its lines are read. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { issueOf } from "../../model/script-issues.ts";
import { didYouMean, similarNames } from "../../model/similar-names.ts";
import { type Fault, fault } from "../../syntax/read-context.ts";
import { type Cols, spanAt } from "../../syntax/span.ts";
import type { Tree } from "../../syntax/tree.ts";
import type { Dialect, DialectIssue, Left, Slot } from "../dialect.ts";
import type { CodeLine } from "../file/resolve-codes.ts";
import { codesNamedIn, codesTwice, codesUnused } from "./codes.ts";
import { codesCoarse } from "./codes-coarse.ts";
import { headingsOf, linesAlike } from "./lines-alike.ts";
import { linesBeaten } from "./lines-beaten.ts";
import { rightFault } from "./right-fits.ts";
import { type LineOf, slotsEndless, slotsUnmatched } from "./slots.ts";
import { type UnfitWord, wordsTaken } from "./words-taken.ts";

/** Where the findings look besides the dialect itself. */
export interface FindingContext {
  readonly tree: Tree;
  readonly catalogue: Catalogue;
  readonly drafts: ReadonlyMap<string, readonly CodeLine[]>;
  /** Slots of which it is not known what they hold. */
  readonly unsure: ReadonlySet<Slot>;
  /** Lines that have a fault already. */
  readonly faulty: ReadonlySet<number>;
}

/** All findings that need more than one line, in no order. */
export function findingsIn(whole: Dialect, context: FindingContext): DialectIssue[] {
  const { tree, catalogue, drafts, unsure, faulty } = context;
  const dialect = unsure.size === 0 ? whole : withoutUnsure(whole, unsure);
  const lineOf: LineOf = (line) => tree.lines[line]!.text;
  return [
    ...rightsUnfit(dialect, catalogue, drafts, lineOf),
    ...slotsUnmatched(dialect, lineOf),
    ...slotsEndless(dialect),
    ...linesBeaten(dialect, catalogue),
    ...linesAlike(dialect, headingsOf(dialect)),
    ...codesTwice(drafts),
    ...codesCoarse(dialect, catalogue).map((issue) =>
      issue.span.end > 0 ? issue : { ...issue, span: spanAt(issue.span.line, nameIn(lineOf(issue.span.line))) },
    ),
    ...codesUnused(drafts, codesNamed(tree, faulty), (line) => nameIn(lineOf(line))),
  ];
}

/** The columns of the first word of a line. */
function nameIn(text: string): Cols {
  const start = text.length - text.trimStart().length;
  return { start, end: start + /^\S*/.exec(text.slice(start))![0].length };
}

/** The dialect without lines that hold a slot of which it is not known what it holds: that is told once. */
function withoutUnsure(dialect: Dialect, unsure: ReadonlySet<Slot>): Dialect {
  const isSure = ({ pattern, under }: Left) =>
    [...pattern.slots.values(), ...(under.kind === "heading" ? under.pattern.slots.values() : [])].every(
      (slot) => !unsure.has(slot),
    );
  return {
    ...dialect,
    lefts: dialect.lefts.filter(isSure),
    meanings: dialect.meanings.filter(({ lefts }) => lefts.every(isSure)),
  };
}

/** Every code that a slot names, on lines with faults too, and every word of a code's line with a fault. */
function codesNamed(tree: Tree, faulty: ReadonlySet<number>): ReadonlySet<string> {
  const named = new Set<string>();
  for (const { name, entries } of tree.sections)
    for (const line of entries) {
      const { text } = tree.lines[line]!;
      if (name !== "codes") for (const code of codesNamedIn(text)) named.add(code);
      else if (faulty.has(line)) for (const [word] of text.matchAll(/[a-z][a-z0-9-]*/g)) named.add(word);
    }
  return named;
}

/** A fault of a right side at the word that it is about, where that stands there; else names meant are only asked for. */
function inLine({ repairs: _, unknown, ...problem }: Fault, text: string): Fault {
  if (!unknown) return problem;
  const { word, candidates, chosen } = unknown;
  const found = new RegExp(`(?<![\\w-])${word.replace(/[^\w\s-]/g, "\\$&")}(?![\\w-])`, "g");
  found.lastIndex = problem.start;
  const start = word === "" ? undefined : found.exec(text)?.index;
  if (start !== undefined && start + word.length <= problem.end)
    return { ...problem, unknown, start, end: start + word.length };
  const offered = chosen ? candidates : similarNames(word, candidates);
  return { ...problem, message: problem.message + didYouMean(offered) };
}

function rightsUnfit(
  dialect: Dialect,
  catalogue: Catalogue,
  drafts: ReadonlyMap<string, readonly CodeLine[]>,
  lineOf: LineOf,
): DialectIssue[] {
  const issues: DialectIssue[] = [];
  const taken = wordsTaken();
  for (const meaning of dialect.meanings) {
    const spec = catalogue.section(meaning.section);
    const problem = spec && rightFault(meaning, spec, catalogue, taken);
    if (problem)
      issues.push(issueIn(issueOf(inLine(problem, lineOf(meaning.line)), meaning.line, lineOf(meaning.line))));
  }
  for (const word of taken.unfit()) {
    const place = placeOfWord(word, drafts);
    if (!place) continue;
    const { line, at } = place;
    const { candidates = [] } = word.fault.unknown ?? {};
    const problem = {
      ...fault(
        word.fault.code,
        at,
        `“${word.ours}” of the code “${word.code.name}” fits none of the places where it stands: ${word.fault.message}`,
      ),
      ...(candidates.length > 0 && { unknown: { word: word.ours, candidates } }),
    };
    issues.push(issueIn(issueOf(problem, line, lineOf(line))));
  }
  return issues;
}

function issueIn({ code, message, span, fixes }: ReturnType<typeof issueOf>): DialectIssue {
  return {
    code: code === "unknown-name" ? code : "syntax",
    message,
    span,
    ...(fixes && fixes.length > 0 && { fixes }),
  };
}

/** Where a word of a code stands in the dialect. */
function placeOfWord(
  { code, ours }: UnfitWord,
  drafts: ReadonlyMap<string, readonly CodeLine[]>,
): { line: number; at: Cols } | null {
  for (const { line, draft } of drafts.get(code.name) ?? []) {
    const items =
      draft.kind === "words" || draft.kind === "letters" ? draft.words : draft.kind === "set" ? draft.items : [];
    for (const item of items)
      if (item.ours === ours) return { line, at: { start: item.at.end - ours.length, end: item.at.end } };
  }
  return null;
}
