/** The hover of an entry's name: its value on the craft, its note, what follows, and what it is. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { capital } from "../../draw/words.ts";
import { boardOf } from "../../logic/from-craft.ts";
import { baseOf, type Craft } from "../../model/craft.ts";
import { traitsOfCraft } from "../../model/craft-traits.ts";
import { adjustable } from "../../model/read-entry.ts";
import type { Entry, Script } from "../../model/script.ts";
import type { CraftTraits } from "../../model/usual-band.ts";
import type { Workspace } from "../../model/workspace.ts";
import { firstCraftsFor } from "../context/cursor-context.ts";
import { type Description, describeName, describeSetting } from "../context/describe.ts";
import { effectiveEntryIn, lineCounts, type NamedEntry, notesOf } from "../context/effective-entry.ts";
import { formatCount } from "../context/format.ts";
import { paragraphs, quoteNote } from "../context/markdown.ts";
import { atRest, statesInWords } from "../context/mode-states.ts";
import type { PageName } from "../reference/page-names.ts";
import { conditionFollowersText } from "./adjust-hover.ts";
import { chainText } from "./chain-text.ts";
import { hoverControl } from "./control-hover.ts";
import { conversionsOf } from "./conversions.ts";
import { describeConsequences } from "./entry-consequences.ts";
import { leadText, subjectOf } from "./lead.ts";
import type { LinkTargets } from "./links.ts";
import { whatText } from "./what-text.ts";

/** The hover of an entry's name; null where nothing is called so. `page` is that of the name. */
export function hoverEntry(
  workspace: Workspace,
  script: Script,
  entry: Entry,
  page: PageName | null,
  links: LinkTargets,
): string | null {
  if (entry.kind === "control") return hoverControl(workspace, script.file, entry.name, page, links);
  const { crafts, more } = firstCraftsFor(workspace, script.file);
  // What a layer says is for craft of several sizes.
  const traits = crafts.length === 1 ? traitsOfCraft(crafts[0]!)(entry.section) : {};
  const what = descriptionOf(workspace.catalogue, entry, traits);
  return (
    what && paragraphs(valueParts(workspace, script, entry, crafts, links), moreText(more), whatText(what, page, links))
  );
}

function moreText(more: number): string {
  return more === 0 ? "" : `${formatCount(more, "more craft", "more craft")} ${more === 1 ? "uses" : "use"} this file.`;
}

/** The effective value with its lines, its note, what follows from it, and its amounts in other units. */
function valueParts(
  workspace: Workspace,
  script: Script,
  entry: Entry,
  crafts: readonly Craft[],
  links: LinkTargets,
): string {
  const { file } = script;
  const [craft, ...others] = crafts;
  const chain = craft && others.length === 0 ? chainText(workspace, craft, entry, file, links) : "";
  return paragraphs(
    [leadText(subjectOf(workspace.catalogue, entry), script, crafts, links), chain].filter(Boolean).join("  \n"),
    quoteNote(noteText(workspace, file, entry, crafts)),
    crafts[0] ? statesText(workspace, crafts[0], entry) : "",
    crafts[0] ? conditionFollowersText(workspace, crafts[0], entry) : "",
    describeConsequences(workspace, file, entry, crafts),
    conversionsText(entry),
  );
}

/** The note of the lines that count on the craft that the value is first shown for; else that of the line itself. */
function noteText(workspace: Workspace, file: string, entry: Entry, crafts: readonly Craft[]): string {
  const craft = crafts.find((each) => lineCounts(each, file, entry)) ?? crafts[0];
  const sources = (craft && effectiveEntryIn(craft, entry)?.sources) ?? [];
  const notes = notesOf(
    workspace,
    sources.map(({ source }) => source),
  );
  return notes || notesOf(workspace, [{ file, line: entry.line }]);
}

function descriptionOf(catalogue: Catalogue, { kind, section, name }: Entry, traits: CraftTraits): Description | null {
  if (kind === "output")
    return { title: name, what: "An output of the board, named by the pilot.", hazard: "", rest: "" };
  if (kind !== "follows") return describeName(catalogue, baseOf(section), name, traits);
  const setting = adjustable(name, catalogue);
  const owner = setting && catalogue.sections.find((each) => each.settings.includes(setting));
  return setting && owner ? describeSetting(catalogue, setting, owner.name) : null;
}

/** Amounts in other units; where a value has several, they are in the way. */
const MOST_CONVERTED = 2;

function conversionsText({ value }: Entry): string {
  const converted = value ? conversionsOf(value) : [];
  return converted.length > MOST_CONVERTED ? "" : converted.join("; ");
}

/** In how many states of its craft a mode or an output is on; empty for all else, and for what the craft does not set up. */
export function statesText(workspace: Workspace, craft: Craft, { kind, name }: NamedEntry): string {
  if (kind !== "mode" && kind !== "output") return "";
  if (!(kind === "mode" ? craft.modes : craft.outputs).has(name)) return "";
  const board = boardOf(craft, workspace);
  const words = statesInWords(board, kind === "output" ? `outputs.${name}` : name, atRest(board));
  return words.startsWith("not known") ? `When it is on is ${words}.` : `${capital(words)}.`;
}
