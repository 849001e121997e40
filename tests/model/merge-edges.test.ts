/** What is left of files laid over one another at the edges: nothing to drop, nothing said, a fault below. */
import { expect, test } from "vitest";
import { checkOnly } from "../rules/check.ts";
import { craftOf, effectiveLines } from "./effective.ts";

const over = (layer: string, craft: string) =>
  craftOf({ "a.fettle": `craft "A"\nuse "b.fettle"\n${craft}`, "b.fettle": `layer "B"\n${layer}` });

test("fields over a line with a fault are those of the later line alone", () => {
  expect(effectiveLines(over("gains\n  roll d\n", "gains\n  roll p 0.9\n"))).toEqual([
    "gains.roll: p 0.9 <- a.fettle:4",
  ]);
});

test("a section counts as there only where it is known, in its place, and was not dropped", () => {
  const craft = over("transmitter\n  band 2.4 GHz\nnonsense\n  cells 4\nlink\n  channels 8\n", "pack\n  drop all\n");
  expect([...craft.sections.keys()]).toEqual(["link"]);
});

test("a mode of one line has that line's condition, one of several has them all", () => {
  const { modes } = over("", "modes\n  arm when TL is up\n  level when TL is up\n  level when TR is up\n");
  expect(modes.get("arm")!.condition).toMatchObject({ kind: "is", control: "TL", position: "up" });
  expect(modes.get("level")!.condition).toMatchObject({ kind: "or", parts: [{ control: "TL" }, { control: "TR" }] });
});

test("“drop all” is a hint where no earlier file left anything of the section", () => {
  checkOnly(
    "drop-nothing",
    `
    craft "Jug"
    use "upper.fettle"
    pack
      drop all
    link
      drop all
           ^^^ drop-nothing
    modes
      drop all
    outputs
      drop all
           ^^^ drop-nothing
    osd
      drop all
    === upper.fettle
    layer "Upper"
    use "lower.fettle"
    link
      drop channels
    === lower.fettle
    layer "Lower"
    pack
      cells 4
    link
      channels 8
    modes
      level when TL is up
    osd
      sight at 1, 2
  `,
  );
});

test("so it is of kept lines, dialect by dialect", () => {
  checkOnly(
    "drop-nothing",
    `
    craft "Jug"
    use "base.fettle"
    verbatim "kiln"
      drop all
    verbatim "oven"
      drop all
           ^^^ drop-nothing
      | set heat = 3
    === base.fettle
    layer "Base"
    verbatim "kiln"
      | set heat = 2
  `,
  );
});

test("a name that the section cannot hold is told as unknown, and not as dropped in vain", () => {
  checkOnly(
    "drop-nothing unknown-name",
    `
    craft "Jug"
    pack
      drop sight
           ^^^^^ unknown-name
    osd
      drop cells
           ^^^^^ unknown-name
    nonsense
    ^^^^^^^^ unknown-name
      drop cells
  `,
  );
});
