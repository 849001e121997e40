/** The corpus of pastes: what is pasted, and below `---` what becomes of its lines. */
import { readFileSync } from "node:fs";

export interface Paste {
  readonly title: string;
  readonly text: string;
  readonly expected: readonly string[];
}

export function readPastes(): readonly Paste[] {
  return readCases("pastes.txt");
}

/** Of a file beside this one. Characters that one does not see are written `\u200b`, `\t`, `\r`, `\n` and `\0`. */
export function readCases(name: string): readonly Paste[] {
  const file = readFileSync(new URL(name, import.meta.url), "utf8");
  return file
    .split(/^=== /m)
    .slice(1)
    .map((block) => {
      const [head = "", ...rest] = block.split("\n");
      // A patch has lines of three marks and more behind them; the divider stands alone, and last.
      const at = rest.lastIndexOf("---");
      const text = rest.slice(0, at).join("\n");
      return { title: head, text: shown(text), expected: rest.slice(at + 1).filter((line) => line !== "") };
    });
}

function shown(text: string): string {
  return text
    .replace(/\\u([0-9a-f]{4})/g, (_, code: string) => String.fromCharCode(Number.parseInt(code, 16)))
    .replace(/\\([trn0])/g, (_, letter: string) => ({ t: "\t", r: "\r", n: "\n", 0: "\0" })[letter]!);
}
