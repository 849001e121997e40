/** Whole workspaces as text, with `|` for the cursor: `### TITLE`, files as `=== NAME`, and behind `---` what is expected. */
import { readFileSync } from "node:fs";
import { inProject } from "../../../.dev/say.mjs";
import type { Position } from "../../../shared/syntax/span.ts";

export interface Case {
  readonly title: string;
  /** By path; the cursor's mark is taken out. */
  readonly texts: Readonly<Record<string, string>>;
  readonly file: string;
  readonly position: Position;
  readonly expected: string;
}

/** The cases of a file beside this one; those before the first title are files that every case has. */
export function casesIn(name: string): readonly Case[] {
  const [before, ...parts] = readFileSync(inProject("tests/ide/names", name), "utf8").split(/^### /m);
  const common = filesIn(before!.slice(Math.max(0, before!.indexOf("\n=== "))));
  return parts.map((part) => {
    const [, title, files, expected] = /^(.+)\n([\s\S]*?)^---[ \n]([\s\S]*)$/m.exec(part)!;
    const texts = { ...common, ...filesIn(files!) };
    for (const [file, text] of Object.entries(texts))
      for (let at = text.indexOf("|"); at >= 0; at = text.indexOf("|", at + 1)) {
        if (/\n[ \t]+$/.test(text.slice(0, at)) && !/^\|[A-Za-z]+ (switch|when|follows)/.test(text.slice(at))) continue;
        const lines = text.slice(0, at).split("\n");
        texts[file] = text.slice(0, at) + text.slice(at + 1);
        return {
          title: title!,
          texts,
          file,
          position: { line: lines.length - 1, character: lines.at(-1)!.length },
          expected: expected!.trim(),
        };
      }
    throw new Error(`No | says where the cursor stands: ${title}`);
  });
}

/** Files by path, of a text that begins each with `=== NAME`. */
export function filesIn(text: string): Record<string, string> {
  return Object.fromEntries(
    text
      .split(/^=== /m)
      .slice(1)
      .map((file) => {
        const end = file.indexOf("\n");
        return [`/shed/${file.slice(0, end)}`, file.slice(end + 1).replace(/\n\n$/, "\n")];
      }),
  );
}
