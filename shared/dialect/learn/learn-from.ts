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
import { type AtomEntry, atomsOf } from "./atoms.ts";
import { dialectText, type Fact, leftText } from "./fact-text.ts";
import { type Law, lawOf } from "./laws.ts";
import type { Learned, OpenQuestion, Pair } from "./learned.ts";

/** A token of a line, in every text. */
interface Token {
  readonly line: AlignedLine;
  readonly at: number;
  /** Without the letters before and behind a number. */
  readonly texts: readonly string[];
}

/** One of the values of an entry, in every script. */
interface Atom {
  readonly entry: string;
  readonly index: number;
  readonly entries: readonly AtomEntry[];
}

/** Learns from two pairs or more; from fewer nothing can differ. */
export function learnFrom(pairs: readonly Pair[], workspace: Workspace): Learned {
  const texts = pairs.map(({ text }) => splitLines(text.replace(/^\uFEFF/, "")).lines);
  const aligned = alignLines(texts);
  const atoms = atomsIn(pairs, workspace);
  const tokens = aligned.flatMap((line) => tokensOf(line));
  const links = linksOf(tokens, atoms);
  const facts = factsFrom(links, atoms);
  const known = firstKnown(aligned);
  const kept = verified(facts, known, pairs, workspace);
  const learned = new Set(kept.map(({ what }) => what));
  return {
    dialect: dialectText(kept, known, workspace.catalogue),
    lines: kept.map((fact) => ({ left: fact.lines.map((line) => leftText(line, fact)).join(" "), says: [fact.what] })),
    open: [...openEntries(pairs, workspace, atoms, links, learned), ...openLines(tokens, links, kept)],
    notes:
      pairs.length < 2
        ? ["One pair shows nothing that differs: change something on the board, and give its text and script too."]
        : [],
  };
}

/** The values that every script has in the same form, and that differ between some of them. */
function atomsIn(pairs: readonly Pair[], workspace: Workspace): Atom[] {
  const all = pairs.map(({ craft }) => atomsOf(craft, workspace));
  const atoms: Atom[] = [];
  for (const [what, first] of all[0] ?? []) {
    const entries = all.flatMap((each) => each.get(what) ?? []);
    if (
      entries.length < pairs.length ||
      entries.some((each) => JSON.stringify(each.form) !== JSON.stringify(first.form))
    )
      continue;
    for (const index of first.values.keys()) atoms.push({ entry: what, index, entries });
  }
  return atoms;
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

function allLinks(tokens: readonly Token[], varying: readonly Atom[]): Link[] {
  return tokens.flatMap((token) =>
    varying.flatMap((atom) => {
      const law = lawOf(token.texts, valuesOf(atom));
      return law ? [{ token, atom, law }] : [];
    }),
  );
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
    const [first] = own[0]!.entries;
    const { form, want } = first!;
    const links: Link[] = [];
    const names: string[] = [];
    for (const atom of own) {
      const link = sure(atom);
      if (link) {
        links.push(link);
        if (form.kind === "fields") names.push(form.names[atom.index]!);
      } else if (differs(atom) || !mayBeLeftOut(form, atom.index, want)) return [];
    }
    if (links.length === 0) return [];
    return [
      {
        what,
        want,
        form: form.kind === "fields" ? { kind: "fields", names } : form,
        parts: links.map(({ law, token }) => ({ law, line: token.line, at: token.at })),
        lines: [...new Set(links.map(({ token }) => token.line))],
      },
    ];
  });
}

/** A field without which the value is whole. */
function mayBeLeftOut(form: AtomEntry["form"], index: number, { setting }: AtomEntry["want"]): boolean {
  if (form.kind !== "fields") return false;
  const type = setting?.types.find((each) => each.is === "fields");
  const field = type?.fields.find(({ name }) => name === form.names[index]);
  return field !== undefined && field.required !== true;
}

function groupedBy<K, T>(items: readonly T[], keyOf: (item: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
  }
  return groups;
}

/** A line that all texts have alike, by which the board is known: the first with a letter. */
function firstKnown(aligned: readonly AlignedLine[]): string | null {
  for (const { pieces } of aligned) {
    const lines = new Set(pieces.map((each) => each.map(({ text }) => text).join("")));
    const [line] = lines;
    if (lines.size === 1 && line !== undefined && /\p{L}{3}/u.test(line)) return line;
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
    kept = kept.filter(({ what }) => !wrong.has(what));
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
        const what = each.split(" ", 2).join(" ");
        said.set(what, [...(said.get(what) ?? []), each.slice(what.length + 1)]);
      }
    }
    const rests = new Map(wantedOf(craft, workspace).wants.map(({ what, rest }) => [what, rest]));
    for (const { what } of facts) if (!said.get(what)?.every((rest) => rest === rests.get(what))) wrong.add(what);
  }
  return wrong;
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
