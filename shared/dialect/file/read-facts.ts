/** Reads the lines of a dialect about a craft's entries: facts, `under` and `cannot`. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SectionSpec } from "../../catalogue/specs.ts";
import { type Fault, isFault } from "../../syntax/read-context.ts";
import type { Cols } from "../../syntax/span.ts";
import { type NamedPattern, parsePattern } from "../patterns/parse-pattern.ts";
import { factScanner, next, nextAt, unfit } from "./fact-scanner.ts";
import type { Fact, NamedUnder } from "./link-facts.ts";
import { readRight } from "./read-right.ts";

/** One or more texts in quotes, then the entry that they mean. */
export function readFact(
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
    if (text.text.trim() === "") return unfit(text, "The board's text is empty: write the line as the board has it.");
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

/** `under T`, read from behind the word. */
export function readUnder(lineText: string, at: Cols, line: number): NamedUnder | Fault {
  const scan = factScanner(lineText, at);
  const text = scan.boardText();
  if (!text) return unfit(nextAt(scan), `The board's heading is expected behind “under”, in quotes; ${next(scan)}.`);
  if (!scan.done()) return unfit(scan.rest(), `Nothing is expected behind the heading, but ${next(scan)}.`);
  if (text.text === "") return { kind: "above-all" };
  const pattern = parsePattern(text, line);
  return isFault(pattern) ? pattern : { kind: "heading", pattern };
}

/** `cannot all` or `cannot NAME…`, read from behind the word; null for all. */
export function readCannot(
  section: string,
  lineText: string,
  at: Cols,
  catalogue: Catalogue,
): readonly string[] | null | Fault {
  const scan = factScanner(lineText, at);
  const names: string[] = [];
  for (let name = scan.name(); name; name = scan.name()) {
    if (!isNameOf(section, name.text, catalogue) && name.text !== "all") {
      const candidates = namesOf(section, catalogue);
      return {
        ...unfit(name, `“${section}” has no “${name.text}”.`),
        code: "unknown-name",
        unknown: { word: name.text, candidates },
      };
    }
    names.push(name.text);
    scan.mark(",");
  }
  if (!scan.done() || names.length === 0)
    return unfit(nextAt(scan), `“cannot” is followed by “all” or by names of “${section}”; ${next(scan)}.`);
  if (names.includes("all") && names.length > 1)
    return unfit(at, "“cannot all” is about the whole section: write no names beside “all”, or the names alone.");
  return names[0] === "all" ? null : names;
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
