/** Reads a dialect from its file: what it says of the board's text, and what is wrong with it. Never throws. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { SectionSpec } from "../catalogue/specs.ts";
import { didYouMean, similarNames } from "../model/similar-names.ts";
import { type Fault, isFault } from "../syntax/read-context.ts";
import { type Cols, spanAt } from "../syntax/span.ts";
import type { Section, Tree } from "../syntax/tree.ts";
import type { Cannot, Dialect, DialectIssue, Template } from "./dialect.ts";
import { factScanner, next, nextAt, unfit } from "./file/fact-scanner.ts";
import { type Fact, type FindCode, linkFacts, type NamedUnder, patternOf } from "./file/link-facts.ts";
import { readCode } from "./file/read-codes.ts";
import { readRight, templateOf } from "./file/read-right.ts";
import { emptyText, readTextFact } from "./file/read-text.ts";
import { type CodeLine, resolveCodes } from "./file/resolve-codes.ts";
import { type NamedPattern, parsePattern } from "./patterns/parse-pattern.ts";

/** The sections of a dialect that are not a craft's. */
export const OWN_SECTIONS = ["text", "codes"] as const;

/** What is being gathered from a file. */
interface Draft {
  readonly tree: Tree;
  readonly catalogue: Catalogue;
  readonly text: ReturnType<typeof emptyText>;
  readonly codes: Map<string, CodeLine[]>;
  readonly facts: Fact[];
  readonly cannot: Cannot[];
  readonly issues: DialectIssue[];
  /** Of each section, where it has no facts but headings: the headings, to take the first set's facts. */
  readonly bare: { readonly section: string; readonly unders: readonly NamedUnder[] }[];
}

/** The dialect in a tree, whatever is wrong with it: a fact with a fault is left out. */
export function readDialect(file: string, tree: Tree, catalogue: Catalogue): Dialect {
  const draft: Draft = {
    tree,
    catalogue,
    text: emptyText(),
    codes: new Map(),
    facts: [],
    cannot: [],
    issues: [],
    bare: [],
  };
  for (const section of tree.sections) readSection(draft, section);
  for (const { section, unders } of draft.bare) takeFirstSet(draft, section, unders);
  const codes = resolveCodes(draft.codes, ({ line, at, why }) =>
    why === "unknown"
      ? reportFault(draft, line, noCode(at, at.code, draft))
      : reportFault(
          draft,
          line,
          unfit(at, `The code “${at.code}” leads back to itself: a list or bits hold other codes.`),
        ),
  );
  const missing = new Set<string>();
  const find: FindCode = (slot, line) => {
    const code = slot.code === null ? undefined : codes.get(slot.code);
    const key = `${line} ${slot.at.start}`;
    if (!code && !missing.has(key) && !draft.codes.has(slot.code!)) {
      missing.add(key);
      reportFault(draft, line, noCode(slot.at, slot.code!, draft));
    }
    return code ?? null;
  };
  const { lefts, meanings } = linkFacts(draft.facts, find, (slot, line, before) =>
    reportFault(
      draft,
      line,
      unfit(
        slot.at,
        before === null
          ? "A number needs its bounds, as in “{#:0 to 9}”: they say how many such lines the board has."
          : `“{${slot.name}}” is “${before}” in an earlier line with this left side: say it once, or the same each time.`,
      ),
    ),
  );
  const { text } = draft;
  return {
    file,
    name: tree.name ?? file.slice(file.lastIndexOf("/") + 1).replace(/\.fettle$/, ""),
    text: { ...text, headings: text.headings.map((each) => patternOf(each, find)) },
    codes,
    lefts,
    meanings,
    cannot: draft.cannot,
    issues: draft.issues.sort((a, b) => a.span.line - b.span.line || a.span.start - b.span.start),
  };
}

