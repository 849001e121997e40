/** Names a line of a board's text: writes the line of the dialect by which it means what the craft says. */
import type { Dialect } from "../../dialect/dialect.ts";
import { dialectOf } from "../../dialect/dialects.ts";
import { matchPattern } from "../../dialect/patterns/match.ts";
import { lineReadings } from "../../dialect/read/read-board.ts";
import type { ReadLine } from "../../dialect/read/reading.ts";
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { TextEdit } from "../../syntax/span.ts";
import { splitLines } from "../../syntax/split-lines.ts";
import { finish, type Steps } from "../../text/steps.ts";
import { textWith, withFile } from "../context/trial.ts";
import { whyNotWritable } from "../edits/script-edits.ts";
import { dialectEdits, type FactPlace, greetingOf, newDialectText } from "./dialect-edits.ts";
import { type NamedLine, type OfferedFact, offeredFacts } from "./offered-facts.ts";
import { rightOf } from "./value-pieces.ts";

export interface NameLine {
  /** The board's text, and the line of it from 0. */
  readonly text: string;
  readonly line: number;
  readonly section: string;
  readonly name: string;
  /** As a script writes it, behind the name. */
  readonly value: string;
  /** The dialect's file; it need not exist yet. */
  readonly file: FilePath;
  /** The name of a dialect that begins. */
  readonly dialectName: string;
}

export interface LineOffer {
  /** The line of the dialect as it is written. */
  readonly fact: string;
  readonly how: string;
  /** Whether a number of the line may be any other. */
  readonly leavesOpen: boolean;
  readonly reads: string;
  /** Lines that are read by it and were not, from 0. */
  readonly lines: readonly number[];
  /** Of a dialect that is there; null where it begins, as `text`. */
  readonly edits: readonly TextEdit[] | null;
  /** The whole dialect with it. */
  readonly text: string;
}

export type LineOffers =
  | { readonly kind: "offers"; readonly offers: readonly LineOffer[] }
  | { readonly kind: "refused"; readonly message: string };

/** The lines of a dialect that make the board line mean the value, tried out on the whole text, the likeliest first. */
export function* nameLineSteps(workspace: Workspace, asked: NameLine): Steps<LineOffers> {
  const { catalogue } = workspace;
  const read = rightOf(catalogue, asked.section, asked.name, asked.value);
  if (read.kind === "wrong") return refused(read.why);
  const boardLines = splitLines(asked.text.replace(/^\uFEFF/, "")).lines;
  const raw = boardLines[asked.line];
  if (raw === undefined || raw.trim() === "") return refused("This line is blank, so there is nothing to name in it.");
  if (raw.length > 4096) return refused("This line is longer than any that a dialect reads: it is kept as it is.");
  const there = workspace.script(asked.file);
  const fault = there && whyNot(workspace, there);
  if (fault) return refused(fault);
  const begun = there
    ? workspace
    : withFile(workspace, asked.file, newDialectText(asked.dialectName, greetingOf(asked.text)));
  const script = begun.script(asked.file)!;
  const dialect = dialectOf(begun, asked.file)!;
  yield;
  const sample = sampleOf(boardLines, asked.line);
  const before = lineReadings(dialect, sample, catalogue);
  const now = before[asked.line];
  if (now?.state === "read" && now.says.includes(`${asked.section} ${asked.name} ${read.right.text}`))
    return refused(
      `Line ${asked.line + 1} says “${asked.name} ${read.right.text}” already, by line ${now.by[0]! + 1} of “${dialect.name}”.`,
    );
  const line: NamedLine = {
    text: dialect.text.blanks === "loose" ? raw.trim() : raw,
    section: asked.section,
    name: asked.name,
    right: read.right,
    fits: fitting(dialect, dialect.text.blanks === "loose" ? raw.trim() : raw, now),
  };
  const seen = new Set<string>();
  const offers: LineOffer[] = [];
  for (const offer of offeredFacts(dialect, line)) {
    yield;
    const made = tried(begun, script, offer, { asked, sample, before, right: read.right.text, isNew: there === null });
    if (made && !seen.has(made.text)) offers.push(made);
    if (made) seen.add(made.text);
  }
  if (offers.length === 0) return refused(whyNothing(asked, dialect, now));
  return { kind: "offers", offers: inOrder(offers) };
}

/** The same, all at once. */
export function nameLine(workspace: Workspace, asked: NameLine): LineOffers {
  return finish(nameLineSteps(workspace, asked));
}

/** One that leaves a number open is offered where it reads other lines as well; of those that do not the likeliest, last. */
function inOrder(offers: readonly LineOffer[]): readonly LineOffer[] {
  const isIdle = ({ leavesOpen, lines }: LineOffer) => leavesOpen && lines.length < 2;
  return [...offers.filter((each) => !isIdle(each)), ...offers.filter(isIdle).slice(0, 1)];
}

