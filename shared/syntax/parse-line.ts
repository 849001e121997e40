/** Parses one line. The result depends only on its text and on where it stands: in a dialect, in a verbatim section. */
import { commentStart, factCommentStart, isSpace, type Scanner, scanner } from "./scanner.ts";
import { commentSlip, lookalikeSlip, nameSlip, quotesSlip, type Slip } from "./slips.ts";
import type { FileKind, Line, LineIssue, LineNode, PlainEnd, Quoted, Word } from "./tree.ts";

/** The newest edition of the language that this version can read. */
const EDITION = 1;

const STRAY: LineNode = { kind: "stray" };
/** The keywords that start a header. */
export const FILE_KINDS: readonly string[] = ["craft", "layer", "handset", "dialect"] satisfies FileKind[];

/** How a line is read: as one of a script, as one inside a verbatim section of it, or as one of a dialect. */
export type Within = "plain" | "verbatim" | "dialect";

/**
 * Parses one line, given without its line end. Never throws: a line that cannot be parsed is a `stray` with
 * an issue.
 */
export function parseLine(text: string, within: Within): Line {
  if (within === "plain" && text.length < LONG) {
    const line = plainEntry(text);
    if (line) return line;
  }
  const { node, comment, issues } = read(text, within);
  return { text, node, comment, issues, isPlain: !BEYOND_PLAIN.test(text), meaning: null };
}

const BEYOND_PLAIN = /[^\t -~]/;

/**
 * An entry in plain characters with a value, without text in quotes and comment. A number, a unit and a word are what
 * the scanner reads as such: one pattern is one step, which is what counts in code that has hardly run.
 */
const PLAIN_ENTRY =
  /^([ \t]+)([a-z][a-z0-9-]*)([ \t]+)(?:(?:(-?\d+(?:\.\d+)?)(?:[ \t]*(%|[A-Za-z]+(?:\/[A-Za-z]+)?))?|([a-z][a-z0-9-]*))$|[!$-~](?:[ \t]*[!$-~])*$)/;
/** An engine keeps a step for each character that such a pattern may have to give back. */
const LONG = 400;
const NO_ISSUES: readonly LineIssue[] = [];
const WORD: PlainEnd = { digits: null, unitAt: -1 };

/** The line that most are, in one step; null for any other. */
function plainEntry(text: string): Line | null {
  const found = PLAIN_ENTRY.exec(text);
  if (!found) return null;
  const name = found[2]!;
  if (name === "drop") return null;
  const start = found[1]!.length;
  const end = start + name.length;
  const head = { text: name, start, end };
  const value = { start: end + found[3]!.length, end: text.length };
  const digits = found[4];
  let node: LineNode;
  if (digits !== undefined) {
    const unit = found[5];
    node = {
      kind: "entry",
      head,
      value,
      plain: { digits, unitAt: unit === undefined ? -1 : text.length - unit.length },
    };
  } else if (found[6] !== undefined) node = { kind: "entry", head, value, plain: WORD };
  else node = { kind: "entry", head, value };
  return { text, node, comment: null, issues: NO_ISSUES, isPlain: true, meaning: null };
}

function read(text: string, within: Within): Omit<Line, "isPlain" | "meaning"> {
  const indent = indentOf(text);
  if (indent === text.length) return { text, node: { kind: "blank" }, comment: null, issues: [] };
  if (text.charCodeAt(indent) === 35) {
    const node: LineNode = { kind: "comment", text: text.slice(indent + 1) };
    return { text, node, comment: { start: indent, end: text.length }, issues: [] };
  }
  if (within === "verbatim" && indent > 0 && text.charCodeAt(indent) === 124) {
    return { text, node: { kind: "kept", text: text.slice(indent + 1), bar: indent }, comment: null, issues: [] };
  }
  const inDialect = within === "dialect" && indent > 0;
  const hash = inDialect ? factCommentStart(text) : commentStart(text);
  const comment = hash < 0 ? null : { start: hash, end: text.length };
  let end = hash < 0 ? text.length : hash;
  while (end > indent && isSpace(text.charCodeAt(end - 1))) end--;
  if (inDialect) return { text, node: { kind: "fact", content: { start: indent, end } }, comment, issues: [] };
  const issues: LineIssue[] = [];
  const scan = scanner(text, indent, end);
  const node = indent === 0 ? parseStatement(scan, text, end, issues) : parseEntry(scan, text, end, within, issues);
  return { text, node, comment, issues };
}

