/** Characters of a script that do not show, or show as others, line by line. */
import type { Cols, Span } from "../../syntax/span.ts";
import type { Line, Tree } from "../../syntax/tree.ts";
import { type Hidden, hiddenInStretch, type Reading } from "../../text/hidden-text.ts";
import { textsIn } from "./private-lines.ts";

export type HiddenOnLine = Hidden & Span & { readonly reading: Reading };

/** In order of place. A mark of byte order at the very start of a file is none: it is no part of its first line. */
export function hiddenInTree({ lines }: Tree): readonly HiddenOnLine[] {
  return lines.flatMap((line, at) =>
    ASCII.test(line.text) ? NONE : hiddenOnLine(line).map((each) => ({ ...each, line: at })),
  );
}

/** Also spaces and tabs. */
const ASCII = /^[\t -~]*$/;
const NONE: readonly HiddenOnLine[] = [];

function hiddenOnLine(line: Line): (Hidden & { readonly reading: Reading })[] {
  const prose = textsIn(line);
  const code = between(prose, line.text.length);
  const found = (stretches: readonly Cols[], reading: Reading) =>
    stretches.flatMap(({ start, end }) =>
      hiddenInStretch(line.text, start, end, reading).map((each) => ({ ...each, reading })),
    );
  return [...found(prose, "prose"), ...found(code, "code")].sort((a, b) => a.start - b.start);
}

/** The stretches of a line that are not among these. */
function between(stretches: readonly Cols[], length: number): Cols[] {
  const ends = [0, ...stretches.map(({ end }) => end)];
  const starts = [...stretches.map(({ start }) => start), length];
  return ends.map((start, at) => ({ start, end: starts[at]! })).filter(({ start, end }) => start < end);
}
