/** Lists in sentences. */

const format = new Intl.ListFormat("en-GB", { style: "long", type: "conjunction" });

/** Joins items as a sentence lists them: “level”, “level and recorder”, “level, recorder and beeper”. */
export function joinWithAnd(items: readonly string[]): string {
  return format.format(items);
}

const choices = new Intl.ListFormat("en-GB", { style: "long", type: "disjunction" });

/** Joins items as a sentence offers them: “level or recorder”. */
export function joinWithOr(items: readonly string[]): string {
  return choices.format(items);
}
