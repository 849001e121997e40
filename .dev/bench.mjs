// npm run bench [-- NAME… --FLAG…]: runs tests/bench/*.ts, each of which exports run(): Promise<string>.
import { readdirSync } from "node:fs";
import { build } from "./build.mjs";
import { setUpPeer } from "./peer.mjs";
import { importTs } from "./run-ts.mjs";
import { fail, inProject, say } from "./say.mjs";
import { setUp } from "./setup.mjs";

await setUp();
const all = readdirSync(inProject("tests/bench")).filter((name) => name.endsWith(".ts"));
// Flags are for a benchmark itself, which says which it knows.
const patterns = process.argv.slice(2).filter((argument) => !argument.startsWith("--"));
const chosen = all.filter((name) => patterns.length === 0 || patterns.some((part) => name.includes(part)));
if (chosen.length === 0) fail(`No benchmark of that name; there are: ${all.join(", ")}.`);
await build("minify");
if (chosen.includes("peer.ts")) await setUpPeer();
for (const name of chosen.sort()) {
  say(`Measuring ${name} …`);
  const { run } = await importTs(inProject("tests/bench", name));
  // A helper that benchmarks share exports no `run`.
  if (typeof run === "function") console.log(await run());
}
