/** The bench list as a sheet that is printed: one file, with the pictures of this craft beside the steps that use them. */
import { countInWords, duesInWords, kindInWords, nameOfCheck, readingInWords } from "../../draw/bench-words.ts";
import type {
  BenchCheckState,
  BenchList,
  BenchPhase,
  BenchPictureName,
  BenchReading,
  BenchStep,
} from "../../protocol/bench.ts";
import { escapeHtml } from "../../text/html.ts";
import { imageOf, printPage } from "../print/page.ts";
import { shortened } from "../print/shown-text.ts";
import { BENCH_STYLE } from "./bench-page-style.ts";

/** Drawings that stand on their own, and what they show in words. */
export interface SheetPicture {
  /** One; more where it would be too high. */
  readonly svgs: readonly string[];
  /** Beside the steps, or above them over the whole width. */
  readonly stands: "beside" | "across";
  /** What is to be said above it besides its name; "" for nothing. */
  readonly note: string;
  readonly words: string;
}

/** What there is to draw of a craft; null where there is nothing. */
export type SheetPictures = Readonly<Record<BenchPictureName, SheetPicture | null>>;

/** What stands above a picture. */
const CAPTIONS: Readonly<Record<BenchPictureName, string>> = {
  osd: "The OSD of this craft",
  "osd-second": "The second page of the OSD",
  switches: "The handset at rest, and what each position turns on",
  motors: "The motors from above, forward is up",
};

/** Lines of a board's text that stay on one page. */
const MOST_TOGETHER = 30;

/** Characters of the craft's name in the title; the footer and the file say it too. */
const NAME_MOST = 120;

/** The whole file; it has no script, and asks nothing of the network. */
export function benchPage(list: BenchList, pictures: SheetPictures): string {
  const sheet: Sheet = { pictures, drawnIn: new Map(), dues: duesInWords(list) };
  const phases = list.phases.map((phase, index) => phaseOf(phase, index + 1, sheet));
  const body = [
    headOf(list),
    "<main>",
    `<p class="warning">${escapeHtml(list.warning)}</p>`,
    countsOf(list),
    ...phases,
    daysOf(list.checks),
    unknownOf(list.unknown),
    "</main>",
  ];
  return printPage({
    kind: kindInWords(list),
    of: list.craft,
    turn: "portrait",
    style: BENCH_STYLE,
    body: body.filter((part) => part !== "").join("\n"),
  });
}

interface Sheet {
  readonly pictures: SheetPictures;
  /** Each picture is drawn once: the number of the phase in which it stands. */
  readonly drawnIn: Map<BenchPictureName, number>;
  /** Why a step is to be done again. */
  readonly dues: ReturnType<typeof duesInWords>;
}

function headOf(list: BenchList): string {
  const { craft, file } = list;
  return `<header class="title">
<p class="kind">${kindInWords(list)}</p>
<h1><bdi>${escapeHtml(shortened(craft, NAME_MOST))}</bdi></h1>
<p class="quiet"><bdi>${escapeHtml(file)}</bdi></p>
<p class="signed"><label>done on <input class="ruled" autocomplete="off"></label> <label>by <input class="ruled" autocomplete="off"></label></p>
</header>`;
}

function countsOf(list: BenchList): string {
  return `<p class="quiet">${countInWords(list)} <span class="screen">What is ticked and written here lasts as long as this page is open: print it, or write it into the script.</span></p>`;
}

function phaseOf({ name, title, how, steps }: BenchPhase, number: number, sheet: Sheet): string {
  const before = new Map(sheet.drawnIn);
  const figures = steps.map(({ due, picture }) => (due.state === "done" ? "" : figureFor(picture, number, sheet)));
  const items = steps.map((step, index) => {
    const count = `${number}.${index + 1}`;
    if (step.due.state === "done") return doneStep(step, step.due.day, count);
    return stepOf(step, count, whyOf(step, sheet), elsewhere(step.picture, before));
  });
  const parts = [
    `<h2 id="phase-${number}"><span class="number">${number}</span> ${escapeHtml(title)}</h2>`,
    how === null ? "" : `<p class="how">${escapeHtml(how)}</p>`,
    ...figures,
    `<ol class="steps">\n${items.join("\n")}\n</ol>`,
  ];
  return `<section aria-labelledby="phase-${number}" class="phase" data-phase="${escapeHtml(name)}">
${parts.filter((part) => part !== "").join("\n")}
</section>`;
}

function whyOf(step: BenchStep, { dues }: Sheet): string {
  const why = dues(step);
  return why === "" ? "" : `<p class="why">${escapeHtml(why)}</p>`;
}

