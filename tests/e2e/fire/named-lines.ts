/**
 * Which lines a gesture may change, taken from the message by which the page told of it and from nothing of the program:
 * those of the element, the motor or the check that it names, in their section.
 */
import type { BenchMade } from "../../../shared/protocol/panel-messages.ts";
import type { Part } from "./memory-documents.ts";

/** A message of the panel that is to change a script. */
export type Written =
  | {
      readonly kind: "osd";
      readonly page: string;
      readonly gesture: { readonly kind: string; readonly element?: string };
    }
  | { readonly kind: "motor"; readonly gesture: { readonly kind: string; readonly motor: number } }
  | { readonly kind: "bench"; readonly gesture: BenchMade };

interface Line {
  readonly text: string;
  /** The heading above it, as in `osd`; the heading itself belongs to its own section. */
  readonly section: string;
}

/** What went and what came of the lines of a text; what is on both sides, in its order, is in neither. */
export function changedLines({ before, after }: Pick<Part, "before" | "after">): { went: Line[]; came: Line[] } {
  const [was, is] = [linesOf(before), linesOf(after)];
  const common = commonLines(
    was.map(({ text }) => text),
    is.map(({ text }) => text),
  );
  return {
    went: was.filter((_, index) => !common.was.has(index)),
    came: is.filter((_, index) => !common.is.has(index)),
  };
}

/** Lines that changed and that the message does not name: none, where all is well. */
export function unnamedLines(written: Written, part: Pick<Part, "before" | "after">): string[] {
  const { went, came } = changedLines(part);
  const isNamed = namedBy(written);
  const wrong = (line: Line, sign: string) =>
    line.text.trim() === "" || isNamed(line, sign === "-") ? [] : [`${sign}[${line.section}] ${line.text}`];
  return [...went.flatMap((line) => wrong(line, "-")), ...came.flatMap((line) => wrong(line, "+"))];
}

function namedBy(written: Written): (line: Line, goes: boolean) => boolean {
  const isHeading = ({ text, section }: Line) => text.replace(/\s*#.*/, "") === section;
  if (written.kind === "bench") {
    const { gesture } = written;
    const what = gesture.kind === "reading" ? gesture.name : gesture.check;
    const dot = what.indexOf(".");
    const [section, name] = [sectionName(what.slice(0, dot)), what.slice(dot + 1).split(/[ .]/)[0]!];
    // What a layer says cannot be unsaid but by a drop.
    return (line, goes) =>
      sectionName(line.section) === section &&
      ((!goes && isHeading(line)) || nameOf(line) === name || isNote(line, goes) || isDropOf(line, [name]));
  }
  if (written.kind === "motor") {
    const own = `motor${written.gesture.motor}`;
    // One that stands in the corner changes places with it.
    const names =
      written.gesture.kind === "turn" ? (name: string) => name === own : (name: string) => /^motor\d+$/.test(name);
    return (line, goes) => line.section === "motors" && ((!goes && isHeading(line)) || names(nameOf(line)));
  }
  const { page, gesture } = written;
  const { element } = gesture;
  if (element === undefined) {
    if (gesture.kind === "begin")
      return (line, goes) => !goes && (line.section === page || line.section === "osd" || /^use\b/.test(line.text));
    return (line) => line.section === "osd" || line.section === "osd-second";
  }
  return (line, goes) =>
    line.section === page &&
    ((!goes && isHeading(line)) ||
      nameOf(line) === element ||
      // A line that goes takes its notes with it.
      (gesture.kind === "remove" && isNote(line, goes)) ||
      isDropOf(line, [element]));
}

const nameOf = ({ text }: Line) => /^\s+([^\s#]+)/.exec(text)?.[1] ?? "";
const isNote = ({ text }: Line, goes: boolean) => goes && /^\s*#/.test(text);
const isDropOf = ({ text }: Line, names: readonly string[]) => {
  const dropped = /^\s+drop\s+([^#]*)/.exec(text)?.[1] ?? "";
  return dropped.split(/[\s,]+/).some((name) => names.includes(name));
};
const sectionName = (text: string) => text.replace(/^pack "(.*)".*$/, "pack/$1");

function linesOf(text: string): Line[] {
  let section = "";
  return text.split("\n").map((whole) => {
    const line = whole.replace(/\r$/, "");
    // A note at the margin ends no section.
    if (/^[^\s#]/.test(line)) section = line.replace(/\s*#.*/, "").trim();
    return { text: line, section };
  });
}

/** A longest common subsequence by its places in both: Wagner and Fischer's table, between what both begin and end with. */
function commonLines(was: readonly string[], is: readonly string[]) {
  const common = { was: new Set<number>(), is: new Set<number>() };
  const take = (i: number, j: number) => {
    common.was.add(i);
    common.is.add(j);
  };
  let start = 0;
  while (start < was.length && start < is.length && was[start] === is[start]) take(start, start++);
  let [i, j] = [was.length, is.length];
  while (i > start && j > start && was[i - 1] === is[j - 1]) take(--i, --j);
  const [rows, columns] = [i - start, j - start];
  const longest = Array.from({ length: rows + 1 }, () => new Array<number>(columns + 1).fill(0));
  for (let row = rows - 1; row >= 0; row--)
    for (let column = columns - 1; column >= 0; column--)
      longest[row]![column] =
        was[start + row] === is[start + column]
          ? longest[row + 1]![column + 1]! + 1
          : Math.max(longest[row + 1]![column]!, longest[row]![column + 1]!);
  for (let row = 0, column = 0; row < rows && column < columns; ) {
    if (was[start + row] === is[start + column]) take(start + row++, start + column++);
    else if (longest[row + 1]![column]! >= longest[row]![column + 1]!) row++;
    else column++;
  }
  return common;
}
