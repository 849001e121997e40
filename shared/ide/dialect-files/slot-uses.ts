/** Slots as they stand in a line of a dialect, also in one that is still being written. */
import type { Cols } from "../../syntax/span.ts";

/** One appearance of a slot: `{w:glaze=0}` on the left, `{p.row}` on the right. */
export interface SlotUse extends Cols {
  readonly side: "left" | "right";
  /** "" where it is still to be written; the number is `#`. */
  readonly name: Named;
  /** `row` of `{p.row}` */
  readonly part: Named | null;
  /** What stands behind the colon: the name of a code, or whole numbers. */
  readonly how: (Named & { readonly isCode: boolean }) | null;
  /** What stands behind the `=`. */
  readonly default: Cols | null;
  readonly closed: boolean;
}

/** A name with its columns. */
export interface Named extends Cols {
  readonly text: string;
}

const SLOT = /\{(#|[a-z][a-z0-9-]*)?(?:(\.)([a-z0-9-]*))?(?:(:)([^}=]*))?(?:(=)([^}]*))?(\})?/y;

/** The slots between two columns, in order; `{{` and `{tab}` are none. */
export function slotsBetween(text: string, { start, end }: Cols, side: SlotUse["side"]): SlotUse[] {
  const slots: SlotUse[] = [];
  for (let at = text.indexOf("{", start); at >= 0 && at < end; at = text.indexOf("{", at)) {
    if (text[at + 1] === "{") {
      at += 2;
      continue;
    }
    const slot = slotAt(text, at, side);
    if (slot.end > end) break;
    if (slot.name.text !== "tab" || slot.how) slots.push(slot);
    at = slot.end;
  }
  return slots;
}

function slotAt(text: string, at: number, side: SlotUse["side"]): SlotUse {
  SLOT.lastIndex = at;
  const [whole, name = "", dot, part = "", colon, how = "", equals, byDefault = "", close] = SLOT.exec(text)!;
  let column = at + 1;
  const named = (word: string): Named => {
    const found = { text: word, start: column, end: column + word.length };
    column = found.end;
    return found;
  };
  const skip = (mark: string | undefined) => {
    column += mark?.length ?? 0;
    return mark !== undefined;
  };
  return {
    side,
    start: at,
    end: at + whole.length,
    name: named(name),
    part: skip(dot) ? named(part) : null,
    how: skip(colon) ? { ...named(how), isCode: !/^-?\d/.test(how) } : null,
    default: skip(equals) ? named(byDefault) : null,
    closed: close !== undefined,
  };
}
