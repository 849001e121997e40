/** A copy of the demo workspace in which another editor is tried: with the README's lines for it, and `fettle` on the path. */
import { execFileSync, spawnSync } from "node:child_process";
import { chmodSync, cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { inProject } from "../../.dev/say.mjs";
import { buildProgram, temporaryFolder } from "../cli/program.ts";

/** What the editor is started in. */
export interface Stand {
  /** The demo workspace, as a repository of git. */
  readonly folder: string;
  /** A second workspace, with a craft that has one error. */
  readonly other: string;
  /** A file that holds the README's lines for the editor. */
  readonly init: string;
  /** The path and the editor's own folders, in place of the user's. */
  readonly env: NodeJS.ProcessEnv;
}

/** Whether a program is on this machine, so that a test of it can be run. */
export function isInstalled(program: string, askVersion = "--version"): boolean {
  return spawnSync(program, [askVersion], { stdio: "ignore" }).status === 0;
}

/** The lines that the README has for an editor, between the comments that name the block. */
export function readmeBlock(name: string): string {
  const readme = readFileSync(inProject("README.md"), "utf8");
  const block = new RegExp(`<!-- ${name} -->\\s*\`\`\`\\w*\\n([\\s\\S]*?)\`\`\``).exec(readme)?.[1];
  if (!block) throw new Error(`README.md has no block “${name}”.`);
  return block;
}

const OTHER = {
  "jug.fettle":
    'craft "Jug"\n\nuse "small.fettle"\n\npack\n  cells  99\n\nmodes\n  arm  when TL is down\n\nfailsafe\n  then  stop\n',
  "small.fettle": 'handset "Small"\n\ncontrols\n  TL  switch  ch5  up 1000 us  down 2000 us\n',
};

/** Makes a stand for the editor whose README block has that name; `initName` is what the editor calls such a file. */
export async function makeStand(block: string, initName: string): Promise<Stand> {
  const program = await buildProgram();
  const top = temporaryFolder();
  const [folder, other, bin, init] = ["shed", "other", "bin", initName].map((name) => join(top, name)) as [
    string,
    string,
    string,
    string,
  ];
  cpSync(inProject("examples"), folder, { recursive: true });
  execFileSync("git", ["init", "-q"], { cwd: folder });
  for (const [name, text] of Object.entries(OTHER)) write(join(other, name), text);
  write(join(bin, "fettle"), `#!/bin/sh\nexec "${process.execPath}" "${program}" "$@"\n`);
  chmodSync(join(bin, "fettle"), 0o755);
  write(init, readmeBlock(block));
  const own = Object.fromEntries(
    ["HOME", "XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME", "XDG_DATA_HOME"].map((name) => [name, top]),
  );
  return { folder, other, init, env: { ...process.env, ...own, PATH: `${bin}:${process.env.PATH}` } };
}

function write(path: string, text: string): void {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
}
