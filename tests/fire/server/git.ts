/** A repository in a folder that is there, with nothing of the user's own settings. */
import { execFileSync } from "node:child_process";
import { GIT_ENV } from "../../git-env.ts";

/** Begins a repository; `commit` commits everything as it is. */
export function makeGit(folder: string): { commit(): void } {
  const git = (...args: string[]) =>
    execFileSync("git", args, { cwd: folder, env: { ...process.env, ...GIT_ENV }, stdio: "pipe" });
  git("init", "-q", "-b", "main");
  return {
    commit() {
      git("add", "-A");
      git("commit", "-q", "--allow-empty", "-m", "as flown");
    },
  };
}
