/** When modes and outputs are on, as lines of the board: those that say the same already stay as they are. */
import { boardOf } from "../../logic/from-craft.ts";
import { makeSwitchboard } from "../../logic/switchboard.ts";
import type { Switchboard } from "../../logic/switchboard-types.ts";
import type { Craft } from "../../model/craft.ts";
import { readEntry } from "../../model/read-entry.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Condition } from "../../syntax/condition.ts";
import { textOfHeld } from "../codes/codes.ts";
import { CHANNEL } from "../codes/held.ts";
import { type BoardShape, type Pool, shapesFor } from "../conditions/shapes.ts";
import { rangesFor } from "../conditions/to-ranges.ts";
import type { Held, Meaning, Ref } from "../dialect.ts";
import { exact, exactOfNumber } from "../exact.ts";
import { isExcused } from "./choose.ts";
import { beforeNumber, canChange, type Draft, heldIn, namesSaid, type Row, rowsOf, saysHeld } from "./draft.ts";
import { freeNumber, freeRow, gather, type Plan, placeOf, rowsSaying } from "./plan.ts";
import { cannotSay, type Report } from "./report.ts";
import { type Helds, heldsOf, spellSlots } from "./spell.ts";
import { type Share, slotOfMeaning, unify } from "./unify.ts";
import type { Want } from "./wanted.ts";

/** What is asked of conditions while a text is written. */
export interface ModeTask {
  readonly board: Switchboard;
  /** Names of modes, and outputs as `outputs.NAME`, whose lines in the base say the same already. */
  readonly same: ReadonlySet<string>;
}

function keyOf({ spec, name }: Pick<Want, "spec" | "name">): string {
  return spec.holds === "outputs" ? `outputs.${name}` : name;
}

/** Compares what the base says with what the craft does, in every state of the handset. */
export function modeTask(craft: Craft, workspace: Workspace, draft: Draft, wants: readonly Want[]): ModeTask {
  const board = boardOf(craft, workspace);
  const asked = wants.flatMap((want) => {
    const condition = conditionInBase(draft, want, workspace);
    return condition ? [{ key: keyOf(want), condition }] : [];
  });
  if (asked.length === 0) return { board, same: new Set() };
  const source = { file: craft.file, line: 0 };
  const conditions = asked.map(({ key, condition }) => ({ name: inBase(key), lines: [{ condition, source }] }));
  const both = makeSwitchboard({ ...board.input, conditions: [...board.input.conditions, ...conditions] });
  const same = asked.filter(({ key }) => {
    const [ours, theirs] = [both.selected(key), both.selected(inBase(key))];
    return ours !== null && ours === theirs;
  });
  return { board, same: new Set(same.map(({ key }) => key)) };
}

/** No mode and no output has such a name. */
function inBase(key: string): string {
  return `${key} in the base`;
}

function conditionInBase({ said }: Draft, { spec, section, name }: Want, { catalogue }: Workspace): Condition | null {
  const [entry] = said.get(`${section} ${name}`) ?? [];
  if (!entry) return null;
  const text = `  ${name} ${entry.rest}`;
  const head = { text: name, start: 2, end: 2 + name.length };
  const { value } = readEntry(text, head, { start: head.end + 1, end: text.length }, spec, catalogue);
  return value?.kind === "condition" ? value.condition : null;
}

