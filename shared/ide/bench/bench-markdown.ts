/** The bench list as Markdown, with boxes to tick. */
import { countInWords, duesInWords, kindInWords, nameOfCheck, readingInWords } from "../../draw/bench-words.ts";
import type { BenchCheckState, BenchList, BenchPhase, BenchReading, BenchStep } from "../../protocol/bench.ts";
import { plainText } from "../../text/plain-text.ts";
import { visibleText } from "../../text/visible-text.ts";
import { paragraphs } from "../context/markdown.ts";

/** The list, as one file of Markdown; what pilots named is escaped. */
export function benchMarkdown(list: BenchList): string {
  const dues = duesInWords(list);
  const unknown = list.unknown.map((sentence) => `- ${shown(sentence)}`).join("\n");
  return `${paragraphs(
    `# ${kindInWords(list)}: ${shown(list.craft)}`,
    shown(list.file),
    `**${shown(list.warning)}**`,
    countInWords(list),
    ...list.phases.map((phase, i) => phaseText(phase, i + 1, dues)),
    list.checks.length === 0 ? "" : `## Days to write into “bench”\n\n${list.checks.map(checkText).join("\n")}`,
    unknown === "" ? "" : `## What the script does not say\n\n${unknown}`,
  )}\n`;
}

function phaseText({ title, how, steps }: BenchPhase, number: number, dues: ReturnType<typeof duesInWords>): string {
  const items = steps.map((step, i) => stepText(step, `${number}.${i + 1}`, dues)).join("\n");
  return paragraphs(`## ${number}. ${shown(title)}`, how === null ? "" : shown(how), items);
}

function stepText(step: BenchStep, number: string, dues: ReturnType<typeof duesInWords>): string {
  const { what, expect, caution, due, readings, lines: sent } = step;
  const why = dues(step);
  const lines = [
    `- [${due.state === "done" ? "x" : " "}] **${number}** ${shown(what)}`,
    ...(caution === null ? [] : [`  **${shown(caution)}**`]),
    ...(expect === null ? [] : [`  ${shown(expect)}`]),
    ...(why === "" ? [] : [`  *${shown(why)}*`]),
  ];
  // Two spaces at the end break a line, so that each part stands in one of its own.
  return [lines.join("  \n"), ...(sent ? [fenced(sent)] : []), ...readings.map(readingText)].join("\n");
}

/** Lines of a board as they are; the fence is longer than any row of its sign in them. */
function fenced(lines: readonly string[]): string {
  const longest = Math.max(2, ...lines.flatMap((line) => line.match(/`+/g) ?? []).map((run) => run.length));
  const fence = "`".repeat(longest + 1);
  return ["", `${fence}text`, ...lines.map((line) => visibleText(line)), fence]
    .map((line) => `  ${line}`.trimEnd())
    .join("\n");
}

function readingText(reading: BenchReading): string {
  const words = readingInWords(reading);
  return `  - ${shown(reading.what)}: \\_\\_\\_\\_\\_\\_\\_\\_ (such as ${shown(reading.form)}${words === "" ? "" : `; ${shown(words)}`})`;
}

function checkText({ name, title, due }: BenchCheckState): string {
  return `- ${shown(title)}: ${shown(nameOfCheck({ name }))} ${due.state === "done" ? due.day : "\\_\\_\\_\\_-\\_\\_-\\_\\_"}`;
}

/** A text that is not read as Markdown, on one line, with nothing in it that does not show. */
function shown(text: string): string {
  return plainText(visibleText(text)).replaceAll("\n", " ");
}
