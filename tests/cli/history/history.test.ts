/** `fettle history` over real repositories. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { run } from "../../../server/src/cli/run.ts";
import type { HistoryReport, ReportedValue } from "../../../shared/ide/history/history-report.ts";
import { historiesIn, repositoryOf } from "../../fixtures/histories/histories.ts";
import { held } from "../held.ts";

const FILE = inProject("tests/fixtures/histories/values.txt");
const histories = historiesIn(readFileSync(FILE, "utf8"));

async function told(folder: string, ...args: string[]) {
  const io = held(folder, "");
  const status = await run(["history", ...args], io);
  return { status, out: io.outText(), error: io.errorText() };
}

/** An answer in short: what it is now, then a line for each change. */
async function inShort(folder: string, words: string): Promise<string[]> {
  const [craft = "", ...name] = words.split(" ");
  const { status, out, error } = await told(folder, craft, ...name, "--format", "json");
  if (status === 2) return [error.trim()];
  const { now, changes, notes } = JSON.parse(out) as HistoryReport;
  const value = (each: ReportedValue) =>
    each.unknown === null ? (each.text ?? "not said").replaceAll("\n", "\\n") : `not known (${each.unknown})`;
  return [
    `now ${value(now)}`,
    ...changes.map((each) =>
      [
        each.commit === null ? `${each.subject}:` : `${each.date?.slice(0, 10)} ${each.author}: ${each.subject}:`,
        `${value(each.before)} → ${value(each.after)}`,
        each.file === null ? "(nowhere)" : `(${each.file}:${(each.line ?? 0) + 1})`,
        ...(each.note === "" ? [] : [`# ${each.note}`]),
        ...(each.respelled ? ["respelled"] : []),
        ...(each.kept ? [] : ["not kept"]),
      ].join(" "),
    ),
    ...notes.map((note) => `note ${note}`),
  ];
}

test.each(histories.map((history) => [history.title, history] as const))("%s", async (_, history) => {
  const { folder } = repositoryOf(history);
  const got = [];
  for (const { words } of history.asked) got.push({ words, expected: await inShort(folder, words) });
  expect(got).toEqual(history.asked);
});