/** Gathers the lines of a mode or an output, or reports why there are none. */
export function chooseForMode(plan: Plan, want: Want, { board, same }: ModeTask, report: Report): void {
  const key = keyOf(want);
  if (same.has(key)) return;
  const { draft } = plan;
  const shapes = shapesFor(draft.dialect, key).filter(({ meaning }) => meaning !== null);
  if (shapes.length === 0) {
    if (!isExcused(plan, want)) report.unsaid.push(want.what);
    return;
  }
  const name = `${want.section} ${want.name}`;
  const own = new Set(rowsSaying(draft, name, null));
  const cover = rangesFor(board, key, shapes, {
    left: (pool) => pool.lines - linesTaken(plan, pool, own),
    isSaid: (mode) => plan.wanted.has(`modes ${mode}`),
  });
  if (cover.kind === "cannot") {
    cannotSay(report, want.what, cover.why, cover.positions);
    return;
  }
  const lines =
    cover.kind === "as-shape"
      ? [lineOf(cover.shape, want, modeShares(cover.shape, cover.mode))]
      : cover.lines.map(({ shape, ranges }) => lineOf(shape, want, rangeShares(shape, ranges)));
  if (cover.kind === "lines") {
    if (!cover.proven)
      report.notes.push(`${want.what}: fewer lines might do; with so many to choose from that is not proven.`);
    for (const edge of cover.rounded)
      report.rounded.push({
        what: `${want.what} (${edge.name})`,
        said: `${edge.saidUs} us`,
        written: `${edge.writtenUs} us`,
      });
  }
  const known = lines.flatMap((line) => line ?? []);
  if (known.length < lines.length) {
    cannotSay(report, want.what, "the board has no word for it");
    return;
  }
  plan.rewritten.add(name);
  assign(plan, want, known, [...own], report);
}

interface ModeLine {
  readonly meaning: Meaning;
  readonly helds: Helds;
}

/** What the slots of one line hold; null where they cannot. */
function lineOf({ meaning }: BoardShape, want: Want, shares: readonly Share[]): ModeLine | null {
  const [unified] = meaning ? unify(meaning, want) : [];
  if (!meaning || !unified) return null;
  const helds = heldsOf([...unified.shares, ...shares], slotOfMeaning(meaning));
  return typeof helds === "string" ? null : { meaning, helds };
}

function modeShares({ meaning }: BoardShape, mode: string | null): Share[] {
  const value = meaning?.right.value;
  const ref = value?.kind === "condition" && value.shape.kind === "mode" ? value.shape.mode : null;
  return ref !== null && typeof ref !== "string" && mode !== null
    ? [{ refs: [ref], held: { kind: "word", text: mode } }]
    : [];
}

function rangeShares(
  { meaning }: BoardShape,
  ranges: readonly { readonly channel: number; readonly fromUs: number; readonly toUs: number }[],
): Share[] {
  const value = meaning?.right.value;
  if (value?.kind !== "condition" || value.shape.kind !== "ranges") return [];
  return value.shape.ranges.flatMap((shape, i) => {
    const { channel, fromUs, toUs } = ranges[i]!;
    const share = (ref: Ref | number, held: Held): Share[] => (typeof ref === "number" ? [] : [{ refs: [ref], held }]);
    const pulse = (us: number): Held => ({ kind: "number", number: exactOfNumber(us), unit: "us" });
    return [
      ...share(shape.channel, { kind: "number", number: exact(BigInt(channel)), unit: CHANNEL }),
      ...share(shape.from, pulse(fromUs)),
      ...share(shape.to, pulse(toUs)),
    ];
  });
}

/** How many lines of a pool others hold: those of other modes, unknown ones, and those just gathered. */
function linesTaken(plan: Plan, { key }: Pool, own: ReadonlySet<Row>): number {
  const taken = new Set<unknown>();
  for (const row of rowsOf(plan.draft))
    if (!own.has(row) && isOfPool(row, key) && !isFreeable(plan, row)) taken.add(row);
  for (const edit of plan.edits) {
    if (edit.isUnset || !poolKeysOf(edit.left.pattern.parts, key)) continue;
    taken.add(edit.row ?? edit);
  }
  return taken.size;
}

/** A row that fits and says nothing that is wanted may be taken. */
function isFreeable({ wanted }: Plan, row: Row): boolean {
  return row.parse.kind === "fits" && row.sayings.length > 0 && !namesSaid(row).some((name) => wanted.has(name));
}

const NUMBERED = "{#} ";
const AT_MOST = "at-most ";

