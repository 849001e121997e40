/**
 * Learns a dialect from pairs of a craft and its board's text: a line is proposed if it explains every pair and nothing
 * else in the scripts does. What is proposed reads each text to what its script says; the rest stays open.
 */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Workspace } from "../../model/workspace.ts";
import { parse } from "../../syntax/parse.ts";
import { splitLines } from "../../syntax/split-lines.ts";
import { textOfHeld } from "../codes/codes.ts";
import { readBoard } from "../read/read-board.ts";
import { readDialect } from "../read-dialect.ts";
import { wantedOf } from "../write/wanted.ts";
import { type AlignedLine, affixesOf, alignLines } from "./align.ts";
import { atomsOf, type Member } from "./atoms.ts";
import { dialectText, type Fact, leftText } from "./fact-text.ts";
import { familyFacts, groupedBy, isNeeded } from "./families.ts";
import type { Law } from "./law.ts";
import { lawOf } from "./laws.ts";
import type { Learned, OpenQuestion, Pair } from "./learned.ts";
import { sumsOf } from "./sums.ts";

/** A token of a line, in each of the texts that have it. */
interface Token {
  readonly line: AlignedLine;
  readonly at: number;
  /** Without the letters before and behind a number. */
  readonly texts: readonly string[];
}

/** One of the values of an entry, in each of the scripts that have it. */
interface Atom extends Member {
  readonly entry: string;
  readonly index: number;
}

/** Learns from two pairs or more; from fewer nothing can differ. */
export function learnFrom(pairs: readonly Pair[], workspace: Workspace): Learned {
  const texts = pairs.map(({ text }) => splitLines(text.replace(/^\uFEFF/, "")).lines);
  const aligned = alignLines(texts);
  const members = membersOf(pairs, workspace);
  const families = familyFacts(aligned, members);
  const told = new Set(families.flatMap(({ whats }) => whats));
  const kinds = new Set(families.flatMap(({ lines }) => lines.map(({ kind }) => kind)));
  const atoms = members.filter(({ what }) => !told.has(what)).flatMap(atomsIn);
  const tokens = aligned.filter(({ kind }) => kind === "" || !kinds.has(kind)).flatMap((line) => tokensOf(line));
  const links = linksOf(tokens, atoms);
  const single = factsFrom(links, atoms);
  const linked = new Set(links.map(({ atom }) => atom));
  const taken = new Set(links.map(({ token }) => token));
  const sums = sumsOf(
    tokens.filter((token) => !taken.has(token)).flatMap((token) => [token, ...partsOf(token).flatMap(tokensOf)]),
    atoms.filter((atom) => differs(atom) && !linked.has(atom)),
  );
  const known = firstKnown(aligned, texts.length);
  const kept = verified([...families, ...single, ...sums], known, pairs, workspace);
  const learned = new Set(kept.flatMap(({ whats }) => whats));
  return {
    dialect: dialectText(kept, known, workspace.catalogue),
    lines: kept.map((fact) => ({ left: fact.lines.map((line) => leftText(line, fact)).join(" "), says: fact.whats })),
    open: [
      ...openEntries(pairs, workspace, members.flatMap(atomsIn), links, learned),
      ...openLines(tokens, links, kept),
    ],
    notes:
      pairs.length < 2
        ? ["One pair shows nothing that differs: change something on the board, and give its text and script too."]
        : [],
  };
}

/** The entries that have the same form in all scripts that say them. */
function membersOf(pairs: readonly Pair[], workspace: Workspace): Member[] {
  const all = pairs.map(({ craft }) => atomsOf(craft, workspace));
  return [...new Set(all.flatMap((each) => [...each.keys()]))].flatMap((what) => {
    const rows = [...all.keys()].filter((row) => all[row]!.has(what));
    const entries = rows.map((row) => all[row]!.get(what)!);
    const form = JSON.stringify(entries[0]!.form);
    return entries.every((each) => JSON.stringify(each.form) === form) ? [{ what, rows, entries }] : [];
  });
}

function atomsIn(member: Member): Atom[] {
  return [...member.entries[0]!.values.keys()].map((index) => ({ ...member, entry: member.what, index }));
}

function valuesOf({ entries, index }: Atom) {
  return entries.map(({ values }) => values[index]!);
}

function differs(atom: Atom): boolean {
  return new Set(valuesOf(atom).map(textOfHeld)).size > 1;
}

function tokensOf(line: AlignedLine): Token[] {
  const [first] = line.pieces;
  return first!.flatMap(({ isToken }, at) => {
    const texts = line.pieces.map((pieces) => pieces[at]!.text);
    if (!isToken || at === line.key || new Set(texts).size < 2) return [];
    const { before, behind } = affixesOf(texts);
    return [{ line, at, texts: texts.map((text) => text.slice(before.length, text.length - behind.length)) }];
  });
}

