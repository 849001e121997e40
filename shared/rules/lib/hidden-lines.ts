/** Characters of a script that do not show, or show as others, line by line. */
import type { Cols, Span } from "../../syntax/span.ts";
import type { Line, Tree } from "../../syntax/tree.ts";
import { type Hidden, hasForeignWords, hiddenInStretch, type Reading } from "../../text/hidden-text.ts";
import { textsIn } from "./private-lines.ts";

export type HiddenOnLine = Hidden & Span & { readonly reading: Reading };

/** In order of place. A mark of byte order at the very start of a file is none: it is no part of its first line. */
export function hiddenInTree({ lines }: Tree): readonly HiddenOnLine[] {
  // A loop and no list of lists: with each key every line of a long script is looked at.
  const found: HiddenOnLine[] = [];
  let isForeign: boolean | null = null;
  for (let line = 0; line < lines.length; line++) {
    if (lines[line]!.isPlain) continue;
    isForeign ??= lines.some(({ text, isPlain }) => !isPlain && hasForeignWords(text));
    for (const each of hiddenOnLine(lines[line]!, isForeign)) found.push({ ...each, line });
  }
  return found;
}

function hiddenOnLine(line: Line, isForeign: boolean): (Hidden & { readonly reading: Reading })[] {
  const prose = textsIn(line);
  const code = between(prose, line.text.length);
  const found = (stretches: readonly Cols[], reading: Reading) =>
    stretches.flatMap(({ start, end }) =>
      hiddenInStretch(line.text, start, end, reading, isForeign).map((each) => ({ ...each, reading })),
    );
  return [...found(prose, "prose"), ...found(code, "code")].sort((a, b) => a.start - b.start);
}

/** The stretches of a line that are not among these. */
function between(stretches: readonly Cols[], length: number): Cols[] {
  const ends = [0, ...stretches.map(({ end }) => end)];
  const starts = [...stretches.map(({ start }) => start), length];
  return ends.map((start, at) => ({ start, end: starts[at]! })).filter(({ start, end }) => start < end);
}
