/** The chain of a name: the lines that count in it are those of the effective craft, and each says what became of it. */
import { expect, test } from "vitest";
import { effectiveEntryIn, type NamedEntry } from "../../../shared/ide/context/effective-entry.ts";
import { chainOf } from "../../../shared/ide/origin/chain.ts";
import { originOf } from "../../../shared/ide/origin/origin.ts";
import { overrideHere } from "../../../shared/ide/origin/override.ts";
import type { Source } from "../../../shared/model/craft.ts";
import { expectGrowth } from "../../growth.ts";
import { catalogue } from "../compare/made-lines.ts";
import { madePair, workspaceOf } from "../compare/made-pairs.ts";
import { atCursor } from "../cursor.ts";

/** What is said at the cursor: first what counts, then a line for each step. */
function shown(text: string, more: Record<string, string>): string[] {
  const { workspace, file, position } = atCursor(text, more);
  const origin = originOf(workspace, file, position, undefined);
  if (origin.kind === "refused") return [origin.message];
  const steps = origin.steps.map(({ script, source, says, state, note }) =>
    [`${script}:${source.line + 1}: ${says}`, state, ...(note ? [`“${note}”`] : [])].join(" · "),
  );
  return [`${origin.what}: ${origin.now}`, ...steps, origin.actions.map(({ kind }) => kind).join(" ")];
}

const BASE = `layer "Base"
pack
  # as it came
  warn-at 3.6 V/cell
  chemistry lipo
gains
  roll p 40 i 50
modes
  level when TR is mid
  finder when PB is held
filters
  smooth-d cut 90 Hz
  smooth-d cut 120 Hz
`;
const HABITS = `layer "Habits"
use "base.fettle"
pack
  warn-at 3.5 V/cell  # rings earlier
gains
  roll i 55
modes
  drop finder
verbatim "kiln"
  |shelf 3
`;
const MORE = { "base.fettle": BASE, "habits.fettle": HABITS };
const head = 'craft "Jug"\nuse "wheel.fettle"\nuse "habits.fettle"\n';

test("a setting that two layers say, looked at from the craft, a layer and the one that lost", () => {
  const chain = [
    "pack.warn-at: on Jug what Habits says counts",
    "Base:4: warn-at 3.6 V/cell · replaced by Habits, line 4 · “as it came”",
    "Habits:4: warn-at 3.5 V/cell · counts · “rings earlier”",
  ];
  const jug = { ...MORE, "jug.fettle": head };
  const from = (name: string, text: string, at: string) => {
    const { workspace, position } = atCursor(text.replace(at, `${at}|`), jug);
    return originOf(workspace, `/shed/${name}`, position, undefined);
  };
  expect(shown(`${head}pack\n  drop |warn-at\n  cells 4\n`, MORE)).toEqual([
    "pack.warn-at: nothing counts on Jug",
    chain[1],
    "Habits:4: warn-at 3.5 V/cell · dropped by Jug, line 5 · “rings earlier”",
    "Jug:5: drop warn-at · takes back what stands above",
    "override",
  ]);
  for (const [name, text] of Object.entries(MORE)) {
    const origin = from(name, text, "warn-at");
    expect(origin.kind === "origin" && origin.steps.map(({ state }) => state)).toEqual([
      "replaced by Habits, line 4",
      "counts",
    ]);
    expect(origin.kind === "origin" && origin.actions.map(({ kind }) => kind)).toEqual(["override", "inline"]);
  }
});

test("fields merge one by one, and one field has a chain of its own", () => {
  expect(shown(`${head}gains\n  ro|ll p 45\n`, MORE)).toEqual([
    "gains.roll: on Jug what Habits and Jug say counts",
    "Base:7: roll p 40  i 50 · replaced by Jug, line 5",
    "Habits:6: roll i 55 · counts",
    "Jug:5: roll p 45 · counts",
    "move extract",
  ]);
  expect(shown(`${head}gains\n  roll d 30 i| 60\n`, MORE)).toEqual([
    "gains.roll.i: on Jug its own line counts",
    "Base:7: roll p 40  i 50 · replaced by Habits, line 6",
    "Habits:6: roll i 55 · replaced by Jug, line 5",
    "Jug:5: roll d 30  i 60 · counts",
    "move extract",
  ]);
  expect(shown(`${head}gains\n  roll d| 30\n`, MORE).slice(1)).toEqual(["Jug:5: roll d 30 · counts", "move extract"]);
});

test("the lines of a mode, and of what may be said several times, go together", () => {
  expect(shown(`${head}modes\n  fin|der when TL is down\n  finder when TR is up\n`, MORE).slice(1, -1)).toEqual([
    "Base:10: finder when PB is held · dropped by Habits, line 8",
    "Habits:8: drop finder · takes back what stands above",
    "Jug:5: finder when TL is down · counts",
    "Jug:6: finder when TR is up · counts",
  ]);
  expect(shown(`${head}filters\n  drop smooth-|d\n`, MORE).slice(1, -1)).toEqual([
    "Base:12: smooth-d cut 90 Hz · dropped by Jug, line 5",
    "Base:13: smooth-d cut 120 Hz · dropped by Jug, line 5",
    "Jug:5: drop smooth-d · takes back what stands above",
  ]);
});

