/**
 * Lines of one kind, told apart by a key, that say entries of one kind, told apart by their name: one fact for all of
 * them. What one line of them leaves open another proves; a line that never differs is taken where it fits one entry alone.
 */
import { numberIn } from "../codes/held.ts";
import type { Exact } from "../exact.ts";
import { type AlignedLine, affixesOf } from "./align.ts";
import type { AtomEntry, Member } from "./atoms.ts";
import { type Bits, bitsFit, bitsLaw } from "./bits-laws.ts";
import type { Fact, FactPart } from "./fact-text.ts";
import { bijection, wordLaw } from "./laws.ts";
import { isProven, lawFor, type Scale, scaleFits, scaleOf, spellingsOf } from "./number-laws.ts";

/** What one value of the entries is, if a column means it by this law. */
interface Guess {
  readonly value: number;
  readonly at: number;
  readonly spelling: string;
  readonly scale: Scale;
  /** By line, by row. */
  readonly numbers: readonly (readonly Exact[])[];
}

/** The facts of all families of lines. */
export function familyFacts(lines: readonly AlignedLine[], members: readonly Member[]): Fact[] {
  const kinds = groupedBy(
    lines.filter(({ key }) => key !== null),
    ({ kind }) => kind,
  );
  const groups = groupedBy(members, ({ entries: [first] }) =>
    [first!.want.spec.name, first!.want.title === null ? "" : first!.want.name, JSON.stringify(first!.form)].join(" "),
  );
  const facts: Fact[] = [];
  const taken = new Set<Member>();
  for (const own of kinds.values()) {
    if (own.length < 2) continue;
    const found = [...groups.values()].flatMap((group) => {
      const free = group.filter((member) => !taken.has(member));
      const fact = free.length < 2 ? null : factOf(own, free);
      return fact ? [fact] : [];
    });
    // A family that two kinds of entries follow decides nothing.
    if (found.length !== 1) continue;
    facts.push(found[0]!.fact);
    for (const member of found[0]!.members) taken.add(member);
  }
  return facts;
}

function factOf(lines: readonly AlignedLine[], members: readonly Member[]): { fact: Fact; members: Member[] } | null {
  const [{ form }] = members[0]!.entries as [AtomEntry];
  const count = members[0]!.entries[0]!.values.length;
  const columns = columnsOf(lines);
  const numeric = [...Array(count).keys()].filter((value) =>
    members.every(({ entries }) => entries.every(({ values }) => numberIn(values[value]!))),
  );
  const compatible = (line: number, member: Member) => sameRows(lines[line]!.rows, member.rows);
  let best: { pairs: Map<number, Member>; guesses: Guess[]; bits: (Bits & { at: number }) | null } | null = null;
  let isTied = false;
  const consider = (
    guesses: Guess[],
    bits: (Bits & { at: number }) | null,
    fits: (line: number, member: Member) => boolean,
  ) => {
    const pairs = matched(lines.length, members, (line, member) => compatible(line, member) && fits(line, member));
    if (pairs.size < 2 || (best && pairs.size < best.pairs.size)) return;
    const isSame =
      best && JSON.stringify(best.guesses.map(({ at }) => at)) === JSON.stringify(guesses.map(({ at }) => at));
    if (best && pairs.size === best.pairs.size) {
      isTied ||= !isSame;
      return;
    }
    best = { pairs, guesses, bits };
    isTied = false;
  };
  const byName = namesMatched(lines, members);
  const named = (line: number, member: Member) => !byName || byName.get(line) === member;
  if (numeric.length > 0) {
    const all = numeric.map((value) => guessesOf(lines, members, columns, value, named));
    for (const guesses of combined(all))
      consider(
        guesses,
        null,
        (line, member) => named(line, member) && guesses.every((guess) => holds(guess, line, member)),
      );
  }
  if (form.kind === "cell" && !best)
    for (const at of columns) {
      const bits = bitsLaw(lines, members, at, (line, member) => compatible(line, member) && named(line, member));
      if (bits) consider([], { ...bits, at }, (line, member) => bitsFit(bits, lines[line]!, at, member));
    }
  if (numeric.length === 0 && byName) consider([], null, named);
  return best && !isTied ? factFor(lines, columns, best, form) : null;
}

interface Found {
  readonly pairs: Map<number, Member>;
  readonly guesses: Guess[];
  readonly bits: (Bits & { at: number }) | null;
}

