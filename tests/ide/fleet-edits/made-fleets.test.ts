/** Changes of several craft, on workspaces made at random: nothing is touched but what is meant, and what is meant comes true. */
import { expect, test } from "vitest";
import { differencesOf } from "../../../shared/ide/compare/compare.ts";
import { makeAlike } from "../../../shared/ide/fleet-edits/alike.ts";
import { type CoreChange, withEdits } from "../../../shared/ide/fleet-edits/change-core.ts";
import { changeHabit } from "../../../shared/ide/fleet-edits/change-habit.ts";
import { habitsOf } from "../../../shared/ide/fleet-edits/habits.ts";
import type { Script } from "../../../shared/model/script.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { ALIKE_KINDS } from "../../../shared/protocol/fleet-change.ts";
import { finish } from "../../../shared/text/steps.ts";
import { expectOfPairs, workspaceOf } from "../compare/made-pairs.ts";

const RUNS = 40;

/** What is another one on each craft that is chosen, and a fault where any other craft is touched. */
function changedBy(now: Workspace, then: Workspace, change: CoreChange): Map<string, readonly string[]> | string {
  const changed = new Map<string, readonly string[]>();
  for (const file of now.view.list()) {
    const [before, after] = [now.craft(file), then.craft(file)];
    if (!before || !after) continue;
    const whats = differencesOf(before, after, now.catalogue).map(({ what }) => what);
    if (change.craft.some((craft) => craft.file === file && craft.chosen)) changed.set(file, whats);
    else if (whats.length > 0) return `${file} is left out and becomes another one in ${whats}`;
  }
  return changed;
}

function commentsIn({ tree }: Script): string[] {
  return tree.lines.flatMap(({ text, comment }) => (comment ? [text.slice(comment.start, comment.end)] : []));
}

test("others made like one: all that is chosen is the same then, and no craft is touched that is left out", () => {
  let made = 0;
  expectOfPairs(RUNS, ({ texts, mine, theirs }) => {
    const workspace = workspaceOf(texts);
    for (const [example, leftOut] of [
      [theirs, null],
      [mine, []],
    ] as const) {
      const change = finish(makeAlike(workspace, { example, kinds: ALIKE_KINDS, layers: [], leftOut }));
      if (typeof change === "string") continue;
      const then = withEdits(workspace, change.files);
      const changed = changedBy(workspace, then, change);
      if (typeof changed === "string") return changed;
      const like = workspace.craft(example)!;
      for (const file of changed.keys()) {
        const row = change.craft.find((craft) => craft.file === file)!;
        const open = new Set(differencesOf(then.craft(file)!, like, workspace.catalogue).map(({ what }) => what));
        const missed = row.lines.filter(({ what, choice }) => choice === "chosen" && open.has(what));
        if (missed.length > 0) return `${file} still differs in ${missed.map(({ what }) => what)}`;
        made++;
      }
    }
    return null;
  });
  expect(made).toBeGreaterThan(25);
});

test("a habit changed: the mode means something else on each chosen craft, no other is touched, and no comment is lost", () => {
  let made = 0;
  expectOfPairs(RUNS, ({ texts }) => {
    const workspace = workspaceOf(texts);
    for (const { file: handset, modes, tests } of finish(habitsOf(workspace)))
      for (const { name } of modes) {
        const change = finish(
          changeHabit(workspace, { handset, mode: name, from: null, to: tests.at(-1) ?? "always", leftOut: [] }),
        );
        if (typeof change === "string") return `${name}: ${change}`;
        const then = withEdits(workspace, change.files);
        const changed = changedBy(workspace, then, change);
        if (typeof changed === "string") return `${name}: ${changed}`;
        for (const { file } of change.files) {
          const left = commentsIn(then.script(file)!);
          const lost = commentsIn(workspace.script(file)!).filter((comment) => !left.includes(comment));
          if (lost.length > 0) return `${name}: ${file} loses ${lost.join(", ")}`;
        }
        for (const [file, whats] of changed) {
          if (!whats.includes(name.startsWith("outputs.") ? name : `modes.${name}`)) return `${name} stays on ${file}`;
          made++;
        }
      }
    return null;
  });
  expect(made).toBeGreaterThan(25);
});
