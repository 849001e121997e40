/**
 * Writes a craft in a board's own text, onto the board's last one: what that says already is not touched, and all that
 * cannot be written is said.
 */
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Dialect } from "../dialect.ts";
import { joinEntries, type Surroundings } from "../read/join-entries.ts";
import { surroundingsOf } from "../read/read-board.ts";
import { nameOf, saidOf, sayingsOf } from "../read/sayings.ts";
import { chooseFor } from "./choose.ts";
import { type Draft, draftOf, type Row } from "./draft.ts";
import { addKept, keptOf } from "./kept.ts";
import { clearLeftover, unsetTheRest } from "./leftover.ts";
import { chooseForMode, modeTask } from "./modes.ts";
import { type Plan, rowsSaying } from "./plan.ts";
import { endsBare, isClosing, realize } from "./realize.ts";
import { cannotSay, emptyReport, type Report } from "./report.ts";
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
  const plan: Plan = { draft, edits: [], wanted, numbers: new Map(), rewritten: new Set(), kept: new Set() };
  const figures = (want: Want, name: Parameters<typeof figureOf>[0]) => figureOf(name, want.section, craft);
  const plain = wants.filter(({ content }) => content.kind !== "condition");
  const modes = wants.filter(({ content }) => content.kind === "condition");
  for (const want of plain) if (want.item === null && !isSaid(draft, want)) chooseFor(plan, want, report, figures);
  for (const items of itemsOf(plain)) chooseForItems(plan, items, (want) => chooseFor(plan, want, report, figures));
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

function isSaid({ said }: Draft, { section, name, rest }: Want): boolean {
  return said.get(`${section} ${name}`)?.some((entry) => entry.rest === rest) ?? false;
}

/** The lines of each repeatable setting. */
function itemsOf(wants: readonly Want[]): Want[][] {
  const groups = new Map<string, Want[]>();
  for (const want of wants) if (want.item !== null) groups.set(want.what, [...(groups.get(want.what) ?? []), want]);
  return [...groups.values()];
}

/** An equal item keeps its place; the others take what is left of the base's, then new ones. */
function chooseForItems(plan: Plan, items: readonly Want[], choose: (want: Want) => void): void {
  const { what } = items[0]!;
  const before = (plan.draft.said.get(what) ?? []).map(({ rest }) => rest);
  const used = new Set<number>();
  const open: Want[] = [];
  for (const want of items) {
    const at = before.findIndex((rest, i) => rest === want.rest && !used.has(i));
    if (at < 0) open.push(want);
    else used.add(at);
  }
  if (open.length === 0 && used.size === before.length) return;
  plan.rewritten.add(what);
  for (const at of used) for (const row of rowsOfItem(plan.draft, what, at)) plan.kept.add(row);
  const free = [...before.keys()].filter((i) => !used.has(i));
  for (const [i, want] of open.entries()) choose({ ...want, item: free[i] ?? before.length + i });
}

function rowsOfItem(draft: Draft, name: string, at: number): Row[] {
  const items = new Map<unknown, Row[]>();
  for (const row of rowsSaying(draft, name, null)) {
    const saying = row.sayings.find((each) => {
      const said = saidOf(each);
      return said !== null && nameOf(said) === name;
    });
    const key = saying?.item ?? saying?.lines[0] ?? row;
    items.set(key, [...(items.get(key) ?? []), row]);
  }
  return [...items.values()][at] ?? [];
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
  const lines: string[] = [];
  for (const { heading, rows } of blocks) {
    const changed = rows.filter(({ status }) => status === "changed" || status === "new").map(({ text }) => text);
    if (changed.length === 0 && heading?.status !== "new") continue;
    if (heading) lines.push(heading.text);
    lines.push(...changed);
  }
  if (lines.length === 0) return "";
  if (endsBare(draft)) lines.push(draft.blocks.at(-1)!.heading!.text);
  return [...dialect.text.opening, ...lines, ...dialect.text.closing].map((line) => line + end).join("");
}

// --- What was rounded --------------------------------------------------------------

/** Reads the text again: what differs from the craft was rounded, as all else is reported already. */
function reportRounded(draft: Draft, text: string, wants: readonly Want[], report: Report, around: Surroundings): void {
  const { reader, entries } = draft;
  const lines = text.slice(draft.byteOrderMark.length).split(/\r\n|\r|\n/);
  const joined = joinEntries(sayingsOf(lines, reader, entries).all, entries, around);
  const said = new Map<string, string[]>();
  for (const { section, name, rest } of joined.entries)
    said.set(`${section} ${name}`, [...(said.get(`${section} ${name}`) ?? []), rest]);
  const known = new Set([
    ...report.cannot.map(({ what }) => what),
    ...report.curves.map(({ what }) => what),
    ...report.unsaid,
  ]);
  for (const { what, rest } of wants) {
    const rests = said.get(what);
    const equal = rests?.indexOf(rest) ?? -1;
    if (equal >= 0) rests!.splice(equal, 1);
  }
  for (const { what, rest } of wants) {
    const rests = said.get(what);
    if (known.has(what) || !rests || rests.length === 0) continue;
    if (joined.entries.some((entry) => `${entry.section} ${entry.name}` === what && entry.rest === rest)) continue;
    report.rounded.push({ what, said: rest, written: rests.shift()! });
  }
}