function readSection(draft: Draft, section: Section): void {
  const { tree, text, codes } = draft;
  if (section.name === "text") {
    eachFact(draft, section, (line, at, lineText) => report(draft, line, readTextFact(text, lineText, at, line)));
  } else if (section.name === "codes") {
    eachFact(draft, section, (line, at, lineText) => report(draft, line, readCodeLine(codes, lineText, at, line)));
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

/** A board keeps what a craft's file may say, but neither what the pilot holds nor text that was kept. */
function isMapped(spec: SectionSpec): boolean {
  return spec.holds !== "controls" && spec.holds !== "kept" && spec.in.includes("craft");
}

function eachFact(draft: Draft, section: Section, read: (line: number, at: Cols, lineText: string) => void): void {
  for (const line of section.entries) {
    const { node, text } = draft.tree.lines[line]!;
    if (node.kind === "fact") read(line, node.content, text);
  }
}

function readCodeLine(codes: Draft["codes"], text: string, at: Cols, line: number): Fault | null {
  const scan = factScanner(text, at);
  const name = scan.name();
  if (!name)
    return unfit(nextAt(scan), `A code has a name in small letters, as in “volts number each 0.1 V”; ${next(scan)}.`);
  const draft = readCode(scan);
  if (isFault(draft)) return draft;
  if (!scan.done()) return unfit(nextAt(scan), `Nothing is expected behind this code, but ${next(scan)}.`);
  const before = codes.get(name.text);
  const goesOn = draft.kind === "words" || draft.kind === "letters" || draft.kind === "set";
  if (before && (!goesOn || before[0]!.draft.kind !== draft.kind))
    return unfit(
      name,
      `The code “${name.text}” is said in line ${before[0]!.line + 1} already${goesOn ? " and is of another kind there" : ": only words, letters and sets go on in more lines"}. Give this one another name.`,
    );
  codes.set(name.text, [...(before ?? []), { line, draft }]);
  return null;
}

/** Reads a section of facts about a craft's entries. */
function readMapped(draft: Draft, section: Section, spec: SectionSpec): void {
  const title = titleOf(draft, section, spec);
  let under: NamedUnder = { kind: "anywhere" };
  const unders: NamedUnder[] = [];
  let said = 0;
  eachFact(draft, section, (line, at, lineText) => {
    const scan = factScanner(lineText, at);
    if (scan.match(/under(?![\w-])/y)) {
      const read = readUnder(lineText, { start: scan.lastEnd(), end: at.end }, line);
      if (isFault(read)) reportFault(draft, line, read);
      else {
        under = read;
        unders.push(read);
      }
      return;
    }
    said++;
    if (scan.match(/cannot(?![\w-])/y)) {
      report(draft, line, readCannot(draft, section.name, lineText, { start: scan.lastEnd(), end: at.end }, line));
      return;
    }
    const fact = readFact(lineText, at, line, spec, draft.catalogue);
    if (isFault(fact)) reportFault(draft, line, fact);
    else draft.facts.push({ ...fact, section: section.name, title, under });
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

function readUnder(lineText: string, at: Cols, line: number): NamedUnder | Fault {
  const scan = factScanner(lineText, at);
  const text = scan.boardText();
  if (!text) return unfit(nextAt(scan), `The board's heading is expected behind “under”, in quotes; ${next(scan)}.`);
  if (!scan.done()) return unfit(scan.rest(), `Nothing is expected behind the heading, but ${next(scan)}.`);
  if (text.text === "") return { kind: "above-all" };
  const pattern = parsePattern(text, line);
  return isFault(pattern) ? pattern : { kind: "heading", pattern };
}

function readCannot(draft: Draft, section: string, lineText: string, at: Cols, line: number): Fault | null {
  const scan = factScanner(lineText, at);
  const names: string[] = [];
  for (let name = scan.name(); name; name = scan.name()) {
    if (!isNameOf(section, name.text, draft.catalogue) && name.text !== "all") {
      const candidates = namesOf(section, draft.catalogue);
      return {
        ...unfit(name, `“${section}” has no “${name.text}”.`),
        code: "unknown-name",
        unknown: { word: name.text, candidates },
      };
    }
    names.push(name.text);
    scan.mark(",");
  }
  if (!scan.done() || names.length === 0 || (names.includes("all") && names.length > 1))
    return unfit(nextAt(scan), `“cannot” is followed by “all” or by names of “${section}”; ${next(scan)}.`);
  draft.cannot.push({ section, names: names[0] === "all" ? null : names, line });
  return null;
}

function namesOf(section: string, catalogue: Catalogue): string[] {
  const holds = catalogue.section(section)?.holds;
  if (holds === "modes") return catalogue.modes.map(({ name }) => name);
  const settings = catalogue.settingsOf(section).map(({ name }) => name);
  return holds === "places" ? [...settings, ...catalogue.elements.map(({ name }) => name)] : settings;
}

function isNameOf(section: string, name: string, catalogue: Catalogue): boolean {
  const holds = catalogue.section(section)?.holds;
  return holds === "outputs" || holds === "follows" || namesOf(section, catalogue).includes(name);
}

/** One or more texts in quotes, then the entry that they mean. */
function readFact(
  lineText: string,
  at: Cols,
  line: number,
  spec: SectionSpec,
  catalogue: Catalogue,
): Pick<Fact, "line" | "lefts" | "right" | "at"> | Fault {
  const scan = factScanner(lineText, at);
  const lefts: NamedPattern[] = [];
  while (/["']/.test(lineText[scan.at()] ?? "")) {
    const text = scan.boardText();
    if (!text)
      return unfit(
        { start: scan.at(), end: at.end },
        'The quotes that open here do not close: write one behind the board\'s text. In “"…"” a quote is “\\"” and a backslash “\\\\”.',
      );
    if (text.text === "") return unfit(text, "The board's text is empty: write the line as the board has it.");
    const pattern = parsePattern(text, line);
    if (isFault(pattern)) return pattern;
    lefts.push(pattern);
  }
  if (lefts.length === 0)
    return unfit(
      nextAt(scan),
      `A line of the board's text is expected here, in quotes, as in “"holds {c}"  capacity {c} mAh”; ${next(scan)}.`,
    );
  const rest = { start: scan.at(), end: at.end };
  const right = readRight(lineText, rest, spec, catalogue);
  return isFault(right) ? right : { line, lefts, right, at: rest };
}

/** A second set that only names headings takes the facts of the first, below those headings. */
function takeFirstSet(draft: Draft, section: string, unders: readonly NamedUnder[]): void {
  const first = draft.catalogue.section(section)?.like;
  const facts = draft.facts.filter((each) => each.section === first);
  for (const under of unders) draft.facts.push(...facts.map((fact) => ({ ...fact, section, under })));
}

function noSection(at: Cols, name: string, catalogue: Catalogue): Fault {
  const names = [...OWN_SECTIONS, ...catalogue.sections.filter(isMapped).map((each) => each.name)];
  const offered = similarNames(name, names);
  return {
    ...unfit(
      at,
      `A dialect has no section “${name}”: it has “text”, “codes” and those of a craft.${offered.length > 0 ? didYouMean(offered) : ""}`,
    ),
    code: "unknown-name",
    unknown: { word: name, candidates: names },
  };
}

function noCode(at: Cols, name: string, draft: Draft): Fault {
  const names = [...draft.codes.keys()];
  const offered = similarNames(name, names);
  return {
    ...unfit(
      at,
      `There is no code “${name}”: say it in the section “codes”.${offered.length > 0 ? didYouMean(offered) : ""}`,
    ),
    code: "unknown-name",
    unknown: { word: name, candidates: names },
  };
}

function report(draft: Draft, line: number, fault: Fault | null): void {
  if (fault) reportFault(draft, line, fault);
}

function reportFault(draft: Draft, line: number, { code, message, start, end }: Fault): void {
  draft.issues.push({ code: code === "unknown-name" ? code : "syntax", message, span: spanAt(line, { start, end }) });
}
