/** Codes as a dialect's file says them, and what they make of texts and values. */
import { expect } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { decode, encode } from "../../../shared/dialect/codes/codes.ts";
import { heldOfOurs, textOfHeld } from "../../../shared/dialect/codes/held.ts";
import type { Code, Held } from "../../../shared/dialect/dialect.ts";
import { readDialect } from "../../../shared/dialect/read-dialect.ts";
import { parse } from "../../../shared/syntax/parse.ts";

const catalogue = makeCatalogue();

export function codesOf(...lines: string[]): ReadonlyMap<string, Code> {
  const text = `dialect "Loom"\n\ncodes\n${lines.map((line) => `  ${line}\n`).join("")}`;
  const { codes, issues } = readDialect("/loom.fettle", parse(text), catalogue);
  // A code that no line uses is told of too.
  expect(issues.filter(({ code }) => code === "syntax" || code === "unknown-name")).toEqual([]);
  return codes;
}

/** The code of the first line; the others say what it needs. */
export function codeOf(...lines: string[]): Code {
  return codesOf(...lines).get(lines[0]!.split(" ")[0]!)!;
}

export function decoded(code: Code, raw: string): string {
  const held = decode(code, raw);
  return held.kind === "bad" ? `bad: ${held.why}` : textOfHeld(held);
}

/** What the board writes, and behind it in brackets what that means where it is something else. */
export function encoded(code: Code, ours: string | Held): string {
  const spelled = encode(code, typeof ours === "string" ? heldOfOurs(ours) : ours);
  if (spelled.kind === "cannot") return `cannot: ${spelled.why}`;
  return spelled.means ? `${spelled.text} (${textOfHeld(spelled.means)})` : spelled.text;
}
