/** Other craft made like one of them: what is shown of each, which lines change, and what must hold of any workspace. */
import { expect, test } from "vitest";
import { differencesOf } from "../../../shared/ide/compare/compare.ts";
import { type Alike, makeAlike } from "../../../shared/ide/fleet-edits/alike.ts";
import type { CoreChange } from "../../../shared/ide/fleet-edits/change-core.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { finish } from "../../../shared/text/steps.ts";
import { after, type Case, casesIn, textsOf, told, updateCases, workspaceOf } from "./cases.ts";

const NAME = "alike.txt";

/** `like jug: habits osd`, or `like jug: layers mix`; on a further line `without saucer tankard/rates.yaw`, `-` for none. */
function askedOf({ asked }: Case): Alike {
  const [, example = "", what = ""] = /^like (\S+): (.*)$/m.exec(asked) ?? [];
  const without = /^without (.*)$/m.exec(asked)?.[1];
  const words = what.split(" ");
  const isLayers = words[0] === "layers";
  const keyOf = (word: string) => {
    const [name = "", line] = word.split("/");
    return line === undefined ? `/shed/${name}.fettle` : `/shed/${name}.fettle ${line}`;
  };
  return {
    example: `/shed/${example}.fettle`,
    kinds: isLayers ? [] : (words as Alike["kinds"]),
    layers: isLayers ? words.slice(1).map((name) => `/shed/${name}.fettle`) : [],
    leftOut: without === undefined ? null : without.split(" ").flatMap((word) => (word === "-" ? [] : [keyOf(word)])),
  };
}

function changed(each: Case, workspace: Workspace): CoreChange | string {
  return finish(makeAlike(workspace, askedOf(each)));
}

updateCases(NAME, (each) => told(changed(each, workspaceOf(each)), textsOf(each)));

test.each(casesIn(NAME))("$title", (each) => {
  expect(told(changed(each, workspaceOf(each)), textsOf(each))).toBe(each.expected);
});

test.each(casesIn(NAME))("$title: what is chosen is as on the example, and nothing else is touched", (each) => {
  const [now, { example }] = [workspaceOf(each), askedOf(each)];
  const change = changed(each, now);
  if (typeof change === "string") {
    expect(change).toMatch(/^[A-Z“].*\.$/);
    return;
  }
  const then = workspaceOf(each, after(change, textsOf(each)));
  const like = now.craft(example)!;
  for (const file of now.view.list()) {
    const [before, later] = [now.craft(file), then.craft(file)];
    if (!before || !later) continue;
    const row = change.craft.find((craft) => craft.file === file);
    const whats = differencesOf(before, later, now.catalogue).map(({ what }) => what);
    if (!row?.chosen) {
      expect(whats, file).toEqual([]);
      continue;
    }
    const taken = row.lines.flatMap(({ what, choice }) => (choice === "chosen" ? [what] : []));
    const open = new Set(differencesOf(later, like, now.catalogue).map(({ what }) => what));
    expect(taken.filter((what) => open.has(what))).toEqual([]);
    // What names something that is taken changes with it, and is told.
    const others = whats.filter((what) => !taken.includes(what));
    const notes = row.notes.join("\n");
    expect(others.filter((what) => !notes.includes(what))).toEqual([]);
  }
});
