/** The consequences of an entry's value in its hover, for the craft that use its line. */

import type { Craft } from "../../model/craft.ts";
import type { Entry } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { settingIn } from "../../numbers/values.ts";
import { joinWithAnd } from "../../text/list.ts";
import { plainText } from "../../text/plain-text.ts";
import { consequencesOf } from "../consequences/consequences.ts";
import { lineCounts } from "../context/effective-entry.ts";
import { formatCount } from "../context/format.ts";
import { list, paragraphs } from "../context/markdown.ts";

/** The most craft in one hover; more would not be read. */
const MOST_CRAFT = 3;

/** The most named packs in one hover. */
const MOST_PACKS = 4;

/**
 * The consequences of an entry as Markdown, for up to three of the craft on which its line is effective; where
 * there is none, for the first craft, whose value the hover shows. Empty where there are no consequences.
 */
export function describeConsequences(
  workspace: Workspace,
  file: string,
  entry: Entry,
  crafts: readonly Craft[],
): string {
  const counting = crafts.filter((craft) => lineCounts(craft, file, entry));
  const shown = counting.length > 0 ? counting : crafts.slice(0, 1);
  const groups = new Map<string, string[]>();
  for (const craft of shown.slice(0, MOST_CRAFT)) {
    const text = list(sentencesOf(workspace, craft, file, entry));
    if (text === "") continue;
    const names = groups.get(text);
    if (names) names.push(plainText(craft.name));
    else groups.set(text, [plainText(craft.name)]);
  }
  if (groups.size === 0) return "";
  const more = shown.length - MOST_CRAFT;
  return paragraphs(
    ...[...groups].flatMap(([text, names]) => [
      crafts.length > 1 ? `What follows, on ${joinWithAnd(names)}:` : "What follows:",
      text,
    ]),
    more > 0 ? `The line is a part of ${more} more craft.` : "",
  );
}

/** The sentences for an entry; for one of plain `pack` also those of named packs that inherit it, where they differ. */
function sentencesOf({ catalogue }: Workspace, craft: Craft, file: string, entry: Entry): string[] {
  const { kind, section, name, line } = entry;
  const texts = (of: string) =>
    consequencesOf(craft, catalogue, { kind, section: of, name, file, line }).map(({ text }) => plainText(text));
  const plain = texts(section);
  if (section !== "pack") return plain;
  const known = new Set(plain);
  const shown = [...plain];
  let packs = 0;
  for (const each of craft.settings.keys()) {
    if (!each.startsWith("pack/") || settingIn(craft, each, name)?.section !== "pack") continue;
    if (++packs > MOST_PACKS) continue;
    const title = `Pack “${plainText(each.slice("pack/".length))}”`;
    for (const text of texts(each)) if (!known.has(text)) shown.push(`${title}: ${text}`);
  }
  const more = packs - MOST_PACKS;
  if (more > 0) shown.push(`${formatCount(more, "more pack")} ${more === 1 ? "takes" : "take"} it over`);
  return shown;
}
