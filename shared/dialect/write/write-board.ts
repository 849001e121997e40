/**
 * Writes a craft in a board's own text, onto the board's last one: what that says already is not touched, and all that
 * cannot be written is said.
 */
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Dialect } from "../dialect.ts";
import { surroundingsOf } from "../read/read-board.ts";
import { chooseFor } from "./choose.ts";
import { type Draft, draftOf, type Row } from "./draft.ts";
import { chooseForItems, itemsOf, listItems } from "./items.ts";
import { addKept, keptOf } from "./kept.ts";
import { clearLeftover, unsetTheRest } from "./leftover.ts";
import { chooseForMode, modeTask } from "./modes.ts";
import { Edits, type Plan } from "./plan.ts";
import { endsBare, isClosing, realize } from "./realize.ts";
import { cannotSay, emptyReport } from "./report.ts";
import { reportRounded } from "./rounded.ts";
import { figureOf, type Want, wantedOf } from "./wanted.ts";
import type { Written } from "./written.ts";

/**
 * The whole text and the lines that changed. `base`: the board's last text; null where none is known, and then the
 * lines that the script kept of this dialect are the base. Line ends of the base stay.
 */
export function writeBoard(dialect: Dialect, craft: Craft, workspace: Workspace, base: string | null): Written {
  const { catalogue } = workspace;
  const around = surroundingsOf({ workspace, handset: null, craft });
  const kept = keptOf(craft, dialect.name);
  const draft = draftOf(dialect, base ?? kept.map((line) => `${line}\n`).join(""), base !== null, catalogue, around);
  if (base !== null) addKept(draft, kept);
  const { wants, unclear } = wantedOf(craft, workspace);
  const report = emptyReport();
  for (const { what, why } of unclear) cannotSay(report, what, why);
  const wanted = new Set([
    ...wants.map(({ section, name }) => `${section} ${name}`),
    ...unclear.map(({ what }) => what),
  ]);
  const plan: Plan = { draft, edits: new Edits(), wanted, numbers: new Map(), rewritten: new Set(), kept: new Set() };
  const figures = (want: Want, name: Parameters<typeof figureOf>[0]) => figureOf(name, want.section, craft);
  const plain = wants.filter(({ content }) => content.kind !== "condition");
  const modes = wants.filter(({ content }) => content.kind === "condition");
  for (const want of plain)
    if (want.item === null && !isSaid(draft, want) && listItems(draft, want).length === 0)
      chooseFor(plan, want, report, figures);
  for (const items of itemsOf(draft, plain))
    chooseForItems(plan, items, (want) => chooseFor(plan, want, report, figures));
  const task = modeTask(craft, workspace, draft, modes);
  for (const want of modes) chooseForMode(plan, want, task, report);
  clearLeftover(plan, report, catalogue);
  if (base === null) unsetTheRest(plan, wants);
  for (const edit of plan.edits) if (edit.row) realize(plan, edit, report);
  for (const edit of plan.edits) if (!edit.row) realize(plan, edit, report);
  const text = wholeText(draft);
  reportRounded(draft, text, plain, report, around);
  return { text, changes: changesOf(draft), ...report };
}

function isSaid({ said }: Draft, { section, name, rest, content }: Want): boolean {
  // In which order a list is written is no matter of what it says.
  const isList = content.kind === "value" && content.value.kind === "list";
  const printed = (text: string) => (isList ? text.split(", ").sort().join(", ") : text);
  return said.get(`${section} ${name}`)?.some((entry) => printed(entry.rest) === printed(rest)) ?? false;
}

// --- The text ----------------------------------------------------------------------

function wholeText(draft: Draft): string {
  const { blocks, dialect, end, byteOrderMark } = draft;
  const lines: { text: string; end: string }[] = [];
  const closing: { text: string; end: string }[] = [];
  for (const [i, { heading, rows }] of blocks.entries()) {
    if (heading) lines.push(heading);
    const there = rows.filter(({ status }) => status !== "gone");
    const last = i === blocks.length - 1 || blocks.slice(i + 1).every((block) => block.heading?.status === "new");
    // What is sent last stays last, behind headings that are new.
    const tail = last ? there.findLastIndex((row) => !isClosing(row) && row.text.trim() !== "") + 1 : there.length;
    const isTail = there.slice(tail).some(isClosing);
    lines.push(...(isTail ? there.slice(0, tail) : there));
    if (isTail) closing.push(...there.slice(tail));
  }
  const said = new Set([...lines, ...closing].map(({ text }) => text.trim()));
  const missing = (texts: readonly string[]) =>
    texts.filter((text) => !said.has(text.trim())).map((text) => ({ text, end }));
  const all = [...missing(dialect.text.opening), ...lines, ...closing, ...missing(dialect.text.closing)];
  return (
    byteOrderMark + all.map((line, i) => line.text + (line.end === "" && i < all.length - 1 ? end : line.end)).join("")
  );
}

/** The changed lines below their headings, those without first, between what is sent first and last; "" for none. */
function changesOf(draft: Draft): string {
  const { blocks, dialect, end } = draft;
  const free: string[] = [];
  const lines: string[] = [];
  for (const { heading, rows } of blocks) {
    const changed = rows.filter(({ status }) => status === "changed" || status === "new");
    const below = changed.filter((row) => !needsNoHeading(draft, row));
    free.push(...changed.filter((row) => needsNoHeading(draft, row)).map(({ text }) => text));
    if (below.length === 0 && heading?.status !== "new") continue;
    if (heading) lines.push(heading.text);
    lines.push(...below.map(({ text }) => text));
  }
  if (free.length + lines.length === 0) return "";
  if (endsBare(draft)) lines.push(draft.blocks.at(-1)!.heading!.text);
  return [...dialect.text.opening, ...free, ...lines, ...dialect.text.closing].map((line) => line + end).join("");
}

/** Whether a line means the same above all headings as where it stands. */
function needsNoHeading({ reader, blocks }: Draft, { text, parse, block }: Row): boolean {
  const { scope } = blocks[0]!;
  if (block.scope === scope) return true;
  if (parse.kind !== "fits" || parse.left.under.kind !== "anywhere") return false;
  const above = reader.read(text, scope);
  return above.kind === "fits" && above.left === parse.left;
}
