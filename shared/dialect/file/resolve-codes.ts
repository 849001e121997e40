/** Looks up the codes that codes name, and joins the lines of one code. */
import type { Code } from "../dialect.ts";
import type { CodeDraft, NamedCode } from "./read-codes.ts";

/** Codes hold codes that hold codes; no board needs more of them within each other. */
const DEEPEST = 16;

/** One line of a code. */
export interface CodeLine {
  readonly line: number;
  readonly draft: CodeDraft;
}

/** What is wrong between codes: `of` is the name that is looked up at these columns. */
export interface CodeProblem {
  readonly line: number;
  readonly at: NamedCode;
  readonly why: "unknown" | "circle" | "deep";
}

/** Every code by its name; `report` is told of names that lead to none, or back to themselves. */
export function resolveCodes(
  drafts: ReadonlyMap<string, readonly CodeLine[]>,
  report: (problem: CodeProblem) => void,
): ReadonlyMap<string, Code> {
  const made = new Map<string, Code>();
  const failed = new Set<string>();
  const open = new Set<string>();
  const find = (named: NamedCode, line: number): Code | null => {
    const known = made.get(named.code);
    if (known) return known;
    const lines = drafts.get(named.code);
    if (failed.has(named.code)) return null;
    if (!lines || open.has(named.code) || open.size >= DEEPEST) {
      report({ line, at: named, why: !lines ? "unknown" : open.has(named.code) ? "circle" : "deep" });
      return null;
    }
    open.add(named.code);
    const code = makeCode(named.code, lines, find);
    open.delete(named.code);
    if (code) made.set(named.code, code);
    else failed.add(named.code);
    return code;
  };
  for (const [name, [first]] of drafts) if (first) find({ code: name, start: 0, end: 0 }, first.line);
  return made;
}

function makeCode(
  name: string,
  lines: readonly CodeLine[],
  find: (named: NamedCode, line: number) => Code | null,
): Code | null {
  const [{ draft, line }] = lines as [CodeLine];
  const facts = { name, lines: lines.map((each) => each.line) };
  switch (draft.kind) {
    case "number":
    case "text":
      return { ...facts, ...draft };
    case "words":
    case "letters":
      return {
        ...facts,
        kind: draft.kind,
        words: lines.flatMap((each) =>
          each.draft.kind === draft.kind
            ? each.draft.words.map(({ theirs, ours }) => ({ theirs, ours, line: each.line }))
            : [],
        ),
      };
    case "set":
      return {
        ...facts,
        kind: "set",
        ...spellingOf(lines),
        items: lines.flatMap((each) =>
          each.draft.kind === "set" ? each.draft.items.map(({ bit, ours }) => ({ bit, ours, line: each.line })) : [],
        ),
      };
    case "list": {
      const of = find(draft.of, line);
      return of && { ...facts, kind: "list", of, by: draft.by };
    }
    case "bits":
      return {
        ...facts,
        ...draft,
        parts: draft.parts.map(({ from, to, name, code }) => ({ from, to, name, code: code && find(code, line) })),
        fixed: draft.fixed.map(({ bit, is, orUnset }) => ({ bit, is, orUnset })),
      };
  }
}

/** The base and the digits of a set, which any of its lines may say. */
function spellingOf(lines: readonly CodeLine[]): { base: number; digits: number | null } {
  const sets = lines.flatMap(({ draft }) => (draft.kind === "set" ? [draft] : []));
  return {
    base: sets.find(({ base }) => base !== 10)?.base ?? 10,
    digits: sets.find(({ digits }) => digits !== null)?.digits ?? null,
  };
}
