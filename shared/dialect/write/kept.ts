/** Lines that the script kept of this dialect, and the base lacks: they come last below their headings. */
import type { Craft } from "../../model/craft.ts";
import type { Scope } from "../read/line-reader.ts";
import { type Block, type Draft, type Row, rowsOf } from "./draft.ts";
import { identityOf } from "./plan.ts";
import { blockAt } from "./realize.ts";

/** The kept lines of a craft for a dialect, in order. */
export function keptOf(craft: Craft, dialect: string): readonly string[] {
  return craft.kept.filter((each) => each.dialect === dialect).map(({ text }) => text);
}

/** Adds those that the base lacks, each below its heading. */
export function addKept(draft: Draft, kept: readonly string[]): void {
  const { reader, blocks } = draft;
  const there = new Map<string, number>();
  const keyOf = (heading: string | null, text: string) => `${heading ?? ""}\n${text}`;
  for (const row of rowsOf(draft)) {
    const key = keyOf(row.block.heading?.text ?? null, row.text);
    there.set(key, (there.get(key) ?? 0) + 1);
  }
  let [heading, scope]: [string | null, Scope] = [null, blocks[0]!.scope];
  for (const [i, text] of kept.entries()) {
    const parse = reader.read(text, scope);
    if (parse.kind === "heading") {
      [heading, scope] = [text, parse.below];
      const isBare = i === kept.length - 1 || reader.read(kept[i + 1]!, scope).kind === "heading";
      if (isBare && !blocks.some((block) => block.heading?.text === text))
        blockAt(draft, { heading, scope, block: null });
      continue;
    }
    const key = keyOf(heading, text);
    const count = there.get(key) ?? 0;
    if (count > 0) {
      there.set(key, count - 1);
      continue;
    }
    const block = heading === null ? blocks[0]! : blockAt(draft, { heading, scope, block: null });
    const row: Row = { text, end: draft.end, parse, status: "new", block, sayings: [], beaten: [] };
    if (!isSaidThere(block, row)) block.rows.splice(lastFilled(block), 0, row);
  }
}

function lastFilled({ rows }: Block): number {
  return (
    rows.findLastIndex(
      (row) => row.text.trim() !== "" && !(row.parse.kind === "idle" && row.parse.what === "closing"),
    ) + 1
  );
}

/** A kept line that is read gives way to the line of the board that says the same name now. */
function isSaidThere({ rows }: Block, { parse }: Row): boolean {
  if (parse.kind !== "fits") return false;
  const ids = identityOf(parse.left);
  return rows.some(
    (row) =>
      row.parse.kind === "fits" &&
      row.parse.left === parse.left &&
      ids.every((slot) => row.parse.kind === "fits" && row.parse.slots.get(slot)?.text === parse.slots.get(slot)?.text),
  );
}