function isOfPool(row: Row, key: string): boolean {
  if (key.startsWith(AT_MOST)) return row.text.trimStart().startsWith(key.slice(AT_MOST.length));
  if (!key.startsWith(NUMBERED)) return false;
  if (row.parse.kind === "fits") {
    const before = beforeNumber(row.parse.left, (slot) => `{${slot}}`);
    return before === key.slice(NUMBERED.length);
  }
  const literal = key.slice(NUMBERED.length).replace(/\{.*$/s, "").trim();
  return (
    literal !== "" &&
    row.parse.kind !== "heading" &&
    new RegExp(`^\\s*${literal.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}\\s*\\d`).test(row.text)
  );
}

function poolKeysOf(parts: Meaning["lefts"][number]["pattern"]["parts"], key: string): boolean {
  const first = parts[0]?.kind === "literal" ? parts[0].text : "";
  if (key.startsWith(AT_MOST)) return first.startsWith(key.slice(AT_MOST.length));
  if (!key.startsWith(NUMBERED)) return false;
  const before = parts.slice(
    0,
    parts.findIndex((part) => part.kind === "slot" && part.name === "#"),
  );
  return (
    before.map((part) => (part.kind === "literal" ? part.text : `{${part.name}}`)).join("") ===
    key.slice(NUMBERED.length)
  );
}

/** Gives each line a row: an equal one keeps its own, a changed one takes another of its mode's, else a new one. */
function assign(plan: Plan, want: Want, lines: readonly ModeLine[], rows: readonly Row[], report: Report): void {
  const left = [...rows];
  const open: ModeLine[] = [];
  const takeRow = (line: ModeLine, fits: (row: Row) => boolean): boolean => {
    const [only] = line.meaning.lefts;
    const at = left.findIndex(
      (row) => row.parse.kind === "fits" && row.parse.left === only && line.meaning.lefts.length === 1 && fits(row),
    );
    if (at < 0) return false;
    const [row] = left.splice(at, 1);
    const place = placeOf(plan, only!, line.helds);
    if (typeof place === "string") return false;
    const number = heldIn(row!, "#");
    gather(plan, only!, row!, place, number ? new Map([...line.helds, ["#", number]]) : line.helds, [
      { want, open: [] },
    ]);
    return true;
  };
  for (const line of lines) if (!takeRow(line, (row) => isEqual(row, line.helds))) open.push(line);
  const others = open.filter((line) => !takeRow(line, canChange));
  for (const line of others) newLines(plan, want, line, report);
}

function isEqual(row: Row, helds: Helds): boolean {
  if (row.parse.kind !== "fits") return false;
  const { left, slots } = row.parse;
  return [...helds].every(([name, held]) => {
    const slot = left.pattern.slots.get(name);
    return !slot || saysHeld(slot, slots.get(name)?.text ?? "", held);
  });
}

function newLines(plan: Plan, want: Want, { meaning, helds }: ModeLine, report: Report): void {
  let own = helds;
  for (const left of meaning.lefts) {
    const place = placeOf(plan, left, helds);
    if (typeof place === "string") {
      cannotSay(report, want.what, place);
      return;
    }
    if (left.pattern.slots.has("#") && !own.has("#")) {
      const number = freeNumber(plan, left, place, helds);
      if (number === null) {
        cannotSay(report, want.what, "every number that the board has for such a line is taken");
        return;
      }
      own = new Map([...helds, ["#", { kind: "number", number: exact(BigInt(number)), unit: "" }]]);
    }
    const number = own.get("#");
    const row = number ? freeRow(plan, left, place, own, Number(textOfHeld(number))) : null;
    const spelled = spellSlots(left, own, row);
    if (spelled.kind === "cannot") {
      cannotSay(report, want.what, spelled.why);
      return;
    }
    if (!gather(plan, left, row, place, own, [{ want, open: [] }]))
      cannotSay(report, want.what, "the same line of the board has to say something else");
  }
}
