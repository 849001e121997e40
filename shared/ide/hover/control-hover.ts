/** Hovers of controls and of their positions: the pulses, and the modes that each position turns on. */

import { linkOf, switchboardOf } from "../../logic/from-craft.ts";
import type { ControlMap } from "../../logic/switchboard-types.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { lostPositions } from "../../rules/lib/indistinct-controls.ts";
import type { ControlValue } from "../../syntax/value.ts";
import { placeInWords } from "../../text/places.ts";
import { craftFor, entryAt, lineReference } from "../context/cursor-context.ts";
import { list, paragraphs, plainText, quoteNote } from "../context/markdown.ts";
import { followersText } from "./adjust-hover.ts";

/** The hover of a control; null where neither the craft nor the file has it. */
export function hoverControl(workspace: Workspace, file: string, name: string): string | null {
  const craft = craftFor(workspace, file);
  const mapped = craft && controlOf(workspace, craft, name);
  if (!craft || !mapped) return ownControl(workspace, file, name);
  const { control, positions, spans } = mapped;
  const source = craft.controls.get(name)!.source;
  const none = nothingText(workspace, craft);
  const places = [
    ...positions.map(
      (each) =>
        `${each.name} (${each.pulseUs} us)${each.name === control.rest ? ", at rest" : ""}: ${modesText(each.modes, none)}`,
    ),
    ...spans.map((span) => `${span.fromUs} us to ${span.toUs} us: ${modesText(span.modes, none)}`),
  ];
  const followers = followersText(workspace, craft, name, file);
  const turnsOn = [...positions, ...spans].some(({ modes }) => modes.length > 0);
  // A dial that only moves a setting has no places worth listing.
  const isListed = turnsOn || control.kind !== "dial" || followers === "";
  const note = workspace.script(source.file)?.noteOf(source.line).text ?? "";
  return paragraphs(
    `**${name}** — ${control.kind} on ch${control.channel}${liesText(craft.controls.get(name)!.value)} (${lineReference(source, file)})`,
    ...(isListed ? [`What can be on at each place, on ${plainText(craft.name)}:`, list(places)] : []),
    followers,
    tangledText(workspace, craft),
    quoteNote(note),
  );
}

/** The hover of a position: its pulse, and the modes that it turns on. */
export function hoverPosition(workspace: Workspace, file: string, control: string, position: string): string | null {
  const craft = craftFor(workspace, file);
  const mapped = craft && controlOf(workspace, craft, control);
  const found = mapped?.positions.find((each) => each.name === position);
  if (!found) return ownControl(workspace, file, control);
  const { channel, rest } = mapped!.control;
  const value = craft?.controls.get(control)?.value;
  const lost =
    value && linkOf(craft).twoLevelChannels.includes(channel) && lostPositions(value).includes(position)
      ? `ch${channel} carries two levels only: this position arrives as one of its ends.`
      : "";
  return paragraphs(
    `**${control} ${position}** — ${found.pulseUs} us on ch${channel}${rest === position ? ", where the control rests" : ""}`,
    `Can be on here: ${modesText(found.modes, craft ? nothingText(workspace, craft) : "nothing")}.`,
    craft ? tangledText(workspace, craft) : "",
    lost,
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

/** The control as its own file describes it, for a handset that no craft uses. */
function ownControl(workspace: Workspace, file: string, name: string): string | null {
  const script = workspace.script(file);
  const entry = script?.entries.findLast((each) => each.kind === "control" && each.name === name);
  const value = entry && script ? entryAt(script, entry.line)?.value : null;
  if (value?.kind !== "control") return null;
  const places =
    value.control === "dial"
      ? [`${value.fromUs} us to ${value.toUs} us`]
      : value.positions.map((each) => `${each.name}: ${each.pulseUs} us${each.name === value.rest ? ", at rest" : ""}`);
  return paragraphs(`**${name}** — ${value.control} on ch${value.channel}${liesText(value)}`, list(places));
}

function liesText(value: ControlValue | null): string {
  return value?.lies ? `, ${placeInWords(value.lies)}` : "";
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
