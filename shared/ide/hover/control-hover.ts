/** Hovers of controls and of their positions: the pulses, and the modes that each position turns on. */

import { linkOf, switchboardOf } from "../../logic/from-craft.ts";
import type { ControlMap } from "../../logic/switchboard-types.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { lostPositions } from "../../rules/lib/indistinct-controls.ts";
import type { ControlValue } from "../../syntax/value.ts";
import { placeInWords } from "../../text/places.ts";
import { plainText } from "../../text/plain-text.ts";
import { craftFor, entryAt } from "../context/cursor-context.ts";
import { list, paragraphs, quoteNote } from "../context/markdown.ts";
import type { PageName } from "../reference/page-names.ts";
import { followersText } from "./adjust-hover.ts";
import { codeText } from "./lead.ts";
import { type LinkTargets, lineLink, pageLink } from "./links.ts";

/** The hover of a control: where it lies, its note, and what it can turn on; null where neither the craft nor the file has it. */
export function hoverControl(
  workspace: Workspace,
  file: string,
  name: string,
  page: PageName | null,
  links: LinkTargets,
): string | null {
  const craft = craftFor(workspace, file);
  const mapped = craft && controlOf(workspace, craft, name);
  if (!craft || !mapped) return ownControl(workspace, file, name, page, links);
  const { control, positions, spans } = mapped;
  const { source, text } = craft.controls.get(name)!;
  const none = nothingText(workspace, craft);
  const places = [
    ...positions.map(
      (each) =>
        `${each.name} (${each.pulseUs} us)${each.name === control.rest ? ", at rest" : ""}: ${modesText(each.modes, none)}`,
    ),
    ...spans.map((span) => `${span.fromUs} us to ${span.toUs} us: ${modesText(span.modes, none)}`),
  ];
  const followers = followersText(workspace, craft, name, file, links);
  const turnsOn = [...positions, ...spans].some(({ modes }) => modes.length > 0);
  // A dial that only moves a setting has no places worth listing.
  const isListed = turnsOn || control.kind !== "dial" || followers === "";
  const note = workspace.script(source.file)?.noteOf(source.line).text ?? "";
  return paragraphs(
    `${codeText(text)} on ${plainText(craft.name)}, ${lineLink(source, file, links)}`,
    quoteNote(note),
    ...(isListed ? ["What can be on at each place:", list(places)] : []),
    followers,
    tangledText(workspace, craft),
    kindText(name, control, craft.controls.get(name)!.value, page, links),
  );
}

/** The hover of a position: its pulse, and the modes that it turns on. */
export function hoverPosition(
  workspace: Workspace,
  file: string,
  { control, position }: { readonly control: string; readonly position: string },
  page: PageName | null,
  links: LinkTargets,
): string | null {
  const craft = craftFor(workspace, file);
  const mapped = craft && controlOf(workspace, craft, control);
  const found = mapped?.positions.find((each) => each.name === position);
  if (!craft || !mapped || !found) return ownControl(workspace, file, control, page, links, position);
  const { channel, rest } = mapped.control;
  const { value, source } = craft.controls.get(control)!;
  const lost =
    value && linkOf(craft).twoLevelChannels.includes(channel) && lostPositions(value).includes(position)
      ? `ch${channel} carries two levels only: this position arrives as one of its ends.`
      : "";
  return paragraphs(
    `${codeText(`${control} ${position}`)}, ${found.pulseUs} us on ch${channel}${rest === position ? ", where the control rests" : ""}, ${lineLink(source, file, links)}`,
    `Can be on here: ${modesText(found.modes, nothingText(workspace, craft))}.`,
    tangledText(workspace, craft),
    lost,
    kindText(control, mapped.control, value, page, links),
  );
}

/** What the control is, and the link to the page on controls. */
function kindText(
  name: string,
  { kind, channel }: { readonly kind: string; readonly channel: number },
  value: ControlValue | null,
  page: PageName | null,
  links: LinkTargets,
): string {
  const lies = value?.lies ? `, ${placeInWords(value.lies)}` : "";
  return paragraphs(
    `**${name}** — a ${kind} of the handset on channel ${channel}${lies}.`,
    (page && pageLink(page, links)) ?? "",
  );
}

function controlOf(workspace: Workspace, craft: Craft, name: string): ControlMap | null {
  const board = switchboardOf(craft, workspace.catalogue.modeRelations.precedence);
  return board.map().controls.find((each) => each.control.name === name) ?? null;
}

/** The modes that may be on anywhere, as nothing is known of them. */
function tangledText(workspace: Workspace, craft: Craft): string {
  const tangled = [...switchboardOf(craft, workspace.catalogue.modeRelations.precedence).tangles.keys()];
  return tangled.length === 0 ? "" : `Not known, their conditions being too tangled to follow: ${tangled.join(", ")}.`;
}

/** The control, or one of its positions, as its own file describes it, for a handset that no craft uses. */
function ownControl(
  workspace: Workspace,
  file: string,
  name: string,
  page: PageName | null,
  links: LinkTargets,
  position?: string,
): string | null {
  const script = workspace.script(file);
  const entry = script?.entries.findLast((each) => each.kind === "control" && each.name === name);
  const value = entry && script ? entryAt(script, entry.line)?.value : null;
  if (!script || !entry || value?.kind !== "control") return null;
  const at = value.positions.find((each) => each.name === position);
  const lead = at ? `${codeText(`${name} ${at.name}`)}, ${at.pulseUs} us on ch${value.channel}` : codeText(entry.text);
  return paragraphs(
    `${lead}, ${lineLink({ file, line: entry.line }, file, links)}`,
    quoteNote(script.noteOf(entry.line).text),
    kindText(name, { kind: value.control, channel: value.channel }, value, page, links),
  );
}

function modesText(modes: readonly string[], none: string): string {
  return modes.length === 0 ? none : modes.join(", ");
}

/** What stands for no mode: where a line could not be read, more may be on than is known. */
function nothingText(workspace: Workspace, craft: Craft): string {
  const board = switchboardOf(craft, workspace.catalogue.modeRelations.precedence);
  const isAllKnown = board.names.every((name) => board.selected(name) !== null);
  return isAllKnown ? "nothing" : "nothing that is known";
}
