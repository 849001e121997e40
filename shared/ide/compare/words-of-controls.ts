/** Handsets and their controls in words. */
import type { Control } from "../../model/craft.ts";
import { quote } from "../../syntax/scanner.ts";
import type { ControlPlace, ControlValue } from "../../syntax/value.ts";
import { joinWithAnd } from "../../text/list.ts";
import { placeInWords } from "../../text/places.ts";
import { faultWords, writtenWithFault } from "./words-of-faults.ts";

/** The handset itself, by its name. */
export function handsetWords(a: string | null, b: string | null): string {
  if (a === null || b === null)
    return b === null ? `there is no handset: it was ${quote(a ?? "")}` : `the handset is new: ${quote(b)}`;
  return `the handset is ${quote(b)} in place of ${quote(a)}`;
}

/** A control that differs, or that one of them lacks. */
export function controlWords(name: string, a: Control | undefined, b: Control | undefined): string {
  if (!a || !b) {
    if (b) return `${name} is new: ${article(b)}`;
    return `${name} is gone: it was ${a ? article(a) : ""}`;
  }
  if (!a.value || !b.value) return `${name} ${faultWords(a.text, b.text)}`;
  return `${name} ${joinWithAnd(partsThatDiffer(a.value, b.value))}`;
}

function article({ value, text }: Control): string {
  if (!value) return writtenWithFault(text);
  const { control, channel, positions, fromUs, toUs } = value;
  const reach = control === "dial" ? `${fromUs} us to ${toUs} us` : positions.map(({ name }) => name).join(", ");
  return `a ${control} on ch${channel}, ${reach}`;
}

function partsThatDiffer(a: ControlValue, b: ControlValue): string[] {
  const parts: string[] = [];
  if (a.channel !== b.channel) parts.push(`is on ch${b.channel}, was on ch${a.channel}`);
  if (a.control !== b.control) parts.push(`is a ${b.control}, was a ${a.control}`);
  if (a.control === "dial" && b.control === "dial") {
    if (a.fromUs !== b.fromUs || a.toUs !== b.toUs)
      parts.push(`runs from ${b.fromUs} us to ${b.toUs} us, and ran from ${a.fromUs} us to ${a.toUs} us`);
  } else if (a.control !== "dial" && b.control !== "dial") parts.push(...positionsThatDiffer(a, b));
  if (placeText(a.lies) !== placeText(b.lies)) parts.push(liesText(a.lies, b.lies));
  return parts.length > 0 ? parts : ["is written otherwise"];
}

function positionsThatDiffer(a: ControlValue, b: ControlValue): string[] {
  const before = new Map(a.positions.map(({ name, pulseUs }) => [name, pulseUs]));
  const now = new Map(b.positions.map(({ name, pulseUs }) => [name, pulseUs]));
  const come = b.positions.filter(({ name }) => !before.has(name));
  const gone = a.positions.filter(({ name }) => !now.has(name));
  const parts: string[] = [];
  const pulses = (positions: ControlValue["positions"]) => positions.map(({ pulseUs }) => pulseUs).join();
  const names = (positions: ControlValue["positions"]) => joinWithAnd(positions.map(({ name }) => name));
  if (come.length > 0 && pulses(come) === pulses(gone)) parts.push(`calls ${names(gone)} now ${names(come)}`);
  else {
    if (come.length > 0)
      parts.push(`has also ${joinWithAnd(come.map(({ name, pulseUs }) => `${name} at ${pulseUs} us`))}`);
    if (gone.length > 0) parts.push(`has no ${gone.map(({ name }) => name).join(" or ")} any more`);
  }
  for (const { name, pulseUs } of b.positions) {
    const was = before.get(name);
    if (was !== undefined && was !== pulseUs) parts.push(`sends ${pulseUs} us at ${name}, was ${was} us`);
  }
  // A rest that only got another name is told with that name.
  const rested = now.has(a.rest ?? "") || pulses(come) !== pulses(gone) ? a.rest : null;
  if (rested !== null && rested !== b.rest) parts.push(`rests ${b.rest}, was ${a.rest}`);
  return parts;
}

function liesText(a: ControlPlace | null, b: ControlPlace | null): string {
  if (b === null) return `does not say where it lies, was ${placeText(a)}`;
  return `lies ${placeText(b)}, ${a === null ? "which was not said" : `was ${placeText(a)}`}`;
}

function placeText(place: ControlPlace | null): string {
  return place === null ? "" : placeInWords(place);
}
