/** Cases as text: a title behind `==`, a script or several, a line `--`, and what is expected. */
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

export interface Case {
  readonly title: string;
  readonly given: string;
  readonly expected: string;
}

/** The cases of a file beside the tests. */
export function casesIn(name: string): Case[] {
  return readFileSync(join(import.meta.dirname, name), "utf8")
    .split(/^== /m)
    .slice(1)
    .map((each) => {
      const [, title, given, expected] = /^(.*)\n([\s\S]*?)^--\n([\s\S]*)$/m.exec(each)!;
      return { title: title!, given: given!, expected: expected!.trimEnd() };
    });
}

/** Scripts by name: of several, each begins behind a line `@ NAME`; the first has no such line. */
export function filesIn(given: string, first = "jug.fettle"): Record<string, string> {
  const [own, ...others] = given.split(/^@ /m);
  const more = others.map((each) => {
    const end = each.indexOf("\n");
    return [each.slice(0, end).trim(), each.slice(end + 1)] as const;
  });
  return Object.fromEntries([...(own!.trim() === "" ? [] : [[first, own!] as const]), ...more]);
}

/** Writes the cases of a file with what comes out now, where `UPDATE_CASES` is set: read the difference before it is kept. */
export function keepIfAsked(name: string, cases: readonly Case[], outcome: (given: string) => string): void {
  if (process.env.UPDATE_CASES === undefined) return;
  const text = cases.map(({ title, given }) => `== ${title}\n${given}--\n${outcome(given)}\n`).join("");
  writeFileSync(join(import.meta.dirname, name), text);
}
