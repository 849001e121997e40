/** The names of all files, found by what is typed: by their letters, by whose they are, and by plain words. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Range } from "../../syntax/span.ts";
import type { Steps } from "../../text/steps.ts";
import { pageAddress } from "../reference/page-names.ts";
import { SURE, searchNames } from "../reference/search.ts";
import { type FileSymbol, fileSymbols, type SymbolKind } from "./file-symbols.ts";
import { costOf, FIT, normalOf } from "./fuzzy.ts";

export type { FileSymbol, SymbolKind } from "./file-symbols.ts";

/** A name that was found. `words` are the plain words by which it was found, where it was not by its letters. */
export interface FoundSymbol {
  readonly file: FilePath;
  readonly symbol: FileSymbol;
  readonly words: string | null;
}

/** Finds names, and remembers those of files that are as they were. */
export interface SymbolSearch {
  /** The names that fit, the best first; all of them where nothing is typed, and never more than `most`. */
  find(workspace: Workspace, typed: string, most: number): Steps<FoundSymbol[]>;
}

/** Names are told in batches: so many files are looked through between two of them. */
const FILES_A_STEP = 40;

/** Nobody types more. */
const MOST_TYPED = 200;

/**
 * What a name costs that is found by plain words: one of its own words comes before names that only hold what is typed,
 * a description of it before names that have its letters and no more.
 */
const TOLD = { itsWords: FIT.words + 5, described: FIT.scattered - 5 } as const;

/** What a description may cost in the search of the reference; beyond it, words were left out. */
const MOST_COST = 4.5;

/** So many names of the catalogue are taken from its search. */
const MOST_PAGES = 60;

/** Of names that fit alike, what is rarest and widest comes first. */
const WEIGHT: Record<SymbolKind, number> = {
  craft: 0,
  layer: 0.1,
  handset: 0.2,
  dialect: 0.3,
  section: 0.4,
  mode: 0.5,
  output: 0.5,
  control: 0.6,
  setting: 0.7,
  element: 0.7,
  follows: 0.8,
  code: 0.8,
  fact: 0.8,
  position: 0.9,
  line: 1,
};

/** The names of one file, for as long as its script is the same; each text by its number. */
interface Known {
  readonly script: Script;
  readonly catalogue: Catalogue;
  readonly symbols: readonly FileSymbol[];
  readonly names: Int32Array;
  readonly containers: Int32Array;
}

/** Nothing remembered yet. */
export function makeSymbolSearch(): SymbolSearch {
  const files = new Map<FilePath, Known>();
  const texts = makeTexts();
  const namesOf = (script: Script, catalogue: Catalogue): Known => {
    const symbols = fileSymbols(script, catalogue);
    const numbers = (of: (symbol: FileSymbol) => string) => Int32Array.from(symbols, (each) => texts.number(of(each)));
    return {
      script,
      catalogue,
      symbols,
      names: numbers(({ name }) => name),
      containers: numbers((each) => each.container),
    };
  };
  return {
    *find(workspace, typed, most) {
      const { catalogue, view } = workspace;
      if (typed.length > MOST_TYPED) return [];
      const listed = new Set(view.list());
      for (const path of files.keys()) if (!listed.has(path)) files.delete(path);
      const ask = asked(catalogue, typed, texts);
      const found = makeRanking<FoundSymbol>(most);
      for (const [i, path] of view.list().entries()) {
        if (i % FILES_A_STEP === 0) yield;
        const script = workspace.script(path);
        let known = files.get(path);
        if (!script) continue;
        if (known?.script !== script || known.catalogue !== catalogue) {
          known = namesOf(script, catalogue);
          files.set(path, known);
          yield;
        }
        const { symbols, names, containers } = known;
        for (let at = 0; at < symbols.length; at++) {
          const symbol = symbols[at]!;
          const letters = ask.letters(names[at]!, containers[at]!, symbol);
          const told = letters >= 0 && letters < TOLD.itsWords ? -1 : ask.told(symbol);
          const isTold = told >= 0 && (letters < 0 || told < letters);
          if (!isTold && letters < 0) continue;
          const words = isTold ? typed.trim() : null;
          found.add((isTold ? told : letters) + WEIGHT[symbol.kind], () => ({ file: path, symbol, words }));
        }
      }
      return found.best();
    },
  };
}

