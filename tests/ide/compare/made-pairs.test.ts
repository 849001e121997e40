/** The made pairs hold what they are made for: every kind of value and every way in which files combine. */
import { expect, test } from "vitest";
import { catalogue } from "./made-lines.ts";
import { madePair, workspaceOf } from "./made-pairs.ts";

test("the pairs have sound values of every kind, and few lines with a fault", () => {
  const kinds = new Set<string>();
  const names = new Set<string>();
  let entries = 0;
  let faulty = 0;
  for (let seed = 1; seed <= 400; seed++) {
    const { texts } = madePair(seed);
    const workspace = workspaceOf(texts);
    for (const file of Object.keys(texts)) {
      for (const { section, name, value } of workspace.script(file)!.entries) {
        entries++;
        names.add(`${section}.${name}`);
        if (value) kinds.add(value.kind);
        else faulty++;
      }
    }
  }
  const all =
    "cell choice colour condition control date fields follows integer list order quantity range size text yes-no";
  expect([...kinds].sort().join(" ")).toBe(all);
  expect(faulty / entries).toBeGreaterThan(0.01);
  expect(faulty / entries).toBeLessThan(0.06);
  const settings = catalogue.sections.flatMap(({ name, settings: own }) => own.map((each) => `${name}.${each.name}`));
  expect(settings.filter((each) => names.has(each)).length).toBeGreaterThan(settings.length * 0.85);
});

test("the pairs have layers in layers, drops that take and drops that do not, named packs, and two handsets", () => {
  const seen = { nested: 0, dropped: 0, idle: 0, packs: 0, handsets: 0, same: 0, kept: 0, seconds: 0, merged: 0 };
  for (let seed = 1; seed <= 400; seed++) {
    const { texts, mine, theirs } = madePair(seed);
    const workspace = workspaceOf(texts);
    const [a, b] = [workspace.craft(mine)!, workspace.craft(theirs)!];
    if (a.scripts.some(({ kind, uses }) => kind === "layer" && uses.length > 0)) seen.nested++;
    if (a.removedByDrop.size > 0) seen.dropped++;
    if (a.droppedNothing.length > 0) seen.idle++;
    if (a.settings.has("pack/Winter")) seen.packs++;
    if (a.handset !== b.handset) seen.handsets++;
    else seen.same++;
    if (a.kept.length > 0) seen.kept++;
    if (a.settings.has("gains-second") || a.osdSecond.size > 0) seen.seconds++;
    const settings = [...a.settings.values()].flatMap((each) => [...each.values()]);
    if (settings.some(({ fieldSources }) => new Set([...fieldSources.values()].map(({ file }) => file)).size > 1))
      seen.merged++;
  }
  for (const [what, times] of Object.entries(seen)) expect(times, what).toBeGreaterThan(8);
});

test("a seed gives the same pair again", () => {
  expect(madePair(7)).toEqual(madePair(7));
  expect(madePair(7)).not.toEqual(madePair(8));
});
