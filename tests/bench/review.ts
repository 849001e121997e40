/** How long it takes to review a paste of 500 lines against a craft of 500 lines with six layers; target 100 ms. */
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { offerOf } from "../../shared/ide/review/offer.ts";
import { type ReviewQuery, reviewOf } from "../../shared/ide/review/review.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import { ms, percentile } from "./figures.ts";
import { craftOf, workspaceFiles } from "./scripts.ts";

const LINES = 500;
const RUNS = 30;
const CRAFT = "tankard.fettle";
const catalogue = makeCatalogue();
const QUERY: ReviewQuery = { purpose: "review", chosen: null, mapping: {}, into: null, dialect: "" };

/** A paste of so many lines: shelves of packs as of a friend who has many, which differ from those of the craft. */
export function shelfPaste(lines: number, seed: number): string {
  const text = ['layer "Evenings"', "", "pack", "  warn-at  3.6 V/cell", "modes", "  level  when TR is up"];
  for (let i = 0; text.length + 4 <= lines; i++)
    text.push(
      `pack "Shelf ${i}"`,
      `  capacity  ${1100 + ((i + seed) % 900)} mAh`,
      `  warn-at   ${3.5 + ((i + seed) % 3) / 10} V/cell`,
      `  land-at   3.3 V/cell`,
    );
  while (text.length < lines) text.push("# a note");
  return `${text.join("\n")}\n`;
}

/** A paste of so many lines that says every name of the catalogue once, by its example, and then sentences. */
export function wholePaste(lines: number, seed: number): string {
  const text = ['layer "Everything"', "modes", ...catalogue.modes.map(({ name }) => `  ${name}  when TR is down`)];
  for (const { name, settings, holds, in: kinds } of catalogue.sections) {
    if (!kinds.includes("layer") || !(holds === "settings" || holds === "places")) continue;
    text.push(name, ...settings.map((setting) => `  ${setting.name}  ${setting.example}`));
    if (name === "osd") text.push(...catalogue.elements.map((each) => `  ${each.name}  ${each.example}`));
  }
  text.splice(lines - 1);
  text.push(`# ${seed}`);
  while (text.length < lines) text.push("this is what I fly with in the evening");
  return `${text.join("\n")}\n`;
}

function timesOf(paste: (seed: number) => string): number[] {
  const times: number[] = [];
  for (let run = 0; run < RUNS; run++) {
    // Another text with each run, against a craft that is being worked on: nothing of the review is remembered.
    const workspace = makeCoreOnce().at(memoryFiles(workspaceFiles(craftOf(LINES))));
    const craft = workspace.craft(CRAFT)!;
    const text = paste(run);
    const start = performance.now();
    const offered = offerOf(workspace, text, "Evenings");
    if (offered.kind !== "offer") throw new Error("the paste is no script");
    reviewOf(workspace, craft, offered.offer, QUERY);
    times.push(performance.now() - start);
  }
  return times.slice(3).sort((a, b) => a - b);
}

let core: ReturnType<typeof makeCore> | null = null;
function makeCoreOnce() {
  core ??= makeCore(catalogue);
  return core;
}

export async function run(): Promise<string> {
  const line = (name: string, times: readonly number[]) =>
    `${name}  median ${ms(percentile(times, 0.5))} ms   p95 ${ms(percentile(times, 0.95))} ms`;
  return [
    line(
      `a paste of ${LINES} lines of packs:          `,
      timesOf((seed) => shelfPaste(LINES, seed)),
    ),
    line(
      `a paste of ${LINES} lines with every name:   `,
      timesOf((seed) => wholePaste(LINES, seed)),
    ),
  ].join("\n");
}
