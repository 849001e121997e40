/** A step of the bench list from its parts: most steps have few of them. */
import type { Source } from "../../model/craft.ts";
import type { BenchReading, BenchRisk, BenchStep } from "../../protocol/bench.ts";

export interface StepParts {
  readonly id: string;
  readonly what: string;
  readonly expect?: string | null;
  readonly caution?: string | null;
  readonly risk: BenchRisk;
  /** The check whose day it is part of; what is due of it is known by the list. */
  readonly check?: string;
  readonly readings?: readonly BenchReading[];
  readonly moves?: BenchStep["moves"];
  readonly picture?: BenchStep["picture"];
  readonly from?: readonly Source[];
  readonly lines?: readonly string[];
}

/** The step, done each time until the list knows better; every line that it comes from once. */
export function benchStep(parts: StepParts): BenchStep {
  const { expect = null, caution = null, check = null, readings = [], moves = [], picture = null, from = [] } = parts;
  const places = new Map(from.map(({ file, line }) => [`${line} ${file}`, { file, line }]));
  return {
    id: parts.id,
    what: parts.what,
    expect: expect === "" ? null : expect,
    caution,
    risk: parts.risk,
    due: { state: "each-time" },
    check,
    readings,
    moves,
    picture,
    from: [...places.values()],
    ...(parts.lines && { lines: parts.lines }),
  };
}

/** Sentences one after another; what is null or empty is left out. */
export function sentences(...parts: readonly (string | null | undefined | false)[]): string {
  return parts.filter((part) => part).join(" ");
}