function factFor(
  lines: readonly AlignedLine[],
  columns: readonly number[],
  { pairs, guesses, bits }: Found,
  form: AtomEntry["form"],
): { fact: Fact; members: Member[] } | null {
  const chosen = [...pairs];
  const members = chosen.map(([, member]) => member);
  const { want } = members[0]!.entries[0]!;
  const line: AlignedLine = {
    ...lines[chosen[0]![0]]!,
    pieces: chosen.flatMap(([i]) => lines[i]!.pieces),
    rows: chosen.flatMap(([i]) => lines[i]!.rows),
  };
  const keyLaw = keyLawOf(chosen.map(([i, member]) => [keyOf(lines[i]!), nameOf(member)] as const));
  if (!keyLaw) return null;
  const parts: FactPart[] = [];
  const names: string[] = [];
  const used = new Set(guesses.map(({ at }) => at));
  if (bits) parts.push({ law: bits.law, line, at: bits.at });
  else
    for (const value of members[0]!.entries[0]!.values.keys()) {
      const guess = guesses.find((each) => each.value === value);
      const values = members.flatMap(({ entries }) => entries.map(({ values }) => values[value]!));
      let part: FactPart | null = null;
      if (guess) {
        const numbers = values.map((each) => numberIn(each)!);
        const kinds = new Set(numbers.map(({ number }) => `${number.over}/${number.under}`)).size;
        if (!numbers.every(({ unit }) => unit === numbers[0]!.unit) || !isProven(guess.scale, kinds, guess.spelling))
          return null;
        part = { law: lawFor(guess.scale, numbers[0]!.unit, guess.spelling), line, at: guess.at };
      } else {
        const words = values.map((each) => (each.kind === "word" ? each.text : null));
        const found = columns.flatMap((at) => {
          if (used.has(at) || words.includes(null)) return [];
          const law = wordLaw(
            line.pieces.map((pieces) => pieces[at]!.text),
            words as string[],
          );
          return law && new Set(words).size > 1 ? [{ law, line, at }] : [];
        });
        if (found.length === 1) part = found[0]!;
      }
      if (part) {
        parts.push(part);
        used.add(part.at);
        if (form.kind === "fields") names.push(form.names[value]!);
      } else if (form.kind !== "fields" || isNeeded(want.setting, form.names[value]!)) return null;
    }
  if (parts.length === 0) return null;
  return {
    members,
    fact: {
      whats: members.map(({ what }) => what),
      want,
      form: form.kind === "fields" ? { kind: "fields", names } : form,
      parts,
      lines: [line],
      key: keyLaw,
    },
  };
}

/** A field without which the value is not whole. */
export function isNeeded(setting: AtomEntry["want"]["setting"], field: string): boolean {
  const type = setting?.types.find((each) => each.is === "fields");
  return type?.fields.find(({ name }) => name === field)?.required !== false;
}

// --- Names and keys ----------------------------------------------------------------

function keyOf({ pieces, key }: AlignedLine): string {
  return pieces[0]![key!]!.text;
}

function nameOf({ entries: [first] }: Member): string {
  return first!.want.title ?? first!.want.name;
}

