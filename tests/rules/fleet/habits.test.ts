/** Whole fleets as text, and what each craft of them is told about its habits. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { workspaceOf } from "../check.ts";
import { WHEEL } from "./handset.ts";

interface Fleet {
  readonly title: string;
  readonly files: Readonly<Record<string, string>>;
  readonly expected: readonly string[];
}

const [, ...cases] = readFileSync(new URL("habits.txt", import.meta.url), "utf8").split(/^## /m);
const fleets = cases.map(fleetOf);

function fleetOf(text: string): Fleet {
  const [title = "", ...lines] = text.trimEnd().split("\n");
  const end = lines.indexOf("---");
  if (end < 0) throw new Error(`“${title}” has no ---`);
  const files: Record<string, string> = { "wheel.fettle": WHEEL };
  let path: string | null = null;
  for (const line of lines.slice(0, end)) {
    const craft = /^([a-z]+) {2,}(.+)$/.exec(line);
    if (line.startsWith("=== ")) {
      path = line.slice(4);
      files[path] = "";
    } else if (craft) {
      const [, name = "", modes = ""] = craft;
      const entries = modes.split("; ").map((entry) => `  ${entry}\n`);
      files[`${name}.fettle`] =
        `craft "${name[0]!.toUpperCase()}${name.slice(1)}"\nuse "wheel.fettle"\nmodes\n${entries.join("")}`;
      path = null;
    } else if (path !== null) files[path] += `${line}\n`;
    else throw new Error(`“${title}”: what is “${line}”?`);
  }
  return { title, files, expected: lines.slice(end + 1).filter((line) => line !== "") };
}

const MESSAGE = /^On (\d+ of \d+) craft with “Wheel|^On (\d+ of \d+) craft with “Bellows/;

function told(files: Readonly<Record<string, string>>): string[] {
  const workspace = workspaceOf(files);
  return Object.keys(files).flatMap((file) =>
    findingsOf(workspace, file)
      .filter(({ code }) => code === "fleet-habit")
      .map(({ severity, message, range }) => {
        expect(message).toMatch(MESSAGE);
        const [, count, mode, most, here] =
          /^On (\d+ of \d+) craft with “.*?”, such as .*?, ([a-z-]+) is (.*?); here it is (.*?)\. A hand/.exec(
            message,
          )!;
        return `${file.replace(/\.fettle$/, "")}:${range.start.line} ${severity} ${mode}  ${count} ${most}  here ${here}`;
      }),
  );
}

test.each(fleets.map((fleet) => [fleet.title, fleet] as const))("%s", (_, { files, expected }) => {
  expect(told(files).sort()).toEqual([...expected].sort());
});

test("the corpus is as large as it should be, and half of it flies well", () => {
  expect(fleets.length).toBeGreaterThanOrEqual(60);
  expect(fleets.filter(({ expected }) => expected.length === 0).length).toBeGreaterThanOrEqual(30);
});
