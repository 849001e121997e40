/**
 * A used file that is missing or has faults is told of once, by a `use-…` finding: nothing is said of what it may have
 * said, and what is certain without it stays.
 */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { rules } from "../../../shared/rules/engine/registry.generated.ts";
import { check, workspaceOf } from "../check.ts";
import { scriptsIn } from "../fixtures.ts";
import { breakagesOf, type Files } from "./broken-files.ts";

const ALL_CODES: ReadonlySet<string> = new Set(rules.map(({ code }) => code));

const cases = readFileSync(inProject("tests/fixtures/broken-use.txt"), "utf8")
  .split(/^--- /m)
  .slice(1)
  .map((part) => [part.slice(0, part.indexOf("\n")), part.slice(part.indexOf("\n") + 1)] as const);

describe("as marked", () => {
  test.each(cases)("%s", (_, marked) => void check(marked, {}, ALL_CODES));
});

/** Findings of a craft by code, line and column. */
function keysOf(files: Files, craft: string): string[] {
  return findingsOf(workspaceOf(files), craft).map(
    ({ code, range: { start } }) => `${code} ${start.line + 1}:${start.character}`,
  );
}

/** For each breakage, the findings that it brings, those of `use` lines apart; and whether anything is said at all. */
function followUps(files: Files, craft: string): string[] {
  const before = new Set(keysOf(files, craft));
  return [...breakagesOf(files, craft)].flatMap(({ what, files: broken }) => {
    const fresh = keysOf(broken, craft).filter((each) => !before.has(each));
    // A name of a file that cannot be read is itself no statement.
    const told = fresh.filter((each) => each.startsWith("use-") || each.startsWith("syntax "));
    if (told.length === 0) return [`${craft}, ${what}: nothing is told`];
    return fresh.filter((each) => !told.includes(each)).map((each) => `${craft}, ${what}: ${each}`);
  });
}

const SOUND = ["sane", "shed", "sound/rack", "sound/kitchen", "sound/field"].map((folder) => scriptsIn(folder));

test("sound craft of all kinds, with each of their files broken in every way", () => {
  const craft = SOUND.flatMap((files) =>
    Object.keys(files)
      .filter((file) => /^craft /m.test(files[file]!) && /^use /m.test(files[file]!))
      .map((file) => ({ files, file })),
  );
  // Most differ little in what they use: every craft with a layer, and some of those with a handset alone.
  const tried = craft.filter(({ files, file }, i) => i % 8 === 0 || (files[file]!.match(/^use /gm) ?? []).length > 1);
  expect(tried.length).toBeGreaterThan(30);
  expect(tried.flatMap(({ files, file }) => followUps(files, file))).toEqual([]);
});

test("each rule's own examples, with each of their files broken in every way", () => {
  const examples = rules
    .filter(({ code }) => !code.startsWith("use-"))
    .flatMap(({ examples: { bad, good } }) => [bad, good])
    .filter((files) => Object.keys(files).length > 1);
  expect(examples.length).toBeGreaterThan(50);
  expect(examples.flatMap((files) => followUps(files, Object.keys(files)[0]!))).toEqual([]);
});
