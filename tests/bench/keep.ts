/** Writes figures to where the reference takes them from: a module of data, laid out as the code is. */
import { spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { cpus } from "node:os";
import { join } from "node:path";
import type { Conditions, KeptGrowth, KeptPeer, Rounds } from "../../shared/ide/reference/speed/figures.ts";
import type { Spread } from "./peer/ratios.ts";

/** True where `npm run bench` was told to keep what it measures. */
export const KEEPS = process.argv.includes("--keep");

export const conditions = (): Conditions => ({
  day: new Date().toISOString().slice(0, 10),
  cores: cpus().length,
  node: process.version,
  system: `${process.platform} ${process.arch}`,
});

/** To three digits: no measurement of a busy machine is known more exactly. */
export const roundsOf = ({ median, min, max }: Spread): Rounds => [digits(median), digits(min), digits(max)];

const digits = (figure: number) => Number(figure.toPrecision(3));

/** As data of a module, with each object of a list on a line of its own. */
const rowALine = (kept: object) =>
  JSON.stringify(kept)
    .replaceAll(/"(\w+)":/g, "$1: ")
    .replaceAll(/([[,])\{/g, "$1\n{")
    .replaceAll(/,(?=\S)/g, ", ");

/** Keeps the figures of a benchmark; says where they are. */
export function keep(name: "peer", kept: KeptPeer): string;
export function keep(name: "growth", kept: KeptGrowth): string;
export function keep(name: "peer" | "growth", kept: KeptPeer | KeptGrowth): string {
  const type = name === "peer" ? "KeptPeer" : "KeptGrowth";
  const constant = name === "peer" ? "PEER" : "GROWTH";
  // npm runs a script in the project's folder.
  const file = join("shared/ide/reference/speed", `kept-${name}.ts`);
  const text = [
    `/** Written by \`npm run bench -- ${name} --keep\`. */`,
    `import type { ${type} } from "./figures.ts";`,
    "",
    "// biome-ignore format: a row a line",
    `export const ${constant}: ${type} = ${rowALine(kept)};`,
    "",
  ];
  writeFileSync(file, text.join("\n"));
  const { status, stderr } = spawnSync("npx", ["biome", "check", "--write", file], { encoding: "utf8" });
  if (status !== 0) throw new Error(stderr);
  return `Kept in ${file}; \`npm run reference\` shows it on the page “Speed”.`;
}
