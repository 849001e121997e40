/** All craft side by side, as a person reads it. */

import type { Fleet, FleetTable, FleetVideo } from "../../../shared/protocol/fleet.ts";
import { visibleText } from "../../../shared/text/visible-text.ts";
import { oneLine as withoutBreaks } from "./io.ts";
import { type Head, paragraph, tableBlocks } from "./table-blocks.ts";

/** Where nobody says how wide the page is. */
const USUAL_WIDTH = 80;
/** Stands behind what is otherwise than on most craft. */
const ODD = " *";

/** Table after table, each in as many blocks of columns as the width asks for. */
export function fleetText(fleet: Fleet, width: number = USUAL_WIDTH): string {
  const { craft, controls, settings, layers, checks, video, missing } = fleet;
  const names = shownNames(fleet);
  const tables = [...controls, settings, layers, checks, video.table].filter(({ columns }) => columns.length > 0);
  const parts = tables.map((table) => tableText(table, names, width));
  const not = missing.map(({ file, why }) => paragraph(`${oneLine(file)}: ${oneLine(why)}`, width));
  const odd = tables.some(hasOdd) ? `; ${ODD.trim()} marks what is otherwise than on most of them` : "";
  return [
    paragraph(`${craft.length} craft${odd}`, width),
    ...parts,
    ...togetherText(video, names, width),
    ...(not.length > 0 ? [`Not read, or not wholly\n\n${not.join("")}`] : []),
  ].join("\n");
}

/** What is in the way of craft that are flown together, and what to change; nothing where nobody named any. */
function togetherText(
  { together, conflicts, plan, noPlan }: FleetVideo,
  names: readonly string[],
  width: number,
): string[] {
  if (together.length === 0) return [];
  const points = [
    ...conflicts.map(({ message }) => message),
    ...(conflicts.length === 0 ? ["No analogue picture is in the way of another."] : []),
    ...(noPlan === null ? [] : [noPlan]),
    ...(plan !== null && plan.length > 0 ? ["With these changes nothing is in the way:"] : []),
    ...(plan ?? []).map(
      ({ craft, fromMhz, toMhz, note }) =>
        `Move ${names[craft]!} from ${fromMhz} to ${toMhz} MHz${note === null ? "" : ` (${note})`}`,
    ),
  ];
  const head = paragraph(`Flown together: ${together.map((each) => names[each]!).join(", ")}`, width);
  return [`${head}\n${points.map((each) => paragraph(oneLine(each), width)).join("")}`];
}

/** On one line, and nothing in it that turns the direction of the text or does not show. */
function oneLine(text: string): string {
  return visibleText(withoutBreaks(text));
}

/** Craft that have one name are told apart by their files. */
function shownNames({ craft }: Fleet): string[] {
  const counts = new Map<string, number>();
  for (const { name } of craft) counts.set(name, (counts.get(name) ?? 0) + 1);
  return craft.map(({ name, file }) => oneLine(counts.get(name) === 1 && name !== "" ? name : `${name} (${file})`));
}

function hasOdd({ rows }: FleetTable): boolean {
  return rows.some(({ cells }) => cells.some(({ most }) => most !== null));
}

function tableText({ title, columns, rows }: FleetTable, names: readonly string[], width: number): string {
  const heads = columns.map(({ name, what }, i): Head => {
    const most = rows.map(({ cells }) => cells[i]!.most).find((each) => each !== null);
    return { name: oneLine(name), note: noteOf(name, what, most ?? null) };
  });
  const lines = rows.map(({ craft, cells }) => ({
    name: names[craft]!,
    cells: cells.map(({ text, most }) => oneLine(text) + (most === null ? "" : ODD)),
  }));
  return `${paragraph(oneLine(title), width)}\n${tableBlocks(heads, lines, width).join("\n")}`;
}

/** A line below the block: what a column is, and what most craft have in it. */
function noteOf(name: string, what: string | null, most: string | null): string | null {
  if (what === null && most === null) return null;
  const on = most === null ? [] : [`on most: ${most}`];
  return oneLine(`${name}: ${[...(what === null ? [] : [what]), ...on].join("; ")}`);
}
