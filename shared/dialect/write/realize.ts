/** Makes the lines that were gathered: each new one is read back, and not written where it would mean something else. */
import { compareInNumbers } from "../../text/in-numbers.ts";
import { decodeSlot, encodeSlot, textOfHeld } from "../codes/codes.ts";
import { heldOfOurs, numberIn } from "../codes/held.ts";
import type { Held, Left } from "../dialect.ts";
import { numberOf } from "../exact.ts";
import { matchPattern } from "../patterns/match.ts";
import type { LineParse } from "../read/line-reader.ts";
import { nameOf, saidOf } from "../read/sayings.ts";
import { type Block, type Draft, heldIn, type Row, rowsOf } from "./draft.ts";
import { type Edit, identityOf, type Plan } from "./plan.ts";
import { cannotSay, type Report } from "./report.ts";
import { changedLine, newLine, spellSlots } from "./spell.ts";

/** Writes one line; where it cannot be, the report says why of everything that it was to say. */
export function realize(plan: Plan, edit: Edit, report: Report): void {
  const made = lineFor(plan, edit);
  if (typeof made === "string") {
    for (const { want } of edit.says) cannotSay(report, want.what, made);
    return;
  }
  const { line, parse } = made;
  if (edit.row) {
    if (line === edit.row.text) return;
    edit.row.text = line;
    edit.row.parse = parse;
    if (edit.row.status === "base") edit.row.status = "changed";
    return;
  }
  for (const { want, open } of edit.says)
    for (const { field, slots } of open)
      report.filled.push({
        what: `${want.what} ${field}`,
        value: slots.map((slot) => usualOf(edit.left, slot)).join(" + "),
        why: "neither the craft nor the board says it",
      });
  fillOthers(edit, parse, report);
  putInPlace(plan, edit, { text: line, end: plan.draft.end, parse, status: "new", sayings: [], beaten: [] });
}

/** What else a new line says, of entries that nobody says. */
function fillOthers({ says }: Edit, parse: LineParse, report: Report): void {
  if (parse.kind !== "fits") return;
  for (const { outcome } of parse.says) {
    if (outcome.kind !== "said" || outcome.said.body.kind !== "value") continue;
    const name = nameOf(outcome.said);
    if (!says.some(({ want }) => `${want.section} ${want.name}` === name))
      report.filled.push({ what: name, value: outcome.said.body.text, why: "the same line of the board says it" });
  }
}

/** What a slot holds without anybody saying it. */
function usualOf({ pattern }: Left, name: string): string {
  const slot = pattern.slots.get(name);
  const held = slot && slot.default !== null ? decodeSlot(slot, slot.default) : null;
  return held && held.kind !== "bad" ? textOfHeld(held) : "unset";
}

function lineFor({ draft }: Plan, edit: Edit): { line: string; parse: LineParse } | string {
  const { left, helds, place } = edit;
  // A line of another kind is replaced as a whole, where it stands.
  const row = edit.row?.parse.kind === "fits" && edit.row.parse.left === left ? edit.row : null;
  const spelled = spellSlots(left, helds, row);
  if (spelled.kind === "cannot") return spelled.why;
  const texts = new Map(spelled.texts);
  let line: string;
  if (row) line = changedLine(row, texts);
  else {
    for (const slot of left.pattern.slots.values()) {
      if (texts.has(slot.name) || slot.default !== null || draft.isGiven) continue;
      const unset = encodeSlot(slot, { kind: "unset" });
      if (unset.kind === "spelled") texts.set(slot.name, unset.text);
    }
    const made = newLine(left, texts);
    if ("why" in made) return made.why;
    line = made.line;
    const limit = draft.dialect.text.atMost.find(
      ({ text, count }) => line.startsWith(text) && !edit.row?.text.startsWith(text) && count <= linesWith(draft, text),
    );
    if (limit) return `the board takes at most ${limit.count} lines that begin with “${limit.text}”`;
  }
  if (row && line === row.text) return { line, parse: row.parse };
  const { longest } = draft.dialect.text;
  if (longest !== null && line.length > longest)
    return `the line would be longer than the ${longest} characters that the board takes: “${line}”`;
  const parse = draft.reader.read(line, edit.row?.block.scope ?? place.scope);
  if (isAsMeant(parse, left, texts, row)) return { line, parse };
  const beyond = parse.kind === "fits" ? parse.says.find(({ outcome }) => outcome.kind === "beyond") : undefined;
  return beyond?.outcome.kind === "beyond"
    ? beyond.outcome.why
    : `the line “${line}” would mean something else to the board`;
}

