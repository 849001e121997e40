/** Settings of two craft in words. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { baseOf, type FollowingSetting, type Setting } from "../../model/craft.ts";
import { units } from "../../model/units.ts";
import { printValue } from "../../syntax/print-value.ts";
import { quote } from "../../syntax/scanner.ts";
import type { Quantity, Value, ValueOf } from "../../syntax/value.ts";
import { formatCount } from "../context/format.ts";
import { inOrder, meaningOf } from "./meaning.ts";
import { faultWords, writtenWithFault } from "./words-of-faults.ts";

/** A setting that differs, or that one of them lacks. */
export function settingWords(
  section: string,
  name: string,
  a: Setting | undefined,
  b: Setting | undefined,
  catalogue: Catalogue,
): string {
  const subject = subjectOf(section, name, catalogue);
  const usual = defaultOf(section, name, catalogue);
  if (!a || !b) return oneSided(subject, a && textOf(a), b && textOf(b), usual);
  if (a.items && b.items) return itemsWords(subject, a, b);
  return `${subject} ${valueWords(a, b)}`;
}

/** The canonical text, or that of a line with a fault. */
function textOf({ value, text, items }: Setting): string {
  const isWhole = items ? items.every((item) => item.value) : value;
  return isWhole ? text : writtenWithFault(text);
}

/** The name alone where it says enough: several sections may have it, and a craft several packs. */
function subjectOf(section: string, name: string, catalogue: Catalogue): string {
  if (section.startsWith("pack/")) return `${name} of pack ${quote(section.slice("pack/".length))}`;
  const having = catalogue.sections.filter((each) => each.like === undefined && catalogue.setting(each.name, name));
  const isOne = having.length === 1 && having[0]!.name === section;
  return isOne ? name : `${name} of ${section}`;
}

/** A second set and a named pack have no defaults: what they do not say the first set does. */
function defaultOf(section: string, name: string, catalogue: Catalogue): string | undefined {
  if (baseOf(section) !== section || catalogue.section(section)?.like !== undefined) return undefined;
  return catalogue.setting(section, name)?.default;
}

function oneSided(subject: string, a: string | undefined, b: string | undefined, usual: string | undefined): string {
  if (b !== undefined) return `${subject} is new: ${b}${b === usual ? ", which is the default as well" : ""}`;
  const now = usual === undefined ? "" : usual === a ? ", as the default is" : `; the default is ${usual}`;
  return `${subject} is gone: it was ${a}${now}`;
}

/** What follows the name: “goes up from 4 to 6”, “changes from stop to return”. */
function valueWords(
  a: { readonly value: Value | null; readonly text: string },
  b: { readonly value: Value | null; readonly text: string },
): string {
  if (!a.value || !b.value) return faultWords(a.text, b.text);
  const [from, to] = [a.value, b.value];
  if (from.kind === "fields" && to.kind === "fields") return fieldsWords(from, to);
  if (from.kind === "list" && to.kind === "list") return listWords(from, to) ?? `is ${b.text} in place of ${a.text}`;
  const way = wayBetween(from, to);
  if (way) return `goes ${way} from ${a.text} to ${b.text}`;
  // Between two values of several words “from … to …” would be read wrongly.
  const isOneWord = [from, to].every(({ kind }) => kind !== "range" && kind !== "order" && kind !== "list");
  return isOneWord ? `changes from ${a.text} to ${b.text}` : `is ${b.text} in place of ${a.text}`;
}

function wayBetween(from: Value, to: Value): "up" | "down" | null {
  const difference = amountBetween(from, to);
  if (difference === null || difference === 0) return null;
  return difference > 0 ? "up" : "down";
}

function amountBetween(from: Value, to: Value): number | null {
  if (from.kind === "integer" && to.kind === "integer") return to.number - from.number;
  if (from.kind !== "quantity" || to.kind !== "quantity") return null;
  const now = inUnit(to, from.unit);
  return now === null ? null : now - from.number;
}

function inUnit({ number, unit }: Quantity, other: string): number | null {
  return unit === other ? number : (units.convert(number, unit, other) ?? null);
}

/** The parts that differ, each by itself. */
function fieldsWords(from: ValueOf<"fields">, to: ValueOf<"fields">): string {
  const [before, now] = [from, to].map(({ fields }) => new Map(fields.map((each) => [each.name, each.value])));
  const parts = [...new Set([...before!.keys(), ...now!.keys()])].flatMap((name) => {
    const [a, b] = [said(before!.get(name)), said(now!.get(name))];
    if (!a || !b) return oneSided(name, a?.text, b?.text, undefined);
    return meaningOf(a.value, a.text) === meaningOf(b.value, b.text) ? [] : `${name} ${valueWords(a, b)}`;
  });
  return `differs: ${parts.join("; ")}`;
}

