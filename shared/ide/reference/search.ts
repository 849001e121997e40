/** Finds names by what is typed: the name itself, a part of it, plain words for it, or either misspelt. */
import { distance } from "fastest-levenshtein";
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { isAlike } from "../../model/similar-names.ts";
import { everyName, type NamedPage, pageAddress, parseAddress } from "./page-names.ts";
import { searchWords, whyOf } from "./search-texts.ts";

/** Words that are ignored in a description: stop words, and words for any craft. */
export const EMPTY_WORDS = new Set(
  "a an and are at be by can copter do does drone for from goes has have how i in is it its many me much my no not of off on or quad so that the then this to too up what when where which who why will with won wont".split(
    " ",
  ),
);

/** A name that was found; of two, the one of lower cost fits better. */
export interface Found {
  readonly page: NamedPage;
  readonly cost: number;
}

/** The cost of each way to fit, in the order in which they are listed. */
const COST = { exact: 0, itsWords: 1, beginning: 2, oneError: 2.6, wording: 3, nearName: 12 } as const;

/** What a second set costs besides: the same name in the first is more often meant. */
const SECOND_SET = 0.6;

/** Below this cost nothing else can be meant: it is the name, or exactly one of its plain words. */
export const SURE = COST.beginning;

/** From this cost on a name is a guess, and no answer: its prose alone has the words, or its spelling is some way off. */
export const GUESS = 7;

/** The same for what is written as a name: that is offered, and not shown in place of what was asked for. */
export const GUESS_OF_NAME = 2.5;

/** What a word of the description costs by where it occurs, and by how it occurs there. */
const WHERE = { name: 0, words: 0.4, summary: 1.4, why: 4.5 } as const;
const HOW = { same: 0, form: 0.2, beginning: 0.8, inside: 1.6, misspelt: 1.8 } as const;

/** Nobody types more. */
const MOST_TYPED = 200;

/** The names that fit what is typed, the best first, at most `most`. Empty where nothing is typed. */
export function searchNames(catalogue: Catalogue, typed: string, most: number): Found[] {
  const asked = parseAddress(typed.trim());
  if (asked.name === "" || asked.name.length > MOST_TYPED) return [];
  const index = indexOf(catalogue);
  const isAsked = ({ page }: SearchEntry) => asked.kind === null || page.kind === asked.kind;
  const found = new Map<string, Found>();
  const add = ({ page }: SearchEntry, cost: number) => {
    const key = pageAddress(page);
    const known = found.get(key);
    if (!known || cost < known.cost) found.set(key, { page, cost });
  };
  const normal = normalOf(asked.name);
  for (const entry of index.entries) {
    const cost = isAsked(entry) ? costOfName(entry, asked.name, normal) : null;
    if (cost !== null) add(entry, cost);
  }
  for (const { entry, cost } of described(index, tokensOf(asked.name)))
    if (isAsked(entry)) add(entry, COST.wording + cost);
  return [...found.values()].sort(byCost).slice(0, most);
}

/** What the name and its plain words cost as a whole; null where they do not fit. */
function costOfName(entry: SearchEntry, asked: string, normal: string): number | null {
  const { page, normals, bare, phrases, isSecondSet } = entry;
  if (page.name === asked || bare === asked) return COST.exact - 0.5;
  const later = isSecondSet ? SECOND_SET : 0;
  if (normal === "") return phrases.includes(asked.toLowerCase()) ? COST.itsWords : null;
  if (normals.includes(normal)) return COST.exact + later;
  // The words by which a name is best known stand first.
  const phrase = phrases.indexOf(normal);
  if (phrase >= 0) return COST.itsWords + later + phrase / 100;
  if (normal.length > 1 && normals.some((each) => each.startsWith(normal)))
    return COST.beginning + later + page.name.length / 100;
  const spelling = costOfSpelling(entry, normal);
  return spelling === null ? null : spelling + later;
}