/** A line of a handset's section that lost its indent. */
const CONTROL_LINE = /^[A-Z][A-Za-z0-9]*[ \t]+(?:switch|selector|button|dial)[ \t]/;
const OUTDENTED_CONTROL = "A control stands in its section: indent the line by one space or more.";
const INDENT = { title: "Indent the line", start: 0, end: 0, text: "  " };

function parseStatement(scan: Scanner, text: string, end: number, issues: LineIssue[]): LineNode {
  const word = scan.name();
  if (!word) {
    const found = scan.rest();
    const isControl = CONTROL_LINE.test(text);
    issues.push(
      (isControl ? { ...issue(found, OUTDENTED_CONTROL), repair: INDENT } : null) ??
        slipIssue(found, commentSlip(found) ?? lookalikeSlip(text, found) ?? nameSlip(found)) ??
        issue(
          found,
          `“${found.text}” starts no statement: a line that is not indented is the header, a “use” or the name of a section. If it belongs to the section above, indent it.`,
        ),
    );
    return STRAY;
  }
  if (FILE_KINDS.includes(word.text)) return parseHeader(word, scan, text, end, issues);
  if (word.text === "use") {
    const path = readText(scan, text, end, issues, 'the file\'s name in quotes, as in use "layers/habits.fettle"');
    expectEnd(scan, end, issues, "after the file's name");
    return { kind: "use", word, path };
  }
  if (scan.done()) return { kind: "section", name: word, title: null };
  const quoted = scan.quoted();
  if (quoted && scan.done()) return { kind: "section", name: word, title: quoted };
  const from = quoted ? scan.at() : word.end + 1;
  const slip = titleSlip(word, { text: text.slice(scan.at(), end), start: scan.at(), end });
  issues.push(
    slipIssue({ start: from, end }, slip) ?? {
      code: "syntax",
      start: from,
      end,
      message: `A section's name stands alone on its line: nothing may follow “${word.text}”. An entry is indented by one space or more.`,
      repair: INDENT,
    },
  );
  return { kind: "section", name: word, title: quoted };
}

function parseHeader(word: Word, scan: Scanner, text: string, end: number, issues: LineIssue[]): LineNode {
  const name = readText(scan, text, end, issues, `a name in quotes, as in ${word.text} "Tankard"`);
  let edition = EDITION;
  if (name && !scan.done()) {
    const found = scan.name();
    const number = found?.text === "edition" ? scan.digits() : null;
    if (found && number && /^\d+$/.test(number.text) && scan.done()) {
      edition = Number(number.text);
      if (edition > EDITION) {
        issues.push({
          code: "edition-newer",
          start: found.start,
          end: number.end,
          message: `This script is written in edition ${edition}; this tool reads edition ${EDITION}. Nothing in it was read and nothing will be rewritten: update the tool.`,
        });
      } else if (edition < 1) {
        issues.push(issue(number, "Editions count from 1."));
      }
    } else {
      const from = found?.start ?? scan.at();
      issues.push({
        code: "syntax",
        start: from,
        end,
        message: `Only “edition” and a whole number may follow the name, as in ${word.text} "Tankard" edition 1.`,
      });
    }
  }
  return { kind: "header", word, fileKind: word.text as FileKind, name, edition };
}

function parseEntry(scan: Scanner, text: string, end: number, within: Within, issues: LineIssue[]): LineNode {
  const head = scan.name() ?? scan.control();
  if (head?.text === "drop" && (within !== "verbatim" || scan.rest().text === "all"))
    return parseDrop(head, scan, end, issues);
  if (within === "verbatim") {
    const found = head ?? scan.rest();
    issues.push(
      issue(
        { start: found.start, end },
        "A kept line of board text begins with “|” after its indent; only “drop all” may stand beside such lines.",
      ),
    );
    return STRAY;
  }
  if (!head) {
    const found = scan.rest();
    issues.push(
      slipIssue(found, commentSlip(found) ?? lookalikeSlip(text, found) ?? nameSlip(found)) ??
        issue(
          found,
          `“${found.text}” is no name: an entry begins with a name in small letters, or with a control such as TL.`,
        ),
    );
    return STRAY;
  }
  const start = Math.min(scan.at(), end);
  return { kind: "entry", head, value: { start, end } };
}

