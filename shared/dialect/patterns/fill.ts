/** A board line made of a pattern and what its slots hold. */
import type { Pattern } from "../dialect.ts";

/**
 * The line that a pattern becomes. A slot that is not given holds its default; a RangeError where it has none, as such
 * a line would say something else.
 */
export function fillPattern(pattern: Pattern, slots: ReadonlyMap<string, string>): string {
  return pattern.parts
    .map((part) => {
      if (part.kind === "literal") return part.text;
      const text = slots.get(part.name) ?? pattern.slots.get(part.name)?.default;
      if (text === undefined || text === null) throw new RangeError(`nothing is known to write for {${part.name}}`);
      return text;
    })
    .join("");
}
