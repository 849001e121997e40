/** Reads a dialect from its file: what it says of the board's text, and what is wrong with it. Never throws. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { SectionSpec } from "../catalogue/specs.ts";
import { issueOf } from "../model/script-issues.ts";
import { type Fault, fault, isFault } from "../syntax/read-context.ts";
import { type Cols, spanAt } from "../syntax/span.ts";
import type { Section, Tree } from "../syntax/tree.ts";
import { fileNameOf } from "../text/file-name.ts";
import type { Cannot, Dialect, DialectIssue, Template } from "./dialect.ts";
import { factScanner, next, nextAt, unfit } from "./file/fact-scanner.ts";
import { type Fact, type FindCode, linkFacts, type NamedUnder } from "./file/link-facts.ts";
import { readCode } from "./file/read-codes.ts";
import { readCannot, readFact, readUnder } from "./file/read-facts.ts";
import { templateOf } from "./file/read-template.ts";
import { emptyText, readTextFact } from "./file/read-text.ts";
import { type CodeLine, resolveCodes } from "./file/resolve-codes.ts";
import { findingsIn } from "./findings/findings.ts";
import { isMapped, OWN_SECTIONS } from "./sections.ts";

/** Longer lines are not read: the board's own lines are at most as long. */
const MOST_CHARACTERS = 4096;

/** The most lines of a first set that a second one takes below its headings, all in all. */
const MOST_TAKEN = 20_000;

/** Names that were meant are looked for while there are no more issues than these. */
const MOST_GUESSED = 50;

/** What is being gathered from a file. */
interface Draft {
  readonly tree: Tree;
  readonly catalogue: Catalogue;
  readonly text: ReturnType<typeof emptyText>;
  readonly codes: Map<string, CodeLine[]>;
  /** Names of codes whose lines have a fault, which is told there. */
  readonly faultyCodes: Set<string>;
  readonly facts: Fact[];
  readonly cannot: Cannot[];
  readonly issues: DialectIssue[];
  /** Of each section that has no facts but headings: the headings, to take the first set's facts. */
  readonly bare: { readonly section: string; readonly unders: readonly NamedUnder[] }[];
}

/** The dialect in a tree, whatever is wrong with it: a fact with a fault is left out. */
export function readDialect(file: string, tree: Tree, catalogue: Catalogue): Dialect {
  const draft: Draft = {
    tree,
    catalogue,
    text: emptyText(),
    codes: new Map(),
    faultyCodes: new Set(),
    facts: [],
    cannot: [],
    issues: [],
    bare: [],
  };
  for (const section of tree.sections) readSection(draft, section);
  for (const { section, unders } of draft.bare) takeFirstSet(draft, section, unders);
  const codes = resolveCodes(draft.codes, ({ line, at, why }) => {
    if (why === "unknown") reportNoCode(draft, line, at, at.code);
    else
      reportFault(
        draft,
        line,
        unfit(
          at,
          why === "circle"
            ? `The code “${at.code}” leads back to itself: lists and bits hold other codes, which end somewhere.`
            : `“${at.code}” stands too many codes deep: no board has lists of lists of lists. Name a code of numbers, words or text.`,
        ),
      );
  });
  const find: FindCode = ({ at, code }, line) => {
    if (code === null) return null;
    if (!draft.codes.has(code)) reportNoCode(draft, line, at, code);
    return codes.get(code) ?? null;
  };
  const { lefts, meanings, headings, unsure } = linkFacts(
    draft.facts,
    draft.text.headings,
    find,
    (slot, line, before) =>
      reportFault(
        draft,
        line,
        unfit(
          slot.at,
          before === null
            ? "A number needs its bounds, as in “{#:0 to 9}”: they say how many such lines the board has."
            : `“{${slot.name}}” is “${before}” in an earlier line with this text: say it once, or the same each time.`,
        ),
      ),
  );
  const issues: DialectIssue[] = [];
  const dialect: Dialect = {
    file,
    name: tree.name ?? fileNameOf(file).replace(/\.fettle$/, ""),
    text: { ...draft.text, headings },
    codes,
    lefts,
    meanings,
    cannot: draft.cannot,
    issues,
  };
  // What is remembered of a dialect is remembered by this object, so it is filled and not made anew.
  const found = findingsIn(dialect, {
    tree,
    catalogue,
    drafts: draft.codes,
    unsure,
    faulty: new Set(draft.issues.map(({ span }) => span.line)),
  });
  for (const issue of inOrder(draft.issues.concat(found))) issues.push(issue);
  return dialect;
}

