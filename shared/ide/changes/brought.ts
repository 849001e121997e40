/** Which findings of a state the one before it did not have. */
import type { FindingIdentity } from "./identity.ts";

/** A finding with what it is known by. */
export interface Known<T> {
  readonly finding: T;
  readonly identity: FindingIdentity;
}

/** What the findings are held against. */
export interface Earlier {
  /** The lines that stay at the beginning and at the end of a file: which of two like findings was there before. */
  readonly stays: (file: string, line: number) => boolean;
  /** A message of the earlier state with the names that files have now. */
  readonly renamed: (words: string) => string;
}

/**
 * The findings of `now` without a counterpart in `before`, each of which is the counterpart of one. First those are
 * taken for the same that stand on a line that says the same, then those of a name whose line was changed.
 * `leftOver` are the findings that are gone.
 */
export function broughtBy<T>(
  now: readonly Known<T>[],
  before: readonly Known<T>[],
  { stays, renamed }: Earlier,
): { readonly brought: readonly Known<T>[]; readonly leftOver: readonly Known<T>[] } {
  let [brought, leftOver] = [now, before];
  for (const keyOf of [sameLine, sameName]) {
    const old = new Map<string, Known<T>[]>();
    for (const each of leftOver) {
      const key = keyOf({ ...each.identity, words: renamed(each.identity.words) });
      if (key !== null) old.set(key, [...(old.get(key) ?? []), each]);
    }
    const met = new Set<Known<T>>();
    const known = new Set<Known<T>>();
    const stayFirst = [
      ...brought.filter(({ identity }) => stays(identity.file, identity.line)),
      ...brought.filter(({ identity }) => !stays(identity.file, identity.line)),
    ];
    for (const each of stayFirst) {
      const key = keyOf(each.identity);
      const counterpart = key === null ? undefined : old.get(key)?.shift();
      if (!counterpart) continue;
      known.add(each);
      met.add(counterpart);
    }
    brought = brought.filter((each) => !known.has(each));
    leftOver = leftOver.filter((each) => !met.has(each));
  }
  return { brought, leftOver };
}

/** Of the same words about a line that says the same, whatever file it stands in. */
export function sameLine({ code, section, name, words, text }: FindingIdentity): string {
  return [code, section, name, words, text].join("\n");
}

/** Of the same words about the same name, of which the line was changed otherwise. */
function sameName({ code, section, name, index, words }: FindingIdentity): string | null {
  return name === "" ? null : [code, section, name, index, words].join("\n");
}
