/** `use` lines when files are moved. Each case is a workspace, what is moved in it, and the lines that are others then. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { afterMoves, type Move, useLinesAfter } from "../../../shared/ide/edits/use-lines.ts";
import type { FileView } from "../../../shared/model/files.ts";
import { resolvePath } from "../../../shared/model/uses.ts";
import { finish } from "../../../shared/text/steps.ts";
import { applied, at, shed, type Texts, textsOf, usesOf } from "./moved-files.ts";

function moved(texts: Texts, moves: readonly Move[], more?: Partial<FileView>) {
  const { edits, left, lines } = finish(useLinesAfter(at(texts, more), moves));
  expect(lines).toBe(edits.length);
  const after = Object.fromEntries(
    Object.entries(texts).map(([path, text]) => [
      afterMoves(path, moves),
      applied(
        text,
        edits.filter((edit) => edit.file === path),
      ),
    ]),
  );
  return { after, left, lines };
}

const go = (from: string, to: string): Move => ({ from: `/shed/${from}`, to: `/shed/${to}` });

describe("what a line says after files are moved", () => {
  /** The files whose `use` lines are others then, by their new paths. */
  test.each<[string, Record<string, readonly string[]>, Move[], Record<string, readonly string[]>]>([
    [
      "a layer gets another name",
      shed,
      [go("layers/habits.fettle", "layers/mine.fettle")],
      {
        "craft/jug.fettle": ["../handsets/wheel.fettle", "../layers/mine.fettle"],
        "craft/mug.fettle": ["../layers/mine.fettle"],
      },
    ],
    [
      "a layer moves up",
      shed,
      [go("layers/habits.fettle", "habits.fettle")],
      {
        "craft/jug.fettle": ["../handsets/wheel.fettle", "../habits.fettle"],
        "craft/mug.fettle": ["../habits.fettle"],
        "habits.fettle": ["layers/tune.fettle"],
      },
    ],
    [
      "a layer moves down",
      shed,
      [go("layers/tune.fettle", "layers/of/five/tune.fettle")],
      { "layers/habits.fettle": ["of/five/tune.fettle"] },
    ],
    [
      "a layer moves beside its craft",
      shed,
      [go("layers/habits.fettle", "craft/habits.fettle")],
      {
        "craft/jug.fettle": ["../handsets/wheel.fettle", "habits.fettle"],
        "craft/mug.fettle": ["habits.fettle"],
        "craft/habits.fettle": ["../layers/tune.fettle"],
      },
    ],
    [
      "a handset gets another name",
      shed,
      [go("handsets/wheel.fettle", "handsets/Big Wheel.fettle")],
      { "craft/jug.fettle": ["../handsets/Big Wheel.fettle", "../layers/habits.fettle"] },
    ],
    ["a craft gets another name", shed, [go("craft/jug.fettle", "craft/pitcher.fettle")], {}],
    [
      "a craft moves up",
      shed,
      [go("craft/mug.fettle", "mug-craft.fettle")],
      { "mug-craft.fettle": ["layers/habits.fettle"] },
    ],
    [
      "a craft moves down",
      shed,
      [go("craft/jug.fettle", "craft/old/jug.fettle")],
      { "craft/old/jug.fettle": ["../../handsets/wheel.fettle", "../../layers/habits.fettle"] },
    ],
    ["a craft moves to a folder as deep", shed, [go("craft/mug.fettle", "craft-of-friends/mug.fettle")], {}],
    [
      "the folder of layers gets another name",
      shed,
      [go("layers", "shared")],
      {
        "craft/jug.fettle": ["../handsets/wheel.fettle", "../shared/habits.fettle"],
        "craft/mug.fettle": ["../shared/habits.fettle"],
      },
    ],
    [
      "the folder of layers moves down",
      shed,
      [go("layers", "craft/layers")],
      {
        "craft/jug.fettle": ["../handsets/wheel.fettle", "layers/habits.fettle"],
        "craft/mug.fettle": ["layers/habits.fettle"],
      },
    ],
    [
      "the folder of craft moves down",
      shed,
      [go("craft", "all/craft")],
      {
        "all/craft/jug.fettle": ["../../handsets/wheel.fettle", "../../layers/habits.fettle"],
        "all/craft/mug.fettle": ["../../layers/habits.fettle"],
      },
    ],
    [
      "two folders at once, into one",
      shed,
      [go("layers", "all/layers"), go("craft", "all/craft")],
      { "all/craft/jug.fettle": ["../../handsets/wheel.fettle", "../layers/habits.fettle"] },
    ],
    [
      "everything at once",
      shed,
      [go("layers", "all/layers"), go("craft", "all/craft"), go("handsets", "all/handsets")],
      {},
    ],
    [
      "two files at once, to different places",
      shed,
      [go("layers/habits.fettle", "habits.fettle"), go("layers/tune.fettle", "tunes/tune.fettle")],
      {
        "craft/jug.fettle": ["../handsets/wheel.fettle", "../habits.fettle"],
        "craft/mug.fettle": ["../habits.fettle"],
        "habits.fettle": ["tunes/tune.fettle"],
      },
    ],
    [
      "a layer and what it uses, together",
      shed,
      [go("layers/habits.fettle", "new/habits.fettle"), go("layers/tune.fettle", "new/tune.fettle")],
      {
        "craft/jug.fettle": ["../handsets/wheel.fettle", "../new/habits.fettle"],
        "craft/mug.fettle": ["../new/habits.fettle"],
      },
    ],
    [
      "two files change their names",
      { "craft/jug.fettle": ["../a.fettle", "../b.fettle"], "a.fettle": [], "b.fettle": [] },
      [go("a.fettle", "b.fettle"), go("b.fettle", "a.fettle")],
      { "craft/jug.fettle": ["../b.fettle", "../a.fettle"] },
    ],
    [
      "a folder, and a file in it elsewhere",
      shed,
      [go("layers", "shared"), go("layers/tune.fettle", "tune.fettle")],
      {
        "craft/jug.fettle": ["../handsets/wheel.fettle", "../shared/habits.fettle"],
        "craft/mug.fettle": ["../shared/habits.fettle"],
        "shared/habits.fettle": ["../tune.fettle"],
      },
    ],
    [
      "a file of which nothing is said",
      { ...shed, "layers/spare.fettle": [] },
      [go("layers/spare.fettle", "spare.fettle")],
      {},
    ],
    [
      "a folder whose name begins like another's",
      { "craft/jug.fettle": ["../layers-old/a.fettle"], "layers-old/a.fettle": [] },
      [go("layers", "shared")],
      {},
    ],
    [
      "a name with a quote in it",
      shed,
      [go("layers/tune.fettle", 'layers/5" tune.fettle')],
      { "layers/habits.fettle": ['5\\" tune.fettle'] },
    ],
    [
      "a name with a hash and letters of all kinds",
      shed,
      [go("layers/tune.fettle", "layers/#1 müde Größe.fettle")],
      { "layers/habits.fettle": ["#1 müde Größe.fettle"] },
    ],
    [
      "a name that had a quote",
      { "craft/jug.fettle": ['../5\\" tune.fettle'], '5" tune.fettle': [] },
      [go('5" tune.fettle', "five.fettle")],
      { "craft/jug.fettle": ["../five.fettle"] },
    ],
    [
      "a path with ./ before it keeps that",
      { "jug-craft.fettle": ["./a.fettle"], "a.fettle": [] },
      [go("a.fettle", "b.fettle")],
      { "jug-craft.fettle": ["./b.fettle"] },
    ],
    [
      "a path with ./ before it that leads up",
      { "craft/jug.fettle": ["./a.fettle"], "craft/a.fettle": [] },
      [go("craft/a.fettle", "a.fettle")],
      { "craft/jug.fettle": ["../a.fettle"] },
    ],
    [
      "a path by a detour that still leads there",
      { "craft/jug.fettle": ["../craft/../a.fettle"], "a.fettle": [] },
      [go("craft/jug.fettle", "craft/mug.fettle")],
      {},
    ],
    [
      "a path by a detour to a file of another name",
      { "craft/jug.fettle": ["../craft/../a.fettle"], "a.fettle": [] },
      [go("a.fettle", "b.fettle")],
      { "craft/jug.fettle": ["../craft/../b.fettle"] },
    ],
    [
      "a path by a detour to a file elsewhere",
      { "craft/jug.fettle": ["../craft/../a.fettle"], "a.fettle": [] },
      [go("a.fettle", "layers/a.fettle")],
      { "craft/jug.fettle": ["../layers/a.fettle"] },
    ],
    [
      "a craft whose line leads nowhere moves to where it leads somewhere",
      { "craft/jug.fettle": ["layers/habits.fettle"], "layers/habits.fettle": [] },
      [go("craft/jug.fettle", "jug-craft.fettle")],
      {},
    ],
    [
      "a missing file in a folder that moves",
      { "craft/jug.fettle": ["../layers/typo.fettle"], "layers/habits.fettle": [] },
      [go("layers", "shared")],
      { "craft/jug.fettle": ["../shared/typo.fettle"] },
    ],
    [
      "the same file named twice",
      { "craft/jug.fettle": ["../a.fettle", "../a.fettle"], "a.fettle": [] },
      [go("a.fettle", "b.fettle")],
      { "craft/jug.fettle": ["../b.fettle", "../b.fettle"] },
    ],
    [
      "files in a circle",
      { "a.fettle": ["b.fettle"], "b.fettle": ["a.fettle"] },
      [go("b.fettle", "c.fettle")],
      { "a.fettle": ["c.fettle"] },
    ],
    [
      "an absolute path is left alone",
      { "craft/jug.fettle": ["/shed/a.fettle"], "a.fettle": [] },
      [go("a.fettle", "b.fettle")],
      {},
    ],
    [
      "a file gets another ending",
      shed,
      [go("layers/tune.fettle", "layers/tune.txt")],
      { "layers/habits.fettle": ["tune.txt"] },
    ],
    [
      "a file leaves the folder of the editor",
      shed,
      [{ from: "/shed/layers/tune.fettle", to: "/attic/tune.fettle" }],
      { "layers/habits.fettle": ["../../attic/tune.fettle"] },
    ],
  ])("%s", (_, shape, moves, expected) => {
    const texts = textsOf(shape);
    const { after, left } = moved(texts, moves);
    const changed = Object.entries(texts).flatMap(([path, text]) => {
      const to = afterMoves(path, moves);
      const uses = usesOf(after[to]!);
      return uses.join() === usesOf(text).join() ? [] : [[to.replace("/shed/", ""), uses]];
    });
    expect(Object.fromEntries(changed)).toEqual(
      Object.fromEntries(Object.entries(expected).map(([path, uses]) => [path, uses.map((use) => `"${use}"`)])),
    );
    expect(left).toEqual([]);
  });

  test("line ends, comments and all other bytes stay", () => {
    const text = '\uFEFFcraft "Jug"\r\n\tuse "a.fettle"\r\nuse   "a.fettle"   # the base\r\rpack\r\n  cells 4';
    const { after } = moved({ "/shed/jug.fettle": text, "/shed/a.fettle": 'layer "A"\n' }, [
      go("a.fettle", "b/c.fettle"),
    ]);
    expect(after["/shed/jug.fettle"]).toBe(text.replace('use   "a.fettle"', 'use   "b/c.fettle"'));
  });

  test("a name that cannot stand in a line leaves the line, and says so", () => {
    const { after, left } = moved(textsOf(shed), [go("layers/tune.fettle", "layers/tu\\ne.fettle")]);
    expect(usesOf(after["/shed/layers/habits.fettle"]!)).toEqual(['"tune.fettle"']);
    expect(left).toEqual([
      "Line 3 of “layers/habits.fettle” keeps its “use”, since “/shed/layers/tu\\ne.fettle” cannot be named from there: move it, or give it another name.",
    ]);
  });

  test("a script that is not rewritten keeps its lines, and it is said", () => {
    const texts = textsOf(shed);
    const asUtf16: Partial<FileView> = {
      read: (path) => ({ kind: "text", text: texts[path] ?? "", validUtf8: !path.endsWith("mug.fettle") }),
    };
    const { left, lines } = moved(texts, [go("layers/habits.fettle", "layers/mine.fettle")], asUtf16);
    expect(lines).toBe(1);
    expect(left).toEqual([expect.stringContaining("“craft/mug.fettle” holds bytes that are no UTF-8 text")]);
  });

  test("addresses other than those of a disk are moved alike", () => {
    const root = "vscode-vfs://host/shed";
    const texts = {
      [`${root}/jug.fettle`]: 'craft "Jug"\nuse "layers/a.fettle"\n',
      [`${root}/layers/a.fettle`]: 'layer "A"\n',
    };
    const { after } = moved(texts, [{ from: `${root}/layers`, to: `${root}/shared` }]);
    expect(usesOf(after[`${root}/jug.fettle`]!)).toEqual(['"shared/a.fettle"']);
  });

  test("for any files and moves, every line that led somewhere leads to the same file after them", () => {
    const folder = fc.constantFrom("", "a/", "a/b/", "c/");
    const file = fc
      .tuple(folder, fc.constantFrom("x", "y", "z"))
      .map(([where, name]) => `/shed/${where}${name}.fettle`);
    const move = fc.record({
      from: fc.oneof(file, fc.constantFrom("/shed/a", "/shed/a/b", "/shed/c")),
      to: fc.constantFrom("/shed/n", "/shed/n/m.fettle", "/shed/a/q.fettle", "/shed/k/l/o"),
    });
    const files = fc.uniqueArray(file, { minLength: 2, maxLength: 6 });
    fc.assert(
      fc.property(
        files,
        fc.uniqueArray(move, { selector: ({ to }) => to, maxLength: 2, minLength: 1 }),
        fc.array(fc.nat(5), { minLength: 6, maxLength: 6 }),
        (paths, moves, picks) => {
          const targets = new Map(paths.map((path, i) => [path, paths[picks[i]! % paths.length]!]));
          const between = (from: string, to: string) =>
            `${"../".repeat(from.split("/").length - 3)}${to.slice("/shed/".length)}`;
          const texts = Object.fromEntries(
            paths.map((path) => [path, `layer "L"\nuse "${between(path, targets.get(path)!)}"\n`]),
          );
          const { after } = moved(texts, moves);
          for (const [path, target] of targets) {
            const now = afterMoves(path, moves);
            // Two files on one name: only one of them is left.
            if (paths.filter((each) => afterMoves(each, moves) === now).length > 1) continue;
            const [use] = usesOf(after[now]!);
            expect(resolvePath(now, use!.slice(1, -1))).toBe(afterMoves(target, moves));
          }
        },
      ),
    );
  });
});