/** In order of place, each once: a fact that counts below several headings has its faults once. */
function inOrder(issues: readonly DialectIssue[]): readonly DialectIssue[] {
  const once = new Map(issues.map((issue) => [`${issue.span.line} ${issue.span.start} ${issue.message}`, issue]));
  return [...once.values()].sort((a, b) => a.span.line - b.span.line || a.span.start - b.span.start);
}

function readSection(draft: Draft, section: Section): void {
  const { tree, text } = draft;
  if (section.name === "text") {
    eachFact(draft, section, (line, at, lineText) => report(draft, line, readTextFact(text, lineText, at, line)));
  } else if (section.name === "codes") {
    eachFact(draft, section, (line, at, lineText) => report(draft, line, readCodeLine(draft, lineText, at, line)));
  } else {
    const spec = draft.catalogue.section(section.name);
    const node = tree.lines[section.line]!.node;
    const at = node.kind === "section" ? node.name : { start: 0, end: 1 };
    if (!spec) reportFault(draft, section.line, noSection(at, section.name, draft.catalogue));
    else if (!isMapped(spec))
      reportFault(
        draft,
        section.line,
        unfit(at, `A dialect maps nothing of “${spec.name}”: a board keeps nothing of it. Leave this section out.`),
      );
    else readMapped(draft, section, spec);
  }
}

function eachFact(draft: Draft, section: Section, read: (line: number, at: Cols, lineText: string) => void): void {
  for (const line of section.entries) {
    const { node, text } = draft.tree.lines[line]!;
    if (node.kind !== "fact") continue;
    if (text.length > MOST_CHARACTERS)
      reportFault(
        draft,
        line,
        unfit(
          node.content,
          `A line of a dialect has at most ${MOST_CHARACTERS} characters; this one has ${text.length}. Words, letters and sets go on in another line that begins with the code's name again.`,
        ),
      );
    else read(line, node.content, text);
  }
}

function readCodeLine(draft: Draft, text: string, at: Cols, line: number): Fault | null {
  const scan = factScanner(text, at);
  const name = scan.name();
  if (!name)
    return unfit(nextAt(scan), `A code has a name in small letters, as in “volts number each 0.1 V”; ${next(scan)}.`);
  const code = readCode(scan);
  if (isFault(code)) {
    draft.faultyCodes.add(name.text);
    return code;
  }
  const before = draft.codes.get(name.text);
  const goesOn = code.kind === "words" || code.kind === "letters" || code.kind === "set";
  if (before && (!goesOn || before[0]!.draft.kind !== code.kind))
    return unfit(
      name,
      `The code “${name.text}” is said in line ${before[0]!.line + 1} already${goesOn ? " and is of another kind there" : ": only words, letters and sets go on in more lines"}. Give this one another name.`,
    );
  if (before) before.push({ line, draft: code });
  else draft.codes.set(name.text, [{ line, draft: code }]);
  return null;
}

