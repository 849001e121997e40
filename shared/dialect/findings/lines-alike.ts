/** More left sides than are quickly told apart: a board's line is tried by all that begin as it does. */
import type { Dialect, DialectIssue, Left, Pattern } from "../dialect.ts";

/** So many may begin alike. */
export const MOST_ALIKE = 50;

interface Beginning {
  readonly text: string;
  readonly lefts: Left[];
  /** With those of all beginnings with which this one begins. */
  total: number;
}

/** One for each beginning that too many left sides have, at the first that is too many. */
export function linesAlike(dialect: Dialect): DialectIssue[] {
  return groupsOf(dialect).flatMap(tooMany);
}

/** For each left side, how many begin alike that are tried with it. */
export function crowdOf(dialect: Dialect): ReadonlyMap<Left, number> {
  const crowd = new Map<Left, number>();
  for (const group of groupsOf(dialect))
    for (const { lefts, total } of group) for (const left of lefts) crowd.set(left, total);
  return crowd;
}

/** The beginnings of the left sides under each heading, and of those that count anywhere. */
function groupsOf({ lefts, text: { blanks } }: Dialect): readonly (readonly Beginning[])[] {
  const groups = new Map<string, Left[]>();
  for (const left of lefts) {
    const key = left.under.kind === "heading" ? `under ${left.under.pattern.key}` : left.under.kind;
    const group = groups.get(key);
    if (group) group.push(left);
    else groups.set(key, [left]);
  }
  return [...groups.values()].map((group) => beginningsOf(group, blanks === "loose"));
}

/** What a line must begin with for a left side to be tried. */
export function beginningOf({ parts }: Pattern, isLoose: boolean): string {
  const text = parts[0]?.kind === "literal" ? parts[0].text : "";
  if (!isLoose) return text;
  return text.replace(/[ \t]+/g, " ").trimStart();
}

/** By their text, the shorter ones first, each with the count of all that are tried for a line that begins so. */
function beginningsOf(lefts: readonly Left[], isLoose: boolean): readonly Beginning[] {
  const byText = new Map<string, Beginning>();
  for (const left of lefts) {
    const text = beginningOf(left.pattern, isLoose);
    const known = byText.get(text) ?? { text, lefts: [], total: 0 };
    byText.set(text, known);
    known.lefts.push(left);
  }
  // In the order of texts a beginning stands behind all with which it begins; the open ones form a chain.
  const sorted = [...byText.values()].sort((a, b) => (a.text < b.text ? -1 : 1));
  const open: Beginning[] = [];
  for (const each of sorted) {
    while (open.length > 0 && !each.text.startsWith(open.at(-1)!.text)) open.pop();
    each.total = each.lefts.length + (open.at(-1)?.total ?? 0);
    open.push(each);
  }
  return sorted;
}

function tooMany(beginnings: readonly Beginning[]): DialectIssue[] {
  return beginnings.flatMap(({ text, lefts, total }) => {
    const before = total - lefts.length;
    if (total <= MOST_ALIKE || before > MOST_ALIKE) return [];
    const inOrder = [...lefts].sort((a, b) => a.pattern.at.line - b.pattern.at.line);
    const { at } = inOrder[Math.min(inOrder.length - 1, MOST_ALIKE - before)]!.pattern;
    const begin =
      text === "" ? "begin with a slot" : `begin with “${text}” before their first slot, or with less of it`;
    return [
      {
        code: "lines-alike" as const,
        message: `${total} left sides ${begin}, and each line of the board that begins so is tried by all of them in turn: reading gets slow, and which of them fits is hard to see. Write what tells them apart before the first slot, or put them below headings.`,
        span: at,
        related: [{ message: "The first of them", span: inOrder[0]!.pattern.at }],
      },
    ];
  });
}
