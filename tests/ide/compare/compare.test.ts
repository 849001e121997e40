/** What differs in meaning between two craft, and what is only written otherwise. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { differencesOf } from "../../../shared/ide/compare/compare.ts";
import { workspaceOf } from "../../rules/check.ts";

const HANDSET = `handset "Wheel"
transmitter
  power  100 mW
controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
  KN  dial    ch9  1000 us to 2000 us
`;

/** Each difference as “RISK what: before -> after”. */
function differences(before: string, after: string, others: Readonly<Record<string, string>> = {}): string[] {
  const files = { "before.fettle": before, "after.fettle": after, "wheel.fettle": HANDSET, ...others };
  const workspace = workspaceOf(files);
  const [a, b] = [workspace.craftLike("before.fettle")!, workspace.craftLike("after.fettle")!];
  return differencesOf(a, b, workspace.catalogue).map(
    (each) => `${each.risk} ${each.kind} ${each.what}: ${each.before} -> ${each.after}`,
  );
}

/** The pairs of a file: a title, then the two scripts, then the expected differences, parted by lines of one kind. */
function cases(name: string): readonly (readonly [string, string, string, string[]])[] {
  const text = readFileSync(new URL(name, import.meta.url), "utf8");
  return text
    .split(/^=== /m)
    .slice(1)
    .map((block) => {
      const title = block.slice(0, block.indexOf("\n"));
      const [before, after, expected] = block.slice(title.length + 1).split(/^---\n/m);
      const whole = (body: string) =>
        /^(craft|layer|handset) "/m.test(body) ? body : `craft "Jug"\nuse "wheel.fettle"\n${body}`;
      return [title, whole(before!), whole(after!), expected!.split("\n").filter((line) => line !== "")];
    });
}

test.each(cases("differences.txt"))("%s", (_, before, after, expected) => {
  expect(differences(before, after)).toEqual(expected);
});

test("the lines of both sides are given, in the files that say it", () => {
  const files = {
    "before.fettle": `craft "Jug"\nuse "base.fettle"\npack\n  cells 4\n`,
    "after.fettle": `craft "Jug"\nuse "base.fettle"\npack\n  cells 4\n  capacity 850 mAh\n`,
    "base.fettle": `layer "Base"\n\npack\n  capacity 1 Ah\n`,
  };
  const workspace = workspaceOf(files);
  const [a, b] = [workspace.craft("before.fettle")!, workspace.craft("after.fettle")!];
  expect(differencesOf(a, b, workspace.catalogue)).toEqual([
    {
      what: "pack.capacity",
      kind: "setting",
      risk: "medium",
      before: "1 Ah",
      after: "850 mAh",
      beforeAt: { file: "base.fettle", line: 3 },
      afterAt: { file: "after.fettle", line: 4 },
    },
  ]);
});

test("a layer is compared by itself, with a handset that stands in", () => {
  const workspace = workspaceOf({
    "jug.fettle": `craft "Jug"\nuse "wheel.fettle"\nmodes\n  arm when TL is down\n  level when TR is up\n`,
    "habits.fettle": `layer "Habits"\nmodes\n  arm when not TL is up\n`,
    "wheel.fettle": HANDSET,
  });
  const layer = workspace.craftLike("habits.fettle", "wheel.fettle")!;
  const found = differencesOf(workspace.craft("jug.fettle")!, layer, workspace.catalogue);
  expect(found.map(({ what, after }) => [what, after])).toEqual([["modes.level", null]]);
});