/** The picture in the part that first uses it. */
function figureFor(name: BenchPictureName | null, part: number, { pictures, drawnIn }: Sheet): string {
  const picture = name && pictures[name];
  if (!name || !picture || drawnIn.has(name)) return "";
  drawnIn.set(name, part);
  const note = picture.note === "" ? "" : `: ${escapeHtml(picture.note)}`;
  const figures = picture.svgs.map((svg, index) => {
    // Caption and words are of all of them together.
    const isFirst = index === 0;
    const caption = isFirst ? `<figcaption>${CAPTIONS[name]}${note}</figcaption>` : "";
    const id = isFirst ? ` id="picture-${name}"` : "";
    const alt = isFirst ? escapeHtml(picture.words) : "";
    return `<figure${id} class="${picture.stands} of-${name}">${caption}<img src="${imageOf(svg)}" alt="${alt}"></figure>`;
  });
  return figures.join("\n");
}

/** Where a picture stands that an earlier part has. */
function elsewhere(name: BenchPictureName | null, before: ReadonlyMap<BenchPictureName, number>): string {
  const part = name && before.get(name);
  return part ? `<p class="quiet">Its picture stands at <a href="#picture-${name}">part ${part}</a>.</p>` : "";
}

function stepOf(step: BenchStep, number: string, why: string, where: string): string {
  const { id, what, expect, caution, readings, lines = [] } = step;
  const box = `box-${number}`;
  const parts = [
    why,
    `<div class="said"><p class="what"><label for="${box}">${escapeHtml(what)}</label></p>${
      expect === null ? "" : `<p class="expect" id="see-${number}">${escapeHtml(expect)}</p>`
    }</div>`,
    caution === null ? "" : `<p class="caution"><strong>${escapeHtml(caution)}</strong></p>`,
    lines.length === 0
      ? ""
      : `<pre class="lines${lines.length > MOST_TOGETHER ? " long" : ""}">${lines.map(escapeHtml).join("\n")}</pre>`,
    readings.length === 0 ? "" : `<ul class="plain readings">${readings.map(readingOf).join("")}</ul>`,
    where,
  ];
  const said = parts.filter((part) => part !== "").join("\n");
  const described = expect === null ? "" : ` aria-describedby="see-${number}"`;
  return `<li><div class="step" data-step="${escapeHtml(id)}"><input type="checkbox" id="${box}"${described}><span class="number">${number}</span><div>
${said}
</div></div></li>`;
}

/** A step that needs nothing: its day in place of a box. */
function doneStep({ id, what }: BenchStep, day: string, number: string): string {
  return `<li><div class="step done" data-step="${escapeHtml(id)}"><span class="number">${number}</span><p>${escapeHtml(what)} <span class="day">done ${escapeHtml(day)}</span></p></div></li>`;
}

/** What to read, what should be read, and a line to write it on. */
function readingOf(reading: BenchReading): string {
  const { what, form } = reading;
  const beside = readingInWords(reading);
  return `<li class="reading"><label><span class="asked">${escapeHtml(what)}</span> <span class="should">${escapeHtml(beside)}</span> <input class="ruled" autocomplete="off" aria-description="such as ${escapeHtml(form)}"></label> <span class="form" aria-hidden="true">such as ${escapeHtml(form)}</span></li>`;
}

/** The days that the script keeps, with a line for the new one where one is due. */
function daysOf(checks: readonly BenchCheckState[]): string {
  if (checks.length === 0) return "";
  const rows = checks.map(({ name, title, due, at }) => {
    const day =
      due.state === "done"
        ? `done ${escapeHtml(due.day)}`
        : `<input class="ruled" autocomplete="off" aria-label="day of ${escapeHtml(title)}">`;
    // A check that had a day says why it is to be done again.
    const again = due.state === "due" && at !== null ? ` <span class="again">${escapeHtml(due.why)}</span>` : "";
    return `<tr><th scope="row">${escapeHtml(title)}</th><td><code>${escapeHtml(nameOfCheck({ name }))}</code>${again}</td><td>${day}</td></tr>`;
  });
  return `<section aria-labelledby="days">
<h2 id="days">Days to write into “bench”</h2>
<table class="days">
<thead><tr><th scope="col" class="check">Check</th><th scope="col">Line</th><th scope="col" class="day-line">Day</th></tr></thead>
<tbody>
${rows.join("\n")}
</tbody>
</table>
</section>`;
}

function unknownOf(unknown: readonly string[]): string {
  if (unknown.length === 0) return "";
  return `<section aria-labelledby="unknown">
<h2 id="unknown">What the script does not say</h2>
<ul class="points">
${unknown.map((each) => `<li>${escapeHtml(each)}</li>`).join("\n")}
</ul>
</section>`;
}
