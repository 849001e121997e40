/** The left sides of a dialect by the text before their first slot, so that a line meets only those that begin alike. */
import type { Dialect, Left, Pattern } from "../dialect.ts";
import type { Blanks, LineForm } from "./line-form.ts";
import { type Compiled, compile } from "./match.ts";

/** A left side or a heading that may be tried. */
export interface Candidate<T> {
  /** In the order in which they are tried. */
  readonly order: number;
  readonly compiled: Compiled;
  readonly of: T;
}

/** What may fit a line, by how the line begins. */
export interface ByBeginning<T> {
  /** Everything whose text before its first slot the line begins with, in order. */
  candidates(line: LineForm): readonly Candidate<T>[];
}

/** A T of `under` or `heading`, once for all sections that name it. */
export interface HeadingPattern {
  readonly pattern: Pattern;
  /** The left sides that count below it; null for a `heading` that no section is under. */
  readonly lefts: ByBeginning<Left> | null;
}

export interface LeftIndex {
  readonly headings: ByBeginning<HeadingPattern>;
  /** What counts below a heading, by the key of its pattern. */
  readonly below: ReadonlyMap<string, ByBeginning<Left>>;
  /** Left sides that count above all headings. */
  readonly above: ByBeginning<Left>;
  /** Left sides that count wherever they stand. */
  readonly anywhere: ByBeginning<Left>;
}

const indexes = new WeakMap<Dialect, LeftIndex>();

/** The index of a dialect; the same object for the same dialect. */
export function indexOf(dialect: Dialect): LeftIndex {
  let index = indexes.get(dialect);
  if (!index) {
    index = makeIndex(dialect);
    indexes.set(dialect, index);
  }
  return index;
}

function makeIndex({ lefts, text: { headings, blanks } }: Dialect): LeftIndex {
  const anywhere: Left[] = [];
  const above: Left[] = [];
  const under = new Map<string, { readonly pattern: Pattern; readonly lefts: Left[] }>();
  for (const left of lefts) {
    if (left.under.kind === "anywhere") anywhere.push(left);
    else if (left.under.kind === "above-all") above.push(left);
    else {
      const { pattern } = left.under;
      const group = under.get(pattern.key) ?? { pattern, lefts: [] };
      group.lefts.push(left);
      under.set(pattern.key, group);
    }
  }
  // In the order of the dialect's lines, so that the first of two headings that fit gives the values below.
  const orders = new Map(lefts.map((left, i) => [left, i]));
  const byLefts = (group: readonly Left[]) =>
    byBeginning(
      group,
      ({ pattern }) => pattern,
      blanks,
      (left) => orders.get(left)!,
    );
  const named: HeadingPattern[] = [...under.values()].map((group) => ({
    pattern: group.pattern,
    lefts: byLefts(group.lefts),
  }));
  const bare = headings.filter(({ key }) => !under.has(key)).map((pattern) => ({ pattern, lefts: null }));
  return {
    below: new Map(named.map(({ pattern, lefts }) => [pattern.key, lefts!])),
    headings: byBeginning(
      [...named, ...bare],
      ({ pattern }) => pattern,
      blanks,
      (_, i) => i,
    ),
    above: byLefts(above),
    anywhere: byLefts(anywhere),
  };
}

/** A tree of beginnings: each edge is text, each node holds what begins with all edges down to it. */
interface Node<T> {
  edge: string;
  here: Candidate<T>[];
  next: Map<number, Node<T>>;
}

function byBeginning<T>(
  all: readonly T[],
  patternOf: (one: T) => Pattern,
  blanks: Blanks,
  orderOf: (one: T, i: number) => number,
): ByBeginning<T> {
  const root: Node<T> = { edge: "", here: [], next: new Map() };
  all.forEach((of, i) => {
    const candidate = { order: orderOf(of, i), compiled: compile(patternOf(of), blanks), of };
    insert(root, candidate.compiled.first.text, candidate);
  });
  return {
    candidates(line) {
      let found: readonly Candidate<T>[] = root.here;
      let isSorted = true;
      let node: Node<T> | undefined = root;
      for (let at = line.start; ; ) {
        node = node.next.get(line.text.charCodeAt(at));
        if (!node || !line.text.startsWith(node.edge, at)) break;
        at += node.edge.length;
        if (node.here.length === 0) continue;
        isSorted = found.length === 0;
        found = isSorted ? node.here : found.concat(node.here);
      }
      return isSorted ? found : [...found].sort((a, b) => a.order - b.order);
    },
  };
}

function insert<T>(root: Node<T>, text: string, candidate: Candidate<T>): void {
  let node = root;
  for (let at = 0; at < text.length; ) {
    const code = text.charCodeAt(at);
    const child = node.next.get(code);
    if (!child) {
      const leaf = { edge: text.slice(at), here: [], next: new Map() };
      node.next.set(code, leaf);
      node = leaf;
      break;
    }
    const shared = sharedLength(child.edge, text, at);
    if (shared < child.edge.length) {
      const rest: Node<T> = { edge: child.edge.slice(shared), here: child.here, next: child.next };
      child.edge = child.edge.slice(0, shared);
      child.here = [];
      child.next = new Map([[rest.edge.charCodeAt(0), rest]]);
    }
    node = child;
    at += shared;
  }
  node.here.push(candidate);
}

function sharedLength(edge: string, text: string, at: number): number {
  let length = 0;
  while (length < edge.length && edge.charCodeAt(length) === text.charCodeAt(at + length)) length++;
  return length;
}
