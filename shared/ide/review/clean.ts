/** Makes of an offered text a script that holds what is understood of it, line for line. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SectionSpec } from "../../catalogue/specs.ts";
import { similarNames } from "../../model/similar-names.ts";
import { quote } from "../../syntax/scanner.ts";
import { lookalikeSlip } from "../../syntax/slips.ts";
import { ambiguity, guessSection } from "./guess-section.ts";
import { withoutHabits, wrapped } from "./habits.ts";
import { withPlainMarks } from "./plain-marks.ts";
import { type Unwrapped, unwrap } from "./unwrap.ts";

/** A line that is no part of the script, and why not. */
export interface LeftOut {
  /** Of the offered text, from 0. */
  readonly line: number;
  readonly reason: string;
  /** It reads like a sentence, so it belongs with those around it. */
  readonly isProse: boolean;
  /** Why it cannot even be kept as board text; null where it can. */
  readonly notKept: string | null;
}

/** A script made of an offered text. */
export interface Cleaned {
  readonly lines: readonly string[];
  /** For each of its lines that of the offered text; -1 for one that was added. */
  readonly from: readonly number[];
  readonly leftOut: readonly LeftOut[];
  /** By a line of the offered text, those below it that go on with its entry. */
  readonly continued: ReadonlyMap<number, readonly number[]>;
  /** What each line of the offered text says once what was put around it is taken off. */
  readonly bare: readonly string[];
  /** How many scripts the text begins. */
  readonly headers: number;
  /** How many lines are held to be entries, drops, uses or board text. */
  readonly statements: number;
}

const HEADER = /^(craft|layer|handset)\s+(?:"|edition\b)/;
const SECTION = /^([a-zA-Z][a-zA-Z0-9-]*)(\s+"(?:[^"\\]|\\.)*")?\s*[:{]?\s*(#.*)?$/;
const ENTRY = /^([a-z][a-z0-9-]*|[A-Z][A-Za-z0-9]*)(?![A-Za-z0-9_-])/;
const CONFLICT = /^(?:<{7}|={7}|>{7}|\|{7})(?:\s|$)/;
const TAKEN_OUT =
  "The change takes this line out. That is not adopted: take it out of your own script by hand if you want that too.";
const SENTENCE = "This reads like a sentence, and not like a line of a script.";

/** The section in which the next entries stand. */
interface Place {
  readonly name: string;
  readonly title: string | null;
  readonly spec: SectionSpec | undefined;
  /** `guessed`: no line names it. `broken`: something else stood in between, so an entry that is not its own may be meant for another. */
  readonly by: "written" | "guessed" | "broken";
}