/** What a name costs that is spelled almost so: with one typing error it is sure, with more it is a guess. */
function costOfSpelling({ page, normals }: SearchEntry, normal: string): number | null {
  if (normal.length < 3 || page.kind === "unit") return null;
  const near = normals.filter((each) => isAlike(normal, each));
  if (near.length === 0) return null;
  const edits = Math.min(...near.map((each) => (isSwapped(normal, each) ? 1 : distance(normal, each))));
  return edits === 1 && normal.length > 4 ? COST.oneError : COST.nearName + edits;
}

/** Whether two neighbouring letters changed places, and nothing else. */
function isSwapped(a: string, b: string): boolean {
  return distance(a, b) === 2 && a.length === b.length && [...a].sort().join("") === [...b].sort().join("");
}

function byCost(a: Found, b: Found): number {
  const [first, second] = [a.page.name, b.page.name];
  return a.cost - b.cost || first.length - second.length || (first < second ? -1 : 1);
}

interface SearchEntry {
  readonly page: NamedPage;
  readonly bare: string;
  /** The name, and that of a setting without its section, as they are compared. */
  readonly normals: readonly string[];
  /** Its plain words, as they are compared. */
  readonly phrases: readonly string[];
  readonly phraseTokens: readonly (readonly string[])[];
  readonly nameTokens: readonly string[];
  /** Of a second set: the same name in the first is more often meant. */
  readonly isSecondSet: boolean;
}

/** The entries with what a word costs in each, by the word. */
interface SearchIndex {
  readonly entries: readonly SearchEntry[];
  readonly places: ReadonlyMap<string, ReadonlyMap<SearchEntry, number>>;
}

/** How one word of a description occurs: in which words of the texts, and what it costs in each entry. */
interface Occurrence {
  readonly tokens: ReadonlySet<string>;
  readonly costs: ReadonlyMap<SearchEntry, number>;
}

interface Described {
  readonly entry: SearchEntry;
  readonly cost: number;
}

/** Where every word occurs in prose alone, a description with one word less may say more. */
const IN_PROSE = 2.5;

/** The names in which every word of a description occurs; else, of several words, all but one that is unknown. */
function described(index: SearchIndex, query: readonly string[]): Described[] {
  const words = query.map((word, i) => occurrencesOf(index, word, i === query.length - 1 ? 2 : 3));
  const found = fitting(words);
  if (words.length < 2 || cheapest(found) <= IN_PROSE) return found;
  const fewer = words.map((_, i) => fitting(words.toSpliced(i, 1)));
  const best = fewer.reduce((a, b) => (cheapest(b) < cheapest(a) ? b : a));
  return [...found, ...best.map(({ entry, cost }) => ({ entry, cost: cost + 2 }))];
}

function cheapest(all: readonly Described[]): number {
  return Math.min(...all.map(({ cost }) => cost));
}

/** A section and a rule fit many descriptions; what stands in a script is more often meant. */
const KIND_COST = { section: 0.5, rule: 0.6, word: 0.4, unit: 0.6, setting: 0, mode: 0, element: 0 } as const;

/** The entries in which all the words occur. */
function fitting(words: readonly Occurrence[]): Described[] {
  const [first, ...others] = words;
  if (!first) return [];
  return [...first.costs].flatMap(([entry, cost]): Described[] => {
    let sum = cost;
    for (const { costs } of others) {
      const more = costs.get(entry);
      if (more === undefined) return [];
      sum += more;
    }
    const isPhrase = entry.phraseTokens.some((phrase) =>
      words.every(({ tokens }) => phrase.some((token) => tokens.has(token))),
    );
    const isNamed = entry.nameTokens.every((token) => words.some(({ tokens }) => tokens.has(token)));
    const later = (isNamed ? -0.3 : 0) + KIND_COST[entry.page.kind] + (entry.isSecondSet ? SECOND_SET : 0);
    return [{ entry, cost: (sum / words.length) * (isPhrase ? 0.5 : 1) + later }];
  });
}

