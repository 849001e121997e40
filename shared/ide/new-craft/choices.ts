/** Reads a name, and a choice from what was typed for it. */
import type { Choice } from "../../protocol/new-craft.ts";

/** In characters; a longer name fits on no OSD. */
const LONGEST_NAME = 40;

/** The name of a craft or a handset, trimmed; or the problem with it. */
export function readName(
  given: unknown,
  what: "craft" | "handset" = "craft",
): { kind: "name"; name: string } | { kind: "problem"; problem: string } {
  if (typeof given !== "string") return problem(`name: a ${what}'s name is text in quotes`);
  const name = given.trim();
  if (name === "") return problem(`name: a ${what} needs a name`);
  if ([...name].length > LONGEST_NAME) return problem(`name: at most ${LONGEST_NAME} characters`);
  if (/[\p{Cc}\u2028\u2029\ufeff]|\p{Cs}/u.test(name))
    return problem("name: one line of plain text, without control characters");
  return { kind: "name", name };
}

/** A word in lower case, without a leading `./` and without blanks, commas, underscores and hyphens. */
const normalized = (text: string) =>
  text
    .toLowerCase()
    .replace(/^\.\//, "")
    .replace(/[\s,_-]+/g, "");

/**
 * The choice of that word or label. The first part of a label such as “Wheel, 2.4 GHz” is enough, and so is an
 * unambiguous beginning.
 */
export function choiceFor(choices: readonly Choice[], text: string): Choice | undefined {
  const sole = (fit: readonly Choice[]) => (fit.length === 1 ? fit[0] : undefined);
  const expected = normalized(text);
  const only = (key: (choice: Choice) => string) =>
    sole(choices.filter((choice) => normalized(key(choice)) === expected));
  const begins = (label: string) => expected !== "" && normalized(label).startsWith(expected);
  return (
    choices.find(({ word }) => word === text) ??
    only(({ word }) => word) ??
    only(({ label }) => label) ??
    only(({ label }) => label.split(",")[0]!) ??
    sole(choices.filter(({ word, label }) => begins(word) || begins(label)))
  );
}

function problem(text: string): { kind: "problem"; problem: string } {
  return { kind: "problem", problem: text };
}
