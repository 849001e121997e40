/** What stands beside a suggestion and below it: each thing once, and the name not again. */
import { expect, test } from "vitest";
import { completionsAt, documentationOf } from "../../../shared/ide/completion/complete.ts";
import { atCursor } from "../cursor.ts";

const craft = (rest: string) => `craft "Jug"\nuse "wheel.fettle"\n\n${rest}`;
const { workspace: some } = atCursor("");

/** Every section's names, and the values and parts of every setting; conditions, places, controls, headers, codes. */
const places = [
  "|",
  craft("|"),
  craft("pack\n  cells 6\n\n|"),
  'handset "Mine"\n|',
  'handset "Mine"\ncontrols\n  |',
  'handset "Mine"\ncontrols\n  TL switch ch5 up 1000 |',
  'handset "Mine"\ncontrols\n  TL switch ch5 up 1000 us down 2000 us lies |',
  ...[
    "|",
    "arm |",
    "arm when |",
    "arm when TL |",
    "arm when TL is |",
    "arm when KN above |",
    "arm when ch9 above 1500 |",
  ].map((line) => craft(`modes\n  ${line}`)),
  ...["pack\n  drop |", "modes\n  drop |", "osd\n  drop |"].map(craft),
  craft("osd\n  amps at |"),
  craft("osd\n  amps at left, |"),
  craft("adjust\n  overall |"),
  craft("adjust\n  overall follows |"),
  craft("# allow |"),
  craft('use "|"'),
  ...some.catalogue.sections.flatMap(({ name, title, settings }) => [
    craft(`${name}${title === "required" ? ' "old"' : ""}\n  |`),
    ...settings.flatMap((setting) => [
      craft(`${name}\n  ${setting.name} |`),
      craft(`${name}\n  ${setting.name} 3 |`),
      ...setting.types.flatMap((type) =>
        type.is === "fields" ? type.fields.map((field) => craft(`${name}\n  ${setting.name} ${field.name} |`)) : [],
      ),
    ]),
  ]),
];

const plain = (text: string) => text.replace(/[*`_]/g, "").replace(/\s+/g, " ").trim().replace(/\.$/, "");

test("no detail is said again below, nor the label, nor any line twice", () => {
  let count = 0;
  const repeated: string[] = [];
  for (const place of places) {
    const { workspace, file, position } = atCursor(place);
    for (const { label, detail, doc } of completionsAt(workspace, file, position)) {
      count++;
      const text = plain((doc && documentationOf(workspace.catalogue, doc)) ?? "");
      const says = (what: string) => `${what}: ${place.split("\n").at(-1)} → ${label}`;
      if (detail !== "" && plain(detail) === label) repeated.push(says("the detail is the label"));
      if (detail !== "" && text.includes(plain(detail))) repeated.push(says("the detail again"));
      if (new RegExp(`^([\\w-]+\\.)?${label.replace(/[^\w-]/g, "\\$&")}( —|$)`).test(text))
        repeated.push(says("the label again"));
      const lines = ((doc && documentationOf(workspace.catalogue, doc)) ?? "")
        .split("\n")
        .filter((line) => line !== "");
      if (new Set(lines).size < lines.length) repeated.push(says("a line twice"));
    }
  }
  expect(count).toBeGreaterThan(2500);
  expect(repeated).toEqual([]);
});

test("what is told of a name is all there: one sentence beside it, the rest below", () => {
  const { workspace, file, position } = atCursor(craft("pack\n  |"));
  const offer = completionsAt(workspace, file, position).find(({ label }) => label === "warn-at");
  expect(offer?.detail).toBe("Voltage of one cell, under load, at which the craft first warns.");
  const text = documentationOf(workspace.catalogue, offer!.doc!);
  expect(text).toMatch(/^It should ring /);
  expect(text).toContain("- Takes a quantity in V/cell");
  expect(text?.match(/Kind: /g)).toHaveLength(1);
});

test("a name in a drop is of the kind that it is elsewhere", () => {
  const kinds = (line: string) => {
    const { workspace, file, position } = atCursor(craft(line));
    return new Set(completionsAt(workspace, file, position).map(({ kind }) => kind));
  };
  expect(kinds("modes\n  drop |")).toEqual(new Set(["keyword", "mode"]));
  expect(kinds("osd\n  drop |")).toEqual(new Set(["keyword", "element", "setting"]));
  expect(kinds("pack\n  drop |")).toEqual(new Set(["keyword", "setting"]));
});