function refused(message: string): LineOffers {
  return { kind: "refused", message };
}

function whyNot(workspace: Workspace, script: Script): string | null {
  if (script.kind !== "dialect")
    return `“${script.name}” is a ${script.kind} and no dialect: choose the dialect of this text first.`;
  return whyNotWritable(workspace, script, 0);
}

function whyNothing({ value, name }: NameLine, dialect: Dialect, now: ReadLine | undefined): string {
  const nothing = `nothing else of it can be “${name} ${value}”`;
  const at = now?.by[0];
  if (!now || at === undefined)
    return `Nothing in this line can be “${name} ${value}”, and no line of a dialect would make it so.`;
  const fact = `line ${at + 1} of “${dialect.name}”`;
  return now.state === "odd"
    ? `This line is odd by ${fact}, and ${nothing}: change that line. ${now.why ?? ""}`.trim()
    : `This line is read by ${fact} already, and ${nothing}: change that line.`;
}

/** The left side that the line fits already, whether its values are right or not. */
function fitting(dialect: Dialect, text: string, now: ReadLine | undefined): NamedLine["fits"] {
  if (!now || now.by.length === 0) return null;
  for (const left of dialect.lefts) {
    if (!left.meanings.some((meaning) => now.by.includes(meaning.line) && meaning.lefts.length === 1)) continue;
    const match = matchPattern(left.pattern, text, dialect.text.blanks);
    if (match) return { left, match };
  }
  return null;
}

/** So many lines are tried in full. */
const MOST_LINES = 3000;

/** Of a long text the lines that begin alike; the others are blank, so that each keeps its number. */
function sampleOf(lines: readonly string[], line: number): string {
  if (lines.length <= MOST_LINES) return lines.join("\n");
  const beginning = lines[line]!.trimStart().slice(0, 3);
  return lines.map((each) => (each.trimStart().startsWith(beginning) ? each : "")).join("\n");
}

interface Trial {
  readonly asked: NameLine;
  readonly sample: string;
  readonly before: readonly ReadLine[];
  readonly right: string;
  readonly isNew: boolean;
}

/** What comes of an offer; null where the line would not mean what it is to. */
function tried(
  workspace: Workspace,
  script: Script,
  { lines, how, leavesOpen }: OfferedFact,
  trial: Trial,
): LineOffer | null {
  const { asked, sample, before, right, isNew } = trial;
  for (const place of ["last", "above headings"] satisfies FactPlace[]) {
    const edits = dialectEdits(script, lines, place);
    if (!edits) continue;
    const text = textWith(script, edits);
    const dialect = dialectOf(withFile(workspace, asked.file, text), asked.file)!;
    const after = lineReadings(dialect, sample, workspace.catalogue);
    const now = after[asked.line];
    const wanted = `${asked.section} ${asked.name} ${right}`;
    const isSaid = now?.state === "read" && (right === "unset" ? now.says.length === 0 : now.says.includes(wanted));
    if (!isSaid) continue;
    const { fact, codes } = lines;
    const [code] = codes;
    return {
      fact: fact ? `${fact.left}  ${fact.right}` : `${code!.name}  ${code!.says}`,
      how: fact && code ? `${how} (${codes.map((each) => `${each.name} ${each.says}`).join("; ")})` : how,
      leavesOpen,
      ...consequences(before, after, asked.line),
      edits: isNew ? null : edits,
      text,
    };
  }
  return null;
}

/** So many lines are named one by one. */
const MOST_NAMED = 4;

/** What else is read, and what was read and is not any more, or says something else. */
function consequences(
  before: readonly ReadLine[],
  after: readonly ReadLine[],
  line: number,
): Pick<LineOffer, "lines" | "reads"> {
  const lines: number[] = [];
  const lost: number[] = [];
  for (const [i, now] of after.entries()) {
    const then = before[i]!;
    if (now.state === "read" && then.state !== "read") lines.push(i);
    else if (then.state === "read" && (now.state !== "read" || then.says.some((says) => !now.says.includes(says))))
      lost.push(i);
  }
  const others = lines.filter((each) => each !== line);
  const reads = others.length === 0 ? "reads no other line" : `also reads ${numbered(others)}`;
  return { lines, reads: lost.length === 0 ? reads : `${reads}; ${numbered(lost)} would mean something else` };
}

function numbered(lines: readonly number[]): string {
  const shown = lines.slice(0, MOST_NAMED).map((each) => each + 1);
  const more = lines.length - shown.length;
  return `${lines.length === 1 ? "line" : "lines"} ${shown.join(", ")}${more > 0 ? ` and ${more} more` : ""}`;
}
