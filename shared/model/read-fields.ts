/** Values made of named parts: `roll p 0.9 i 0.8 d 0.4`. */
import type { FieldsType } from "../catalogue/types.ts";
import { type Fault, fault, found, isFault, nextCols, piece, type Reading, unknownName } from "../syntax/reading.ts";
import type { Field, Value } from "../syntax/value.ts";
import { readSimple } from "./read-simple.ts";

/**
 * Reads fields up to the end of the line. A `whole` value stands alone and must have its required
 * fields; a `part` may be completed by other lines and files.
 */
export function readFields(reading: Reading, type: FieldsType, name: string, extent: "whole" | "part"): Value | Fault {
  const names = type.fields.map((field) => field.name);
  const following = (word: string) => names.includes(word);
  const start = reading.scan.at();
  const fields: Field[] = [];
  while (!reading.scan.done()) {
    const word = reading.scan.name();
    if (!word)
      return fault(
        fields.length > 0 ? "syntax" : "wrong-type",
        nextCols(reading),
        `${name} is given by parts, as in “${names[0]} …”, named ${names.join(", ")}; ${found(reading)}.`,
      );
    const spec = type.fields.find((field) => field.name === word.text);
    if (!spec)
      return unknownName(word, word.text, names, `${name} has no part “${word.text}”: it has ${names.join(", ")}.`);
    if (fields.some((field) => field.name === word.text))
      return fault("wrong-type", word, `“${word.text}” stands twice in one line: each part comes once.`);
    piece(reading, "field", word);
    const value = readFirst(reading, spec.types, `${name} ${word.text}`, following);
    if (isFault(value)) return value;
    fields.push({ name: word.text, nameAt: { start: word.start, end: word.end }, value });
  }
  if (fields.length === 0)
    return fault(
      "wrong-type",
      nextCols(reading),
      `${name} is given by parts named ${names.join(", ")}; ${found(reading)}.`,
    );
  const lacking =
    extent === "whole"
      ? type.fields.filter((field) => field.required && !fields.some((each) => each.name === field.name))
      : [];
  if (lacking.length > 0) {
    return fault(
      "wrong-type",
      { start, end: reading.scan.last() },
      `${name} also needs ${lacking.map((field) => `“${field.name}”`).join(" and ")} on this line.`,
    );
  }
  return { kind: "fields", fields, start, end: reading.scan.last() };
}

function readFirst(
  reading: Reading,
  types: FieldsType["fields"][number]["types"],
  name: string,
  following: (word: string) => boolean,
): Value | Fault {
  const from = reading.scan.at();
  const pieces = reading.pieces.length;
  let first: Fault | null = null;
  for (const type of types) {
    reading.scan.go(from);
    reading.pieces.length = pieces;
    const value = readSimple(reading, type, name, following);
    if (!isFault(value)) return value;
    if (!first || value.start > first.start) first = value;
  }
  return first!;
}
