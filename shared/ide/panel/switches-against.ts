/** The switches of two craft: what each position turns on there and not here, and the state of both. */
import type { PairedBoards } from "../../logic/switchboard-types.ts";
import { type Craft, isOutput } from "../../model/craft.ts";
import { oncePer } from "../../model/memo.ts";
import type { ControlAgainst, ModeAgainst, PlaceChange, SwitchesAgainst } from "../../protocol/against.ts";
import type { PanelControl, SwitchesPicture } from "../../protocol/panel.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { Difference } from "../compare/compare.ts";
import { pairedConditions } from "../compare/conditions.ts";
import { wordsOf } from "../compare/words.ts";
import { controlNotes } from "./control-notes.ts";
import type { OtherCraft } from "./other-craft.ts";
import { controlsAndModesOf } from "./switches.ts";

/** A side of the switches. */
type Side = NonNullable<ReturnType<typeof controlsAndModesOf>>;

/** The other craft with the controls in the positions that are simulated here; null where it has no control. */
export function switchesAgainst(
  here: SwitchesPicture,
  craft: Craft,
  other: OtherCraft,
  differences: readonly Difference[],
): SwitchesAgainst | null {
  const there = controlsAndModesOf(other.craft, other.workspace, here.state.positions);
  if (!there) return null;
  const kept = keptOf(craft, other.craft);
  kept.comparison ??= comparisonOf(here, there, craft, other, differences);
  const { controls, modes, notes } = kept.comparison;
  return { state: there.state, loss: there.loss, controls, modes, notes: [...notes, ...standsElsewhere(here, there)] };
}

/** What is the same wherever the controls stand. */
type Comparison = Pick<SwitchesAgainst, "controls" | "modes" | "notes">;

/** Found once for each pair of craft: the panel asks again with every move of a control. */
const keptOf = oncePer((_here: Craft, _there: Craft): { comparison?: Comparison } => ({}));

function comparisonOf(
  here: SwitchesPicture,
  there: Side,
  craft: Craft,
  other: OtherCraft,
  differences: readonly Difference[],
): Comparison {
  const pair = pairedConditions(craft, other.craft);
  const wordsFor = (what: string) => wordsOf({ what }, craft, other.craft, other.workspace);
  const modes = modesAgainst(here, there, differences, pair, wordsFor);
  const differing = new Set(modes.flatMap(({ name, is }) => (is === "differs" ? [name] : [])));
  const differsWith = (name: string, control: string) =>
    differing.has(name) ? (pair?.differsWith(name, control) ?? null) : null;
  // Of a mode that is not known on one side nothing is said at a position.
  const unknown = new Set([...here.state.unknown, ...there.state.unknown]);
  const known = (side: Side): Side => ({
    ...side,
    controls: side.controls.map((control) => withoutModes(control, unknown)),
  });
  return {
    controls: controlsAgainst(known(here), known(there), differsWith),
    modes,
    notes: [...handsetNote(here, other.craft), ...unsureNote(modes, pair)],
  };
}

type DiffersWith = (name: string, control: string) => ReturnType<PairedBoards["differsWith"]>;

/** The modes that are not on in the same states: of here in the order of here, then those that are only there. */
function modesAgainst(
  here: Side,
  there: Side,
  differences: readonly Difference[],
  pair: PairedBoards | null,
  wordsFor: (what: string) => string,
): ModeAgainst[] {
  const differing = new Set(differences.map(({ what }) => what));
  const whatOf = (name: string) => (isOutput(name) ? name : `modes.${name}`);
  const theirs = new Map(there.modes.map((mode) => [mode.name, mode]));
  const ours = new Set(here.modes.map(({ name }) => name));
  const both = here.modes.flatMap(({ name }): ModeAgainst[] => {
    if (!differing.has(whatOf(name))) return [];
    const mode = theirs.get(name) ?? null;
    const is = !mode ? "only here" : pair?.same(name) === false ? "differs" : "unsure";
    return [{ name, is, there: mode, words: wordsFor(whatOf(name)) }];
  });
  const onlyThere = there.modes.filter(({ name }) => !ours.has(name));
  return [
    ...both,
    ...onlyThere.map((mode): ModeAgainst => {
      return { name: mode.name, is: "only there", there: mode, words: wordsFor(whatOf(mode.name)) };
    }),
  ];
}

function withoutModes(control: PanelControl, left: ReadonlySet<string>): PanelControl {
  const without = <T extends { readonly modes: readonly string[] }>(place: T): T => ({
    ...place,
    modes: place.modes.filter((mode) => !left.has(mode)),
  });
  if (left.size === 0) return control;
  return { ...control, positions: control.positions.map(without), spans: control.spans.map(without) };
}

function controlsAgainst(here: Side, there: Side, differsWith: DiffersWith): ControlAgainst[] {
  const theirs = new Map(there.controls.map((control) => [control.name, control]));
  const ours = new Set(here.controls.map(({ name }) => name));
  const found = here.controls.map((control): ControlAgainst => {
    const other = theirs.get(control.name);
    if (!other) return oneSided(control.name, "only here", null);
    return {
      name: control.name,
      has: "both",
      there: other,
      positions: positionsAgainst(control, other, differsWith),
      spans: spansAgainst(control, other, differsWith),
      notes: controlNotes({ control, state: here.state }, { control: other, state: there.state }),
    };
  });
  return [
    ...found.filter(
      ({ has, positions, spans, notes }) => has !== "both" || positions.length + spans.length + notes.length > 0,
    ),
    ...there.controls.filter(({ name }) => !ours.has(name)).map((each) => oneSided(each.name, "only there", each)),
  ];
}

