/** The command line as it is shipped, built once for a test file, and run as a process. */
import { spawn } from "node:child_process";
import { mkdtempSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { mkdir, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { build } from "esbuild";
import { afterAll } from "vitest";
import { bundles } from "../../.dev/bundles.mjs";

export interface Outcome {
  readonly status: number | null;
  readonly out: string;
  readonly error: string;
}

/** Builds the bundle of the command line into a folder of its own; gives the path of the program. */
export async function buildProgram(): Promise<string> {
  const bundle = bundles.find(({ entryPoints }) => String(entryPoints) === "server/src/cli/main.ts");
  if (!bundle) throw new Error("The command line is not among the bundles.");
  const outdir = temporaryFolder();
  await build({ ...bundle, outdir });
  writeFileSync(join(outdir, "package.json"), '{ "type": "module" }\n');
  return join(outdir, "fettle.js");
}

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

/** A new folder, gone when the tests of this file are over. */
export function temporaryFolder(): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), "fettle-")));
  folders.push(folder);
  return folder;
}

/** Writes files, given by their paths below a new folder, and gives the folder. */
export async function folderOf(files: Readonly<Record<string, string | Uint8Array>>): Promise<string> {
  const folder = temporaryFolder();
  for (const [path, content] of Object.entries(files)) {
    const file = join(folder, path);
    await mkdir(dirname(file), { recursive: true });
    await writeFile(file, content);
  }
  return folder;
}

export function runProgram(
  program: string,
  args: readonly string[],
  { folder = tmpdir(), input = "" as string | Uint8Array } = {},
): Promise<Outcome> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [program, ...args], { cwd: folder });
    let out = "";
    let error = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      out += text;
    });
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      error += text;
    });
    child.on("error", reject);
    child.on("close", (status) => resolve({ status, out, error }));
    // A program that does not read its input closes it: that is no fault of the test.
    child.stdin.on("error", () => {});
    child.stdin.end(input);
  });
}
