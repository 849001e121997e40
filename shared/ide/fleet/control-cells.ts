/** What each control does on a craft, as cells: one for a control, and one for each channel that no control drives. */
import { boardOf } from "../../logic/from-craft.ts";
import type { ControlMap, PulseSpan } from "../../logic/switchboard-types.ts";
import { type Craft, modeNamed, type Source } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type Adjustment, adjustedText, adjustmentsOf } from "../../numbers/adjustments.ts";
import { placeInWords } from "../../text/places.ts";
import { type Draft, type DraftColumn, NOT_KNOWN, NOTHING } from "./cells.ts";

/** The column of conditions of which nothing is known. */
const UNKNOWN: DraftColumn = {
  key: "?",
  name: NOT_KNOWN,
  what: "conditions that have a fault, or are too tangled to follow",
};

/** What the controls of a craft do: what stands in its row, and the columns that it needs. */
export interface CraftControls {
  readonly cells: ReadonlyMap<string, Draft>;
  readonly columns: readonly DraftColumn[];
}

/** `whole` is the craft with what a missing file may have said otherwise: its names are those that somebody set up. */
export function controlsOf(craft: Craft, whole: Craft, workspace: Workspace): CraftControls {
  const board = boardOf(craft, workspace);
  const map = board.map();
  const { moving } = adjustmentsOf(craft, workspace.catalogue);
  const cells = new Map<string, Draft>();
  const columns: DraftColumn[] = [];
  for (const each of map.controls) {
    const { name, kind } = each.control;
    columns.push({ key: name, name, what: liesOf(craft, name) ?? kind });
    const moved = moving.filter(({ dial }) => dial === name);
    cells.set(name, controlCell(each, moved, craft));
  }
  for (const { channel, spans } of map.channels) {
    const name = `ch${channel}`;
    columns.push({ key: name, name, what: "no control drives it" });
    const [first] = spans.flatMap(({ modes }) => modes);
    cells.set(name, draft(spanParts(spans), sourceOf(craft, first)));
  }
  const unknown = board.names.filter((name) => board.selected(name) === null && modeNamed(whole, name));
  if (unknown.length > 0) {
    columns.push(UNKNOWN);
    cells.set(UNKNOWN.key, { text: unknown.join(", "), meaning: null, at: sourceOf(craft, unknown[0]) });
  }
  return { cells, columns };
}

/** The columns of some craft with one handset: its controls in its order, then what only some craft have, then bare channels. */
export function joinedColumns(of: readonly CraftControls[]): DraftColumn[] {
  const columns = new Map<string, DraftColumn>();
  for (const each of of.flatMap((craft) => craft.columns)) if (!columns.has(each.key)) columns.set(each.key, each);
  const last = (key: string) => (key === UNKNOWN.key ? Number.POSITIVE_INFINITY : (channelOf(key) ?? 0));
  return [...columns.values()].sort((a, b) => last(a.key) - last(b.key) || 0);
}

/** The number of a bare channel; null for a control. */
function channelOf(key: string): number | null {
  return /^ch\d+$/.test(key) ? Number(key.slice(2)) : null;
}

/** Where the hand finds a control, as the handset says it: “on the left shoulder”. */
function liesOf(craft: Craft, name: string): string | null {
  const lies = craft.controls.get(name)?.value?.lies;
  return lies ? placeInWords(lies) : null;
}

function controlCell({ positions, spans }: ControlMap, moved: readonly Adjustment[], craft: Craft): Draft {
  const modes = [...positions, ...spans].flatMap((each) => each.modes);
  if (modes.length === 0 && moved.length === 0) return NOTHING;
  const moves = moved.map((each) => {
    const [from, to] = [each.from, each.to].map(({ number }) => adjustedText(each, number));
    return `moves ${each.section}.${each.name} from ${from} to ${to}`;
  });
  const at = modes.length > 0 ? sourceOf(craft, modes[0]) : moved[0]!.source;
  const said = modes.length === 0 ? [] : positions.length > 0 ? positions.map(positionPart) : spanParts(spans);
  return draft([...said, ...moves], at);
}

function positionPart({ name, modes }: ControlMap["positions"][number]): string {
  return `${name} ${modes.length > 0 ? modes.join(" + ") : "–"}`;
}

function spanParts(spans: readonly PulseSpan[]): string[] {
  return spans.flatMap(({ fromUs, toUs, modes }) => {
    if (modes.length === 0) return [];
    return `${fromUs === toUs ? fromUs : `${fromUs} to ${toUs}`} us ${modes.join(" + ")}`;
  });
}

/** In which order positions stand, and the modes at one of them, is no difference. */
function draft(parts: readonly string[], at: Source | null): Draft {
  const meaning = parts.map((part) => part.split(" ").sort().join(" ")).sort();
  return { text: parts.join(", "), meaning: meaning.join(", "), at };
}

function sourceOf(craft: Craft, name: string | undefined): Source | null {
  return (name === undefined ? undefined : modeNamed(craft, name)?.lines[0]?.source) ?? null;
}
