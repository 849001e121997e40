/**
 * Scripts with their findings under the lines that have them, as in
 *
 *     craft "Jug"
 *     pack
 *       cells 4.5
 *             ^^^ wrong-type
 *
 * Several files stand one after another, each after the first under `=== path`.
 */
import { expect } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../shared/model/workspace.ts";
import type { Finding } from "../../shared/protocol/findings.ts";
import { findingsOf } from "../../shared/rules/engine/engine.ts";
import { rules } from "../../shared/rules/engine/registry.generated.ts";
import { memoryWorkspace } from "./memory.ts";

const core = makeCore(makeCatalogue());
const CODES: ReadonlySet<string> = new Set(rules.map(({ code }) => code));
/**
 * The codes to which these cases are held: those of single files and of the first craft rules.
 * A rule that comes later has cases of its own, and a craft that it speaks of may stand here.
 */
const HELD: ReadonlySet<string> = new Set(
  `syntax edition-newer section-misplaced unknown-name wrong-type wrong-unit missing-unit out-of-range unusual-value
  duplicate-entry use-missing use-cycle use-kind use-broken drop-nothing allow-unexplained condition-never
  condition-always condition-cycle condition-unset mode-clash channel-shared positions-alike arm-missing arm-at-rest
  output-unexplained osd-off-grid osd-overlap band-mismatch endpoints-off`
    .split(/\s+/)
    .map(knownCode),
);
const MARK = /^ *\^+ [a-z-]+$/;
/**
 * A line with one of these is not understood, and that a rule is silent about it says little: they
 * are held in every case, whatever else it is about.
 */
const MISUNDERSTOOD =
  "syntax unknown-name wrong-type wrong-unit missing-unit section-misplaced use-missing use-kind".split(" ");

/** A handset that many of the cases use. */
export const WHEEL = `handset "Wheel"
controls
  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us
  PB button ch7 rest 1000 us held 2000 us
  KN dial ch9 1000 us to 2000 us
`;

/**
 * The same of craft of many pilots, that were put into one folder to be read: they are no fleet, and what most of them
 * have tells nothing about one of them.
 */
export function strangersOf(files: Readonly<Record<string, string>>): Workspace {
  return core.at(memoryFiles(files));
}

/** The workspace of some texts by path. */
export function workspaceOf(files: Readonly<Record<string, string>>): Workspace {
  return memoryWorkspace(core, files);
}

/**
 * Holds the findings of each file to the marks under its lines: every finding has its mark, every
 * mark its finding. `others` are files that are used, and held to nothing but that each line of
 * them is understood. Gives the findings of the first file.
 */
export function check(
  marked: string,
  others: Readonly<Record<string, string>> = {},
  held: ReadonlySet<string> = HELD,
): Finding[] {
  const shown = filesIn(marked);
  const plain = Object.fromEntries([...shown].map(([path, text]) => [path, unmarked(text)]));
  const workspace = workspaceOf({ "wheel.fettle": WHEEL, ...others, ...plain });
  for (const path of Object.keys(others)) {
    if (!shown.has(path)) understood(findingsOf(workspace, path));
  }
  const findings = [...shown.keys()].map((path) => heldFindings(workspace, path, held));
  const found = [...shown.keys()].map((path, i) => withMarks(plain[path]!, findings[i]!));
  expect(found.join("\n=== \n")).toBe([...shown.values()].map(inOrder).join("\n=== \n"));
  return findings[0]!;
}

/** As `check`, but held to these codes, and to no others but those of lines that are not understood. */
export function checkOnly(codes: string, marked: string, others: Readonly<Record<string, string>> = {}): Finding[] {
  return check(marked, others, new Set([...codes.split(" ").map(knownCode), ...MISUNDERSTOOD]));
}

/**
 * What one rule finds in a craft of these lines that uses `WHEEL`, as `SEVERITY LINE: message`, with the text of
 * the line. `more` are further files by path.
 */
export function reported(
  code: string,
  lines: readonly string[],
  more: Readonly<Record<string, string>> = {},
): string[] {
  const text = `craft "Jug"\nuse "wheel.fettle"\n${lines.join("\n")}\n`;
  return findingsOf(workspaceOf({ "wheel.fettle": WHEEL, ...more, "jug.fettle": text }), "jug.fettle")
    .filter((finding) => finding.code === knownCode(code))
    .map(({ severity, range, message }) => `${severity} ${text.split("\n")[range.start.line]!.trim()}: ${message}`);
}

/** Codes of the findings of one text, in order. */
export function codesOf(text: string): string[] {
  const workspace = workspaceOf({ "wheel.fettle": WHEEL, "jug.fettle": text });
  return heldFindings(workspace, "jug.fettle", HELD).map(({ code }) => code);
}

function heldFindings(workspace: Workspace, file: string, held: ReadonlySet<string>): Finding[] {
  return findingsOf(workspace, file).filter(({ code }) => held.has(code));
}

/** The code itself; throws where no rule has it, so that a slip of the pen is not taken for silence. */
export function knownCode(code: string): string {
  if (!CODES.has(code)) throw new Error(`No rule has the code “${code}”.`);
  return code;
}

/** The same findings; fails where one says that a line was not understood, so that silence means something. */
export function understood(findings: readonly Finding[]): readonly Finding[] {
  const faults = findings.filter(({ code }) => MISUNDERSTOOD.includes(code));
  expect(faults.map(({ code, message }) => `${code}: ${message}`)).toEqual([]);
  return findings;
}

function filesIn(marked: string): Map<string, string> {
  const files = new Map<string, string>();
  const [first = "", ...rest] = dedent(marked).split(/^=== /m);
  files.set("jug.fettle", first.trimEnd());
  for (const part of rest) {
    const end = part.indexOf("\n");
    files.set(part.slice(0, end).trim(), part.slice(end + 1).trimEnd());
  }
  return files;
}

function dedent(text: string): string {
  const lines = text.replace(/^\n/, "").split("\n");
  const indents = lines.filter((line) => line.trim() !== "").map((line) => line.length - line.trimStart().length);
  const least = Math.min(...indents);
  return lines.map((line) => line.slice(least)).join("\n");
}

/** The text without the marks; throws for a mark that names no code. */
export function unmarked(text: string): string {
  return text
    .split("\n")
    .filter((line) => {
      if (/^ *\^/.test(line) && !MARK.test(line)) throw new Error(`This mark names no code: “${line.trim()}”.`);
      return !MARK.test(line);
    })
    .join("\n");
}

/** Marks under one line in one order, so that a case may write them as it likes. */
export function inOrder(text: string): string {
  const lines: string[] = [];
  let marks: string[] = [];
  for (const line of [...text.split("\n"), ""]) {
    if (MARK.test(line)) marks.push(line);
    else {
      lines.push(...marks.sort(), line);
      marks = [];
    }
  }
  return lines.slice(0, -1).join("\n");
}

/** The text with a mark for each finding under its line, in the order of `inOrder`. */
export function withMarks(text: string, findings: readonly Finding[]): string {
  return text
    .split("\n")
    .flatMap((line, i) => {
      const marks = findings
        .filter(({ range }) => range.start.line === i)
        .map(({ code, range: { start, end } }) => {
          const carets = "^".repeat(Math.max(1, end.character - start.character));
          return `${" ".repeat(start.character)}${carets} ${code}`;
        });
      return [line, ...marks.sort()];
    })
    .join("\n");
}