function parseDrop(word: Word, scan: Scanner, end: number, issues: LineIssue[]): LineNode {
  const names: Word[] = [];
  let all: Word | null = null;
  while (!scan.done()) {
    const name = scan.name() ?? scan.control();
    if (!name) {
      const found = scan.rest();
      issues.push(
        issue({ start: found.start, end }, `“${found.text}” is no name. Name what to remove, or write “drop all”.`),
      );
      return STRAY;
    }
    if (name.text === "all") all = name;
    else names.push(name);
  }
  if (all && names.length > 0) {
    issues.push(
      issue({ start: word.start, end }, "“drop all” removes the whole section: no names may stand beside “all”."),
    );
    return STRAY;
  }
  if (!all && names.length === 0) {
    issues.push(issue(word, "“drop” removes what earlier files set: name it here, or write “drop all”."));
    return STRAY;
  }
  return { kind: "drop", word, all, names };
}

function readText(scan: Scanner, text: string, end: number, issues: LineIssue[], expected: string): Quoted | null {
  if (scan.done()) {
    issues.push(issue({ start: Math.max(0, end - 1), end }, `Something is missing here: ${expected}.`));
    return null;
  }
  const quoted = scan.quoted();
  if (quoted) return quoted;
  const start = scan.at();
  const found = { text: text.slice(start, end), start, end };
  issues.push(
    slipIssue(found, quotesSlip(found, expected) ?? foldersSlip(found) ?? unquotedSlip(found, expected)) ??
      issue(found, found.text.startsWith('"') ? BAD_STRING : `Here belongs ${expected}.`),
  );
  scan.moveTo(end);
  return null;
}

/**
 * A common mistake after the name of a section, if it is not an entry that lost its indent; null for any
 * other text.
 */
function titleSlip(word: Word, found: Word): Slip | null {
  if (/^[:;,={]$/.test(found.text)) {
    const repair = { title: `Remove “${found.text}”`, start: word.end, end: found.end, text: "" };
    return { message: `A section's name stands alone on its line: remove “${found.text}”.`, repair };
  }
  if (word.text !== "pack" && word.text !== "verbatim") return null;
  const expected = `the name in quotes, as in ${word.text} "Long"`;
  return quotesSlip(found, expected) ?? (/^[\w-]+$/.test(found.text) ? unquotedSlip(found, expected) : null);
}

/** A path with backslashes, which a string of the language cannot contain unescaped; null for any other text. */
function foldersSlip(found: Word): Slip | null {
  if (!/^"[^"\\]*(\\[^"\\]+)+"$/.test(found.text)) return null;
  const path = found.text.replaceAll("\\", "/");
  const repair = { title: `Write ${path}`, start: found.start, end: found.end, text: path };
  return { message: `A “\\” cannot stand so in quotes; between folders stands “/”: ${path}.`, repair };
}

function unquotedSlip(found: Word, expected: string): Slip | null {
  if (!/^[^"\\\s]+( [^"\\\s]+)*$/.test(found.text)) return null;
  const repair = { title: `Write "${found.text}"`, start: found.start, end: found.end, text: `"${found.text}"` };
  return { message: `Here belongs ${expected}.`, repair };
}

/** Message for a string literal that could not be read. */
export const BAD_STRING =
  'This text in quotes cannot be read: it must end with a quote on the same line, and inside it only \\" and \\\\ may follow a backslash.';

function expectEnd(scan: Scanner, end: number, issues: LineIssue[], where: string): void {
  if (!scan.done())
    issues.push(
      issue({ start: scan.at(), end }, `Nothing may stand ${where}: remove it, or begin it with # as a comment.`),
    );
}

function slipIssue(at: { start: number; end: number }, slip: Slip | null): LineIssue | null {
  return slip && { code: "syntax", start: at.start, end: at.end, message: slip.message, repair: slip.repair };
}

function issue(at: { start: number; end: number }, message: string): LineIssue {
  return { code: "syntax", start: at.start, end: at.end, message };
}

function indentOf(text: string): number {
  let i = 0;
  while (i < text.length && isSpace(text.charCodeAt(i))) i++;
  return i;
}
