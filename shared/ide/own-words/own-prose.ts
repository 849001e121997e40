/** What somebody wrote into a file of own words, as it can stand on any page: words, and no markup. */
import { visibleLine } from "../../text/visible-text.ts";

/** These are spelled and not told: a name is checked elsewhere, and a default stands between backticks. */
const SPELLED: ReadonlySet<string> = new Set(["default", "section", "name", "unit"]);

/** The same plain data, with every text in it that people read as `ownProse`. */
export function withOwnProse<T>(value: T): T {
  if (typeof value === "string") return ownProse(value) as T;
  if (Array.isArray(value)) return value.map(withOwnProse) as T;
  if (typeof value !== "object" || value === null) return value;
  const members = Object.entries(value).map(([name, each]) => [name, SPELLED.has(name) ? each : withOwnProse(each)]);
  return Object.fromEntries(members) as T;
}

/**
 * The text on one line, in which nothing begins that Markdown knows. It is shown as plain text as well, where an escape
 * would stand there to be read; so what belongs together as markup is set apart by a blank instead.
 */
export function ownProse(text: string): string {
  const line = visibleLine(text)
    .replace(/<(?=[a-z/!?])/gi, "< ")
    .replace(/&(?=#?\w+;)/g, "& ")
    .replace(/\](?=[([:])/g, "] ")
    .replace(/:(?=\/\/)/g, ": ")
    .replace(/(?<=\bwww)\./gi, " .")
    .replace(/(?<=\w)@(?=\w)/g, " @ ")
    .replace(/~{2,}/g, "~")
    .replace(/^(?:[\s#>+=~|-]|\d+[.)](?=\s))+/, "");
  // Code may stand between two backticks; one of them alone, or several at once, would reach further.
  return /^[^`]*(?:`[^`]+`[^`]*)*$/.test(line) && !line.startsWith("`") ? line : line.replaceAll("`", "’");
}
