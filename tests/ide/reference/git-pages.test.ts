/** The pages about git say what works: their hook stops commits, and their files run the commands that they show. */
import { spawnSync } from "node:child_process";
import { chmodSync, cpSync, mkdirSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { GITHUB, GITLAB, KEEP_PROGRAM } from "../../../shared/ide/reference/git/continuous.ts";
import { gitPages } from "../../../shared/ide/reference/git/pages.ts";
import { languageWords } from "../../../shared/ide/reference/language-words.ts";
import { referencePage } from "../../../shared/ide/reference/page.ts";
import { buildProgram, temporaryFolder } from "../../cli/program.ts";
import { makeRepository, type Repository } from "../../cli/repository.ts";
import { faultsOf } from "../../cli/sarif/valid.ts";
import { jug, shed } from "../../cli/shed.ts";

const yaml = createRequire(import.meta.url)("js-yaml") as { load(text: string): unknown };

let program: string;
beforeAll(async () => {
  program = await buildProgram();
}, 60_000);

/** The texts of one language that a page shows, in order. */
function shown(page: string, language: string): string[] {
  const text = referencePage(makeCatalogue(), page)!;
  return [...text.matchAll(new RegExp(`^\`\`\`${language}\\n([\\s\\S]*?)^\`\`\`$`, "gm"))].map(([, each = ""]) => each);
}

const scripts = { "handsets/wheel.fettle": shed["handsets/wheel.fettle"], "craft/jug.fettle": jug };
const faulty = `${jug}\npack\n  cells  99\n`;

/** A repository of scripts that keeps the program as the page says. */
function withProgram(): Repository {
  const repository = makeRepository(scripts);
  const project = temporaryFolder();
  mkdirSync(join(project, "dist"), { recursive: true });
  cpSync(dirname(program), join(project, "dist"), { recursive: true });
  const keep = KEEP_PROGRAM.replaceAll("PROJECT", project);
  const { status, stderr } = spawnSync("sh", ["-e", "-c", keep], { cwd: repository.folder, encoding: "utf8" });
  expect([status, stderr]).toEqual([0, ""]);
  repository.commit({}, "the program");
  return repository;
}

const env = {
  ...process.env,
  GIT_CONFIG_GLOBAL: "/dev/null",
  GIT_CONFIG_NOSYSTEM: "1",
  GIT_AUTHOR_NAME: "Potter",
  GIT_AUTHOR_EMAIL: "potter@shed.example",
  GIT_COMMITTER_NAME: "Potter",
  GIT_COMMITTER_EMAIL: "potter@shed.example",
};

function git(folder: string, ...args: string[]) {
  const { status, stderr, stdout } = spawnSync("git", args, { cwd: folder, encoding: "utf8", env });
  return { status, said: `${stdout}${stderr}` };
}

test("each page is a word of the language that is explained, and begins with a sentence", () => {
  const words = languageWords.map(({ word }) => word).filter((word) => /^git(-|$)/.test(word));
  expect(gitPages.map(({ name }) => name)).toEqual(words);
  for (const { name, title } of gitPages) {
    const [heading, kind, summary] = referencePage(makeCatalogue(), name)!.split("\n\n");
    expect([heading, kind, summary]).toEqual([
      `# ${title}`,
      expect.stringMatching(/^\*.+\*$/),
      expect.stringMatching(/\.$/),
    ]);
  }
});

test("the hook stops a commit that brings an error, and no other", () => {
  const { folder, write } = withProgram();
  const [hook = ""] = shown("git-hook", "sh");
  writeFileSync(join(folder, ".git/hooks/pre-commit"), hook);
  chmodSync(join(folder, ".git/hooks/pre-commit"), 0o755);
  write({ "craft/jug.fettle": faulty });
  git(folder, "add", "-A");
  const stopped = git(folder, "commit", "-m", "wrong");
  expect([stopped.status, stopped.said]).toEqual([
    1,
    expect.stringMatching(/craft\/jug\.fettle:12:\d+ .*out-of-range/),
  ]);
  // What is not staged does not count.
  git(folder, "reset", "-q");
  write({ "note.txt": "a note" });
  git(folder, "add", "note.txt");
  expect(git(folder, "commit", "-m", "a note").status).toBe(0);
  git(folder, "add", "-A");
  expect(git(folder, "commit", "-m", "all the same", "--no-verify").status).toBe(0);
  // What was there before does not stop the next one, also from a folder below.
  write({ "craft/jug.fettle": `# mine\n${faulty}` });
  expect(git(join(folder, "craft"), "commit", "-a", "-m", "a comment").status).toBe(0);
  rmSync(join(folder, "tools"), { recursive: true });
  const unchecked = spawnSync("git", ["commit", "-a", "-m", "no program"], {
    cwd: folder,
    encoding: "utf8",
    env: { ...env, PATH: "/usr/bin:/bin" },
  });
  expect([unchecked.status, unchecked.stderr]).toEqual([0, expect.stringContaining("this commit was not checked")]);
}, 60_000);

test("a hook that is shared works once it is turned on", () => {
  const { folder, write } = withProgram();
  const [hook = "", turnOn = ""] = shown("git-hook", "sh");
  write({ ".githooks/pre-commit": hook, "craft/jug.fettle": faulty });
  chmodSync(join(folder, ".githooks/pre-commit"), 0o755);
  git(folder, "add", "-A");
  expect(spawnSync("sh", ["-c", turnOn], { cwd: folder }).status).toBe(0);
  expect(git(folder, "commit", "-m", "wrong").status).toBe(1);
}, 60_000);

interface Workflow {
  readonly on: Readonly<Record<string, unknown>>;
  readonly jobs: {
    readonly check: { readonly steps: readonly { uses?: string; run?: string; with?: Record<string, unknown> }[] };
  };
}

interface Pipeline {
  readonly scripts: {
    readonly script: readonly string[];
    readonly variables: Record<string, string>;
    readonly artifacts: { paths: string[] };
  };
}

/** A repository with a branch that brings a fault, and a fault from before. */
function withBranch(): Repository {
  const repository = withProgram();
  const { git: run, commit } = repository;
  commit({ "craft/cup.fettle": faulty }, "from before");
  run("update-ref", "refs/remotes/origin/main", "HEAD");
  run("checkout", "-q", "-b", "change");
  return repository;
}

function runLine(line: string, folder: string, more: Record<string, string>) {
  // The shell of both services stops at the first command that fails.
  return spawnSync("bash", ["-e", "-o", "pipefail", "-c", line], {
    cwd: folder,
    encoding: "utf8",
    env: { ...env, ...more },
  });
}

test("the file for GitHub Actions is YAML, and its commands find what a change brings", () => {
  const [text = ""] = shown("git-ci", "yaml");
  expect(text).toBe(GITHUB);
  const { on, jobs } = yaml.load(text) as Workflow;
  expect(Object.keys(on).sort()).toEqual(["pull_request", "push"]);
  const { steps } = jobs.check;
  expect(steps.every(({ uses, run }) => (uses === undefined) !== (run === undefined))).toBe(true);
  expect(steps.find(({ uses }) => uses?.startsWith("actions/checkout@"))?.with).toEqual({ "fetch-depth": 0 });
  const [brought = "", all = ""] = steps.flatMap(({ run }) => run ?? []);
  const { folder, commit } = withBranch();
  const here = { GITHUB_BASE_REF: "main" };
  commit({ "craft/mug.fettle": jug.replace("Jug", "Mug") }, "clean");
  expect(runLine(brought, folder, here)).toMatchObject({
    status: 0,
    stdout: `4 files, new since ${git(folder, "rev-parse", "origin/main").said.trim()}: nothing found\n`,
  });
  commit({ "craft/jug.fettle": faulty }, "wrong");
  expect(runLine(brought, folder, here)).toMatchObject({
    status: 1,
    stdout: expect.stringMatching(/^craft\/jug\.fettle:12:/),
  });
  expect(runLine(all, folder, here)).toMatchObject({ status: 0, stderr: "" });
  const upload = steps.find(({ uses }) => uses?.includes("upload-sarif"));
  expect(logIn(folder, upload?.with?.sarif_file as string)).toHaveLength(2);
}, 60_000);

test("the file for GitLab CI is YAML, and its commands find what a change brings", () => {
  const [, text = ""] = shown("git-ci", "yaml");
  expect(text).toBe(GITLAB);
  const { scripts: job } = yaml.load(text) as Pipeline;
  expect(job.variables).toEqual({ GIT_DEPTH: "0" });
  const { folder, commit } = withBranch();
  const runAll = (more: Record<string, string>) => runLine(job.script.join("\n"), folder, more);
  const base = git(folder, "rev-parse", "origin/main").said.trim();
  expect(runAll({ CI_MERGE_REQUEST_DIFF_BASE_SHA: base })).toMatchObject({ status: 0 });
  commit({ "craft/jug.fettle": faulty }, "wrong");
  expect(runAll({ CI_MERGE_REQUEST_DIFF_BASE_SHA: base })).toMatchObject({
    status: 1,
    stdout: expect.stringContaining("craft/jug.fettle:12:"),
  });
  expect(runAll({ CI_MERGE_REQUEST_DIFF_BASE_SHA: "" })).toMatchObject({ status: 0, stdout: "" });
  expect(logIn(folder, job.artifacts.paths[0]!)).toHaveLength(2);
}, 60_000);

/** The results of the SARIF log that the commands left, which is valid. */
function logIn(folder: string, name: string): unknown[] {
  const { stdout } = spawnSync("cat", [name], { cwd: folder, encoding: "utf8", maxBuffer: 2 ** 24 });
  const log = JSON.parse(stdout);
  expect(faultsOf(log)).toEqual([]);
  return log.runs[0].results;
}