/** The place of a name now, by what it was: the one on the line nearest to where it stood; null where it is gone. */
export function placeOfSymbol(
  workspace: Workspace,
  file: FilePath,
  was: { readonly name: string; readonly kind: string; readonly line: number },
): Range | null {
  const script = workspace.script(file);
  const same = script
    ? fileSymbols(script, workspace.catalogue).filter(({ name, kind }) => name === was.name && kind === was.kind)
    : [];
  const distance = ({ nameRange }: FileSymbol) => Math.abs(nameRange.start.line - was.line);
  return same.sort((a, b) => distance(a) - distance(b))[0]?.nameRange ?? null;
}

/** What it costs that a name is meant, by its letters and by plain words; negative where it does not fit. */
interface Asked {
  letters(name: number, container: number, symbol: FileSymbol): number;
  told(symbol: FileSymbol): number;
}

const EVERYTHING: Asked = { letters: () => 0, told: () => -1 };
const NOTHING: Asked = { letters: () => -1, told: () => -1 };

function asked(catalogue: Catalogue, typed: string, texts: Texts): Asked {
  const normal = normalOf(typed);
  if (normal === "") return typed.trim() === "" ? EVERYTHING : NOTHING;
  const pages = new Map(
    searchNames(catalogue, typed, MOST_PAGES)
      .filter(({ cost }) => cost < MOST_COST)
      .map(({ page, cost }) => [pageAddress(page), cost + (cost < SURE ? TOLD.itsWords : TOLD.described)]),
  );
  const whole = costsByNumber(normal, texts);
  const parts = normal.split("-");
  const byPart = parts.length > 1 ? parts.map((part) => costsByNumber(part, texts)) : [];
  return {
    letters(name, container, { kind }) {
      const own = whole(name);
      // The letters of nearly anything are somewhere in a long text, and so are words that begin with them.
      const isLong = kind === "line" || kind === "position";
      const isChance = isLong && own >= FIT.words && (own < FIT.inside || own >= FIT.scattered);
      if (own >= 0 && !isChance) return own;
      return byPart.length === 0 || kind === "line" ? -1 : costOfParts(byPart, name, container);
    },
    told: ({ page }) => (page === null ? -1 : (pages.get(page) ?? -1)),
  };
}

/** Several words of which each fits the name or whose it is, and one at least the name; negative where they do not. */
function costOfParts(parts: readonly ((text: number) => number)[], name: number, container: number): number {
  let sum = 0;
  let isNamed = false;
  for (const part of parts) {
    const here = part(name);
    const there = part(container);
    if (here < 0 && there < 0) return -1;
    if (here >= 0) isNamed = true;
    sum += here < 0 ? there : there < 0 ? here : Math.min(here, there);
  }
  // After what fits as a whole, and before what plain words alone find.
  return isNamed ? FIT.inside + sum / parts.length / 2 : -1;
}

/** Texts by number, as they are compared: a thousand craft say the same few hundred names. */
interface Texts {
  number(text: string): number;
  readonly normals: readonly string[];
}

function makeTexts(): Texts {
  const numbers = new Map<string, number>();
  const normals: string[] = [];
  return {
    normals,
    number(text) {
      let number = numbers.get(text);
      if (number === undefined) {
        number = normals.push(normalOf(text)) - 1;
        numbers.set(text, number);
      }
      return number;
    },
  };
}

/** What each text costs, worked out once for one question; negative where it does not fit. */
function costsByNumber(typed: string, { normals }: Texts): (text: number) => number {
  const known: number[] = [];
  return (text) => {
    while (known.length <= text) known.push(costOf(typed, normals[known.length]!) ?? -1);
    return known[text]!;
  };
}

/** Keeps the best of many, in order of cost and then as they came, without sorting all. */
function makeRanking<T>(most: number) {
  const byCost = new Map<number, T[]>();
  return {
    add(cost: number, make: () => T): void {
      const rounded = Math.round(cost * 100);
      const same = byCost.get(rounded);
      if (!same) byCost.set(rounded, [make()]);
      else if (same.length < most) same.push(make());
    },
    best(): T[] {
      const costs = [...byCost.keys()].sort((a, b) => a - b);
      const found: T[] = [];
      for (const cost of costs) {
        if (found.length >= most) break;
        found.push(...byCost.get(cost)!.slice(0, most - found.length));
      }
      return found;
    },
  };
}
