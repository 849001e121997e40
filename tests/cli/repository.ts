/** A real repository of git in a folder of its own, with nothing of the user's own settings. */
import { execFileSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { GIT_ENV } from "../git-env.ts";
import { temporaryFolder } from "./program.ts";

export interface Repository {
  readonly folder: string;
  /** Runs git in the folder, or in one below it; gives what it prints. */
  git(...args: string[]): string;
  write(files: Readonly<Record<string, string>>): void;
  /** Writes files and commits everything. */
  commit(files: Readonly<Record<string, string>>, message?: string): void;
}

export function makeRepository(files: Readonly<Record<string, string>> = {}): Repository {
  const folder = temporaryFolder();
  const git = (...args: string[]) =>
    execFileSync("git", args, { cwd: folder, encoding: "utf8", env: { ...process.env, ...GIT_ENV }, stdio: "pipe" });
  const write = (texts: Readonly<Record<string, string>>) => {
    for (const [path, text] of Object.entries(texts)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), text);
    }
  };
  const commit = (texts: Readonly<Record<string, string>>, message = "as flown") => {
    write(texts);
    git("add", "-A");
    git("commit", "-q", "--allow-empty", "-m", message);
  };
  git("init", "-q", "-b", "main");
  if (Object.keys(files).length > 0) commit(files);
  return { folder, git, write, commit };
}

/** Adds commits as `git fast-import` reads them: a thousand in the time of one. */
export function importCommits(folder: string, stream: string): void {
  execFileSync("git", ["fast-import", "--quiet"], { cwd: folder, input: stream, env: { ...process.env, ...GIT_ENV } });
}
