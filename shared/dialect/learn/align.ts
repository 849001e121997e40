/** The lines of several texts of one board that are the same line, and what differs in them. */

/** A piece of a line: text that stays, or a token that may hold a value. */
export interface Piece {
  readonly text: string;
  readonly isToken: boolean;
}

/** One line of the board, as it stands in each of the texts that have it. */
export interface AlignedLine {
  /** One a text. */
  readonly pieces: readonly (readonly Piece[])[];
  /** Which text each of the pieces is of. */
  readonly rows: readonly number[];
  /** The token that tells this line from others of its kind: it stays as it is. Null where there is none. */
  readonly key: number | null;
  /** The same for lines that differ in their key alone; "" without a key. */
  readonly kind: string;
  /** The heading below which it stands, where the same line stands below others too. */
  readonly under: string | null;
}

/** A line of one text, with the heading above it where it is one of several that are alike. */
export interface TextLine {
  readonly pieces: readonly Piece[];
  readonly under: string | null;
  readonly at: number;
}

/** Text between marks, or what is neither blank nor a mark that stands between values. */
const TOKEN = /"[^"]*"|'[^']*'|(?<![\p{L}\p{N}])[-+]?\d+(?:\.\d+)?(?![\p{L}\p{N}_.])|[\p{L}\p{N}_][\p{L}\p{N}_-]*/gu;
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

/** How alike two lines must be: in all their words, in their first token and all that stands between tokens, or in the first token alone. */
type Form = (line: TextLine) => string;

const spaced = (text: string) => text.replace(/[ \t]+/g, " ");

const byWords: Form = ({ pieces, under }) =>
  [under, ...pieces.map(({ text, isToken }) => (!isToken ? spaced(text) : hasDigit(text) ? "\u0001" : text))].join(
    "\u0000",
  );

const byFirst: Form = ({ pieces, under }) => {
  const first = pieces.findIndex(({ isToken }) => isToken);
  return [
    under,
    ...pieces.map(({ text, isToken }, i) => (!isToken ? spaced(text) : i === first ? text : "\u0001")),
  ].join("\u0000");
};

const byBeginning: Form = ({ pieces, under }) =>
  [under, pieces.find(({ isToken }) => isToken)?.text ?? ""].join("\u0000");

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

/** The lines that two texts or more have; those said twice count once, as the later one does. */
export function alignLines(texts: readonly (readonly string[])[]): readonly AlignedLine[] {
  const lines = texts.map(linesOf);
  const headings = headingsOf(lines);
  const found = alignedBy(
    [byFirst, byWords, byBeginning],
    lines.map((text) => headed(text, headings)),
  );
  const order = new Map(found.map(([line, at]) => [line, at]));
  return [...order.keys()].sort((a, b) => order.get(a)! - order.get(b)!);
}

function linesOf(text: readonly string[]): TextLine[] {
  return text.flatMap((line, at) =>
    line.trim() === "" || line.length > MOST_CHARACTERS ? [] : [{ pieces: piecesOf(line.trim()), under: null, at }],
  );
}

const textOf = ({ pieces }: TextLine) => pieces.map(({ text }) => text).join("");

/** Lines that stand once in every text, unchanged, and below which lines stand that are alike but for their values. */
function headingsOf(lines: readonly (readonly TextLine[])[]): ReadonlySet<string> {
  const once = lines.map((text) => {
    const counts = new Map<string, number>();
    for (const line of text) counts.set(textOf(line), (counts.get(textOf(line)) ?? 0) + 1);
    return counts;
  });
  const steady = new Set([...(once[0]?.keys() ?? [])].filter((line) => once.every((counts) => counts.get(line) === 1)));
  const forms = new Set<string>();
  const headings = new Set<string>();
  for (const text of lines) {
    // Of each form: below which steady lines it stands, and whether more than once below one.
    const below = new Map<string, { readonly above: string; readonly count: number }[]>();
    let above = "";
    for (const line of text) {
      const own = textOf(line);
      if (steady.has(own)) {
        above = own;
        continue;
      }
      const form = byWords(line);
      const list = below.get(form) ?? [];
      const same = list.findIndex((each) => each.above === above);
      if (same >= 0) list[same] = { above, count: list[same]!.count + 1 };
      else list.push({ above, count: 1 });
      below.set(form, list);
    }
    for (const [form, list] of below)
      if (list.length > 1 && list.every((each) => each.count === 1 && each.above !== "")) {
        forms.add(form);
        for (const each of list) headings.add(each.above);
      }
  }
  // A heading is alike in its words to another one: “firing 1”, “firing 2”.
  const kinds = new Map<string, number>();
  for (const heading of headings) {
    const kind = byWords({ pieces: piecesOf(heading), under: null, at: 0 });
    kinds.set(kind, (kinds.get(kind) ?? 0) + 1);
  }
  return new Set(
    [...headings].filter((each) => kinds.get(byWords({ pieces: piecesOf(each), under: null, at: 0 }))! > 1),
  );
}

/** The lines, those below a heading with it; what is said twice there stands once. */
function headed(text: readonly TextLine[], headings: ReadonlySet<string>): TextLine[] {
  let under: string | null = null;
  const all = text.map((line) => {
    if (headings.has(textOf(line))) {
      under = textOf(line);
      return line;
    }
    return { ...line, under };
  });
  return [...new Map(all.map((line) => [`${line.under}\u0000${textOf(line)}`, line])).values()];
}