function linesWith(draft: Draft, text: string): number {
  let count = 0;
  for (const row of rowsOf(draft)) if (row.text.trimStart().startsWith(text)) count++;
  return count;
}

/** The same left side, with the same text in each slot, and nothing beyond a limit. */
function isAsMeant(parse: LineParse, left: Left, texts: ReadonlyMap<string, string>, row: Row | null): boolean {
  if (parse.kind !== "fits" || parse.left !== left) return false;
  if (parse.says.some(({ outcome }) => outcome.kind === "beyond" || outcome.kind === "unfit")) return false;
  const before = row?.parse.kind === "fits" ? row.parse.slots : null;
  return [...left.pattern.slots.values()].every((slot) => {
    const text = texts.get(slot.name) ?? before?.get(slot.name)?.text ?? slot.default;
    return parse.slots.get(slot.name)?.text === text;
  });
}

// --- Where new lines go ------------------------------------------------------------

/** Behind the last line of its kind, else of an earlier kind, else before a later one's, else last. */
function putInPlace(plan: Plan, edit: Edit, made: Omit<Row, "block">): void {
  const { left, place } = edit;
  const { draft } = plan;
  const usual = left.under.kind === "anywhere" ? blockWith(draft, left) : blockAt(draft, place, left);
  // Of lines that say the same the later one counts: what was said again below stays above.
  const names = new Set(edit.says.map(({ want }) => `${want.section} ${want.name}`));
  const beatenIn = ({ rows }: Block): number =>
    rows.findLastIndex(
      ({ status, beaten }) => status !== "gone" && beaten.map(saidOf).some((said) => said && names.has(nameOf(said))),
    );
  const later = draft.blocks.slice(draft.blocks.indexOf(usual) + 1).findLast((each) => beatenIn(each) >= 0);
  const block = left.under.kind === "anywhere" ? (later ?? usual) : usual;
  block.rows.splice(Math.max(beatenIn(block) + 1, indexFor(draft, edit, block.rows)), 0, { ...made, block });
}

function indexFor(draft: Draft, { left, helds }: Edit, rows: readonly Row[]): number {
  const same = rows.flatMap((each, i) => (leftAt(each) === left ? [i] : []));
  if (same.length > 0) {
    const behind = same.findLast((i) => compareLines(draft, left, rows[i]!, helds) <= 0);
    return behind === undefined ? same[0]! : behind + 1;
  }
  const kind = kindOf(left);
  const kinds = rows.map((each) => {
    const own = leftAt(each);
    return own && kindOf(own);
  });
  // Of the kinds before it the nearest, and of those behind it too.
  let [nearest, next] = [-1, Number.POSITIVE_INFINITY];
  for (const each of kinds) {
    if (each !== null && each < kind) nearest = Math.max(nearest, each);
    if (each !== null && each > kind) next = Math.min(next, each);
  }
  const [earlier, later] = [kinds.lastIndexOf(nearest), kinds.indexOf(next)];
  const last = rows.findLastIndex((each) => each.text.trim() !== "" && !isClosing(each)) + 1;
  return earlier >= 0 ? earlier + 1 : later >= 0 ? later : last;
}

/** Where a left side stands in the dialect: its line, and behind the point which of the texts on it. */
function kindOf({ pattern: { at } }: Left): number {
  return at.line + at.start / 1e6;
}

