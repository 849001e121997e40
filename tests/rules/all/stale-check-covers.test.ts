/** One thing of a craft changes after all checks were made: which of them are due, name by name, against a table that one can read. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { BENCH_CHECKS } from "../../../shared/rules/lib/bench-checks.ts";
import { dueOf, isStale } from "../../../shared/rules/lib/check-due.ts";
import { meaningOf } from "../../../shared/rules/lib/meaning.ts";
import { type PastCraft, pastReader } from "../../../shared/rules/lib/past-checks.ts";
import { finish } from "../../../shared/text/steps.ts";
import { catalogue, diceOf, namesIn, restFor } from "../../ide/compare/made-lines.ts";
import { scriptsIn } from "../fixtures.ts";

const DAY = "2026-05-01";
const core = makeCore(catalogue);
const short = (check: string) => check.replace("bench.", "").replace(/-(checked|on)$/, "");

const table = readFileSync(inProject("tests/fixtures/bench-covers.txt"), "utf8")
  .split("\n")
  .filter((line) => line !== "" && !line.startsWith("#"))
  .map((line) => {
    const [name = "", ...checks] = line.trim().split(/\s+/);
    return { name, checks: checks.sort() };
  });

function expectedFor(path: string): readonly string[] {
  const fits = (name: string) => (name.endsWith("*") ? path.startsWith(name.slice(0, -1)) : path === name);
  return table.filter(({ name }) => fits(name)).at(-1)?.checks ?? [];
}

/** The sane five-inch with every check made on one day; it says its own names in a layer, so that a craft may say them otherwise. */
function filesWith(lines: Readonly<Record<string, string>>): Record<string, string> {
  const files = { ...scriptsIn("sane") };
  const days = BENCH_CHECKS.map(({ name }) => `  ${name.slice("bench.".length)}  ${DAY}`).join("\n");
  files[FILE] += `\nbench\n${days}\n`;
  for (const [section, line] of Object.entries(lines))
    files[section === "transmitter" ? "sane/wheel.fettle" : FILE] += `\n${section}\n  ${line}\n`;
  return files;
}

const FILE = "sane/five-inch.fettle";

/** The checks that are due after a change from one craft to the other, each committed. */
function dueAfter(before: Record<string, string>, after: Record<string, string>): string[] {
  const commit = (
    id: string,
    day: string,
    files: Record<string, string>,
    earlier: readonly PastCraft[],
  ): PastCraft => ({
    commit: { id, day, author: "Anna", subject: id },
    craft: core.at(memoryFiles(files)).craft(FILE),
    before: () => earlier,
  });
  const first = commit("aaaaaaaaaa", DAY, before, []);
  const last = commit("bbbbbbbbbb", "2026-06-01", after, [first]);
  const past = finish(pastReader(makeCore(catalogue)).checks(last));
  const workspace = core.at({ ...memoryFiles(after), past: () => past });
  const craft = workspace.craft(FILE)!;
  return BENCH_CHECKS.flatMap((check) => {
    const made = dueOf(craft, workspace, check);
    return made && isStale({ ...made, flashed: null }) ? [short(check.name)] : [];
  }).sort();
}

/** Ports and controls have cases of their own among the histories: what counts there is what is on them. */
const APART = ["bench", "controls", "ports"];
const sections = catalogue.sections.filter(({ holds, name }) => holds !== "kept" && !APART.includes(name));

/** What a line of the craft means. */
function meaningWith(section: string, name: string, rest: string): string | null {
  const craft = core.at(memoryFiles(filesWith({ [section]: `${name} ${rest}` }))).craft(FILE)!;
  const { value, text } = craft.settings.get(section)?.get(name) ?? craft.adjust.get(name) ?? {};
  return value && text !== undefined ? meaningOf(value, text) : null;
}

/** Two values of a name that are not the same; null where none were found. */
function changed(section: string, name: string, seed: number): readonly [string, string] | null {
  const spec = catalogue.section(section)!;
  if (spec.holds === "modes" || spec.holds === "outputs") return ["when TR is mid", "when TR is down"];
  if (/^motor\d$/.test(name))
    return ["place rear-left  direction clockwise", "place rear-left  direction anticlockwise"];
  const dice = diceOf(seed);
  const next = () => restFor(dice, section, name).replace("SX", "KN");
  const first = next();
  const before = spec.holds === "places" ? first : meaningWith(section, name, first);
  for (let i = 0; i < 40; i++) {
    const second = next();
    const after = spec.holds === "places" ? second : meaningWith(section, name, second);
    if (before !== null && after !== null && before !== after) return [first, second];
  }
  return null;
}

test.each(sections.map(({ name }) => [name] as const))("what is due once a line of “%s” is another one", (section) => {
  const wrong: string[] = [];
  let tried = 0;
  for (const [i, name] of namesIn(section).entries()) {
    const values = changed(section, name, 13 + i);
    if (!values) continue;
    tried++;
    const [before, after] = values.map((rest) => filesWith({ [section]: `${name} ${rest}` }));
    const due = dueAfter(before!, after!);
    const expected = expectedFor(`${section}.${name}`);
    if (JSON.stringify(due) !== JSON.stringify(expected))
      wrong.push(`${section}.${name} (${values.join(" → ")}): due ${due.join(" ")}; expected ${expected.join(" ")}`);
  }
  expect(wrong).toEqual([]);
  expect(tried).toBeGreaterThan(0);
});
