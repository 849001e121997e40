/** `fettle check --since` and `--staged`: what a change brought, held to a list of changes, each of which is tried both ways. */
import { readFileSync, renameSync, rmSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { run } from "../../../server/src/cli/run.ts";
import { held } from "../held.ts";
import { makeRepository, type Repository } from "../repository.ts";
import { wheel } from "../shed.ts";

const habits = 'layer "Habits"\n\nmodes\n  arm  when TL is down\n\nfailsafe\n  then  stop\n';
const always = { "handsets/wheel.fettle": wheel, "layers/habits.fettle": habits };

interface Case {
  readonly title: string;
  readonly options: readonly string[];
  readonly before: Readonly<Record<string, string>>;
  readonly after: readonly { readonly path: string; readonly text: string; readonly was: string | null }[];
  readonly gone: readonly string[];
  readonly brought: readonly string[];
}

/** Cases as they stand in the file: `---` a file before, `+++` one after, below `===` what is brought. */
const cases = readFileSync(new URL("since.txt", import.meta.url), "utf8")
  .split(/^### /m)
  .slice(1)
  .map(caseOf);

function caseOf(written: string): Case {
  const [, title = "", rest = ""] = /^(.*)\n([\s\S]*)$/.exec(written) ?? [];
  const [files = "", expected = ""] = rest.split(/^===\n/m);
  const [head = "", ...blocks] = `\n${files}`.split(/^(?=---|\+\+\+)/m);
  const before: Record<string, string> = { ...always };
  const after: { path: string; text: string; was: string | null }[] = [];
  const gone: string[] = [];
  for (const block of blocks) {
    const [, sign, path = "", , what, was = null, text = ""] =
      /^(---|\+\+\+) (.*?)( (is gone|is not there|was (.*)))?\n([\s\S]*)$/.exec(block) ?? [];
    const content = text.replaceAll("\\r", "\r");
    if (what === "is not there") delete before[path];
    else if (sign === "---") before[path] = content;
    else if (what === "is gone") gone.push(path);
    else after.push({ path, text: content, was });
  }
  return {
    title,
    options: /^options (.*)/m.exec(head)?.[1]?.split(" ") ?? [],
    before,
    after,
    gone,
    brought: expected.split("\n").filter((line) => line !== ""),
  };
}

async function brought({ folder }: Repository, ...args: string[]): Promise<string[]> {
  const io = held(folder, "");
  const status = await run(["check", "--format", "json", ...args], io);
  if (status === 2) throw new Error(io.errorText());
  const { findings } = JSON.parse(io.outText()) as Report;
  return findings.map(({ code, file, range }) => `${code} ${file}:${range.start.line + 1}`).sort();
}

interface Report {
  readonly findings: readonly { code: string; file: string; range: { start: { line: number } } }[];
}

test.each(cases)("$title", async ({ options, before, after, gone, brought: expected }) => {
  const repository = makeRepository(before);
  const { folder, git, write } = repository;
  for (const { path, text, was } of after) {
    if (was === null) write({ [path]: text });
    else {
      write({ [path]: "" });
      renameSync(join(folder, was), join(folder, path));
    }
  }
  for (const path of gone) rmSync(join(folder, path));
  const sorted = [...expected].sort();
  expect(await brought(repository, "--since", "HEAD", ...options)).toEqual(sorted);
  git("add", "-A");
  expect(await brought(repository, "--staged", ...options)).toEqual(sorted);
});

test("there are as many changes as this list promises", () => expect(cases.length).toBeGreaterThanOrEqual(55));
