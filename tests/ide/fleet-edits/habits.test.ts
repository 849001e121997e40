/** A habit changed on many craft: what is shown of each, which lines change, and what must hold of any workspace. */
import { expect, test } from "vitest";
import { differencesOf } from "../../../shared/ide/compare/compare.ts";
import type { CoreChange } from "../../../shared/ide/fleet-edits/change-core.ts";
import { changeHabit, type HabitChange } from "../../../shared/ide/fleet-edits/change-habit.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { finish } from "../../../shared/text/steps.ts";
import { after, type Case, casesIn, textsOf, told, updateCases, workspaceOf } from "./cases.ts";

const NAME = "habits.txt";

/** `finder: PB is held -> TR is down`, and on further lines `of bellows.fettle` or `without jug saucer`. */
function askedOf({ asked }: Case): HabitChange {
  const [, mode = "", from = "", to = ""] = /^(\S+): (.*?) -> (.*)$/m.exec(asked) ?? [];
  const handset = /^of (.*)$/m.exec(asked)?.[1] ?? "wheel.fettle";
  const without = /^without(.*)$/m.exec(asked)?.[1];
  const leftOut =
    without === undefined
      ? null
      : without
          .split(" ")
          .filter(Boolean)
          .map((name) => `/shed/${name}.fettle`);
  return { handset: `/shed/${handset}`, mode, from: from === "any" ? null : from, to, leftOut };
}

function changed(each: Case, workspace: Workspace): CoreChange | string {
  return finish(changeHabit(workspace, askedOf(each)));
}

updateCases(NAME, (each) => told(changed(each, workspaceOf(each)), textsOf(each)));

test.each(casesIn(NAME))("$title", (each) => {
  expect(told(changed(each, workspaceOf(each)), textsOf(each))).toBe(each.expected);
});

test.each(casesIn(NAME))("$title: changes that on the chosen craft, what depends on it, and nothing else", (each) => {
  const [now, asked] = [workspaceOf(each), askedOf(each)];
  const change = changed(each, now);
  if (typeof change === "string") {
    expect(change).toMatch(/^[A-Z“].*\.$/);
    return;
  }
  const then = workspaceOf(each, after(change, textsOf(each)));
  const what = asked.mode.startsWith("outputs.") ? asked.mode : `modes.${asked.mode}`;
  const chosen = new Set(change.craft.flatMap(({ file, chosen: isIn }) => (isIn ? [file] : [])));
  for (const file of now.view.list()) {
    const [before, later] = [now.craft(file), then.craft(file)];
    if (!before || !later) continue;
    const whats = differencesOf(before, later, now.catalogue).map((difference) => difference.what);
    if (!chosen.has(file)) expect(whats, file).toEqual([]);
    else {
      expect(whats, file).toContain(what);
      const told = change.craft
        .find((craft) => craft.file === file)!
        .notes.filter((note) => note.startsWith("With it: "));
      expect(whats.length - 1, file).toBe(told.length);
    }
  }
});

/** Cases in which each changed file has one line replaced, and every craft wrote its habit alike. */
const replaced = casesIn(NAME).filter((each) => {
  const change = changed(each, workspaceOf(each));
  if (typeof change === "string" || change.files.length === 0) return false;
  const [texts, { from, to }] = [textsOf(each), askedOf(each)];
  const there = after(change, texts);
  return (
    from !== null &&
    change.files.every(({ file }) => texts[file]!.split("\n").length === there[file]!.split("\n").length) &&
    change.craft.every(({ chosen, lines: [line] }) => !chosen || (line!.before === from && line!.after === to))
  );
});

test.each(replaced)("$title: there and back gives the bytes back", (each) => {
  const asked = askedOf(each);
  const change = changed(each, workspaceOf(each)) as CoreChange;
  const texts = textsOf(each);
  const there = after(change, texts);
  const leftOut = change.craft.flatMap(({ file, chosen }) => (chosen ? [] : [file]));
  const back = finish(changeHabit(workspaceOf(each, there), { ...asked, from: asked.to, to: asked.from!, leftOut }));
  if (typeof back === "string") throw new Error(back);
  expect(after(back, there)).toEqual(texts);
});

test("most cases are such ones", () => {
  expect(replaced.length).toBeGreaterThan(12);
});
