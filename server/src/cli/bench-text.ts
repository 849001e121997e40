/** The bench list as a person reads it at a terminal. */
import {
  countInWords,
  duesInWords,
  kindInWords,
  nameOfCheck,
  readingInWords,
} from "../../../shared/draw/bench-words.ts";
import type { BenchCheckState, BenchList, BenchPhase, BenchStep } from "../../../shared/protocol/bench.ts";
import { visibleText } from "../../../shared/text/visible-text.ts";
import { oneLine } from "./io.ts";

/** Columns that are read without turning the head. */
const WIDTH = 96;

/** A text on one line, with nothing in it that a terminal obeys or hides. */
const shown = (text: string) => oneLine(visibleText(text));

/** The whole list; a step that is done has a cross in its box. */
export function benchText(list: BenchList): string {
  const dues = duesInWords(list);
  const unknown = list.unknown.map((sentence) => wrapped(sentence, "  - ", "    ")).join("");
  return [
    `${kindInWords(list)}: ${shown(list.craft)}\n${shown(list.file)}\n`,
    wrapped(list.warning, "! ", "! "),
    `${countInWords(list)}\n`,
    ...list.phases.map((phase, i) => phaseText(phase, i + 1, dues)),
    ...(list.checks.length === 0 ? [] : [`Days, in section “bench”\n${checksText(list.checks)}`]),
    ...(unknown === "" ? [] : [`What the script does not say\n${unknown}`]),
  ].join("\n");
}

function phaseText({ title, how, steps }: BenchPhase, number: number, dues: ReturnType<typeof duesInWords>): string {
  const head = `${number} ${shown(title)}\n${how === null ? "" : wrapped(how, "  ", "  ")}`;
  return `${head}${steps.map((step, i) => stepText(step, `${number}.${i + 1}`, dues)).join("")}`;
}

function stepText(step: BenchStep, number: string, dues: ReturnType<typeof duesInWords>): string {
  const { what, expect, caution, due, readings, lines = [] } = step;
  const box = `  [${due.state === "done" ? "x" : " "}] `;
  const inner = " ".repeat(box.length);
  const why = dues(step);
  return [
    wrapped(`${number} ${what}`, box, inner),
    ...(caution === null ? [] : [wrapped(caution, `${inner}! `, `${inner}  `)]),
    ...(expect === null ? [] : [wrapped(expect, inner, inner)]),
    ...(why === "" ? [] : [wrapped(why, `${inner}(`, `${inner} `).replace(/\n$/, ")\n")]),
    // A board's line is not broken: it is copied from here.
    ...lines.map((line) => `${inner}| ${visibleText(line.replace(CONTROL, " "))}\n`),
    ...readings.map((reading) => {
      const words = readingInWords(reading);
      return wrapped(`${reading.what}${words === "" ? "" : ` (${words})`}: ________`, `${inner}> `, `${inner}  `);
    }),
  ].join("");
}

/** What a terminal acts on, but for the tab, which a board's line may have. */
const CONTROL = /[\u0000-\u0008\u000a-\u001f\u007f-\u009f\u2028\u2029]/g;

function checksText(checks: readonly BenchCheckState[]): string {
  const names = checks.map(nameOfCheck);
  const width = Math.max(...names.map(({ length }) => length));
  return checks
    .map(({ due }, i) => `  ${names[i]!.padEnd(width)}  ${due.state === "done" ? due.day : "due"}\n`)
    .join("");
}

/** Text in lines of at most `WIDTH` columns where words allow it. */
function wrapped(text: string, first: string, others: string): string {
  const lines: string[] = [];
  let line = first;
  let isEmpty = true;
  for (const word of shown(text).split(" ")) {
    if (!isEmpty && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = others;
      isEmpty = true;
    }
    line += isEmpty ? word : ` ${word}`;
    isEmpty = false;
  }
  return `${[...lines, line].map((each) => each.trimEnd()).join("\n")}\n`;
}