/** The line with a token taken apart at its points: `4.76` may be two numbers. */
function partsOf({ line, at }: Token): AlignedLine[] {
  const split = line.pieces.map((pieces) => pieces[at]!.text.split("."));
  if (!split.every((parts) => parts.length === 2 && parts.every((part) => part !== ""))) return [];
  const pieces = line.pieces.map((own, row) => [
    ...own.slice(0, at),
    { text: split[row]![0]!, isToken: true },
    { text: ".", isToken: false },
    { text: split[row]![1]!, isToken: true },
    ...own.slice(at + 1),
  ]);
  return [{ ...line, pieces, key: line.key !== null && line.key > at ? line.key + 2 : line.key }];
}

interface Link {
  readonly token: Token;
  readonly atom: Atom;
  readonly law: Law;
}

/** A word for a value proves little where a number, or the same word, follows it: such links go before. */
function linksOf(tokens: readonly Token[], atoms: readonly Atom[]): Link[] {
  const all = allLinks(tokens, atoms.filter(differs));
  const strong = all.filter(({ law }) => law.kind !== "words");
  const [takenTokens, takenAtoms] = [
    new Set(strong.map(({ token }) => token)),
    new Set(strong.map(({ atom }) => atom)),
  ];
  return all.filter(
    ({ law, token, atom }) => law.kind !== "words" || (!takenTokens.has(token) && !takenAtoms.has(atom)),
  );
}

/** A token follows a value only if it differs where the value does, in the same texts. */
function allLinks(tokens: readonly Token[], varying: readonly Atom[]): Link[] {
  const byPattern = groupedBy(
    varying.map((atom) => ({ atom, values: valuesOf(atom) })),
    ({ atom, values }) => patternIn(atom.rows, values.map(textOfHeld)),
  );
  return tokens.flatMap((token) =>
    (byPattern.get(patternIn(token.line.rows, token.texts)) ?? []).flatMap(({ atom, values }) => {
      const law = lawOf(token.texts, values);
      return law ? [{ token, atom, law }] : [];
    }),
  );
}

/** Which texts, and which of them are alike. */
function patternIn(rows: readonly number[], texts: readonly string[]): string {
  return `${rows.join(" ")}: ${texts.map((text) => texts.indexOf(text)).join(" ")}`;
}

/** The entries of which each value has one token that is nobody else's; fields that never differ are left out where they may be. */
function factsFrom(links: readonly Link[], atoms: readonly Atom[]): Fact[] {
  const ofToken = groupedBy(links, ({ token }) => token);
  const ofAtom = groupedBy(links, ({ atom }) => atom);
  const sure = (atom: Atom): Link | null => {
    const [only, ...others] = ofAtom.get(atom) ?? [];
    return only && others.length === 0 && ofToken.get(only.token)!.length === 1 ? only : null;
  };
  return [...groupedBy(atoms, ({ entry }) => entry)].flatMap(([what, own]) => {
    const { form, want } = own[0]!.entries[0]!;
    const links: Link[] = [];
    const names: string[] = [];
    for (const atom of own) {
      const link = sure(atom);
      if (link) {
        links.push(link);
        if (form.kind === "fields") names.push(form.names[atom.index]!);
      } else if (differs(atom) || form.kind !== "fields" || isNeeded(want.setting, form.names[atom.index]!)) return [];
    }
    if (links.length === 0) return [];
    return [
      {
        whats: [what],
        want,
        key: null,
        form: form.kind === "fields" ? { kind: "fields", names } : form,
        parts: links.map(({ law, token }) => ({ law, line: token.line, at: token.at })),
        lines: [...new Set(links.map(({ token }) => token.line))],
      },
    ];
  });
}

/** A line that all texts have alike, by which the board is known: the first with a letter. */
function firstKnown(aligned: readonly AlignedLine[], count: number): string | null {
  for (const { pieces } of aligned) {
    const lines = new Set(pieces.map((each) => each.map(({ text }) => text).join("")));
    const [line] = lines;
    if (pieces.length === count && lines.size === 1 && line !== undefined && /\p{L}{3}/u.test(line)) return line;
  }
  return null;
}

/** Without the facts that do not read every text to what its script says. */
function verified(
  facts: readonly Fact[],
  known: string | null,
  pairs: readonly Pair[],
  workspace: Workspace,
): readonly Fact[] {
  let kept = facts;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const wrong = wrongIn(kept, known, pairs, workspace);
    if (wrong.size === 0) return kept;
    kept = kept.filter(({ whats }) => !whats.some((what) => wrong.has(what)));
  }
  return [];
}

const MOST_ROUNDS = 20;

