/** More left sides than are quickly told apart: a board's line is tried by all that begin as it does. */
import type { Dialect, DialectIssue, Left, Pattern } from "../dialect.ts";

/** So many may begin alike. */
export const MOST_ALIKE = 50;

interface Beginning<T> {
  readonly text: string;
  readonly all: T[];
  /** With those of all beginnings with which this one begins. */
  total: number;
}

/** One for each beginning that too many left sides have, or headings, at the first that is too many. */
export function linesAlike(dialect: Dialect, headings: readonly Pattern[]): DialectIssue[] {
  return [
    ...groupsOf(dialect).flatMap((group) => tooMany(group, ({ pattern }) => pattern, "left sides")),
    ...tooMany(beginningsOf(headings, same, dialect), same, "headings"),
  ];
}

const same = (pattern: Pattern) => pattern;

/** The most headings that begin alike. */
export function headingsCrowd(dialect: Dialect, headings: readonly Pattern[]): number {
  return beginningsOf(headings, same, dialect).reduce((most, { total }) => Math.max(most, total), 0);
}

/** Every heading of a dialect, once. */
export function headingsOf({ lefts, text }: Dialect): readonly Pattern[] {
  const all = new Map<string, Pattern>(text.headings.map((each) => [each.key, each]));
  for (const { under } of lefts) if (under.kind === "heading") all.set(under.pattern.key, under.pattern);
  return [...all.values()];
}

/** For each left side, how many begin alike that are tried with it. */
export function crowdOf(dialect: Dialect): ReadonlyMap<Left, number> {
  const crowd = new Map<Left, number>();
  for (const group of groupsOf(dialect))
    for (const { all, total } of group) for (const left of all) crowd.set(left, total);
  return crowd;
}

/** The beginnings of the left sides under each heading, and of those that count anywhere. */
function groupsOf(dialect: Dialect): readonly (readonly Beginning<Left>[])[] {
  const groups = new Map<string, Left[]>();
  for (const left of dialect.lefts) {
    const key = left.under.kind === "heading" ? `under ${left.under.pattern.key}` : left.under.kind;
    const group = groups.get(key);
    if (group) group.push(left);
    else groups.set(key, [left]);
  }
  return [...groups.values()].map((group) => beginningsOf(group, ({ pattern }) => pattern, dialect));
}

/** What a line must begin with for a left side to be tried. */
export function beginningOf({ parts }: Pattern, isLoose: boolean): string {
  const text = parts[0]?.kind === "literal" ? parts[0].text : "";
  if (!isLoose) return text;
  return text.replace(/[ \t]+/g, " ").trimStart();
}

/** By their text, the shorter ones first, each with the count of all that are tried for a line that begins so. */
function beginningsOf<T>(all: readonly T[], patternOf: (one: T) => Pattern, dialect: Dialect): readonly Beginning<T>[] {
  const isLoose = dialect.text.blanks === "loose";
  const byText = new Map<string, Beginning<T>>();
  for (const one of all) {
    const text = beginningOf(patternOf(one), isLoose);
    const known = byText.get(text) ?? { text, all: [], total: 0 };
    byText.set(text, known);
    known.all.push(one);
  }
  // In the order of texts a beginning stands behind all with which it begins; the open ones form a chain.
  const sorted = [...byText.values()].sort((a, b) => (a.text < b.text ? -1 : 1));
  const open: Beginning<T>[] = [];
  for (const each of sorted) {
    while (open.length > 0 && !each.text.startsWith(open.at(-1)!.text)) open.pop();
    each.total = each.all.length + (open.at(-1)?.total ?? 0);
    open.push(each);
  }
  return sorted;
}

function tooMany<T>(beginnings: readonly Beginning<T>[], patternOf: (one: T) => Pattern, what: string): DialectIssue[] {
  return beginnings.flatMap(({ text, all, total }) => {
    const before = total - all.length;
    if (total <= MOST_ALIKE || before > MOST_ALIKE) return [];
    const places = all.map((one) => patternOf(one).at).sort((a, b) => a.line - b.line);
    const begin =
      text === "" ? "begin with a slot" : `begin with “${text}” before their first slot, or with less of it`;
    return [
      {
        code: "lines-alike" as const,
        message: `${total} ${what} ${begin}, and each line of the board that begins so is tried by all of them in turn: reading gets slow, and which of them fits is hard to see. Write what tells them apart before the first slot, or make one of several, with a code of words.`,
        span: places[Math.min(places.length - 1, MOST_ALIKE - before)]!,
        related: [{ message: "The first of them", span: places[0]! }],
      },
    ];
  });
}
