/** How long it takes to read board text of 50,000 lines, held to 1 s each; and whether what is made to be slow stays linear. */
import { lineReadings, readBoard } from "../../shared/dialect/read/read-board.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import { catalogue, dialectOf, HOSTILE, KILN, TEXTS } from "../dialect/reading/long-texts.ts";
import { ms } from "./figures.ts";

const LINES = 50_000;

function timeOf(work: () => unknown): number {
  const began = performance.now();
  work();
  return performance.now() - began;
}

/** Times in ms. Each text is read once, by a dialect that has read nothing yet. */
export async function run(): Promise<string> {
  const workspace = makeCore(catalogue).at(memoryFiles({}));
  const context = { workspace, handset: null, craft: null };
  const report = [`board text of ${LINES} lines, ms; held to 1000 ms: read at first, its lines again, in the editor`];
  for (const [title, make] of Object.entries(TEXTS)) {
    const dialect = dialectOf(KILN);
    const text = make(LINES);
    const first = timeOf(() => readBoard(dialect, text, context));
    lineReadings(dialect, text, catalogue);
    const again = timeOf(() => lineReadings(dialect, `${text}\n; typed`, catalogue));
    const short = make(500);
    lineReadings(dialect, short, catalogue);
    const typed = timeOf(() => lineReadings(dialect, `${short}\n; typed`, catalogue));
    report.push(`${ms(first)} ${ms(again)} ${ms(typed)} (500 lines)  ${title}`);
  }
  report.push("", "made to be slow, ms at n, 2n and 4n");
  for (const [title, make] of Object.entries(HOSTILE)) {
    const times = [1, 2, 4].map((n) => {
      const { dialect, text } = make(n);
      return Math.min(...[1, 2, 3].map(() => timeOf(() => readBoard(dialect, text, context))));
    });
    report.push(`${times.map(ms).join(" ")}  ${title}`);
  }
  return report.join("\n");
}
