/** Proposes a control for each of another handset, as the pilot has changed the proposal so far, and shows it as rows. */
import {
  canStandFor,
  type MappedControl,
  mapControls,
  mapTo,
  type PlacedControl,
  type UsedControl,
} from "../../logic/handset-mapping.ts";
import type { Craft } from "../../model/craft.ts";
import type { MappingRow } from "../../protocol/map-controls.ts";
import { specOf } from "../../rules/lib/other-handset.ts";
import { describeControl } from "../context/known-controls.ts";

/** By control: what the pilot chose for it; null leaves it as it is. */
export type ChosenControls = Readonly<Record<string, string | null>>;

/** The controls of a craft whose lines have no fault. */
export function specsOf(craft: Craft): PlacedControl[] {
  return [...craft.controls.values()].flatMap(({ name, value }) => (value ? [specOf(name, value)] : []));
}

/** What stands for each of `open` among `ours`. `known`: controls of ours that are spoken for. */
export function proposal(
  open: readonly UsedControl[],
  ours: readonly PlacedControl[],
  known: readonly string[],
  chosen: ChosenControls,
): readonly MappedControl[] {
  const fixed = open.flatMap((from) => {
    const to = ours.find(({ name }) => name === chosenFor(from.name, chosen));
    return to && canStandFor(from, to) ? [mapTo(from, to, "choice")] : [];
  });
  const rest = open.filter(({ name }) => chosenFor(name, chosen) === undefined);
  return [...fixed, ...mapControls(rest, ours, new Set([...known, ...fixed.map(({ to }) => to)]))];
}

function chosenFor(name: string, chosen: ChosenControls): string | null | undefined {
  return Object.hasOwn(chosen, name) ? chosen[name] : undefined;
}

/** The row of a control: what stands for it, why, and what else could. */
export function mappingRow(
  from: UsedControl,
  mapping: readonly MappedControl[],
  ours: readonly PlacedControl[],
  handset: string,
  chosen: ChosenControls,
): MappingRow {
  const mapped = mapping.find((each) => each.from === from.name);
  const to = ours.find(({ name }) => name === mapped?.to);
  return {
    from: from.name,
    to: to?.name ?? null,
    why: to
      ? whyInWords(mapped!, from, to)
      : chosenFor(from.name, chosen) === null
        ? "left as it is"
        : `no control of ${handset} can stand for it`,
    positions: mapped ? [...mapped.positions] : [],
    choices: ours
      .filter((each) => canStandFor(from, each))
      .map((each) => ({
        to: each.name,
        what: describeControl({ ...each, control: each.kind }),
        takenBy: mapping.find((other) => other.to === each.name && other.from !== from.name)?.from ?? null,
      })),
  };
}

function whyInWords({ by }: MappedControl, { spec }: UsedControl, to: PlacedControl): string {
  const notes = [
    ...(spec?.kind === "dial" && spec.fromUs! < spec.toUs! !== to.fromUs! < to.toUs! ? ["it turns the other way"] : []),
    ...(to.kind === "button" && spec?.kind !== "button" ? ["it springs back"] : []),
  ];
  const place = to.lies?.face ? `${to.lies.side} ${to.lies.face}` : (to.lies?.side ?? "");
  const reason = {
    channel: `the same channel, ch${to.channel}`,
    name: "the same name",
    place: `the same place, ${place}`,
    positions: "the same positions",
    kind: "of the same kind",
    left: to.kind === "dial" ? "a dial too" : "it has positions enough",
    choice: "chosen",
  }[by];
  return [reason, ...notes].join("; ");
}
