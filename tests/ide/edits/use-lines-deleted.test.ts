/** `use` lines when files are deleted: which are removed, what stays of the text around them, and who goes without. */
import { describe, expect, test } from "vitest";
import { useLinesWithout } from "../../../shared/ide/edits/use-lines.ts";
import { finish } from "../../../shared/text/steps.ts";
import { applied, at, shed, type Texts, textsOf, usesOf } from "./moved-files.ts";

describe("what is left after files are deleted", () => {
  const without = (texts: Texts, ...gone: string[]) => {
    const found = finish(
      useLinesWithout(
        at(texts),
        gone.map((path) => `/shed/${path}`),
      ),
    );
    const after = Object.fromEntries(
      Object.entries(texts).map(([path, text]) => [
        path.replace("/shed/", ""),
        applied(
          text,
          found.edits.filter((edit) => edit.file === path),
        ),
      ]),
    );
    return { ...found, after };
  };

  test.each<[string, readonly string[], Record<string, readonly string[]>, readonly string[], number]>([
    [
      "a layer of two craft",
      ["layers/habits.fettle"],
      { "craft/jug.fettle": ["../handsets/wheel.fettle"], "craft/mug.fettle": [] },
      ["craft/jug.fettle", "craft/mug.fettle"],
      2,
    ],
    [
      "a layer that craft use through another",
      ["layers/tune.fettle"],
      { "layers/habits.fettle": [] },
      ["craft/jug.fettle", "craft/mug.fettle"],
      1,
    ],
    [
      "a handset",
      ["handsets/wheel.fettle"],
      { "craft/jug.fettle": ["../layers/habits.fettle"] },
      ["craft/jug.fettle"],
      1,
    ],
    [
      "a folder",
      ["layers"],
      { "craft/jug.fettle": ["../handsets/wheel.fettle"], "craft/mug.fettle": [] },
      ["craft/jug.fettle", "craft/mug.fettle"],
      2,
    ],
    [
      "two folders",
      ["layers", "handsets"],
      { "craft/jug.fettle": [], "craft/mug.fettle": [] },
      ["craft/jug.fettle", "craft/mug.fettle"],
      3,
    ],
    [
      "a layer with one of its craft",
      ["layers/habits.fettle", "craft/jug.fettle"],
      { "craft/mug.fettle": [] },
      ["craft/mug.fettle"],
      1,
    ],
    ["a craft", ["craft/jug.fettle"], {}, [], 0],
    ["what nobody uses", ["layers/spare.fettle"], {}, [], 0],
    ["everything", ["layers", "handsets", "craft"], {}, [], 0],
  ])("%s", (_, gone, expected, craft, lines) => {
    const texts = textsOf(shed);
    const found = without(texts, ...gone);
    const changed = Object.keys(texts).flatMap((path) => {
      const name = path.replace("/shed/", "");
      const uses = usesOf(found.after[name]!);
      return uses.join() === usesOf(texts[path]!).join() ? [] : [[name, uses]];
    });
    expect(Object.fromEntries(changed)).toEqual(
      Object.fromEntries(Object.entries(expected).map(([path, uses]) => [path, uses.map((use) => `"${use}"`)])),
    );
    expect([found.craft, found.lines, found.left]).toEqual([craft, lines, []]);
  });

  test.each([
    ["alone between blank lines", 'craft "J"\n\nuse "a.fettle"\n\npack\n  cells 4\n', 'craft "J"\n\npack\n  cells 4\n'],
    ["with its comment", 'craft "J"\nuse "a.fettle"  # the base\nuse "b.fettle"\n', 'craft "J"\nuse "b.fettle"\n'],
    [
      "in the middle",
      'craft "J"\n\nuse "b.fettle"\nuse "a.fettle"\nuse "b.fettle"\n',
      'craft "J"\n\nuse "b.fettle"\nuse "b.fettle"\n',
    ],
    ["twice, one after another", 'craft "J"\n\nuse "a.fettle"\nuse "a.fettle"\n\npack\n', 'craft "J"\n\npack\n'],
    ["twice, apart", 'craft "J"\nuse "a.fettle"\npack\n  cells 4\nuse "a.fettle"\n', 'craft "J"\npack\n  cells 4\n'],
    ["as the last line, without an end", 'craft "J"\nuse "a.fettle"', 'craft "J"'],
    ["with other line ends", 'craft "J"\r\n\r\nuse "a.fettle"\r\n\r\npack\r\n', 'craft "J"\r\n\r\npack\r\n'],
    ["as the only line", 'use "a.fettle"', ""],
  ])("the line %s", (_, text, expected) => {
    const texts = { "/shed/jug.fettle": text, "/shed/a.fettle": 'layer "A"\n', "/shed/b.fettle": 'layer "B"\n' };
    expect(without(texts, "a.fettle").after["jug.fettle"]).toBe(expected);
  });
});
