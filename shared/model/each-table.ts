/** What is worked out of each section's settings by itself: a shelf of packs is long, and a key touches one of them. */
import type { Craft, Setting } from "./craft.ts";
import { tablesOf } from "./listened-craft.ts";
import { perFile } from "./memo.ts";

type Table = ReadonlyMap<string, Setting>;

/** Equal to nothing that anybody passes. */
const NEVER: readonly unknown[] = [Symbol("never")];

interface Last<T> {
  tables: Craft["settings"] | null;
  also: readonly unknown[];
  readonly sections: string[];
  readonly each: Table[];
  answers: readonly T[];
}

/**
 * Gives a store of answers, one for each section with settings, in their order. `work` is asked again where the table
 * of a section is another than at the last time, or one of `also`, on which it may rest besides. The list is the same
 * object for as long as no answer is another.
 */
export function answersByTable<T>(): (
  craft: Craft,
  also: readonly unknown[],
  work: (section: string, table: Table) => T,
) => readonly T[] {
  const lastOf = perFile((): Last<T> => ({ tables: null, also: [], sections: [], each: [], answers: [] }));
  return (craft, also, work) => {
    const last = lastOf(craft);
    const isSame = last.also.length === also.length && also.every((one, i) => one === last.also[i]);
    // Going through them counts as having read them all.
    const entries = craft.settings.entries();
    if (isSame && last.tables === tablesOf(craft)) return last.answers;
    // A work that fails leaves nothing half done behind.
    last.also = NEVER;
    let answers: T[] | null = last.answers.length === tablesOf(craft).size ? null : [...last.answers];
    let at = 0;
    for (const [section, table] of entries) {
      if (!isSame || last.each[at] !== table || last.sections[at] !== section) {
        const answer = work(section, table);
        if (answer !== last.answers[at] || at >= last.answers.length) {
          answers ??= [...last.answers];
          answers[at] = answer;
        }
        last.sections[at] = section;
        last.each[at] = table;
      }
      at++;
    }
    for (const list of [answers, last.sections, last.each]) if (list) list.length = at;
    Object.assign(last, { tables: tablesOf(craft), also, answers: answers ?? last.answers });
    return last.answers;
  };
}
