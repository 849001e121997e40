/** The line in the middle of both twins at which a pilot types: which it is, and what is typed there. */
import type { Twins } from "./twins.ts";

/** A line with the number in it that is typed over. */
export interface NumberPlace {
  readonly line: number;
  /** Where the name of the setting begins. */
  readonly name: number;
  /** Where the number begins and ends. */
  readonly from: number;
  readonly to: number;
}

export interface TypingPlace {
  readonly script: NumberPlace;
  readonly json: NumberPlace;
  /** A text that neither side has seen before, of a number that is as good as the first: another for every `i`. */
  typed(i: number): string;
  /** A number beyond the limits, and a word where a number belongs. */
  readonly faults: readonly { readonly script: string; readonly json: string }[];
}

const SCRIPT_SETTING = /^( {2})[a-z][a-z0-9-]* +(-?[\d.]+|\S+)/;
const JSON_SETTING = /^( +")[a-z][a-z0-9-]*": (-?[\d.]+|"?[^{]+)/;
/** So small that nothing that held before is broken by any of a thousand steps. */
const STEP = 1e-6;

/**
 * The quantity nearest to the middle that may take any number close to its own, and of which one thing is found where
 * its value is a fault: what else a script's values have to do with one another, a JSON Schema does not know.
 * @param linesFound the lines of a script on which something is found
 */
export function typingPlaceOf(twins: Twins, linesFound: (script: string) => readonly number[]): TypingPlace {
  const told = twins.blocks.flatMap(({ settings }) => settings);
  const [scriptLines, jsonLines] = [twins.script.split("\n"), twins.json.split("\n")];
  const [scriptPlaces, jsonPlaces] = [placesIn(scriptLines, SCRIPT_SETTING), placesIn(jsonLines, JSON_SETTING)];
  if (scriptPlaces.length !== told.length || jsonPlaces.length !== told.length)
    throw new Error(`${told.length} settings, on ${scriptPlaces.length} lines and on ${jsonPlaces.length}`);
  const middle = told.length / 2;
  if (linesFound(twins.script).length > 0) throw new Error("something is found in the craft as it is");
  const nearest = told.map((_, i) => i).sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle));
  for (const index of nearest) {
    const { type, value } = told[index]!;
    if (type.is !== "quantity" || typeof value !== "number" || value === 0) continue;
    const typed = (i: number) => String(Number((value * (1 + (i + 1) * STEP)).toPrecision(9)));
    const script = scriptPlaces[index]!;
    const foundWith = (text: string) => linesFound(withTyped(scriptLines, script, text));
    const beyond = String((type.max!.at + 1) * 10);
    const faults = [
      { script: beyond, json: beyond },
      { script: "kettle", json: '"kettle"' },
    ];
    if (foundWith(typed(999)).length > 0) continue;
    if (faults.some((fault) => String(foundWith(fault.script)) !== String(script.line))) continue;
    return { script, json: jsonPlaces[index]!, typed, faults };
  }
  throw new Error("no line of the craft bears another number");
}

function placesIn(lines: readonly string[], setting: RegExp): NumberPlace[] {
  return lines.flatMap((text, line) => {
    const match = setting.exec(text);
    return match === null
      ? []
      : [{ line, name: match[1]!.length, from: match[0].length - match[2]!.length, to: match[0].length }];
  });
}

/** A text with another number on one line. */
export function withTyped(lines: readonly string[], { line, from, to }: NumberPlace, text: string): string {
  return lines.with(line, lines[line]!.slice(0, from) + text + lines[line]!.slice(to)).join("\n");
}