const withoutMarks = (key: string) => key.replace(/^(["'])(.*)\1$/, "$2");

/** Where every key is a name, or the number at the end of one. */
function namesMatched(lines: readonly AlignedLine[], members: readonly Member[]): Map<number, Member> | null {
  const found = new Map<number, Member>();
  for (const [i, line] of lines.entries()) {
    const key = withoutMarks(keyOf(line));
    const fits = members.filter(
      (member) => nameOf(member) === key || (/^\d+$/.test(key) && endOf(nameOf(member)) === key),
    );
    if (fits.length === 1) found.set(i, fits[0]!);
  }
  return found.size >= 2 && new Set(found.values()).size === found.size ? found : null;
}

const endOf = (name: string) => /\d+$/.exec(name)?.[0] ?? "";

/** How the key is told: text before a slot, and the slot's code. */
function keyLawOf(pairs: readonly (readonly [key: string, name: string])[]): Fact["key"] {
  const marks = pairs.every(([key, name]) => key === `'${name}'`)
    ? "'"
    : pairs.every(([key, name]) => key === `"${name}"`)
      ? '"'
      : "";
  if (marks !== "") return { prefix: "", law: { kind: "text", within: marks, escape: "" } };
  const [key, name] = pairs[0]!;
  const prefix = name.endsWith(key) ? name.slice(0, name.length - key.length) : null;
  if (prefix !== null && pairs.every(([theirs, ours]) => prefix + theirs === ours))
    return { prefix, law: { kind: "plain", unit: "" } };
  const words = bijection(pairs);
  return words?.every(([theirs]) => /^[\p{L}\p{N}_.+-]+$/u.test(theirs))
    ? { prefix: "", law: { kind: "words", pairs: words } }
    : null;
}

// --- Guesses -----------------------------------------------------------------------

function columnsOf(lines: readonly AlignedLine[]): number[] {
  const [first] = lines[0]!.pieces;
  return first!.flatMap(({ isToken }, at) => {
    const texts = new Set(lines.flatMap(({ pieces }) => pieces.map((each) => each[at]!.text)));
    return isToken && at !== lines[0]!.key && texts.size > 1 ? [at] : [];
  });
}

/** What may be one value, by how many lines could mean entries so. */
function guessesOf(
  lines: readonly AlignedLine[],
  members: readonly Member[],
  columns: readonly number[],
  value: number,
  named: (line: number, member: Member) => boolean,
): Guess[] {
  const found: { guess: Guess; votes: number }[] = [];
  for (const at of columns) {
    const raw = lines.flatMap(({ pieces }) => pieces.map((each) => each[at]!.text));
    const { before, behind } = affixesOf(raw);
    const tokens = raw.map((text) => text.slice(before.length, text.length - behind.length));
    const isBelow = members.some(({ entries }) =>
      entries.some(({ values }) => numberIn(values[value]!)!.number.over < 0n),
    );
    for (const { numbers, spelling } of spellingsOf(tokens, isBelow)) {
      let start = 0;
      const byLine = lines.map(({ pieces }) => {
        start += pieces.length;
        return numbers.slice(start - pieces.length, start);
      });
      const scales = new Map<string, { scale: Scale; votes: number }>();
      for (const [i, own] of byLine.entries())
        for (const member of members) {
          if (!named(i, member) || !sameRows(lines[i]!.rows, member.rows) || scales.size > MOST_SCALES) continue;
          const scale = scaleOf(
            own,
            member.entries.map(({ values }) => numberIn(values[value]!)!.number),
          );
          if (!scale) continue;
          const key = `${String(scale.from?.over)}/${String(scale.from?.under)} ${scale.each.over}/${scale.each.under} ${String(scale.into?.over)}`;
          const before = scales.get(key);
          scales.set(key, { scale, votes: (before?.votes ?? 0) + 1 });
        }
      const likely = [...scales.values()].sort((a, b) => b.votes - a.votes).slice(0, 5);
      for (const { scale, votes } of likely)
        found.push({ guess: { value, at, spelling, scale, numbers: byLine }, votes });
    }
  }
  return found
    .sort((a, b) => b.votes - a.votes)
    .slice(0, MOST_GUESSES)
    .map(({ guess }) => guess);
}

const MOST_SCALES = 2000;
const MOST_GUESSES = 8;
const MOST_COMBINED = 600;

function combined(all: readonly (readonly Guess[])[]): Guess[][] {
  let found: Guess[][] = [[]];
  for (const guesses of all)
    found = found
      .flatMap((before) =>
        guesses.filter(({ at }) => !before.some((each) => each.at === at)).map((guess) => [...before, guess]),
      )
      .slice(0, MOST_COMBINED);
  return found;
}

function holds({ numbers, scale, value }: Guess, line: number, { entries }: Member): boolean {
  return entries.every(({ values }, row) => scaleFits(scale, numbers[line]![row]!, numberIn(values[value]!)!.number));
}

function sameRows(a: readonly number[], b: readonly number[]): boolean {
  return a.length === b.length && a.every((row, i) => row === b[i]);
}

/** The lines and entries that fit each other alone, taken out one after another. */
function matched(
  count: number,
  members: readonly Member[],
  fits: (line: number, member: Member) => boolean,
): Map<number, Member> {
  const options = new Map(
    [...Array(count).keys()].map((line) => [line, members.filter((member) => fits(line, member))]),
  );
  const rivals = new Map<Member, number>();
  for (const each of options.values()) for (const member of each) rivals.set(member, (rivals.get(member) ?? 0) + 1);
  return new Map(
    [...options].flatMap(([line, each]) =>
      each.length === 1 && rivals.get(each[0]!) === 1 ? [[line, each[0]!] as const] : [],
    ),
  );
}

export function groupedBy<K, T>(items: readonly T[], keyOf: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
  }
  return groups;
}
