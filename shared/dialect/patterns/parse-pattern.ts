/** Parses the text of a left side, or of a heading, into literals and slots. */
import { type Fault, isFault } from "../../syntax/read-context.ts";
import type { Cols, Span } from "../../syntax/span.ts";
import type { Literal, SlotPart } from "../dialect.ts";
import { type BoardText, unfit } from "../file/fact-scanner.ts";

/** A slot as one text names it; its code is only named. */
export interface NamedSlot {
  readonly name: string;
  readonly code: string | null;
  readonly whole: { readonly from: number; readonly to: number } | null;
  readonly default: string | null;
  /** The columns of `{NAME…}`. */
  readonly at: Cols;
}

/** A pattern whose codes are only named. */
export interface NamedPattern {
  readonly key: string;
  readonly parts: readonly (Literal | SlotPart)[];
  /** Every appearance, in order. */
  readonly slots: readonly NamedSlot[];
  readonly at: Span;
}

/** Name, then a code or whole numbers, then a default: `{c:flue=0}`, `{n:1 to 8}`, `{#:0 to 9}`. */
const SLOT = /^([a-z][a-z0-9-]*|#)(?::([a-z][a-z0-9-]*|(-?\d+) to (-?\d+)))?(?:=(.*))?$/s;

/** Parses a text with slots: `{{` is a brace, `{tab}` a tab. */
export function parsePattern(text: BoardText, line: number): NamedPattern | Fault {
  const parts: (Literal | SlotPart)[] = [];
  const slots: NamedSlot[] = [];
  let literal = "";
  const close = () => {
    if (literal !== "") parts.push({ kind: "literal", text: literal });
    literal = "";
  };
  for (let at = 0; at < text.text.length; ) {
    const open = text.text.indexOf("{", at);
    if (open < 0) {
      literal += text.text.slice(at);
      break;
    }
    literal += text.text.slice(at, open);
    if (text.text[open + 1] === "{") {
      literal += "{";
      at = open + 2;
      continue;
    }
    const end = text.text.indexOf("}", open);
    const inside = end < 0 ? text.text.slice(open + 1) : text.text.slice(open + 1, end);
    const cols = { start: text.columnOf(open), end: text.columnOf(end < 0 ? text.text.length : end + 1) };
    if (end < 0)
      return unfit(
        cols,
        "The slot that begins here is not closed: write “}” behind its name, or “{{” for a brace of the board's text.",
      );
    at = end + 1;
    if (inside === "tab") {
      literal += "\t";
      continue;
    }
    const slot = parseSlot(inside, cols);
    if (isFault(slot)) return slot;
    close();
    parts.push({ kind: "slot", name: slot.name, at: cols });
    slots.push(slot);
  }
  close();
  return { key: keyOf(parts), parts, slots, at: { line, start: text.start, end: text.end } };
}

function parseSlot(inside: string, at: Cols): NamedSlot | Fault {
  const match = SLOT.exec(inside);
  if (!match)
    return unfit(
      at,
      `“{${inside}}” is no slot: a slot has a name in small letters, as in “{w}”, then perhaps a code or whole numbers, as in “{w:volts}” or “{n:1 to 8}”, and a default, as in “{n:1 to 8=1}”. A brace of the board's text is written “{{”.`,
    );
  const [, name, how, from, to, byDefault] = match;
  const whole = from === undefined ? null : { from: Number(from), to: Number(to) };
  if (name === "#" && !whole && how)
    return unfit(at, "A number is counted: write its bounds, as in “{#:0 to 9}”, and no code.");
  if (whole && whole.from > whole.to)
    return unfit(at, `Whole numbers go from the lower to the higher one: write “${whole.to} to ${whole.from}”.`);
  return { name: name!, code: whole ? null : (how ?? null), whole, default: byDefault ?? null, at };
}

/** Equal for texts that differ in codes and defaults alone. */
function keyOf(parts: readonly (Literal | SlotPart)[]): string {
  return parts.map((part) => (part.kind === "slot" ? `{${part.name}}` : part.text.replaceAll("{", "{{"))).join("");
}
