/** What is worked out of each section's settings by itself: a shelf of packs is long, and a key touches one of them. */
import type { Craft, Setting } from "./craft.ts";
import { namedPacksOf, tablesOf } from "./listened-craft.ts";
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

/** Gives an answer for each of some sections, in their order. */
type AnswersOf<T> = (
  craft: Craft,
  also: readonly unknown[],
  work: (section: string, table: Table) => T,
) => readonly T[];

/**
 * Gives a store of answers, one for each section with settings, in their order. `work` is asked again where the table
 * of a section is another than at the last time, or one of `also`, on which it may rest besides. The list is the same
 * object for as long as no answer is another: an answer that `isSameAnswer` as the one before is given up for that.
 */
export function answersByTable<T>(isSameAnswer: (a: T, b: T) => boolean = Object.is): AnswersOf<T> {
  return answersOver((craft) => {
    // Going through them counts as having read them all.
    craft.settings.values();
    return tablesOf(craft);
  }, isSameAnswer);
}

/** The same for the named packs alone. */
export function answersByNamedPack<T>(): AnswersOf<T> {
  return answersOver(namedPacksOf, Object.is);
}

/** The tables are the same object for as long as none of them is another. */
function answersOver<T>(
  tablesIn: (craft: Craft) => Craft["settings"],
  isSameAnswer: (a: T, b: T) => boolean,
): AnswersOf<T> {
  const lastOf = perFile((): Last<T> => ({ tables: null, also: [], sections: [], each: [], answers: [] }));
  return (craft, also, work) => {
    const last = lastOf(craft);
    const isSame = last.also.length === also.length && also.every((one, i) => one === last.also[i]);
    const tables = tablesIn(craft);
    if (isSame && last.tables === tables) return last.answers;
    // A work that fails leaves nothing half done behind.
    last.also = NEVER;
    let answers: T[] | null = last.answers.length === tables.size ? null : [...last.answers];
    let at = 0;
    for (const [section, table] of tables) {
      if (!isSame || last.each[at] !== table || last.sections[at] !== section) {
        const answer = work(section, table);
        if (at >= last.answers.length || !isSameAnswer(answer, last.answers[at]!)) {
          answers ??= [...last.answers];
          answers[at] = answer;
        }
        last.sections[at] = section;
        last.each[at] = table;
      }
      at++;
    }
    for (const list of [answers, last.sections, last.each]) if (list) list.length = at;
    Object.assign(last, { tables, also, answers: answers ?? last.answers });
    return last.answers;
  };
}
