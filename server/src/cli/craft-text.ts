/** The effective craft as a person reads it. */
import type { EffectiveCraft, EffectiveMode, EffectivePage } from "../../../shared/ide/reports/effective-craft.ts";
import type { ReportedMissing } from "../../../shared/ide/reports/missing-report.ts";
import { oneLine } from "./io.ts";
import { missingText } from "./missing-text.ts";

type Row = readonly [name: string, text: string, from: string];

interface Place {
  readonly file: string | null;
  readonly line: number | null;
}

/** Section by section: name, value, and where it comes from, lines from 1. */
export function craftText(shown: EffectiveCraft & { readonly missing?: readonly ReportedMissing[] }): string {
  const sections = new Map<string, Row[]>();
  const add = (section: string, row: Row) => sections.set(section, [...(sections.get(section) ?? []), row]);
  for (const [name, setting] of Object.entries(shown.settings)) {
    const dot = name.indexOf(".", name.startsWith("pack/") ? name.lastIndexOf(".") : 0);
    add(name.slice(0, dot), [name.slice(dot + 1), setting.text, from(setting)]);
  }
  for (const [name, control] of Object.entries(shown.controls)) add("controls", [name, control.text, from(control)]);
  for (const row of modeRows(shown.modes)) add("modes", row);
  for (const row of modeRows(shown.outputs)) add("outputs", row);
  for (const row of elementRows(shown.osd)) add("osd", row);
  for (const row of elementRows(shown.osdSecond)) add("osd-second", row);
  for (const line of shown.verbatim) add(`verbatim "${line.dialect}"`, ["|", line.text, from(line)]);
  const handset = shown.handset ? `${shown.handset.name} (${shown.handset.file})` : "none";
  const parts = [...sections].map(([name, rows]) => `${oneLine(name)}\n${table(rows)}`);
  return `${[`craft    ${oneLine(shown.craft)}\nhandset  ${oneLine(handset)}\n${missingText(shown.missing)}`, ...parts].join("\n")}`;
}

function modeRows(modes: Readonly<Record<string, EffectiveMode>>): Row[] {
  return Object.entries(modes).map(([name, { condition, lines }]) => [name, condition, lines.map(from).join(", ")]);
}

function elementRows({ elements }: EffectivePage): Row[] {
  return Object.entries(elements).map(([name, each]) => {
    const place = each.column === null ? "no place" : `column ${each.column}, row ${each.row}`;
    return [name, `${place}, ${each.width} x ${each.height} cells`, from(each)];
  });
}

function from({ file, line }: Place): string {
  return file === null || line === null ? "default" : `${file}:${line + 1}`;
}

/** Values longer than this do not widen the column for the rest. */
const WIDEST = 48;

function table(rows: readonly Row[]): string {
  const names = Math.max(...rows.map(([name]) => name.length));
  const texts = Math.max(...rows.map(([, text]) => (text.length > WIDEST ? 0 : text.length)));
  return rows
    .map((row) => row.map(oneLine))
    .map(([name = "", text = "", place = ""]) => `  ${name.padEnd(names)}  ${text.padEnd(texts)}  ${place}\n`)
    .join("");
}
