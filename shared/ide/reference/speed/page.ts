/** The page about speed: the benchmark's figures as tables, and the curves of growth as drawings. */
import { svgText } from "../../../draw/svg.ts";
import { escapeHtml } from "../../../text/html.ts";
import { htmlOf } from "../markdown-html.ts";
import { curveDrawing, curveWords } from "./curves.ts";
import {
  type Conditions,
  type GrowthSubject,
  isMissed,
  type KeptGrowth,
  type KeptPeer,
  type PeerRow,
  type Rounds,
} from "./figures.ts";
import { GROWTH } from "./kept-growth.ts";
import { PEER } from "./kept-peer.ts";

/** A piece of the page. A drawing is left out of the Markdown: the table beside it has the same figures. */
type Piece =
  | { readonly kind: "text"; readonly markdown: string }
  | { readonly kind: "table"; readonly head: readonly string[]; readonly rows: readonly (readonly string[])[] }
  | { readonly kind: "drawing"; readonly svg: string };

const text = (markdown: string): Piece => ({ kind: "text", markdown });

/** The page as Markdown. */
export function speedMarkdown(peer: KeptPeer = PEER, growth: KeptGrowth = GROWTH): string {
  return piecesOf(peer, growth)
    .flatMap((piece) => (piece.kind === "text" ? piece.markdown : piece.kind === "table" ? markdownTable(piece) : []))
    .join("\n\n");
}

/** The page as HTML, with the drawings. */
export function speedHtml(peer: KeptPeer = PEER, growth: KeptGrowth = GROWTH): string {
  return piecesOf(peer, growth)
    .map((piece) => {
      if (piece.kind === "text") return htmlOf(piece.markdown, () => null);
      return piece.kind === "table"
        ? htmlTable(piece)
        : `<div class="wide" tabindex="0" role="group" aria-label="Curves"><figure class="curve">${piece.svg}</figure></div>`;
    })
    .join("\n");
}

function piecesOf(peer: KeptPeer, growth: KeptGrowth): Piece[] {
  return [
    text(intro(peer)),
    ...peer.sizes.flatMap(({ lines, settings, rows }) => [
      text(`### ${lines} lines, ${settings} of them settings`),
      { kind: "table" as const, head: ["", "Fettle", "JSON", "ratio", "aim"], rows: rows.map(peerCells) },
    ]),
    text(measured(growth)),
    ...growth.subjects.flatMap(subjectPieces),
  ];
}

const intro = (peer: KeptPeer) => `# Speed

*of the program*

How fast Fettle answers, beside the JSON language server that many editors have, and how its cost grows with what a pilot writes.

## Beside the JSON language server

The yardstick is the server of the npm package vscode-langservers-extracted 4.10.0, with vscode-json-languageservice 5.7.2: widely used, well kept, and its work is like ours, to read a text with every key and to hold each value to its type and its limits. Both got the same craft, told once as a script and once as JSON with a schema (draft-07) that the catalogue was made into: the same settings in the same order, with the same numbers, on as many lines within four. A setting of several types has in the schema only the one that it uses. No two lines with a decimal are alike, and every edit makes a text that neither server has seen. On top of that a script is held to some ninety rules about how its values go together, of which JSON knows nothing.

One client asked both over standard input and output, in processes of their own, one after the other, each first in turn. The ratio is that of the two runs of a round; of all figures the median is given, then the least and the most (rounds: ${peer.rounds}). It was made sure in every run that a sound craft has no finding, and a value that is no number, or beyond its limits, one finding on its line, on both sides.

- *Spawn to ready* ends with the answer to “initialize”; *first answer* goes from the opened text to its findings, with the schema sent before.
- *Edit to findings*: a number in the middle of the text becomes another, and the findings are pulled, 200 times; before that the client looks at the text for two seconds.
- *Hover* at that line 100 times. *Completion* there 100 times, *symbols* and *formatting* of the whole text 20 times, each after an edit.
- *Memory* is what the process holds at the end of it all (VmRSS), after three seconds of rest; a megabyte is 2^20 bytes.
- *Library alone*: no process and no client, a whole text after an edit and its findings, 100 times in one process after 30 that do not count.
- Another name for a thing is no row: the JSON server renames nothing.

${conditionsOf(peer)} Anyone can measure it: \`npm run bench -- peer\`.`;

const measured = (growth: KeptGrowth) => `## How cost grows

From texts in memory to findings, in one process. *First findings*: nothing was read before. *Findings after an edit*: one line of one file is another one. *Memory* is what is held on the heap after all was judged. The exponent is the slope of a least-squares line through the logarithms of the last four points: 1 is a straight line, and less is better. Both scales of a drawing are logarithmic, so a straight line rises by one decade each decade.

${conditionsOf(growth)} Anyone can measure it: \`npm run bench -- growth\`.`;

const conditionsOf = ({ day, cores, node, system }: Conditions) =>
  `Measured on ${day} with ${cores} cores, Node ${node.replace(/^v/, "")}, ${system}.`;

const spread = ([median, least, most]: Rounds) => `${median} (${least}–${most})`;

function peerCells(row: PeerRow): string[] {
  const { figure, unit, ours, theirs, ratio, aim, mostMs } = row;
  const aims = [...(aim === null ? [] : [`≤ ${aim.toFixed(1)}`]), ...(mostMs === undefined ? [] : [`≤ ${mostMs} ms`])];
  const asked = aims.length === 0 ? "–" : aims.join(", ");
  return [
    `${figure}, ${unit}`,
    spread(ours),
    spread(theirs),
    spread(ratio),
    `${asked}${isMissed(row) ? ", missed" : ""}`,
  ];
}

function subjectPieces(subject: GrowthSubject): Piece[] {
  const { name, what, sizes, curves } = subject;
  const rows = sizes.map((size, i) => [String(size), ...curves.map(({ values }) => String(values[i]![0]))]);
  rows.push(["exponent", ...curves.map(({ exponent }) => exponent.toFixed(2))]);
  return [
    text(`### By ${name}\n\nOf ${what}. ${curveWords(subject)}`),
    { kind: "drawing", svg: svgText(curveDrawing(subject)) },
    { kind: "table", head: [name, ...curves.map(({ figure, unit }) => `${figure}, ${unit}`)], rows },
  ];
}

type Table = Extract<Piece, { kind: "table" }>;

function markdownTable({ head, rows }: Table): string {
  const line = (cells: readonly string[]) => `| ${cells.join(" | ")} |`;
  return [line(head), line(head.map((_, i) => (i === 0 ? "---" : "--:"))), ...rows.map(line)].join("\n");
}

function htmlTable({ head, rows }: Table): string {
  const heads = head.map((each) => (each === "" ? "<td></td>" : `<th scope="col">${escapeHtml(each)}</th>`));
  const body = rows.map(([first = "", ...cells]) => {
    // A range below its median: beside it the columns would not fit the page.
    const written = cells.map((cell) => `<td>${escapeHtml(cell).replace(/ \((.*)\)$/, "<br><small>$1</small>")}</td>`);
    return `<tr><th scope="row">${escapeHtml(first)}</th>${written.join("")}</tr>`;
  });
  // Wider than a narrow screen: it scrolls by itself, also by keys.
  return `<div class="wide" tabindex="0" role="group" aria-label="Figures"><table><thead><tr>${heads.join("")}</tr></thead><tbody>${body.join("")}</tbody></table></div>`;
}