/** `least`: with so many letters a word may be the beginning of another; the last one is still being typed. */
function occurrencesOf({ places }: SearchIndex, word: string, least: number): Occurrence {
  const tokens = new Set<string>();
  const costs = new Map<SearchEntry, number>();
  for (const [token, entries] of places) {
    const how = howOf(token, word, least);
    if (how === null) continue;
    tokens.add(token);
    for (const [entry, where] of entries) {
      const known = costs.get(entry);
      if (known === undefined || where + how < known) costs.set(entry, where + how);
    }
  }
  return { tokens, costs };
}

function howOf(token: string, word: string, least: number): number | null {
  if (token === word) return HOW.same;
  if (isForm(token, word)) return HOW.form;
  if (word.length >= least && token.startsWith(word)) return HOW.beginning;
  if (word.length >= 4 && token.includes(word)) return HOW.inside;
  return isMisspelt(token, word) ? HOW.misspelt : null;
}

/** True if a word is another form of the one asked for: “flips” for “flip”, “maximum” for “max”. */
function isForm(token: string, word: string): boolean {
  if (word.length === 3) return token.startsWith(word) && token.length <= 7;
  const stem = Math.max(4, Math.min(token.length, word.length) - 3);
  return (
    Math.min(token.length, word.length) >= 4 &&
    token.slice(0, stem) === word.slice(0, stem) &&
    Math.abs(token.length - word.length) <= 3
  );
}

/** One letter in five may be wrong; a short word has too few to be recognised. */
function isMisspelt(token: string, word: string): boolean {
  if (word.length < 5 || Math.abs(token.length - word.length) > 2) return false;
  return distance(token, word) <= (word.length < 7 ? 1 : 2);
}

const indexes = new WeakMap<Catalogue, SearchIndex>();

function indexOf(catalogue: Catalogue): SearchIndex {
  let index = indexes.get(catalogue);
  if (!index) {
    const places = new Map<string, Map<SearchEntry, number>>();
    const entries = everyName(catalogue).map((page) => entryOf(catalogue, page, places));
    index = { entries, places };
    indexes.set(catalogue, index);
  }
  return index;
}

/** The entry of a name; its words are added to `places`. */
function entryOf(catalogue: Catalogue, page: NamedPage, places: Map<string, Map<SearchEntry, number>>): SearchEntry {
  const { name, kind, summary } = page;
  const bare = kind === "setting" ? name.slice(name.indexOf(".") + 1) : name;
  const words = searchWords(catalogue, name, kind);
  const entry: SearchEntry = {
    page,
    bare,
    normals: [...new Set([normalOf(name), normalOf(bare)])].filter((each) => each !== ""),
    phrases: [...words.map(normalOf), ...words.map((word) => word.toLowerCase())],
    phraseTokens: [...words.map(tokensOf), tokensOf(name)],
    nameTokens: tokensOf(bare),
    isSecondSet: kind === "setting" && catalogue.section(name.split(".")[0]!)?.like !== undefined,
  };
  const add = (texts: readonly string[], where: number) => {
    for (const token of texts.flatMap(tokensOf)) {
      const costs = places.get(token) ?? new Map<SearchEntry, number>();
      places.set(token, costs);
      costs.set(entry, Math.min(where, costs.get(entry) ?? where));
    }
  };
  add([name], WHERE.name);
  add(words, WHERE.words);
  add([summary], WHERE.summary);
  add([whyOf(catalogue, page)], WHERE.why);
  return entry;
}

/** A name as it is compared: in small letters, with one sign between its words. */
function normalOf(text: string): string {
  return text
    .toLowerCase()
    .split(/[^a-z0-9%/µ°]+/)
    .filter(Boolean)
    .join("-");
}

/** The words of a text that say something. */
function tokensOf(text: string): string[] {
  return text
    .toLowerCase()
    .split(/[^a-z0-9/%µ°]+/)
    .filter((word) => word.length > 1 && !EMPTY_WORDS.has(word));
}
