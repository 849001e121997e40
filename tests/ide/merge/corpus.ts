/** Merges as text: what three sides say, and what comes of it. */
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { inProject } from "../../../.dev/say.mjs";

export interface MergeCase {
  readonly file: string;
  readonly title: string;
  readonly base: string;
  readonly ours: string;
  readonly theirs: string;
  /** What is said of the result: “clean”, or the number of conflicts. */
  readonly verdict: string;
  readonly merged: string;
}

const FOLDER = inProject("tests/ide/merge/corpus");

/** Every case of the corpus; a text that a case leaves out is as in its base. */
export function corpus(): MergeCase[] {
  return readdirSync(FOLDER)
    .sort()
    .flatMap((file) => casesIn(file, readFileSync(`${FOLDER}/${file}`, "utf8")));
}

function casesIn(file: string, text: string): MergeCase[] {
  return text
    .split(/^=== /m)
    .slice(1)
    .map((part) => {
      const [title = "", ...rest] = part.split("\n");
      const sides = new Map(
        rest
          .join("\n")
          .split(/^--- /m)
          .slice(1)
          .map((side) => {
            const end = side.indexOf("\n");
            const [name = "", verdict = ""] = side.slice(0, end).split(", ");
            return [name, { verdict, text: side.slice(end + 1) }] as const;
          }),
      );
      const base = sides.get("base")?.text ?? "";
      return {
        file,
        title,
        base,
        ours: sides.get("ours")?.text ?? base,
        theirs: sides.get("theirs")?.text ?? base,
        verdict: sides.get("merged")?.verdict ?? "",
        merged: sides.get("merged")?.text ?? "",
      };
    });
}

/** Writes what came out into the corpus, in place of what was expected: look at the difference before it is kept. */
export function writeMerged(results: ReadonlyMap<string, { readonly verdict: string; readonly text: string }>): void {
  for (const file of readdirSync(FOLDER)) {
    const path = `${FOLDER}/${file}`;
    const parts = readFileSync(path, "utf8").split(/^(?==== )/m);
    const written = parts.map((part) => {
      const result = results.get(`${file} ${part.slice(4, part.indexOf("\n"))}`);
      const at = part.indexOf("--- merged");
      if (!result || at < 0) return part;
      const verdict = part.slice(at, part.indexOf("\n", at));
      return `${part.slice(0, at)}${verdict}\n${result.text}`;
    });
    writeFileSync(path, written.join(""));
  }
}
