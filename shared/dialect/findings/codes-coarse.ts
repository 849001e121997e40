/** Codes whose steps are too coarse for what they hold: what a script says would come out as something else. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { IntegerType, QuantityType, ValueType } from "../../catalogue/specs.ts";
import { convert } from "../../catalogue/units.ts";
import { stepOf } from "../codes/number-code.ts";
import type { Dialect, DialectIssue, Meaning, NumberCode, Ref, ValueTemplate } from "../dialect.ts";
import { numberOf } from "../exact.ts";
import { holderOf, placesOf } from "./right-fits.ts";

/** Steps over a tenth of the usual band of what they hold: once for each code, and for each slot of whole numbers. */
export function codesCoarse(dialect: Dialect, catalogue: Catalogue): DialectIssue[] {
  const told = new Set<unknown>();
  const issues: DialectIssue[] = [];
  for (const meaning of dialect.meanings) {
    const spec = catalogue.section(meaning.section);
    if (!spec || meaning.right.value.kind === "condition" || meaning.right.value.kind === "curve") continue;
    if (!terms(meaning.right.value)) continue;
    for (const place of placesOf(meaning, spec, catalogue))
      eachNumber(meaning.right.value, place.types, place.name, (refs, unit, type, name) => {
        const found = coarse(meaning, refs, unit, type, name);
        if (!found || told.has(found.of)) return;
        told.add(found.of);
        issues.push(found.issue);
      });
  }
  return issues;
}

/** Whether any slot stands in a value. */
function terms(value: ValueTemplate): boolean {
  return value.kind !== "constant" && value.kind !== "unset" && value.kind !== "text" && value.kind !== "cell";
}

type Visit = (refs: readonly Ref[], unit: string, type: QuantityType | IntegerType, name: string) => void;

function eachNumber(value: ValueTemplate, types: readonly ValueType[], name: string, visit: Visit): void {
  const each = (part: ValueTemplate, of: readonly ValueType[]) => eachNumber(part, of, name, visit);
  const ofRange = types.flatMap((type) => (type.is === "range" ? [type.of] : []));
  const ofList = types.flatMap((type): ValueType[] => (type.is === "list" ? [type.of] : []));
  switch (value.kind) {
    case "value":
      for (const type of types)
        if (type.is === "quantity" || type.is === "integer") visit(value.terms, value.unit, type, name);
      return;
    case "range":
      each(value.from, ofRange);
      each(value.to, ofRange);
      return;
    case "list":
      for (const item of value.items) each(item, ofList);
      return;
    case "follows":
      each(value.from, types);
      each(value.to, types);
      return;
    case "fields":
      for (const field of value.fields) {
        const said = field.name.length === 1 && typeof field.name[0] === "string" ? field.name[0] : null;
        for (const type of types)
          if (type.is === "fields")
            for (const spec of type.fields)
              if (said === spec.name) eachNumber(field.value, spec.types, `${name} ${spec.name}`, visit);
      }
  }
}

function coarse(
  meaning: Meaning,
  refs: readonly Ref[],
  unit: string,
  type: QuantityType | IntegerType,
  name: string,
): { of: unknown; issue: DialectIssue } | null {
  const band = widestBand(type);
  if (!band) return null;
  const wanted = type.is === "quantity" ? type.unit : "";
  let finest: { step: number; ref: Ref } | null = null;
  for (const ref of refs) {
    const holder = holderOf(meaning, ref);
    const code = holder?.code?.kind === "number" ? holder.code : null;
    if (!holder || (!code && !holder.whole)) return null;
    const own = code?.unit || unit;
    const step = code ? stepNear(code, band.to, own, wanted) : inUnit(1, own, wanted);
    if (step === null) return null;
    if (!finest || step < finest.step) finest = { step, ref };
  }
  const width = band.to - band.from;
  // A whole number is exact in steps of one.
  const fineEnough = type.is === "integer" ? Math.max(1, width / 10) : width / 10;
  if (!finest || finest.step <= fineEnough * (1 + 1e-9)) return null;
  const { slot } = finest.ref;
  const holder = holderOf(meaning, finest.ref)!;
  const figures = (number: number) => `${Number(number.toPrecision(6))}${wanted === "" ? "" : ` ${wanted}`}`;
  const message = `The board holds ${name} in steps of ${figures(finest.step)}, and all that is usual lies between ${figures(band.from)} and ${figures(band.to)}: what a script says comes out as something else. If the board writes finer steps, give the code a smaller “each” or “places”.`;
  if (holder.code)
    return {
      of: holder.code,
      issue: { code: "code-lossy", message, span: { line: holder.code.lines[0]!, start: 0, end: 0 } },
    };
  for (const { pattern } of meaning.lefts)
    for (const part of pattern.parts)
      if (part.kind === "slot" && part.name === slot)
        return {
          of: `${pattern.at.line} ${part.at.start}`,
          issue: { code: "code-lossy", message, span: { ...pattern.at, ...part.at } },
        };
  return null;
}

/** From the lowest to the highest number that is usual for any craft; null where one end is open. */
function widestBand({ usual = [] }: QuantityType | IntegerType): { from: number; to: number } | null {
  const from = usual.map((band) => band.from ?? Number.NEGATIVE_INFINITY);
  const to = usual.map((band) => band.to ?? Number.POSITIVE_INFINITY);
  const band = { from: Math.min(...from), to: Math.max(...to) };
  return Number.isFinite(band.from) && Number.isFinite(band.to) && band.to > band.from ? band : null;
}

function inUnit(number: number, unit: string, wanted: string): number | null {
  return unit === wanted ? number : (convert(number, unit, wanted) ?? null);
}

/** The step of a code in a unit; of `into`, whose steps grow with the value, the one at `at`. */
function stepNear(code: NumberCode, at: number, unit: string, wanted: string): number | null {
  const step = stepOf(code);
  if (step) return inUnit(numberOf(step), unit, wanted);
  const into = code.into && inUnit(numberOf(code.into), unit, wanted);
  if (into === null) return null;
  const finest = 10 ** -code.places;
  const number = Math.max(finest, into / at);
  return Math.abs(into / number - into / (number + finest));
}
