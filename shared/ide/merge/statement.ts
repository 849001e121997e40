/** One statement in its parts: its note, what it says, and the comment at its end. */
import type { Unit } from "./document.ts";
import type { Row } from "./rows.ts";

export interface Parts {
  readonly note: readonly Row[];
  /** What it says, with one blank where there are several outside of quotes. */
  readonly core: string;
  /** The comment at its end, from its `#`; null without one. */
  readonly comment: string | null;
  /** The comments by which its note accepts findings, one below the other. */
  readonly accepted: string;
}

const ACCEPTS = /^#\s*allow\s/;

export function partsOf(unit: Unit): Parts {
  const { text, comment } = unit.line!;
  const behind = comment ? text.slice(comment.start).trimEnd() : null;
  const comments = unit.note.map((row) => row.text.trim()).concat(behind ?? []);
  return {
    note: unit.note,
    core: inOneSpacing(text.slice(0, comment?.start ?? text.length)),
    comment: behind,
    accepted: comments.filter((each) => ACCEPTS.test(each)).join("\n"),
  };
}

/** A text with one blank wherever outside of quotes there are more, and none at its ends. */
export function inOneSpacing(text: string): string {
  return text
    .trim()
    .split(/("(?:[^"\\]|\\.)*"|'[^']*')/)
    .map((part, i) => (i % 2 === 1 ? part : part.replace(/\s+/g, " ")))
    .join("");
}

/**
 * A line of what one side says with the comment that one side has behind it. Indent, name and gap are as the side has
 * them that laid them out anew, else as in ours.
 */
export function written(
  units: { readonly base: Unit | null; readonly ours: Unit; readonly theirs: Unit },
  core: "ours" | "theirs",
  comment: "ours" | "theirs",
): string {
  const { base, ours, theirs } = units;
  const isLaidOutByTheirs = base !== null && columnsOf(base) === columnsOf(ours);
  const said = inColumnsOf(isLaidOutByTheirs ? theirs : ours, units[core]);
  const from = (comment === "ours" ? ours : theirs).line!;
  if (from.comment === null) return said;
  const text = from.text.slice(from.comment.start);
  const before = from.text.slice(0, from.comment.start);
  const gap = before.length - before.trimEnd().length;
  // The comment keeps its column where there is room.
  const room = before.trimEnd().length + gap - said.length;
  const blanks = before.endsWith("\t")
    ? before.slice(before.trimEnd().length)
    : " ".repeat(Math.max(room, Math.min(gap, 2)));
  return said + blanks + text;
}

function beforeComment({ line }: Unit): string {
  return line!.text.slice(0, line!.comment?.start ?? line!.text.length).trimEnd();
}

/** What one line says, behind the indent, name and gap of another one. */
function inColumnsOf({ line: laidOut }: Unit, said: Unit): string {
  const [a, b] = [laidOut!, said.line!];
  if (a === b || a.node.kind !== "entry" || b.node.kind !== "entry") return beforeComment(said);
  const hasValue = a.node.value.end > a.node.value.start;
  if (!hasValue || a.node.head.text !== b.node.head.text) return beforeComment(said);
  return a.text.slice(0, a.node.value.start) + b.text.slice(b.node.value.start, b.node.value.end);
}

function columnsOf({ line }: Unit): string {
  return line?.node.kind === "entry" ? line.text.slice(0, line.node.value.start) : "";
}