function oneSided(name: string, has: ControlAgainst["has"], there: PanelControl | null): ControlAgainst {
  return { name, has, there, positions: [], spans: [], notes: [] };
}

/** Positions of both that do not turn on the same. */
function positionsAgainst(
  here: PanelControl,
  there: PanelControl,
  differsWith: DiffersWith,
): ControlAgainst["positions"] {
  return here.positions.flatMap(({ name, modes }) => {
    const other = there.positions.find((position) => position.name === name);
    if (!other) return [];
    const change = changeOf(
      modes,
      other.modes,
      (mode) => differsWith(mode, here.name)?.positions.includes(name) === true,
    );
    return change ? [{ name, ...change }] : [];
  });
}

/** What differs at a place; null where nothing does. */
function changeOf(
  here: readonly string[],
  there: readonly string[],
  isOtherwise: (mode: string) => boolean,
): PlaceChange | null {
  const change = {
    added: there.filter((mode) => !here.includes(mode)),
    gone: here.filter((mode) => !there.includes(mode)),
    otherwise: here.filter((mode) => there.includes(mode) && isOtherwise(mode)),
  };
  return Object.values(change).some((modes) => modes.length > 0) ? change : null;
}

type Range = { readonly fromUs: number; readonly toUs: number };

/** Parts of a dial's range that do not turn on the same, as far as both have them; neighbours that differ alike are one. */
function spansAgainst(here: PanelControl, there: PanelControl, differsWith: DiffersWith): ControlAgainst["spans"] {
  const [ours, theirs] = [here.spans.map(rising), there.spans.map(rising)];
  const shared = [...new Set(ours.flatMap(({ modes }) => modes))];
  const otherwise = new Map(shared.map((mode) => [mode, differsWith(mode, here.name)?.pulses ?? []]));
  const edges = [...ours, ...theirs, ...[...otherwise.values()].flat()].flatMap(({ fromUs, toUs }) => [
    fromUs,
    toUs + 1,
  ]);
  const cuts = [...new Set(edges)].sort((a, b) => a - b);
  const found: (PlaceChange & Range)[] = [];
  for (const [index, fromUs] of cuts.slice(0, -1).entries()) {
    const toUs = cuts[index + 1]! - 1;
    const [a, b] = [ours, theirs].map((spans) => spans.find((span) => isIn(fromUs, span)));
    const change =
      a && b && changeOf(a.modes, b.modes, (mode) => (otherwise.get(mode) ?? []).some((range) => isIn(fromUs, range)));
    if (!change) continue;
    const last = found.at(-1);
    if (last && last.toUs + 1 === fromUs && sameChange(last, change)) found[found.length - 1] = { ...last, toUs };
    else found.push({ fromUs, toUs, ...change });
  }
  const isFalling = here.spans.some((span) => span.fromUs > span.toUs);
  return isFalling ? found.reverse().map((span) => ({ ...span, fromUs: span.toUs, toUs: span.fromUs })) : found;
}

function rising<T extends Range>(span: T): T {
  return { ...span, fromUs: Math.min(span.fromUs, span.toUs), toUs: Math.max(span.fromUs, span.toUs) };
}

function isIn(pulseUs: number, { fromUs, toUs }: Range): boolean {
  return pulseUs >= fromUs && pulseUs <= toUs;
}

function sameChange(a: PlaceChange, b: PlaceChange): boolean {
  const key = ({ added, gone, otherwise }: PlaceChange) =>
    [added, gone, otherwise].map((names) => names.join()).join(";");
  return key(a) === key(b);
}

function handsetNote({ handset }: SwitchesPicture, other: Craft): string[] {
  const there = other.handset?.name ?? null;
  if (there === handset) return [];
  const is =
    there === null || handset === null
      ? "One side names no handset"
      : `The handset is ${there} there and ${handset} here`;
  return [`${is}: controls are paired by their names.`];
}

function unsureNote(modes: readonly ModeAgainst[], pair: PairedBoards | null): string[] {
  const names = modes.flatMap(({ name, is }) => (is === "unsure" ? [name.slice(name.lastIndexOf(".") + 1)] : []));
  if (names.length === 0) return [];
  const [are, they] = names.length === 1 ? ["is", "it is"] : ["are", "they are"];
  const why =
    pair === null
      ? "the controls do not do the same here and there"
      : "a condition is too tangled to follow, or its line has a fault";
  return [
    `Whether ${joinWithAnd(names)} ${are} on in the same states cannot be said, since ${why}: ${they} compared as written.`,
  ];
}

/** Controls that cannot stand there as they do here. */
function standsElsewhere(here: Side, there: Side): string[] {
  return there.controls.flatMap(({ name }) => {
    const [at, other] = [here.state.positions[name], there.state.positions[name]];
    if (at === undefined || at === other) return [];
    const words = (place: string | number) => (typeof place === "number" ? `${place} us` : place);
    const stands = other === undefined ? "it may stand anywhere" : `it stands at ${words(other)}`;
    return [`${name} is at ${words(at)} here, which it does not have there: there ${stands}.`];
  });
}