function wrongIn(
  facts: readonly Fact[],
  known: string | null,
  pairs: readonly Pair[],
  workspace: Workspace,
): ReadonlySet<string> {
  const wrong = new Set<string>();
  const text = dialectText(facts, known, workspace.catalogue);
  const dialect = dialectIn(text, workspace.catalogue);
  for (const { craft, text: board } of pairs) {
    const said = new Map<string, string[]>();
    for (const { state, says } of readBoard(dialect, board, { workspace, handset: null, craft }).lines) {
      if (state !== "read") continue;
      for (const each of says) {
        const what = whatOf(each);
        said.set(what, [...(said.get(what) ?? []), each.slice(what.length + 1)]);
      }
    }
    const rests = new Map(wantedOf(craft, workspace).wants.map(({ what, rest }) => [what, anyOrder(rest)]));
    // A key that is a name as it stands may name more than was seen.
    for (const [what, own] of said)
      if (own.some((each) => anyOrder(each) !== rests.get(what)))
        for (const { whats, want, key } of facts)
          if (key?.law.kind !== "words" && key && what.startsWith(want.spec.name))
            for (const each of whats) wrong.add(each);
    // What is read must be said, and what is said must be read.
    for (const what of facts.flatMap(({ whats }) => whats)) {
      const rest = rests.get(what);
      const own = said.get(what) ?? [];
      if (own.some((each) => anyOrder(each) !== rest) || (rest !== undefined && own.length === 0)) wrong.add(what);
    }
  }
  return wrong;
}

/** `SECTION NAME` of what a line says; the title of a section may have blanks. */
function whatOf(says: string): string {
  const titled = /^[a-z-]+\/.*? [a-z][a-z0-9-]* (?=\d|"|[a-z])/.exec(says);
  return titled ? titled[0].trimEnd() : says.split(" ", 2).join(" ");
}

/** A list means the same in any order; places and quantities have no such commas between words. */
function anyOrder(rest: string): string {
  return /^[a-z][a-z-]*(, [a-z][a-z-]*)+$/.test(rest) ? rest.split(", ").sort().join(", ") : rest;
}

function dialectIn(text: string, catalogue: Catalogue) {
  return readDialect("/learned.fettle", parse(text), catalogue);
}

// --- What stays open ---------------------------------------------------------------

function openEntries(
  pairs: readonly Pair[],
  workspace: Workspace,
  atoms: readonly Atom[],
  links: readonly Link[],
  learned: ReadonlySet<string>,
): OpenQuestion[] {
  const named = new Map<string, OpenQuestion>();
  const ofAtom = groupedBy(links, ({ atom }) => atom);
  const ofToken = groupedBy(links, ({ token }) => token);
  const entries = new Map(
    pairs.flatMap(({ craft }) => wantedOf(craft, workspace).wants.map((want) => [want.what, want] as const)),
  );
  for (const what of entries.keys()) {
    if (learned.has(what) || named.has(what)) continue;
    const own = atoms.filter(({ entry }) => entry === what);
    const change = `Change ${what} on the board, and nothing else; save its text, and give it with a script that says the new value.`;
    if (own.length === 0) {
      named.set(what, {
        what,
        why: "it does not stand in every script, or is made of more than numbers and words",
        change,
      });
      continue;
    }
    const fixed = own.filter((atom) => !differs(atom));
    if (fixed.length === own.length) {
      named.set(what, { what, why: `it is ${valuesOf(own[0]!).map(textOfHeld)[0]} in every script`, change });
      continue;
    }
    const followed = own.flatMap((atom) => ofAtom.get(atom) ?? []);
    const rivals = followed.flatMap(({ token }) => ofToken.get(token) ?? []).filter(({ atom }) => atom.entry !== what);
    const lines = [...new Set(followed.map(({ token }) => `“${lineText(token.line)}”`))];
    const why =
      followed.length === 0
        ? "no line of the texts follows it; a number needs two values in round steps from nought, or three"
        : rivals.length > 0
          ? `${lines[0]} follows it, and ${rivals[0]!.atom.entry} as well`
          : `${lines.slice(0, 3).join(" and ")} follow${lines.length === 1 ? "s" : ""} it`;
    named.set(what, { what, why, change });
  }
  return [...named.values()];
}

function lineText({ pieces }: AlignedLine): string {
  return pieces[0]!.map(({ text }) => text).join("");
}

/** The lines that differ between the texts, and that nobody explains. */
function openLines(tokens: readonly Token[], links: readonly Link[], facts: readonly Fact[]): OpenQuestion[] {
  const explained = new Set(facts.flatMap(({ lines }) => lines));
  const linked = new Set(links.map(({ token }) => token.line));
  const lines = new Set(tokens.map(({ line }) => line).filter((line) => !explained.has(line) && !linked.has(line)));
  return [...lines].map((line) => ({
    what: `“${lineText(line)}”`,
    why: "it differs between the texts, and nothing that the scripts say follows it",
    change: "Change one thing on the board, save its text, and compare: the line that moved is what you changed.",
  }));
}