function alignedBy(forms: readonly Form[], lines: readonly (readonly TextLine[])[]): [AlignedLine, number][] {
  const found: [AlignedLine, number][] = [];
  const done = new Set<TextLine>();
  for (const form of forms) {
    const groups = lines.map((text) =>
      grouped(
        text.filter((line) => !done.has(line)),
        form,
      ),
    );
    const keys = new Set(groups.flatMap((group) => [...group.keys()]));
    for (const key of keys) {
      const rows = [...groups.keys()].filter((row) => groups[row]!.has(key));
      const all = rows.map((row) => groups[row]!.get(key)!);
      // What one text alone has is tried by a looser likeness.
      const isLast = form === byBeginning;
      if (rows.length < lines.length && !isLast && isElsewhere(key, groups, rows, form)) continue;
      if (rows.length < 2 && !(all[0]!.length > 1)) continue;
      const aligned = all.every(({ length }) => length === 1)
        ? [
            single(
              all.map(([only]) => only!),
              rows,
              isLast,
            ),
          ]
        : isLast
          ? []
          : keyed(all, rows, key);
      for (const line of aligned.filter((each) => each !== null)) found.push([line, all[0]![0]!.at]);
      if (aligned.length > 0) for (const line of all.flat()) done.add(line);
    }
  }
  return found;
}

/** Whether the texts without this form have a line that begins as it does. */
function isElsewhere(
  key: string,
  groups: readonly ReadonlyMap<string, readonly TextLine[]>[],
  rows: readonly number[],
  form: Form,
): boolean {
  const [line] = groups[rows[0]!]!.get(key)!;
  const beginning = byBeginning(line!);
  const isSame = (other: readonly TextLine[]) => byBeginning(other[0]!) === beginning;
  return form === byWords || groups.some((group, i) => !rows.includes(i) && [...group.values()].some(isSame));
}

/** By form, lines that are said twice once. */
function grouped(text: readonly TextLine[], form: Form): Map<string, TextLine[]> {
  const groups = new Map<string, Map<string, TextLine>>();
  for (const line of text) {
    const key = form(line);
    const group = groups.get(key) ?? new Map<string, TextLine>();
    group.set(textOf(line), line);
    groups.set(key, group);
  }
  return new Map([...groups].map(([key, group]) => [key, [...group.values()]]));
}

/** One line of each text. Those that are alike in their beginning alone differ in one piece in the middle. */
function single(lines: readonly TextLine[], rows: readonly number[], isLoose: boolean): AlignedLine | null {
  const pieces = isLoose ? middleOf(lines.map(({ pieces }) => pieces)) : lines.map(({ pieces }) => pieces);
  return pieces && { pieces, rows, key: null, kind: "", under: lines[0]!.under };
}

function middleOf(all: readonly (readonly Piece[])[]): (readonly Piece[])[] | null {
  const [first] = all;
  const shortest = Math.min(...all.map(({ length }) => length));
  const same = (at: (pieces: readonly Piece[]) => Piece) => all.every((pieces) => at(pieces).text === at(first!).text);
  let front = 0;
  while (front < shortest && same((pieces) => pieces[front]!)) front++;
  // Marks before the middle belong to it, blanks do not.
  while (front > 1 && !first![front - 1]!.isToken && !/\s$/.test(first![front - 1]!.text)) front--;
  let back = 0;
  while (back < shortest - front - 1 && same((pieces) => pieces[pieces.length - 1 - back]!)) back++;
  while (back > 0 && !/^\s/.test(first![first!.length - back]!.text)) back--;
  const middles = all.map((pieces) =>
    pieces
      .slice(front, pieces.length - back)
      .map(({ text }) => text)
      .join(""),
  );
  if (front < 1 || middles.some((middle) => middle === "")) return null;
  // A blank in front of a mark belongs to the text that stays.
  const lead = /^\s*/.exec(middles[0]!)![0];
  if (!middles.every((middle) => middle.startsWith(lead) && middle.length > lead.length)) return null;
  return all.map((pieces, i) => [
    ...pieces.slice(0, front),
    ...(lead === "" ? [] : [{ text: lead, isToken: false }]),
    { text: middles[i]!.slice(lead.length), isToken: true },
    ...pieces.slice(pieces.length - back),
  ]);
}

/** Several lines of one kind: told apart by the token that is another in each of them, and the same in most texts. */
function keyed(all: readonly (readonly TextLine[])[], rows: readonly number[], kind: string): AlignedLine[] {
  const count = all[0]![0]!.pieces.length;
  let best: { at: number; score: number; tables: Map<string, TextLine>[] } | null = null;
  for (let at = 0; at < count; at++) {
    if (!all[0]![0]!.pieces[at]!.isToken) continue;
    const tables = all.map((lines) => new Map(lines.map((line) => [line.pieces[at]!.text, line])));
    if (tables.some((table, i) => table.size < all[i]!.length)) continue;
    const keys = new Set(tables.flatMap((table) => [...table.keys()]));
    const shared = [...keys].filter((key) => tables.filter((table) => table.has(key)).length > 1).length;
    // Of equal ones the first: a value may differ in every line by chance.
    const score = all.length === 1 ? 0 : shared / keys.size;
    if (!best || score > best.score) best = { at, score, tables };
  }
  if (!best || (all.length > 1 && best.score < LEAST_SHARED)) return [];
  const { at, tables } = best;
  return [...new Set(tables.flatMap((table) => [...table.keys()]))].map((key) => {
    const has = [...tables.keys()].filter((i) => tables[i]!.has(key));
    const lines = has.map((i) => tables[i]!.get(key)!);
    return {
      pieces: lines.map(({ pieces }) => pieces),
      rows: has.map((i) => rows[i]!),
      key: at,
      kind: `${at} ${kind}`,
      under: lines[0]!.under,
    };
  });
}

/** Keys of lines that each text has another of: so many are in two texts or more. */
const LEAST_SHARED = 0.3;
