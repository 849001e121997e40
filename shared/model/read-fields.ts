/** Parses values made of named fields: `roll p 0.9 i 0.8 d 0.4`. */
import type { FieldsType } from "../catalogue/specs.ts";
import {
  addPiece,
  describeNext,
  type Fault,
  fault,
  isFault,
  nextCols,
  type ReadContext,
  unknownName,
} from "../syntax/read-context.ts";
import type { Field, Value } from "../syntax/value.ts";
import { readSimple } from "./read-simple.ts";

/**
 * Parses fields up to the end of the line. A `whole` value is complete on its line and must have its
 * required fields; a `part` may be completed by other lines and files.
 */
export function readFields(
  context: ReadContext,
  type: FieldsType,
  name: string,
  extent: "whole" | "part",
): Value | Fault {
  const names = type.fields.map((field) => field.name);
  const mayFollow = (word: string) => names.includes(word);
  const start = context.scan.at();
  const fields: Field[] = [];
  while (!context.scan.done()) {
    const word = context.scan.name();
    if (!word)
      return fault(
        fields.length > 0 ? "syntax" : "wrong-type",
        nextCols(context),
        `${name} is given by parts, as in “${names[0]} …”, named ${names.join(", ")}; ${describeNext(context)}.`,
      );
    const spec = type.fields.find((field) => field.name === word.text);
    if (!spec)
      return unknownName(word, word.text, names, `${name} has no part “${word.text}”: it has ${names.join(", ")}.`);
    if (fields.some((field) => field.name === word.text))
      return fault("wrong-type", word, `“${word.text}” stands twice in one line: each part comes once.`);
    addPiece(context, "field", word);
    const value = readFirst(context, spec.types, `${name} ${word.text}`, mayFollow);
    if (isFault(value)) return value;
    fields.push({ name: word.text, nameAt: { start: word.start, end: word.end }, value });
  }
  if (fields.length === 0)
    return fault(
      "wrong-type",
      nextCols(context),
      `${name} is given by parts named ${names.join(", ")}; ${describeNext(context)}.`,
    );
  const missing =
    extent === "whole"
      ? type.fields.filter((field) => field.required && !fields.some((each) => each.name === field.name))
      : [];
  if (missing.length > 0) {
    return fault(
      "wrong-type",
      { start, end: context.scan.lastEnd() },
      `${name} also needs ${missing.map((field) => `“${field.name}”`).join(" and ")} on this line.`,
    );
  }
  return { kind: "fields", fields, start, end: context.scan.lastEnd() };
}

function readFirst(
  context: ReadContext,
  types: FieldsType["fields"][number]["types"],
  name: string,
  mayFollow: (word: string) => boolean,
): Value | Fault {
  const from = context.scan.at();
  const pieces = context.pieces.length;
  let first: Fault | null = null;
  for (const type of types) {
    context.scan.moveTo(from);
    context.pieces.length = pieces;
    const value = readSimple(context, type, name, mayFollow);
    if (!isFault(value)) return value;
    if (!first || value.start > first.start) first = value;
  }
  return first!;
}