function said(value: Value | undefined) {
  return value && { value, text: printValue(value) };
}

/** Items that came or went, where the others stay in their order; null where more has changed. */
function listWords(from: ValueOf<"list">, to: ValueOf<"list">): string | null {
  const change = changeOf(inOrder(from, printValue), inOrder(to, printValue));
  if (!change) return null;
  const parts = [
    ...(change.come.length > 0 ? [`gains ${change.come.join(", ")}`] : []),
    ...(change.gone.length > 0 ? [`loses ${change.gone.join(", ")}`] : []),
  ];
  return parts.length === 0 ? null : parts.join(" and ");
}

/** What was added and what was taken away; null where what stays has another order, or nothing stays. */
function changeOf(from: readonly string[], to: readonly string[]) {
  const gone = without(from, to);
  const come = without(to, from);
  const isInOrder = without(from, gone).join("\n") === without(to, come).join("\n");
  return isInOrder && gone.length < from.length ? { come, gone } : null;
}

/** A list without the items of another, each as often as it is there. */
function without(list: readonly string[], others: readonly string[]): string[] {
  const left = [...others];
  return list.filter((each) => {
    const at = left.indexOf(each);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

/** A setting that may be said several times: the lines that came, went, or changed. */
function itemsWords(subject: string, a: Setting, b: Setting): string {
  const [before, now] = [a, b].map(({ items }) => (items ?? []).map(({ value }) => value));
  const meanings = (values: readonly (Value | null)[]) => values.map((value) => meaningOf(value, ""));
  const [from, to] = [meanings(before!), meanings(now!)];
  const written = (value: Value | null) => (value ? printValue(value) : "a line with a fault");
  const differing = from.flatMap((each, i) => (each === to[i] ? [] : [i]));
  if (from.length === to.length && from.length > 1 && differing.length === 1) {
    const at = differing[0]!;
    const [x, y] = [before![at]!, now![at]!].map((value) => ({ value, text: written(value) }));
    return `${subject}, line ${at + 1} of ${from.length}, ${valueWords(x!, y!)}`;
  }
  if (from.length === 1 && to.length === 1) return `${subject} ${valueWords(a, b)}`;
  const change = changeOf(from, to);
  const textsOf = (wanted: readonly string[], all: readonly string[], values: readonly (Value | null)[]) =>
    wanted.map((each) => written(values[all.indexOf(each)] ?? null)).join("; ");
  if (change && change.come.length === 0)
    return `${subject} has ${formatCount(change.gone.length, "line")} fewer: ${textsOf(change.gone, from, before!)}`;
  if (change && change.gone.length === 0)
    return `${subject} has ${formatCount(change.come.length, "line")} more: ${textsOf(change.come, to, now!)}`;
  if ([...from].sort().join("\n") === [...to].sort().join("\n")) return `the lines of ${subject} are in another order`;
  return `${subject} is ${b.text} in place of ${a.text}`;
}

/** What a dial does to a setting. */
export function followingWords(name: string, a: FollowingSetting | undefined, b: FollowingSetting | undefined): string {
  const subject = `${name} in flight`;
  if (!a || !b) return b ? `${subject} is new: it ${follows(b)}` : `${subject} is gone: it ${a ? followed(a) : ""}`;
  if (!a.value || !b.value) return `${subject} ${valueWords(a, b)}`;
  return `${name} ${b.text}, in place of ${a.text.replace(/^follows /, "")}`;
}

function follows({ value, text }: FollowingSetting): string {
  return value ? text : `reads ${writtenWithFault(text)}`;
}

function followed(setting: FollowingSetting): string {
  return follows(setting)
    .replace(/^follows /, "followed ")
    .replace(/^reads /, "read ");
}

/** Kept lines of board text, counted: what they say is not known. */
export function keptWords(dialect: string, a: readonly string[], b: readonly string[]): string {
  const subject = `the kept text for ${quote(dialect)}`;
  if (a.length === 0) return `${subject} is new: ${formatCount(b.length, "line")}`;
  if (b.length === 0) return `${subject} is gone: it had ${formatCount(a.length, "line")}`;
  const [come, gone] = [without(b, a).length, without(a, b).length];
  if (come + gone === 0) return `${subject} has its lines in another order`;
  const parts = [...(come > 0 ? [`${come} new`] : []), ...(gone > 0 ? [`${gone} gone`] : [])];
  return `${subject} differs: of its lines ${parts.join(" and ")}`;
}
