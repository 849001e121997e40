/** The switch map as a person reads it. */

import type { ReportedMissing } from "../../../shared/ide/reports/missing-report.ts";
import type { ReportedControl, ReportedSpan, SwitchReport } from "../../../shared/ide/reports/switch-map.ts";
import type { DistinctState, LossState, Positions } from "../../../shared/logic/switchboard-types.ts";
import type { SignalLoss } from "../../../shared/protocol/signal.ts";
import { oneLine } from "./io.ts";
import { lossCoursesText } from "./loss-text.ts";
import { missingText } from "./missing-text.ts";

/** What `fettle switches` tells a person. */
export interface SwitchesTold {
  readonly craft: string;
  readonly handset: string | null;
  readonly report: SwitchReport & { readonly missing?: readonly ReportedMissing[] };
  /** Some of the distinct states, or all. */
  readonly states: readonly DistinctState[];
  readonly loss: LossState;
  readonly signalLoss: SignalLoss;
  /** Modes and outputs whose conditions are not known. */
  readonly unknown: readonly string[];
}

/** The whole map: control by control, at rest, on signal loss, the distinct states, the clashes. */
export function switchesText({ craft, handset, report, states, loss, signalLoss, unknown }: SwitchesTold): string {
  const tangled = report.tangled ?? [];
  const faulty = unknown.filter((name) => !tangled.includes(name));
  const parts = [
    `craft    ${oneLine(craft)}\nhandset  ${oneLine(handset ?? "none")}\n${missingText(report.missing)}`,
    ...(faulty.length > 0
      ? [`Not in this map, since a line behind it has a fault (fettle check tells which): ${listed(faulty)}\n`]
      : []),
    ...(tangled.length > 0
      ? [`Not known, and not in this map: too tangled to follow (fettle check tells why): ${listed(tangled)}\n`]
      : []),
    ...report.controls.map(controlText),
    ...report.channels.map(({ channel, spans }) => `ch${channel}  no control drives it\n${table(spanRows(spans))}`),
    `At rest: ${onOrPerhaps(report.rest.modes, report.rest.possible)}\n`,
    `When the signal is lost: ${lossText(loss)}\n${lossCoursesText(signalLoss)}`,
    statesText(report.states, states),
    ...report.clashes.map(({ modes, positions }) => `Clash: ${modes.join(" and ")}, with ${worded(positions)}\n`),
  ];
  return parts.join("\n");
}

function controlText({ name, kind, channel, positions, spans, adjusts = [] }: ReportedControl): string {
  const rows = positions.map((each) => [each.name, `${each.pulse} us`, listed(each.modes)]);
  const turnsOn = spans.some(({ modes }) => modes.length > 0);
  // A dial that only moves settings has no ranges worth telling.
  const ranges = turnsOn || adjusts.length === 0 ? spanRows(spans) : [];
  const moves = adjusts.map(
    ({ setting, from, to }) =>
      `  moves ${setting}  from ${from.text} at ${from.pulse} us to ${to.text} at ${to.pulse} us\n`,
  );
  return `${name}  ${kind}, channel ${channel}\n${table(rows.length > 0 ? rows : ranges)}${moves.join("")}`;
}

function spanRows(spans: readonly ReportedSpan[]): string[][] {
  return spans.map(({ from, to, modes }) => [from === to ? `${from} us` : `${from} us to ${to} us`, listed(modes)]);
}

function lossText(loss: LossState): string {
  switch (loss.onLoss) {
    case "silent":
      return "the receiver falls silent, and the failsafe of the craft takes over";
    case "hold":
      return "the receiver repeats what came last, and everything stays as it was";
    case "preset":
      return `the receiver sends its presets: ${onOrPerhaps(loss.on, loss.possible)}`;
    case null:
      return "the script does not say what the receiver does (link, on-loss)";
  }
}

function statesText(count: number | null, states: readonly DistinctState[]): string {
  const told = count === null || states.length < count ? `, of which ${states.length} are shown` : "";
  const rows = states.map(({ on, witness }) => [listed(on), worded(witness.needed)]);
  return `Distinct states: ${count ?? "too many to count"}${told}\n${table(rows)}`;
}

function listed(modes: readonly string[]): string {
  return modes.length > 0 ? modes.join(", ") : "nothing";
}

/** What is certainly on, and what may be; “nothing” only where nothing may be on. */
function onOrPerhaps(on: readonly string[], possible: readonly string[]): string {
  if (possible.length === 0) return listed(on);
  return [...(on.length > 0 ? [listed(on)] : []), `perhaps ${possible.join(", ")}`].join("; ");
}

function worded(positions: Positions): string {
  const parts = Object.entries(positions).map(([name, at]) => `${name} ${typeof at === "number" ? `${at} us` : at}`);
  return parts.length > 0 ? parts.join(", ") : "anywhere";
}

function table(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, i) => Math.max(...rows.map((row) => row[i]!.length)));
  const line = (row: readonly string[]) => row.map((cell, i) => cell.padEnd(widths[i]!)).join("  ");
  return rows.map((row) => `  ${line(row).trimEnd()}\n`).join("");
}
