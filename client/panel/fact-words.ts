/** What the rows of comparisons and reviews say, taken apart, and the pages that explain their names. */

/** The page that explains the name of a row: SECTION.NAME, which may be of a named pack. */
export function pageOfRow(what: string, kind: string | null): string | null {
  const dot = what.startsWith("verbatim.") ? "verbatim".length : what.lastIndexOf(".");
  // The name of a pack may hold anything, and is not part of what is explained.
  const section = what.slice(0, dot).split("/")[0]!;
  const name = what.slice(dot + 1);
  switch (kind) {
    case "mode":
      return `mode/${name}`;
    case "setting":
      if (section === "adjust") return "section/adjust";
      return section === "verbatim" ? "section/verbatim" : `setting/${section}.${name}`;
    // Elements, and the settings of a page, such as its grid: by the name alone either is found.
    case "osd":
      return name;
    case "output":
      return "section/outputs";
    case "control":
      return "section/controls";
    case "handset":
      return "word/handset";
    default:
      return null;
  }
}

/** The first sentence, and what follows it; a point within a number ends none. */
export function leadOf(words: string): readonly [lead: string, rest: string] {
  const whole = unitsKept(words);
  const end = /[.!?] /.exec(whole)?.index;
  return end === undefined ? [whole, ""] : [whole.slice(0, end + 1), whole.slice(end + 2)];
}

const UNIT = "%|V/cell|rpm/V|deg/s|m?V|m?A|mAh|C|[um]?s|min|[kMG]?Hz|deg|g|in|k?m|mm|dBm?|m?W";
const BEFORE_UNIT = new RegExp(`(\\d) (?=(?:${UNIT})(?![\\w-]))`, "g");

/** With a blank between a number and its unit at which no line breaks. */
function unitsKept(words: string): string {
  return words.replaceAll(BEFORE_UNIT, "$1\u00a0");
}

/** “one line”, “4 lines”. */
export function counted(count: number, word: string): string {
  return `${count === 1 ? "one" : count} ${word}${count === 1 ? "" : "s"}`;
}
