/** What a board holds in steps: what the craft says and what the board will, told by reading what was written. */
import { printValue } from "../../syntax/print-value.ts";
import type { Axis, Value } from "../../syntax/value.ts";
import { inCatalogueUnits } from "../read/catalogue-units.ts";
import { readText } from "../read/entries.ts";
import { joinEntries, type Surroundings } from "../read/join-entries.ts";
import { sayingsOf } from "../read/sayings.ts";
import type { Draft } from "./draft.ts";
import type { Report } from "./report.ts";
import type { Want } from "./wanted.ts";

/** Reads the text again: what differs from the craft was rounded, as all else is reported already. */
export function reportRounded(
  draft: Draft,
  text: string,
  wants: readonly Want[],
  report: Report,
  around: Surroundings,
): void {
  const { reader, entries } = draft;
  const lines = text.slice(draft.byteOrderMark.length).split(/\r\n|\r|\n/);
  const said = new Map<string, string[]>();
  for (const { section, name, rest } of joinEntries(sayingsOf(lines, reader, entries).all, entries, around).entries) {
    const key = `${section} ${name}`;
    const rests = said.get(key);
    if (rests) rests.push(rest);
    else said.set(key, [rest]);
  }
  const known = new Set([
    ...report.cannot.map(({ what }) => what),
    ...report.curves.map(({ what }) => what),
    ...report.unsaid,
  ]);
  const writtenValue = ({ spec, name, content }: Want, rest: string) =>
    content.kind === "value" || content.kind === "cell" ? readText(entries, spec, name, rest).value : null;
  // Equal ones first: what is left of a repeatable setting is compared in order.
  const open: Want[] = [];
  for (const want of wants) {
    const rests = said.get(want.what);
    const equal = rests?.findIndex((rest) => saysAll(want, rest, writtenValue(want, rest))) ?? -1;
    if (equal >= 0) rests!.splice(equal, 1);
    else open.push(want);
  }
  for (const want of open) {
    if (known.has(want.what)) continue;
    const rest = said.get(want.what)?.shift();
    if (rest === undefined) continue;
    const differing = fieldsOf(want, writtenValue(want, rest)).filter(({ ours, theirs }) => ours !== theirs);
    for (const { field, ours, theirs } of differing)
      report.rounded.push({ what: `${want.what} ${field}`, said: ours, written: theirs });
    if (!hasFields(want)) report.rounded.push({ what: want.what, said: want.rest, written: rest });
  }
}

function hasFields({ content }: Want): boolean {
  return content.kind === "value" && content.value.kind === "fields";
}

/** Whether what is written says all that is wanted; what it says beside is filled, or the base's. */
function saysAll(want: Want, rest: string, written: Value | null): boolean {
  if (rest === want.rest) return true;
  if (hasFields(want)) return fieldsOf(want, written).every(({ ours, theirs }) => ours === theirs);
  const { content } = want;
  if (content.kind === "cell" && written?.kind === "cell") {
    const at = ({ anchor, offset }: Axis, from: (anchor: string) => number | null) => {
      const start = anchor === null ? 0 : from(anchor);
      return start === null ? null : start + offset;
    };
    return at(written.column, content.columnOf) === content.column && at(written.row, content.rowOf) === content.row;
  }
  // In which order a list is written is no matter of what it says.
  if (content.kind !== "value" || content.value.kind !== "list" || written?.kind !== "list") return false;
  const items = (list: readonly Value[]) => list.map(printValue).sort().join(", ");
  return items(content.value.items) === items(written.items);
}

/** The wanted fields of which something is written. */
function fieldsOf({ content, setting }: Want, written: Value | null) {
  if (content.kind !== "value" || content.value.kind !== "fields" || written?.kind !== "fields") return [];
  const wanted = setting ? inCatalogueUnits(content.value, setting) : content.value;
  return (wanted.kind === "fields" ? wanted.fields : []).flatMap(({ name, value }) => {
    const theirs = written.fields.find((each) => each.name === name);
    return theirs ? [{ field: name, ours: printValue(value), theirs: printValue(theirs.value) }] : [];
  });
}
