/** Hovers of a section's name and of the names in a `drop`. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SectionSpec } from "../../catalogue/specs.ts";
import { baseOf, type Craft, type Source } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { joinWithAnd } from "../../text/list.ts";
import { plainText } from "../../text/plain-text.ts";
import { type CursorContext, craftFor } from "../context/cursor-context.ts";
import { describeName, describeSection } from "../context/describe.ts";
import { effectiveEntryIn, type NamedEntry } from "../context/effective-entry.ts";
import { formatCount } from "../context/format.ts";
import { paragraphs, quoteNote } from "../context/markdown.ts";
import type { PageName } from "../reference/page-names.ts";
import { codeText, linesText, usualInWords, usualOf } from "./lead.ts";
import { fileLink, type LinkTargets, lineLink } from "./links.ts";
import { whatText } from "./what-text.ts";

/** Files named in one sentence; more are not read. */
const MOST_FILES = 4;

/** The hover of a section's name: how much of it the craft says, and where; its note; what it is. */
export function hoverSection(
  workspace: Workspace,
  { script, section, spec, line }: CursorContext,
  page: PageName | null,
  links: LinkTargets,
): string | null {
  if (!spec || section === null) return null;
  const craft = craftFor(workspace, script.file);
  return paragraphs(
    craft ? saidText(craft, sourcesIn(craft, spec, section), script.file, links) : "",
    quoteNote(script.noteOf(line).text),
    whatText(describeSection(spec), page, links),
  );
}

/** How many lines of a section count on a craft, and in which files they stand. */
function saidText(craft: Craft, sources: readonly Source[], from: string, links: LinkTargets): string {
  const on = plainText(craft.name);
  if (sources.length === 0) return `Nothing of it counts on ${on}`;
  const files = [...new Set(sources.map(({ file }) => file))];
  const more = files.length - MOST_FILES;
  const named = files.slice(0, MOST_FILES).map((file) => (file === from ? "this file" : fileLink(file, from, links)));
  const where = joinWithAnd([...named, ...(more > 0 ? [formatCount(more, "more file")] : [])]);
  return `**${formatCount(sources.length, "entry", "entries")}** on ${on}, in ${where}`;
}

/** A line of each effective entry of a section. */
function sourcesIn(craft: Craft, { holds }: SectionSpec, section: string): Source[] {
  const settings = [...(craft.settings.get(section)?.values() ?? [])].map(({ source }) => source);
  const placed = (all: ReadonlyMap<string, { readonly source: Source }>) =>
    [...all.values()].map(({ source }) => source);
  switch (holds) {
    case "modes":
      return [...craft.modes.values()].flatMap(({ lines }) => lines.slice(0, 1).map(({ source }) => source));
    case "outputs":
      return [...craft.outputs.values()].flatMap(({ lines }) => lines.slice(0, 1).map(({ source }) => source));
    case "controls":
      return placed(craft.controls);
    case "follows":
      return placed(craft.adjust);
    case "kept":
      return craft.kept.filter(({ dialect }) => `verbatim/${dialect}` === section).map(({ source }) => source);
    case "places":
      return [...placed(section === "osd-second" ? craft.osdSecond : craft.osd), ...settings];
    default:
      return settings;
  }
}

/** The hover of a name in a `drop`: what it takes back, what counts instead, and what the name is. */
export function hoverDropped(
  workspace: Workspace,
  { script, section, spec }: CursorContext,
  name: string,
  page: PageName | null,
  links: LinkTargets,
): string | null {
  if (section === null || !spec) return null;
  const what = describeName(workspace.catalogue, baseOf(section), name);
  const kind = kindIn(workspace, spec.holds, name);
  const craft = craftFor(workspace, script.file);
  const lead = craft && kind ? droppedText(workspace.catalogue, { kind, section, name }, craft, script, links) : "";
  return what ? paragraphs(lead, whatText(what, page, links)) : lead || null;
}

function kindIn({ catalogue }: Workspace, holds: string, name: string): NamedEntry["kind"] | null {
  switch (holds) {
    case "modes":
      return "mode";
    case "outputs":
      return "output";
    case "controls":
      return "control";
    case "follows":
      return "follows";
    case "places":
      return catalogue.element(name) ? "element" : "setting";
    case "settings":
      return "setting";
    default:
      return null;
  }
}

function droppedText(
  catalogue: Catalogue,
  named: NamedEntry,
  craft: Craft,
  script: Script,
  links: LinkTargets,
): string {
  const on = plainText(craft.name);
  const effective = effectiveEntryIn(craft, named);
  const usual = usualOf(catalogue, named);
  const taken = lastBefore(craft, named, script);
  const back = taken
    ? `Takes back ${codeText(taken.text)}, ${lineLink(taken.source, script.file, links)}`
    : "Takes back nothing: no earlier file says it";
  const now = effective
    ? `${codeText(effective.text)} on ${on}, ${linesText(effective, script.file, links)}`
    : `${named.kind === "mode" || named.kind === "output" ? "Off" : "Nothing"} on ${on}${usualInWords(usual)}`;
  return `${now}  \n${back}`;
}

/** The last line that says a name in a file before that of the `drop`. */
function lastBefore(
  craft: Craft,
  { kind, section, name }: NamedEntry,
  script: Script,
): { text: string; source: Source } | null {
  const at = craft.scripts.indexOf(script);
  for (const { file, entries } of craft.scripts.slice(0, Math.max(0, at)).toReversed()) {
    const entry = entries.findLast((each) => each.kind === kind && each.section === section && each.name === name);
    if (entry) {
      const text = kind === "mode" || kind === "output" ? `when ${entry.text}` : entry.text;
      return { text, source: { file, line: entry.line } };
    }
  }
  return null;
}
