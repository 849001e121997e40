/** Reads the answers for a new handset from JSON, in which its controls are a list. */
import { similarNames } from "../../model/similar-names.ts";
import type { Answers } from "../../protocol/new-craft.ts";

export type FlatAnswers =
  | { readonly kind: "answers"; readonly answers: Answers }
  | { readonly kind: "problem"; readonly problem: string };

const QUESTIONS = ["name", "as-on", "keep", "band", "power", "stick-mode", "order", "travel", "controls"];
const PARTS = ["name", "kind", "channel", "positions", "range", "rest", "lies"];
/** Other words for the same, as the script has them. */
const SAME_PARTS: Readonly<Record<string, string>> = { rests: "rest", pulses: "range" };
const NOT_OF_DIALS = ["positions", "rest"];
const ONLY_OF_DIALS = ["range"];
const NO_POSITIONS =
  'a dial has no positions and rests anywhere: give the pulses at its stops, as in "range": "1000 us to 2000 us"';
const NO_RANGE = 'only a dial has a range: give the positions, as in "positions": "up 1000 us, down 2000 us"';
const EXAMPLE = '{"name": "TL", "kind": "switch"}';

/** Answers by the ids of their questions, as the questions are asked one by one. */
export function flatAnswers(given: unknown): FlatAnswers {
  if (!isObject(given))
    return problem(`the answers are one JSON object, as in {"name": "Wheel", "controls": [${EXAMPLE}]}`);
  const answers: Record<string, string | readonly string[]> = {};
  for (const [key, value] of Object.entries(given)) {
    if (!QUESTIONS.includes(key)) return unknown(`no question is called “${key}”`, key, QUESTIONS);
    if (key === "controls") continue;
    const text = key === "keep" && Array.isArray(value) ? value.map(String) : textOf(value);
    if (text === null) return problem(`${key}: ${JSON.stringify(value)} is no answer: write it as a text in quotes`);
    answers[key] = text;
  }
  const { controls = [] } = given;
  if (!Array.isArray(controls)) return problem(`controls: this is a list, as in [${EXAMPLE}]`);
  if (controls.length === 0 && [undefined, "none"].includes(given["as-on"] as undefined))
    return problem(`controls: a handset needs at least one control, as in {"controls": [${EXAMPLE}]}`);
  for (const [i, control] of controls.entries()) {
    if (!isObject(control)) return problem(`controls: ${JSON.stringify(control)} is no control, as ${EXAMPLE} is one`);
    // A control of which nothing is said has all that is usual.
    answers[`control-${i + 1}.kind`] = "switch";
    const isDial = /^d/i.test(textOf(control.kind)?.trim() ?? "");
    for (const [said, value] of Object.entries(withRange(control))) {
      const part = SAME_PARTS[said] ?? said;
      if (!PARTS.includes(part)) return unknown(`controls: a control has no “${part}”`, part, PARTS);
      if ((isDial ? NOT_OF_DIALS : ONLY_OF_DIALS).includes(part))
        return problem(`control-${i + 1}.${said}: ${isDial ? NO_POSITIONS : NO_RANGE}`);
      const text = part === "positions" ? positionsText(value) : textOf(value);
      if (text === null)
        return problem(`control-${i + 1}.${part}: ${JSON.stringify(value)} is no answer: write it as a text in quotes`);
      answers[`control-${i + 1}.${part}`] = text;
    }
  }
  return { kind: "answers", answers };
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function textOf(value: unknown): string | null {
  return typeof value === "string" || typeof value === "number" ? String(value) : null;
}

/** The stops of a dial, given one by one, as its range. */
function withRange(control: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  const { fromUs, toUs, ...rest } = control;
  return typeof fromUs === "number" && typeof toUs === "number"
    ? { ...rest, range: `${fromUs} us to ${toUs} us` }
    : control;
}

/**
 * Positions as text: from a text, their number, their names, a list with `name` and `pulseUs`, or pulses by their names.
 */
function positionsText(value: unknown): string | null {
  if (isObject(value)) return positionsText(Object.entries(value).map(([name, pulseUs]) => ({ name, pulseUs })));
  if (!Array.isArray(value)) return textOf(value);
  const pieces = value.map((each: unknown) => {
    if (!isObject(each)) return textOf(each);
    const [name, pulse] = [textOf(each.name), textOf(each.pulseUs)];
    if (name === null || pulse === null) return null;
    return /\d$/.test(pulse) ? `${name} ${pulse} us` : `${name} ${pulse}`;
  });
  return pieces.includes(null) ? null : pieces.join(", ");
}

function unknown(what: string, word: string, names: readonly string[]): FlatAnswers {
  const [near] = similarNames(word, names, 1);
  return problem(`${what}: ${near ? `did you mean ${near}?` : `there are ${names.join(", ")}`}`);
}

function problem(text: string): FlatAnswers {
  return { kind: "problem", problem: text };
}
