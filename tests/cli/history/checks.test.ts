/** What `stale-check` finds in real repositories. */
import { readFileSync } from "node:fs";
import { expect, test, vi } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { run } from "../../../server/src/cli/run.ts";
import type { CheckReport } from "../../../shared/ide/reports/check-report.ts";
import { historiesIn, repositoryOf } from "../../fixtures/histories/histories.ts";
import { held } from "../held.ts";
import { makeRepository } from "../repository.ts";

const histories = historiesIn(readFileSync(inProject("tests/fixtures/histories/checks.txt"), "utf8"));

/** What is found of the rule in a craft; commits by what their message says, as their names come with the repository. */
async function staleIn(folder: string, craft: string, names: ReadonlyMap<string, string>): Promise<string[]> {
  const io = held(folder, "");
  await run(["check", craft, "--format", "json"], io);
  expect(io.errorText()).toBe("");
  const { findings } = JSON.parse(io.outText()) as CheckReport;
  const found = findings.filter(({ code }) => code === "stale-check");
  return found.map(({ message, file, range }) =>
    `${file}:${range.start.line + 1} ${message}`.replaceAll(/\b[0-9a-f]{8}\b/g, (id) => `“${names.get(id)}”`),
  );
}

test.each(histories.map((history) => [history.title, history] as const))("%s", async (title, history) => {
  const { folder, git } = repositoryOf(history);
  const log = history.commits.length === 0 ? "" : git("log", "--all", "--format=%H %s");
  const names = new Map(log.split("\n").map((line) => [line.slice(0, 8), line.slice(41)]));
  const got = [];
  for (const { words } of history.asked) got.push({ words, expected: await staleIn(folder, words, names) });
  expect(got).toEqual(history.asked);
  if (/^fresh: [^;]*$/.test(title)) expect(got.flatMap(({ expected }) => expected)).toEqual([]);
});

test("without git nothing is known of the past, and all else is found", async () => {
  const bench = 'craft "Jug"\n\nsensors\n  mount-yaw  90 deg\n\nbench\n  mount-checked  2026-02-01\n';
  const { folder } = makeRepository({ "jug.fettle": bench });
  vi.stubEnv("PATH", "/nowhere");
  expect(await staleIn(folder, "jug.fettle", new Map())).toEqual([]);
  vi.unstubAllEnvs();
});
