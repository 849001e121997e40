/** The controls that an offer's conditions name, and those of one's own that take their place. */
import type { MappedControl, PlacedControl, UsedControl } from "../../logic/handset-mapping.ts";
import { controlsUsed, renameEdits } from "../../logic/rename-controls.ts";
import type { Craft } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { MappingRow } from "../../protocol/map-controls.ts";
import { textWith } from "../context/trial.ts";
import { type ChosenControls, mappingRow, proposal, specsOf } from "../edits/mapping-rows.ts";
import { type Offer, scriptOfOffer } from "./offer.ts";

export interface TheirControls {
  readonly rows: readonly MappingRow[];
  readonly mapping: readonly MappedControl[];
  /** Controls that nothing stands for. */
  readonly left: readonly string[];
}

/**
 * What stands for each control that the offer names and the craft lacks, or has with other positions or on another
 * channel. `adopted`: controls that are to be taken over themselves, so nothing stands for them.
 */
export function theirControls(
  mine: Craft,
  offer: Offer,
  chosen: ChosenControls,
  adopted: ReadonlySet<string>,
): TheirControls {
  const ours = specsOf(mine);
  if (ours.length === 0) return { rows: [], mapping: [], left: [] };
  const used = controlsUsed(offer.script).map((each) => ({ ...each, spec: offer.controls.get(each.name) }));
  const isOpen = (each: UsedControl) =>
    !adopted.has(each.name) &&
    !serves(
      ours.find(({ name }) => name === each.name),
      each,
    );
  const open = used.filter(isOpen);
  const known = used.filter((each) => !isOpen(each)).map(({ name }) => name);
  const mapping = proposal(open, ours, known, chosen);
  const handset = mine.handset?.name ?? mine.name;
  return {
    rows: open.map((from) => mappingRow(from, mapping, ours, handset, chosen)),
    mapping,
    left: open.filter(({ name }) => !mapping.some(({ from }) => from === name)).map(({ name }) => name),
  };
}

/** Whether a control of one's own is the one that is meant: as it is told, or else by the positions that are named. */
function serves(own: PlacedControl | undefined, { positions, isPulsed, spec }: UsedControl): boolean {
  if (!own) return false;
  if (!spec)
    return (
      positions.every((name) => own.positions.some((each) => each.name === name)) &&
      (positions.length > 0 || !isPulsed || own.kind === "dial")
    );
  const ends = ({ fromUs, toUs }: PlacedControl) =>
    [Math.min(fromUs ?? 0, toUs ?? 0), Math.max(fromUs ?? 0, toUs ?? 0)].join();
  return (
    own.channel === spec.channel &&
    (own.kind === "dial") === (spec.kind === "dial") &&
    ends(own) === ends(spec) &&
    own.positions.length === spec.positions.length &&
    spec.positions.every(({ name, pulseUs }) =>
      own.positions.some((each) => each.name === name && each.pulseUs === pulseUs),
    )
  );
}

/**
 * The script of an offer for the controls of the craft; of what it says of a handset only what `keeps` wants
 * (SECTION.NAME), and of board text what the craft has not kept already, since all that is kept adds up.
 */
export function forOurControls(
  workspace: Workspace,
  mine: Craft,
  { script }: Offer,
  mapping: readonly MappedControl[],
  keeps: (what: string) => boolean,
): Script {
  const renamed = textWith(script, renameEdits(script, mapping)).split("\n");
  for (const { section, name, line } of script.entries) {
    const isOfHandset = section === "controls" || section === "transmitter";
    if (isOfHandset && !keeps(`${section}.${name}`)) renamed[line] = "";
  }
  for (const line of keptAlready(mine, script)) renamed[line] = "";
  for (const { section, line } of script.drops) if (section === "controls" && !keeps("controls")) renamed[line] = "";
  return scriptOfOffer(workspace, renamed.join("\n"));
}

/** The lines of board text that the craft has kept as often; none where it would lose them first. */
function keptAlready(mine: Craft, { kept, drops }: Script): readonly number[] {
  const counts = new Map<string, number>();
  const keyOf = (dialect: string, text: string) => `${dialect}\n${text}`;
  for (const { dialect, text } of mine.kept) {
    if (drops.some(({ section, all }) => all && section === `verbatim/${dialect}`)) continue;
    counts.set(keyOf(dialect, text), (counts.get(keyOf(dialect, text)) ?? 0) + 1);
  }
  return kept.flatMap(({ dialect, text, source }) => {
    const left = counts.get(keyOf(dialect, text)) ?? 0;
    counts.set(keyOf(dialect, text), left - 1);
    return left > 0 ? [source.line] : [];
  });
}