/** The left side by which a line is read, or by which it is odd; also of one that goes, which marks where its kind stands. */
function leftAt({ parse }: Row): Left | null {
  return parse.kind === "fits" || parse.kind === "misfit" ? parse.left : null;
}

export function isClosing({ parse }: Row): boolean {
  return parse.kind === "idle" && parse.what === "closing";
}

/** The block in which lines of this kind stand already; else the first. */
function blockWith({ blocks }: Draft, left: Left): Block {
  return (
    blocks.findLast(({ rows }) =>
      rows.some((row) => row.status !== "gone" && row.parse.kind === "fits" && row.parse.left === left),
    ) ?? blocks[0]!
  );
}

/** The block below a heading; a new one comes last, but before a bare heading that ends the text, and before what is sent last. */
export function blockAt(draft: Draft, { heading, scope }: Edit["place"], left: Left | null = null): Block {
  const { blocks } = draft;
  const known = blocks.filter((each) => each.scope.heading === scope.heading);
  const own =
    left &&
    known.findLast(({ rows }) =>
      rows.some((row) =>
        leftAt(row)?.meanings.some((meaning) => left.meanings.some(({ section }) => section === meaning.section)),
      ),
    );
  if (known.length > 0) return own ?? known.at(-1)!;
  const made: Block = { heading: null, scope, rows: [] };
  const parse = draft.reader.read(heading!, blocks[0]!.scope);
  made.heading = { text: heading!, end: draft.end, parse, status: "new", block: made, sayings: [], beaten: [] };
  // New ones stand in the dialect's order, whatever the craft says first.
  let at = endsBare(draft) ? blocks.length - 1 : blocks.length;
  while (at > 0 && isNewBefore(draft, heading!, blocks[at - 1]!.heading)) at--;
  blocks.splice(at, 0, made);
  return made;
}

/** Whether a new heading stands before another one, which is new too. */
function isNewBefore(draft: Draft, heading: string, other: Row | null): boolean {
  if (other?.status !== "new") return false;
  const [own, others] = [firstBelow(draft, heading), firstBelow(draft, other.text)];
  return own === others ? compareInNumbers(heading, other.text) < 0 : own < others;
}

/** The first line of the dialect that counts below a heading. */
function firstBelow({ dialect }: Draft, heading: string): number {
  const lines = dialect.lefts.flatMap(({ under, pattern }) =>
    under.kind === "heading" && matchPattern(under.pattern, heading, dialect.text.blanks) ? [pattern.at.line] : [],
  );
  return Math.min(...lines);
}

/** Whether the text ends with a heading that has nothing below. */
export function endsBare({ blocks }: Draft): boolean {
  const last = blocks.at(-1);
  return last?.heading?.status === "base" && last.rows.every((row) => row.text.trim() === "" || isClosing(row));
}

/** By number, else by the order in which codes list what tells the lines apart. */
function compareLines({ dialect }: Draft, left: Left, row: Row, helds: Edit["helds"]): number {
  const odd = row.parse.kind === "misfit" ? matchPattern(left.pattern, row.text, dialect.text.blanks) : null;
  for (const name of identityOf(left)) {
    const raw = odd?.slots.get(name)?.text;
    const said = raw === undefined ? heldIn(row, name) : decodeSlot(left.pattern.slots.get(name)!, raw);
    const own = said?.kind === "bad" ? null : said;
    const other = helds.get(name);
    if (!own || !other) continue;
    const order = rankOf(left, name, own) - rankOf(left, name, other);
    if (order !== 0) return order;
  }
  return 0;
}

function rankOf({ pattern }: Left, name: string, held: Held): number {
  const code = pattern.slots.get(name)?.code;
  const number = numberIn(held);
  if (code?.kind !== "words") return number ? numberOf(number.number) : 0;
  const at = code.words.findIndex(({ ours }) =>
    ours === null ? held.kind === "unset" : textOfHeld(heldOfOurs(ours)) === textOfHeld(held),
  );
  return at < 0 ? code.words.length : at;
}