/** The script in an offered text; its own header where it has one, else that of a layer of this name. */
export function cleaned(offered: readonly string[], name: string, catalogue: Catalogue): Cleaned {
  const lines: string[] = [];
  const from: number[] = [];
  const leftOut: LeftOut[] = [];
  const continued = new Map<number, readonly number[]>();
  const unwrapped = unwrap(offered);
  const bare = unwrapped.map(({ text }) => text);
  let place: Place | null = null;
  let headers = 0;
  let header = -1;
  let statements = 0;
  let conflict: "none" | "mine" | "theirs" = "none";

  const push = (text: string, line: number) => {
    lines.push(text);
    from.push(line);
  };
  /** An added line goes above the comments that are directly above, as they are the note of what follows. */
  const insert = (text: string) => {
    let at = lines.length;
    while (at > 0 && /^\s*#/.test(lines[at - 1]!)) at--;
    lines.splice(at, 0, text);
    from.splice(at, 0, -1);
  };
  const leave = (line: number, reason: string, isProse = false, notKept: string | null = null) => {
    leftOut.push({ line, reason, isProse, notKept });
    push("", line);
    if (isProse && place?.by === "written") place = { ...place, by: "broken" };
  };

  for (const [line, { text: raw, role }] of unwrapped.entries()) {
    const kept: boolean = place?.name === "verbatim" && /^\s*\|/.test(raw);
    const text: string = kept ? raw.trimStart() : withPlainMarks(raw).trim();
    if (role === "around" || text === "") push("", line);
    else if (role === "removed") leave(line, TAKEN_OUT, false, "What a change takes out is no text of a board.");
    else if (CONFLICT.test(offered[line]!)) {
      const mark = offered[line]!.charAt(0);
      conflict = mark === "<" ? "mine" : mark === ">" ? "none" : "theirs";
      leave(line, "This is a mark of an unresolved merge: which side is meant is not known.");
    } else if (conflict !== "none")
      leave(line, "This is one side of an unresolved merge, so it is not known whether it is meant.");
    else if (role === "aside") leave(line, SENTENCE, true);
    else if (text.startsWith("#")) push(place ? `  ${text}` : text, line);
    else if (kept) {
      push(`  ${text}`, line);
      statements++;
    } else if (HEADER.test(text)) {
      headers++;
      place = null;
      // A handset above a craft: all of both can stand in the craft, but not the other way round.
      const isWider = header >= 0 && lines[header]!.startsWith("handset") && !text.startsWith("handset");
      if (isWider) lines[header] = text;
      if (header < 0) header = lines.length;
      push(headers === 1 ? text : "", line);
    } else if (/^use\s+"/.test(text)) {
      // A line for a file counts above all sections, so it cannot end one.
      push(text, line);
      statements++;
    } else if (sectionIn(text, unwrapped, line, catalogue)) {
      const [, word = "", title = ""]: readonly string[] = SECTION.exec(text)!;
      const section: string = catalogue.section(word) ? word : word.toLowerCase();
      const spec = catalogue.section(section);
      place = { name: section, title: title.trim() || null, spec, by: "written" };
      push(`${section}${title ? ` ${title.trim()}` : ""}`, line);
      if (!spec) leftOut.push({ line, reason: unknownSection(section, catalogue), isProse: false, notKept: null });
    } else {
      const whole = wrapped(lines.at(-1), text, place?.spec, catalogue);
      if (whole !== null) {
        const above = from.at(-1)!;
        continued.set(above, [...(continued.get(above) ?? []), line]);
        // What goes on may go on once more.
        lines[lines.length - 1] = whole;
        continue;
      }
      const typed = withoutHabits(text, place?.spec, catalogue);
      const meant = entryIn(typed, place, catalogue);
      if ("reason" in meant) {
        leave(line, meant.reason, meant.isProse);
        continue;
      }
      if (meant.section !== null) {
        insert(meant.section);
        const by = "guessed" as const;
        place = { name: meant.section, title: null, spec: catalogue.section(meant.section), by };
      }
      push(`  ${typed}`, line);
      statements++;
    }
  }
  if (headers === 0) {
    // With nothing but what a handset alone may hold it is one.
    const sections = new Set(lines.filter((each) => SECTION.test(each) && catalogue.section(each.trim())));
    const isHandset = sections.has("transmitter") && [...sections].every((each) => isOfHandset(each, catalogue));
    lines.unshift(`${isHandset ? "handset" : "layer"} ${quote(name)}`, "");
    from.unshift(-1, -1);
  }
  return { lines, from, leftOut, continued, bare, headers, statements };
}

function isOfHandset(section: string, catalogue: Catalogue): boolean {
  return catalogue.section(section)?.in.includes("handset") === true;
}

/** Whether a line is the name of a section: one that is known, or that is followed by lines further in. */
function sectionIn(text: string, all: readonly Unwrapped[], line: number, catalogue: Catalogue): boolean {
  const found = SECTION.exec(text);
  if (!found) return false;
  const [, word = "", title] = found;
  if (catalogue.section(word) || catalogue.section(word.toLowerCase()))
    return title === undefined || word.toLowerCase() === "pack" || word.toLowerCase() === "verbatim";
  if (title !== undefined || !/^[a-z][a-z0-9-]*$/.test(word) || catalogue.mode(word) || catalogue.element(word))
    return false;
  const next = all.slice(line + 1).find((each) => each.text.trim() !== "");
  const isHeading = next !== undefined && indentOf(next.text) > indentOf(all[line]!.text);
  return isHeading || similarNames(word, catalogue.sections).length > 0;
}

function unknownSection(name: string, catalogue: Catalogue): string {
  const [likely] = similarNames(name, catalogue.sections);
  return `There is no section “${name}”, so what stands below it is not understood.${likely ? ` Is “${likely}” meant?` : ""}`;
}

function indentOf(text: string): number {
  return text.length - text.trimStart().length;
}

/** A line as an entry: the section to write above it, if another than that of the line before; or why it is none. */
function entryIn(
  text: string,
  place: Place | null,
  catalogue: Catalogue,
): { readonly section: string | null } | { readonly reason: string; readonly isProse: boolean } {
  const head = ENTRY.exec(text)?.[1];
  const here = place?.by === "broken" && head !== undefined && !mayStandIn(head, place.spec, catalogue) ? null : place;
  if (here?.by === "written" || here?.by === "broken") {
    if (head === "drop" || (head !== undefined && mayStandIn(head, here.spec, catalogue))) return { section: null };
    const isForeign = head === undefined || guessSection(text, null, catalogue) === null;
    return isForeign && isProse(text, catalogue) ? { reason: SENTENCE, isProse: true } : { section: null };
  }
  if (head === "drop" && here) return { section: null };
  const guess = head === undefined ? null : guessSection(text, here?.name ?? null, catalogue);
  if (guess && "section" in guess) return { section: guess.section === here?.name ? null : guess.section };
  if (guess) return { reason: ambiguity(head!, guess.among), isProse: false };
  if (head === "drop")
    return { reason: "“drop” stands in no section, so what it takes away is not known.", isProse: false };
  if (isProse(text, catalogue)) return { reason: SENTENCE, isProse: true };
  return { reason: `“${firstWord(text)}” is no name of the language, and it stands in no section.`, isProse: false };
}

function firstWord(text: string): string {
  const word = text.split(/\s/, 1)[0]!;
  return word.length > 40 ? `${word.slice(0, 40)}…` : word;
}

/** Whether an entry of that name may stand in a section: where names are free, any of its form. */
function mayStandIn(head: string, spec: SectionSpec | undefined, catalogue: Catalogue): boolean {
  switch (spec?.holds) {
    case "modes":
      return catalogue.mode(head) !== undefined;
    case "outputs":
      return /^[a-z]/.test(head);
    case "controls":
      return /^[A-Z]/.test(head);
    case "follows":
      return true;
    case "places":
    case "settings":
      return catalogue.element(head) !== undefined || catalogue.setting(spec.name, head) !== undefined;
    default:
      return false;
  }
}

/** Whether a line is written for a reader: several words and none of the marks of other text, or the marks of a sentence. */
function isProse(text: string, catalogue: Catalogue): boolean {
  const words = text.split(/\s+/).filter((word) => /^\p{L}[\p{L}’']*[.,:;!?)]*$/u.test(word));
  const all = text.split(/\s+/).length;
  if (/[=<>{}|\\$]|\d_|_\w/.test(text)) return false;
  // A word that only looks like a name is told as such.
  if (lookalikeSlip(text, { start: 0, end: text.search(/\s|$/) })) return false;
  if (words.length >= 4 && words.length * 3 >= all * 2) return true;
  const isEnded = /[.,:;!?…]$/.test(text) || /\p{L}[,;] \p{L}/u.test(text);
  const isNamed = catalogue.section(words[0] ?? "") !== undefined;
  return words.length > 0 && words.length * 2 >= all && (isEnded || (all <= 2 && !isNamed && words.length === all));
}