/** Reads a section of facts about a craft's entries. */
function readMapped(draft: Draft, section: Section, spec: SectionSpec): void {
  const title = titleOf(draft, section, spec);
  // Null below a heading with a fault: what its facts mean is then not known.
  let under: NamedUnder | null = { kind: "anywhere" };
  const unders: NamedUnder[] = [];
  let said = 0;
  eachFact(draft, section, (line, at, lineText) => {
    const scan = factScanner(lineText, at);
    if (scan.match(/under(?![\w-])/y)) {
      const read = readUnder(lineText, { start: scan.lastEnd(), end: at.end }, line);
      under = isFault(read) ? null : read;
      if (isFault(read)) reportFault(draft, line, read);
      else unders.push(read);
      return;
    }
    said++;
    if (scan.match(/cannot(?![\w-])/y)) {
      const names = readCannot(section.name, lineText, { start: scan.lastEnd(), end: at.end }, draft.catalogue);
      if (isFault(names)) reportFault(draft, line, names);
      else draft.cannot.push({ section: section.name, names, line });
      return;
    }
    const fact = readFact(lineText, at, line, spec, draft.catalogue);
    if (isFault(fact)) reportFault(draft, line, fact);
    else if (under) draft.facts.push({ ...fact, section: section.name, title, under });
  });
  if (said === 0 && unders.length > 0 && spec.like) draft.bare.push({ section: section.name, unders });
}

function titleOf(draft: Draft, section: Section, spec: SectionSpec): Template | null {
  if (section.title === null) return null;
  const { node } = draft.tree.lines[section.line]!;
  const at = (node.kind === "section" && node.title) || { start: 0, end: 1 };
  const title = templateOf(section.title);
  if (title && spec.title) return title;
  reportFault(
    draft,
    section.line,
    unfit(
      at,
      title
        ? `The section “${spec.name}” has no name in quotes.`
        : "A slot stands here as “{n}”, and a brace cannot be part of the name.",
    ),
  );
  return title;
}

/** A second set that only names headings takes the facts of the first, below those headings. */
function takeFirstSet(draft: Draft, section: string, unders: readonly NamedUnder[]): void {
  const spec = draft.catalogue.section(section);
  const without = new Set(spec?.without ?? []);
  const facts = draft.facts.filter(({ section: each, right: { name } }) => {
    return each === spec?.like && !(name.length === 1 && typeof name[0] === "string" && without.has(name[0]));
  });
  for (const [i, under] of unders.entries()) {
    if ((i + 1) * facts.length > MOST_TAKEN) {
      draft.issues.push({
        code: "syntax",
        message: `So many headings would take more than ${MOST_TAKEN} lines of “${spec?.like}”: name one heading with a slot, as in “row {n}”, in place of many.`,
        span: under.kind === "heading" ? under.pattern.at : { line: facts[0]!.line, start: 0, end: 1 },
      });
      return;
    }
    for (const fact of facts) draft.facts.push({ ...fact, section, under });
  }
}

function noSection(at: Cols, name: string, catalogue: Catalogue): Fault {
  const candidates = [...OWN_SECTIONS, ...catalogue.sections.filter(isMapped).map((each) => each.name)];
  return {
    ...fault("unknown-name", at, `A dialect has no section “${name}”: it has “text”, “codes” and those of a craft.`),
    unknown: { word: name, candidates },
  };
}

/** A code whose own line has a fault is not reported again. */
function reportNoCode(draft: Draft, line: number, at: Cols, code: string): void {
  if (draft.faultyCodes.has(code)) return;
  const word = draft.tree.lines[line]!.text.indexOf(code, at.start);
  const cols = word >= 0 && word < at.end ? { start: word, end: word + code.length } : at;
  reportFault(draft, line, {
    ...fault("unknown-name", cols, `There is no code “${code}”: say what it is in the section “codes”.`),
    // A file with very many codes that are not there is no slip, and a search for each would take long.
    unknown: { word: code, candidates: draft.issues.length < MOST_GUESSED ? [...draft.codes.keys()] : [] },
  });
}

function report(draft: Draft, line: number, problem: Fault | null): void {
  if (problem) reportFault(draft, line, problem);
}

function reportFault(draft: Draft, line: number, problem: Fault): void {
  const { code, message, span, fixes } = issueOf(problem, line, draft.tree.lines[line]!.text);
  draft.issues.push({
    code: code === "unknown-name" ? code : "syntax",
    message,
    span: spanAt(line, span),
    ...(fixes && fixes.length > 0 && { fixes }),
  });
}
