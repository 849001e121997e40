/** The program, ended or failed from inside at one of its calls to the file system. */
import { spawn } from "node:child_process";
import { inProject } from "../../../.dev/say.mjs";

export interface Ending {
  /** Which calls count: those that write, or all. */
  readonly calls: "writing" | "all";
  /** The number of the call, from 1. */
  readonly at: number;
  /** `kill` (of what it writes half is written by then), or the code of an error with which it fails. */
  readonly how: "kill" | (string & {});
  readonly links?: "none";
}

export interface Ended {
  readonly status: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly out: string;
  readonly error: string;
}

const PRELOAD = inProject("tests/fire/kill/preload.mjs");

/** Runs the program in a folder; without an ending to its end. */
export function runEnded(program: string, args: readonly string[], folder: string, ending?: Ending): Promise<Ended> {
  const env = {
    ...process.env,
    FETTLE_CALLS: ending?.calls,
    FETTLE_AT: ending && String(ending.at),
    FETTLE_HOW: ending?.how,
    FETTLE_LINKS: ending?.links,
  };
  return new Promise((resolve, reject) => {
    const node = [...(ending ? ["--import", PRELOAD] : []), program, ...args];
    const child = spawn(process.execPath, node, { cwd: folder, env, stdio: ["ignore", "pipe", "pipe"] });
    let [out, error] = ["", ""];
    child.stdout.setEncoding("utf8").on("data", (text: string) => (out += text));
    child.stderr.setEncoding("utf8").on("data", (text: string) => (error += text));
    child.on("error", reject);
    child.on("close", (status, signal) => resolve({ status, signal, out, error }));
  });
}
