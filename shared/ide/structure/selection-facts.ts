/** The columns of a dialect's line that have a meaning of their own. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Script } from "../../model/script.ts";
import type { Cols } from "../../syntax/span.ts";
import { factLineIn, sectionOfFact } from "../dialect-files/fact-line.ts";
import { joined, trimmed } from "./selection-cols.ts";

/** The slots, texts and words of a dialect's line, its two sides, and the line without its comment. */
export function factColumns(script: Script, catalogue: Catalogue, line: number): Cols[] {
  const section = sectionOfFact(script.tree, line);
  const here = script.tree.lines[line]!;
  const fact = section === null ? null : factLineIn(section, here, catalogue);
  if (!fact || here.node.kind !== "fact") return [];
  const { content } = here.node;
  const slots = fact.slots.flatMap((slot) => [
    slot.name,
    ...(slot.how ? [slot.how] : []),
    ...(slot.part ? [{ start: slot.name.start, end: slot.part.end }] : []),
    { start: slot.start + 1, end: slot.end - (slot.closed ? 1 : 0) },
    slot,
  ]);
  const isSided = fact.kind === "line" && fact.head !== null && fact.texts.length > 0;
  const lefts = isSided ? fact.texts.filter(({ end }) => end <= fact.head!.start) : [];
  const last = Math.max(content.end, fact.pieces.at(-1)?.end ?? 0);
  const value = fact.head ? trimmed(here.text, { start: fact.head.end, end: last }) : null;
  return [
    ...slots,
    ...fact.texts,
    ...joined(lefts),
    ...(fact.head ? [fact.head, { start: fact.head.start, end: last }] : []),
    ...(value ? [value, ...itemsOf(here.text, value)] : []),
    ...slotAmounts(fact.pieces),
    content,
  ];
}

/** What stands between commas outside quotes: the pairs of a code, the axes of a place. */
function itemsOf(text: string, { start, end }: Cols): Cols[] {
  const items: Cols[] = [];
  let from = start;
  let quote: string | null = null;
  for (let i = start; i <= end; i++) {
    const sign = text[i];
    if (i < end && quote !== null) quote = sign === quote ? null : quote;
    else if (i < end && (sign === '"' || sign === "'")) quote = sign;
    else if (i === end || sign === ",") {
      items.push(trimmed(text, { start: from, end: i }));
      from = i + 1;
    }
  }
  return items.length > 1 ? items : [];
}

/** A slot or a number of a right side with the unit behind it. */
function slotAmounts(pieces: readonly (Cols & { readonly kind: string })[]): Cols[] {
  return pieces.flatMap((piece, i) => {
    const before = pieces[i - 1];
    const isAmount = piece.kind === "unit" && (before?.kind === "slot" || before?.kind === "number");
    return isAmount ? [{ start: before.start, end: piece.end }] : [];
  });
}
