/** Parses a value by the types of its setting: if there are several, the first that fits. */
import type { SettingSpec, ValueType } from "../catalogue/specs.ts";
import { type Fault, fault, isFault, type ReadContext } from "../syntax/read-context.ts";
import { scanner } from "../syntax/scanner.ts";
import { commentSlip } from "../syntax/slips.ts";
import type { Cols } from "../syntax/span.ts";
import type { Value } from "../syntax/value.ts";
import { readFields } from "./read-fields.ts";
import { readPlain } from "./read-plain.ts";
import { readSimple } from "./read-simple.ts";

/** Parses the value of a setting, which must fill the rest of its line. */
export function readSetting(text: string, at: Cols, setting: SettingSpec, units: ReadContext["units"]): ParsedValue {
  const plain = readPlain(text, at, setting.types);
  if (plain) return { value: plain.value, pieces: plain.pieces, fault: null };
  return readByTypes(text, at, setting, units);
}

/** The same for any value, type by type. */
export function readByTypes(text: string, at: Cols, setting: SettingSpec, units: ReadContext["units"]): ParsedValue {
  let best: { fault: Fault; pieces: ReadContext["pieces"]; progress: number } | null = null;
  for (const type of setting.types) {
    const context: ReadContext = { scan: scanner(text, at.start, at.end), units, pieces: [] };
    const value = readType(context, type, setting.name, setting.repeatable ? "whole" : "part");
    const problem = isFault(value) ? value : trailingTextFault(context, value, type);
    if (!problem) return { value: value as Value, pieces: context.pieces, fault: null };
    const progress = problem.start + (looksLike(type, text.charAt(at.start)) ? 0.5 : 0);
    if (!best || progress > best.progress) best = { fault: problem, pieces: context.pieces, progress };
  }
  return { value: null, pieces: best!.pieces, fault: best!.fault };
}

export interface ParsedValue {
  readonly value: Value | null;
  readonly pieces: ReadContext["pieces"];
  readonly fault: Fault | null;
}

/** Whether a value that starts with this character was meant for this type: decides which fault is reported. */
function looksLike(type: ValueType, first: string): boolean {
  if (/[a-z]/.test(first)) return type.is === "choice" || type.is === "yes-no";
  if (/[0-9-]/.test(first)) return type.is !== "choice" && type.is !== "text";
  return first === '"' && type.is === "text";
}

function readType(context: ReadContext, type: ValueType, name: string, extent: "whole" | "part"): Value | Fault {
  return type.is === "fields" ? readFields(context, type, name, extent) : readSimple(context, type, name, () => false);
}

/** The fault of text after a value; null if there is none. */
function trailingTextFault(context: ReadContext, value: Value, type: ValueType): Fault | null {
  if (context.scan.done()) return null;
  const rest = context.scan.rest();
  if (value.kind === "integer" && type.is === "integer" && context.units.symbol(rest.text)) {
    return fault("wrong-unit", rest, `A whole number without unit is expected here; remove “${rest.text}”.`);
  }
  const comment = commentSlip(rest);
  if (comment) return fault("syntax", rest, comment.message, comment.repair);
  return fault(
    "syntax",
    rest,
    `The value ends before “${rest.text}”: remove what follows, or begin it with # as a comment.`,
  );
}
