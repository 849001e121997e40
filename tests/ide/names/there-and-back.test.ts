/** Every name of the demo, and of workspaces made at random: another one and the old one again give the old bytes, and in between every craft is what it was. */
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { occurrencesIn } from "../../../shared/ide/names/occurrences.ts";
import { renameAt } from "../../../shared/ide/names/rename.ts";
import { isFixed, type Occurrence } from "../../../shared/ide/names/thing.ts";
import { effectiveCraft } from "../../../shared/ide/reports/effective-craft.ts";
import { switchReport } from "../../../shared/ide/reports/switch-map.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { finish } from "../../../shared/text/steps.ts";
import { workspaceOf } from "../../rules/check.ts";
import { projectFiles } from "../../tidy/sources.ts";
import { pairs } from "../compare/made-pairs.ts";
import { afterRename, placeAfter, type Texts } from "./after-rename.ts";

interface Name extends Occurrence {
  readonly file: string;
}

/** Each name that a pilot chose, once for every thing in every file. */
function namesOf(workspace: Workspace): Name[] {
  return workspace.view.list().flatMap((file) => {
    const seen = new Set<string>();
    return occurrencesIn(workspace, file).flatMap((each) => {
      const key = `${JSON.stringify(each.thing)} ${each.as}`;
      if (seen.has(key) || isFixed(each.thing) || each.thing.name === "#") return [];
      seen.add(key);
      return [{ file, ...each }];
    });
  });
}

/** The name that stands there, and one that nothing has. */
function namesAt(texts: Texts, name: Name): { readonly old: string; readonly fresh: string } {
  const line = texts[name.file]!.replace("\uFEFF", "").split(/\r\n|\n|\r/)[name.line]!;
  const old = line.slice(name.start, name.end).replace(/\\(["\\])/g, "$1");
  if (name.as === "path") return { old, fresh: old.replace(/[^/]*(\.[^./]*)$/, "zq-fresh$1") };
  if (name.as === "quoted") return { old, fresh: "Zq “fresh”" };
  const fresh = "zq".repeat(old.length).slice(0, Math.max(2, old.length));
  return { old, fresh: name.thing.kind === "control" ? fresh.toUpperCase() : fresh };
}

/** What all craft are, and all that is found, with the fresh name as the old one. */
function meaningOf(texts: Texts, old: string, fresh: string): string {
  const workspace = workspaceOf(texts);
  const all = workspace.view.list().map((file) => {
    const craft = workspace.craft(file);
    const nameOf = (path: string) => path;
    return [
      file,
      craft && effectiveCraft(craft, workspace, nameOf),
      craft && switchReport(craft, workspace.catalogue, nameOf),
      // Not the messages: they offer names that look alike.
      findingsOf(workspace, file)
        .map(({ code, range }) => `${code} ${range.start.line}`)
        .sort(),
    ];
  });
  return JSON.stringify(all).replaceAll(fresh, old);
}

/** Done, or why there was no way there; `after` looks at what is between. */
function thereAndBack(texts: Texts, name: Name, between: (after: Texts) => void = () => {}): "done" | string {
  const { old, fresh } = namesAt(texts, name);
  const start = { line: name.line, character: name.start };
  const there = finish(renameAt(workspaceOf(texts), name.file, start, fresh));
  if (there.kind === "refused") return there.message;
  const after = afterRename(texts, there);
  between(after);
  const moved = there.move?.from === name.file ? there.move.to : name.file;
  const back = finish(renameAt(workspaceOf(after), moved, placeAfter(there.edits, name.file, start), old));
  if (back.kind === "refused") throw new Error(`Not back to “${old}”: ${back.message}`);
  expect(afterRename(after, back)).toEqual(texts);
  return "done";
}

describe("the demo", () => {
  const paths = projectFiles().filter((path) => /^examples\/.*\.(fettle|txt)$/.test(path));
  const texts = Object.fromEntries(paths.map((path) => [`/shed/${path}`, readFileSync(inProject(path), "utf8")]));
  const names = namesOf(workspaceOf(texts));

  test("has hundreds of names, of every kind", () => {
    expect(names.length).toBeGreaterThan(300);
    const kinds = new Set(names.map(({ thing }) => thing.kind));
    expect([...kinds].sort()).toEqual(
      ["code", "control", "dialect", "file", "output", "pack", "part", "position", "slot"].filter((each) =>
        kinds.has(each as never),
      ),
    );
    for (const kind of ["code", "control", "file", "output", "pack", "position", "slot"]) expect(kinds).toContain(kind);
  });

  // To read a dialect takes longer: of its many names, one in twelve.
  const some = names.filter(({ file }, i) => !file.includes("/boards/") || i % 12 === 0);

  test("there and back", () => {
    const refused = some.flatMap((name) => {
      const done = thereAndBack(texts, name);
      return done === "done" ? [] : [`${name.file}:${name.line + 1} ${done}`];
    });
    expect(refused.filter((each) => !RIGHTLY.test(each))).toEqual([]);
    expect(refused.length).toBeLessThan(some.length / 20);
  });
});

/** Why a name is rightly left as it is: another line leaves open what it means, or there is no file. */
const RIGHTLY = /(It is not known whether|There is no such file)/;

/** A file whose name another has as well cannot take it again. */
function isAlone(workspace: Workspace, { file, thing }: Name): boolean {
  const own = workspace.script(file)!;
  const others = workspace.view.list().filter((each) => workspace.script(each)!.name === own.name);
  return thing.kind !== "file" || others.length === 1;
}

test("names of five hundred workspaces that are made at random, there and back", () => {
  let done = 0;
  let left = 0;
  fc.assert(
    fc.property(pairs, fc.nat(), ({ texts }, which) => {
      const workspace = workspaceOf(texts);
      const names = namesOf(workspace).filter((each) => each.as === "path" || isAlone(workspace, each));
      // Two of each, near and far: all of them would take minutes.
      for (const name of new Set([names[which % names.length]!, names[(which * 7 + 3) % names.length]!])) {
        const answer = thereAndBack(texts, name);
        if (answer === "done") done++;
        else {
          expect(answer).toMatch(RIGHTLY);
          left++;
        }
      }
    }),
    { seed: 13, numRuns: 500 },
  );
  expect(done).toBeGreaterThan(20 * left);
});

test("with another name each craft means the same, and the same is found in it", () => {
  fc.assert(
    fc.property(pairs, fc.nat(), ({ texts }, which) => {
      const names = namesOf(workspaceOf(texts)).filter(({ as }) => as === "word");
      const name = names[which % Math.max(1, names.length)];
      if (!name) return;
      const { old, fresh } = namesAt(texts, name);
      thereAndBack(texts, name, (after) => expect(meaningOf(after, old, fresh)).toBe(meaningOf(texts, old, fresh)));
    }),
    { seed: 13, numRuns: 100 },
  );
});
