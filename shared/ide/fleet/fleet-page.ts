/** The fleet as a sheet that is printed: tables in parts that fit the paper, the craft's name at each row of each part. */
import type { Fleet, FleetCell, FleetTable, FleetVideo } from "../../protocol/fleet.ts";
import { escapeHtml } from "../../text/html.ts";
import { joinWithAnd } from "../../text/list.ts";
import { printPage } from "../print/page.ts";
import { BREAKS, partsThatFit, type TablePart } from "./fleet-columns.ts";
import { FLEET_STYLE } from "./fleet-page-style.ts";

/** The whole file; it has no script, and asks nothing of the network. */
export function fleetPage(fleet: Fleet): string {
  const names = namesOf(fleet);
  const tables = [...fleet.controls, fleet.settings, fleet.layers, fleet.checks];
  const body = [
    headOf(fleet),
    "<main>",
    craftSection(fleet),
    ...tables.map((table, index) => tableSection(table, names, `table-${index}`)),
    tableSection(fleet.video.table, names, "table-video", togetherOf(fleet.video, fleet, names)),
    missingSection(fleet),
    "</main>",
  ];
  return printPage({
    kind: "Fleet",
    of: null,
    turn: "landscape",
    style: FLEET_STYLE,
    body: body.filter((part) => part !== "").join("\n"),
  });
}

/** What each craft is called in a row: its name, and its file where another has the same name. As HTML. */
function namesOf({ craft }: Fleet): string[] {
  const count = new Map<string, number>();
  for (const { name } of craft) count.set(name, (count.get(name) ?? 0) + 1);
  return craft.map(({ name, file }) => {
    const shown = `<bdi>${escapeHtml(name)}</bdi>`;
    return count.get(name) === 1 ? shown : `${shown} <span class="what"><bdi>${breakable(file)}</bdi></span>`;
  });
}

function headOf({ craft }: Fleet): string {
  return `<header class="title">
<p class="kind">Fleet</p>
<h1>${craft.length} craft side by side</h1>
<p class="quiet">${DIFFERS} stands before what is not as on most craft; what most have stands below it. An empty cell: the craft says nothing of it.</p>
</header>`;
}

/** Before a cell that is not as on most craft: a sign, so that a printer without colours says it too. */
const DIFFERS = '<span class="sign">≠</span>';

function craftSection({ craft }: Fleet): string {
  if (craft.length === 0) return `<p>There is no craft here.</p>`;
  const rows = craft.map(
    ({ name, file, handset }) =>
      `<tr><th scope="row"><bdi>${escapeHtml(name)}</bdi></th><td><bdi>${escapeHtml(file)}</bdi></td><td>${handset === null ? "" : `<bdi>${escapeHtml(handset.name)}</bdi>`}</td></tr>`,
  );
  return sectionOf(
    "craft",
    "Craft",
    `<table class="craft">
<colgroup><col class="of-name"><col><col class="of-handset"></colgroup>
<thead><tr><th scope="col">Craft</th><th scope="col">File</th><th scope="col">Handset</th></tr></thead>
<tbody>
${rows.join("\n")}
</tbody>
</table>`,
  );
}

function sectionOf(id: string, title: string, body: string): string {
  return `<section aria-labelledby="${id}">
<h2 id="${id}">${escapeHtml(title)}</h2>
${body}
</section>`;
}

function tableSection(table: FleetTable, names: readonly string[], id: string, below = ""): string {
  const { title, columns, rows } = table;
  if ((rows.length === 0 || columns.length === 0) && below === "") return "";
  const parts = rows.length === 0 ? [] : partsThatFit(table);
  const drawn = parts.map((part, index) => partOf(table, part, names, { id, of: parts.length, index }));
  return sectionOf(id, title, [...drawn, below].filter((each) => each !== "").join("\n"));
}

interface PartNumber {
  /** Of the heading. */
  readonly id: string;
  readonly index: number;
  readonly of: number;
}

