/** The lines of a script that say or take back something, each with what it is about. */
import type { Entry, Script } from "../../model/script.ts";
import type { Section } from "../../syntax/tree.ts";

/** A line of a section: an entry, a `drop`, or kept board text. */
export interface Item {
  readonly line: number;
  /** As resolved. */
  readonly section: string;
  readonly kind: "entry" | "drop" | "kept";
  /** Null for all but an entry. */
  readonly entry: Entry | null;
  /** The words of a `drop`; null for `drop all`, empty for all else. */
  readonly names: readonly string[] | null;
}

/** Every item of a script, in order of line; lines that were not understood are left out. */
export function itemsOf({ entries, drops, kept }: Script): Item[] {
  const items: Item[] = [
    ...entries.map((entry): Item => ({ line: entry.line, section: entry.section, kind: "entry", entry, names: [] })),
    ...drops.map(
      ({ line, section, all, names }): Item => ({
        line,
        section,
        kind: "drop",
        entry: null,
        names: all ? null : names.map(({ text }) => text),
      }),
    ),
    ...kept.map(
      ({ source, dialect }): Item => ({
        line: source.line,
        section: `verbatim/${dialect}`,
        kind: "kept",
        entry: null,
        names: [],
      }),
    ),
  ];
  return items.sort((a, b) => a.line - b.line);
}

/** The key of a name in a section; a section holds no two things of one name. */
export function keyOf({ section, name }: { readonly section: string; readonly name: string }): string {
  return `${section} ${name}`;
}

/** The sections of a script as they stand in the text, each as resolved. */
export function sectionsOf(
  script: Script,
): readonly (Section & { readonly resolved: string; readonly known: boolean })[] {
  return script.tree.sections.map((section, i) => {
    const { section: resolved, known, misplaced } = script.sections[i]!;
    return { ...section, resolved, known: known && !misplaced };
  });
}

/** The fields that an entry says; null where its value is none of fields. */
export function fieldsOf({ value }: Entry): readonly string[] | null {
  return value?.kind === "fields" ? value.fields.map(({ name }) => name) : null;
}
