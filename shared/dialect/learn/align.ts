/** The lines of several texts of one board that are the same line, and what differs in them. */

/** A piece of a line: text that stays, or a token that may hold a value. */
export interface Piece {
  readonly text: string;
  readonly isToken: boolean;
}

/** One line of the board, as it stands in each of the texts. */
export interface AlignedLine {
  /** By text. */
  readonly pieces: readonly (readonly Piece[])[];
  /** The token that tells this line from others of its kind: it stays as it is. Null where there is none. */
  readonly key: number | null;
  /** The same for lines that differ in their key alone; "" without a key. */
  readonly kind: string;
}

/** Text between marks, or what is neither blank nor a mark that stands between values. */
const TOKEN = /"[^"]*"|'[^']*'|[-+]?\d+(?:\.\d+)?(?![\p{L}\p{N}_.])|[\p{L}\p{N}_][\p{L}\p{N}_-]*/gu;
/** Longer lines are kept whole, and nobody learns from them. */
const MOST_CHARACTERS = 4096;

/** A line in pieces, in order: joined they are the line. */
export function piecesOf(line: string): readonly Piece[] {
  const pieces: Piece[] = [];
  let at = 0;
  for (const match of line.matchAll(TOKEN)) {
    if (match.index > at) pieces.push({ text: line.slice(at, match.index), isToken: false });
    pieces.push({ text: match[0], isToken: true });
    at = match.index + match[0].length;
  }
  if (at < line.length) pieces.push({ text: line.slice(at), isToken: false });
  return pieces;
}

/** How alike two lines must be: in all their words, or in their first token and all that stands between tokens. */
type Form = (pieces: readonly Piece[]) => string;

const byWords: Form = (pieces) =>
  pieces
    .map(({ text, isToken }) => (!isToken ? text.replace(/[ \t]+/g, " ") : hasDigit(text) ? "\u0001" : text))
    .join("\u0000");

const byFirst: Form = (pieces) => {
  const first = pieces.findIndex(({ isToken }) => isToken);
  return pieces
    .map(({ text, isToken }, i) => (!isToken ? text.replace(/[ \t]+/g, " ") : i === first ? text : "\u0001"))
    .join("\u0000");
};

function hasDigit(text: string): boolean {
  return /\d/.test(text) || text.startsWith('"') || text.startsWith("'");
}

/** What letters stand before and behind the number in each of these tokens: `y14` and `y9` are 14 and 9 behind a “y”. */
export function affixesOf(texts: readonly string[]): { readonly before: string; readonly behind: string } {
  const [first] = texts.map((text) => /^(\p{L}*[_-]?)[-+]?\d+(?:\.\d+)?(\p{L}*)$/u.exec(text));
  const [, before = "", behind = ""] = first ?? [];
  const fits = texts.every(
    (text) =>
      text.startsWith(before) &&
      text.endsWith(behind) &&
      isNumber(text.slice(before.length, text.length - behind.length)),
  );
  return fits ? { before, behind } : { before: "", behind: "" };
}

function isNumber(text: string): boolean {
  return /^[-+]?\d+(\.\d+)?$/.test(text);
}

/** The lines that every text has. */
export function alignLines(texts: readonly (readonly string[])[]): readonly AlignedLine[] {
  const lines = texts.map((text) =>
    text.filter((line) => line.trim() !== "" && line.length <= MOST_CHARACTERS).map((line) => piecesOf(line.trim())),
  );
  const found: AlignedLine[] = [];
  const done = new Set<readonly Piece[]>();
  for (const form of [byWords, byFirst]) {
    const groups = lines.map((text) =>
      grouped(
        text.filter((pieces) => !done.has(pieces)),
        form,
      ),
    );
    for (const key of groups[0]?.keys() ?? []) {
      const all = groups.map((group) => group.get(key) ?? []);
      if (all.some((each) => each.length === 0)) continue;
      const aligned = all.every((each) => each.length === 1) ? [single(all)] : keyed(all, key);
      for (const line of aligned) for (const pieces of line.pieces) done.add(pieces);
      found.push(...aligned);
    }
  }
  const order = new Map((lines[0] ?? []).map((pieces, i) => [pieces, i]));
  return found.sort((a, b) => order.get(a.pieces[0]!)! - order.get(b.pieces[0]!)!);
}

function grouped(text: readonly (readonly Piece[])[], form: Form): Map<string, (readonly Piece[])[]> {
  const groups = new Map<string, (readonly Piece[])[]>();
  for (const pieces of text) {
    const key = form(pieces);
    const group = groups.get(key);
    if (group) group.push(pieces);
    else groups.set(key, [pieces]);
  }
  return groups;
}

function single(all: readonly (readonly (readonly Piece[])[])[]): AlignedLine {
  return { pieces: all.map(([only]) => only!), key: null, kind: "" };
}

/** Several lines of one kind: told apart by the first token that is another in each of them, and the same in all texts. */
function keyed(all: readonly (readonly (readonly Piece[])[])[], kind: string): AlignedLine[] {
  const count = all[0]![0]!.length;
  for (let at = 0; at < count; at++) {
    if (!all[0]![0]![at]!.isToken) continue;
    const tables = all.map((lines) => new Map(lines.map((pieces) => [pieces[at]!.text, pieces])));
    if (tables.some((table, i) => table.size < all[i]!.length)) continue;
    const shared = [...tables[0]!.keys()].filter((value) => tables.every((table) => table.has(value)));
    // A value may differ in every line by chance: a key is the same in all texts, but for lines that one of them lacks.
    if (shared.length < Math.max(2, Math.min(...all.map((lines) => lines.length)))) continue;
    return shared.map((value) => ({
      pieces: tables.map((table) => table.get(value)!),
      key: at,
      kind: `${at} ${kind}`,
    }));
  }
  return [];
}