/** A table with so few rows is not broken over pages. */
const SHORT = 8;

/** A part of a table with some of its columns. On a narrow screen it scrolls, by keys too. */
function partOf({ columns, rows }: FleetTable, part: TablePart, names: readonly string[], number: PartNumber): string {
  const { id, index, of } = number;
  const label = of === 1 ? `aria-labelledby="${id}"` : `aria-labelledby="${id} ${id}-${index}"`;
  const caption = of === 1 ? "" : `<p class="part" id="${id}-${index}">part ${index + 1} of ${of}</p>`;
  const widths = [part.nameShare, ...part.columns.map(({ share }) => share)];
  const heads = part.columns.map(({ at }) => {
    const { name, what } = columns[at]!;
    const more = what === null ? "" : ` <span class="what">${breakable(what)}</span>`;
    return `<th scope="col">${breakable(name)}${more}</th>`;
  });
  const lines = rows.map(({ craft, cells }) => {
    const shown = part.columns.map(({ at }) => cellOf(cells[at]!));
    return `<tr><th scope="row">${names[craft] ?? ""}</th>${shown.join("")}</tr>`;
  });
  const short = rows.length <= SHORT ? " short" : "";
  return `<div class="wide${short}" role="group" tabindex="0" ${label}>${caption}
<table style="width:${part.share}%;min-width:${part.leastCh}ch">
<colgroup>${widths.map((share) => `<col style="width:${share}%">`).join("")}</colgroup>
<thead><tr><th scope="col">Craft</th>${heads.join("")}</tr></thead>
<tbody>
${lines.join("\n")}
</tbody>
</table></div>`;
}

/** A name or a path that may go over several lines. */
function breakable(text: string): string {
  return text.split(BREAKS).map(escapeHtml).join("<wbr>");
}

function cellOf({ text, most }: FleetCell): string {
  if (most === null) return `<td>${escapeHtml(text)}</td>`;
  const own = text === "" ? '<span class="aside">nothing</span>' : escapeHtml(text);
  const usual = most === "" ? "nothing" : escapeHtml(most);
  return `<td class="differs">${DIFFERS}\u00a0<strong>${own}</strong> <span class="most">most: ${usual}</span></td>`;
}

/** What is in the way of craft that are flown together, and what to change. */
function togetherOf(
  { together, conflicts, plan, noPlan }: FleetVideo,
  { craft }: Fleet,
  names: readonly string[],
): string {
  if (together.length === 0) return "";
  const flown = joinWithAnd(together.map((each) => names[each] ?? ""));
  const parts = [`<h3>Flown together: ${flown}</h3>`];
  if (conflicts.length === 0) parts.push("<p>None of them is in the way of another.</p>");
  else
    parts.push(`<ul class="points">${conflicts.map(({ message }) => `<li>${escapeHtml(message)}</li>`).join("")}</ul>`);
  if (noPlan !== null) parts.push(`<p>${escapeHtml(noPlan)}</p>`);
  else if (plan !== null && plan.length > 0) {
    const moves = plan.map(
      ({ craft, fromMhz, toMhz, note }) =>
        `<li>${names[craft] ?? ""}: from ${fromMhz} MHz to ${toMhz} MHz${note === null ? "" : ` (${escapeHtml(note)})`}</li>`,
    );
    parts.push(`<p>With these changes nothing is in the way:</p><ul class="points">${moves.join("")}</ul>`);
  }
  return craft.length === 0 ? "" : `<div class="together">${parts.join("\n")}</div>`;
}

function missingSection({ missing }: Fleet): string {
  if (missing.length === 0) return "";
  const items = missing.map(({ file, why }) => `<li><bdi>${escapeHtml(file)}</bdi>: ${escapeHtml(why)}</li>`);
  return sectionOf("missing", "What is not known", `<ul class="points">\n${items.join("\n")}\n</ul>`);
}
