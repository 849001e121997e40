/** Lists in sentences. */

const format = new Intl.ListFormat("en-GB", { style: "long", type: "conjunction" });

/** Joins items as a sentence lists them: “level”, “level and recorder”, “level, recorder and beeper”. */
export function joinWithAnd(items: readonly string[]): string {
  return format.format(items);
}