test("controls of the handset, kept board text, and lines with a fault", () => {
  expect(shown(`${head}controls\n  T|L switch ch7 up 1000 us down 2000 us\n`, MORE).slice(1, -1)).toEqual([
    "Wheel:8: TL switch ch5  up 1000 us  down 2000 us · replaced by Jug, line 5 · “worn at the tip”",
    "Jug:5: TL switch ch7  up 1000 us  down 2000 us · counts",
  ]);
  expect(shown(`${head}verbatim "kiln"\n  ||shelf 4\n`, MORE)).toEqual([
    'verbatim "kiln": on Jug what Habits and Jug say counts',
    "Habits:10: |shelf 3 · counts",
    "Jug:5: |shelf 4 · counts",
    "move extract",
  ]);
  expect(shown(`${head}pack\n  warn|-at 4\n`, MORE).slice(0, 4)).toEqual([
    "pack.warn-at: a line with a fault: nothing counts on Jug",
    "Base:4: warn-at 3.6 V/cell · replaced by Habits, line 4 · “as it came”",
    "Habits:4: warn-at 3.5 V/cell · replaced by Jug, line 5 · “rings earlier”",
    "Jug:5: warn-at 4 · has a fault: nothing counts",
  ]);
});

test("where nothing is named, or no craft uses the file, it says so", () => {
  expect(shown('craft |"Jug"\n', {})).toEqual([
    "There is no name here: put the cursor on an entry, or on a word of a “drop”.",
  ]);
  expect(shown('layer "Alone"\npack\n  cel|ls 4\n', {})).toEqual([
    "No craft uses this file, so nothing comes of it yet: name it in one with “use”.",
  ]);
});

test("of any craft the lines that count in a chain are those of the effective entry, in their order", () => {
  const seen = { names: 0, several: 0, partial: 0, dropped: 0 };
  const at = ({ file, line }: Source) => `${file}:${line}`;
  for (let seed = 1; seed <= 300; seed++) {
    const { texts, mine } = madePair(seed);
    const workspace = workspaceOf(texts);
    const craft = workspace.craft(mine)!;
    const names = new Map<string, NamedEntry>();
    for (const { entries } of craft.scripts)
      for (const entry of entries) names.set(`${entry.section} ${entry.name}`, entry);
    for (const entry of names.values()) {
      const { section, name } = entry;
      const chain = chainOf(craft, { section, name, field: null }, workspace.catalogue);
      const live = chain.filter(({ does, counts }) => does === "says" && counts !== "no");
      const effective = effectiveEntryIn(craft, entry);
      const sources = [...new Set((effective?.sources ?? []).map(({ source }) => at(source)))];
      expect(live.map(({ source }) => at(source)).sort(), `seed ${seed} ${section}.${name}`).toEqual(sources.sort());
      for (const { fields, source, counts } of chain) {
        const of = effective?.sources.filter((each) => at(each.source) === at(source) && each.part !== "") ?? [];
        if (counts !== "no" && of.length > 0) expect([...fields].sort()).toEqual(of.map(({ part }) => part).sort());
      }
      seen.names++;
      if (new Set(chain.map(({ source }) => source.file)).size > 1) seen.several++;
      if (live.some(({ counts }) => counts === "part")) seen.partial++;
      if (chain.some(({ does, counts }) => does === "drops" && counts === "whole")) seen.dropped++;
    }
  }
  expect(seen.names).toBeGreaterThan(5000);
  for (const [what, times] of Object.entries(seen)) expect(times, what).toBeGreaterThan(100);
});

test("what was taken back counts again where the craft says it, and that is told", () => {
  const overridden = (text: string, name: string) => {
    const { workspace, position } = atCursor(BASE.replace(name, `${name}|`), { ...MORE, "jug.fettle": text });
    const made = overrideHere(workspace, "/shed/base.fettle", position, undefined);
    return made.kind === "edits" ? made.notes : made.message;
  };
  expect(overridden(head, "finder")).toEqual([
    "Line 8 of “Habits” took modes.finder back, so “Jug” had none: with this line it has it again.",
  ]);
  expect(overridden(head, "level")).toEqual([]);
});

test.each([
  ["a list", "filters", "smooth-gyro", "cut 200 Hz"],
  ["a setting", "pack", "cells", "4"],
  ["fields", "gains", "roll", "p 0.9"],
])("%s that is said ten thousand times is followed in proportion", (_, section, name, rest) => {
  const craftOf = (times: number) => {
    const text = `craft "Jug"\n${section}\n${`  ${name} ${rest}\n`.repeat(times)}`;
    return workspaceOf({ "/jug.fettle": text }).craft("/jug.fettle")!;
  };
  const follow = (times: number) => {
    const craft = craftOf(times);
    return () => chainOf(craft, { section, name, field: null }, catalogue);
  };
  expect(follow(20)().length).toBe(20);
  expectGrowth(24, { small: follow(1500), large: follow(10_000) });
});
