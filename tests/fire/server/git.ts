/** A repository in a folder that is there, with nothing of the user's own settings. */
import { execFileSync } from "node:child_process";

const ENV = {
  GIT_CONFIG_GLOBAL: "/dev/null",
  GIT_CONFIG_NOSYSTEM: "1",
  GIT_AUTHOR_NAME: "Potter",
  GIT_AUTHOR_EMAIL: "potter@shed.example",
  GIT_COMMITTER_NAME: "Potter",
  GIT_COMMITTER_EMAIL: "potter@shed.example",
};

/** Begins a repository; `commit` commits everything as it is. */
export function makeGit(folder: string): { commit(): void } {
  const git = (...args: string[]) =>
    execFileSync("git", args, { cwd: folder, env: { ...process.env, ...ENV }, stdio: "pipe" });
  git("init", "-q", "-b", "main");
  return {
    commit() {
      git("add", "-A");
      git("commit", "-q", "--allow-empty", "-m", "as flown");
    },
  };
}
