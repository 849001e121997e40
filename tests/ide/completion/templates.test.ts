/** What is offered at a place, each label once; and what is written by a template is understood as it comes. */
import { describe, expect, test } from "vitest";
import { completionsAt } from "../../../shared/ide/completion/complete.ts";
import { atCursor } from "../cursor.ts";
import { edited } from "../edits/scripts-edited.ts";

const craft = (rest: string) => `craft "Jug"\nuse "wheel.fettle"\n\n${rest}`;
const layer = (rest: string) => `layer "Tune"\n\n${rest}`;
const handset = (rest: string) => `handset "Mine"\n\n${rest}`;

const TEMPLATES = ["pack, with its thresholds", "modes, from arm on", "osd, with its first elements"];
const CONTROLS = ["switch", "switch, three positions", "selector", "button", "dial"];

function offersAt(marked: string) {
  const { workspace, file, position } = atCursor(marked);
  return completionsAt(workspace, file, position);
}

/** The places, each with all templates that are offered there, in any order. */
const places: readonly (readonly [marked: string, templates: readonly string[]])[] = [
  ["|", ["craft", "layer", "handset", "dialect"]],
  ["cra|", ["craft", "layer", "handset", "dialect"]],
  ["# mine\n|\n", ["craft", "layer", "handset", "dialect"]],
  [craft("|"), TEMPLATES],
  [craft("pa|"), TEMPLATES],
  [craft("frame\n  motors 4\n\n|"), TEMPLATES],
  [craft("pack\n  cells 4\n\n|"), ["pack, named", ...TEMPLATES.slice(1)]],
  [craft('pack "Old"\n  cells 4\n\n|'), ["pack, named", ...TEMPLATES.slice(1)]],
  [craft("modes\n  arm when TL is down\n\n|"), [TEMPLATES[0]!, TEMPLATES[2]!]],
  [craft("osd\n  grid 53 x 20\n\nmodes\n  level when always\n|"), [TEMPLATES[0]!]],
  [layer("|"), TEMPLATES],
  [layer("pack\n  cells 4\n\nosd\n  grid pal\n|"), ["pack, named", TEMPLATES[1]!]],
  [handset("|"), []],
  [handset("transmitter\n  |"), []],
  [handset("controls\n  |"), CONTROLS],
  [handset("controls\n  TL switch ch5 up 1000 us down 2000 us\n  sw|"), CONTROLS],
  [handset("controls\n  TL |"), []],
  [handset("controls\n  TL switch |"), []],
  [layer("controls\n  |"), CONTROLS],
  [craft("controls\n  |"), CONTROLS],
  [craft("modes\n  |"), []],
  [craft("modes\n  when|"), []],
  [craft("modes\n  level |"), []],
  [craft("modes\n  level when |"), []],
  [craft("outputs\n  |"), []],
  [craft("osd\n  |"), []],
  [craft("osd\n  at|"), []],
  [craft("osd\n  amps |"), []],
  [craft("osd-second\n  |"), []],
  [craft("pack\n  |"), []],
  [craft("pack\n  ch|"), []],
  [craft("pack\n  cells |"), []],
  [craft("pack\n  capacity 1300 |"), []],
  [craft("filters\n  no|"), []],
  [craft("rates\n  roll |"), []],
  [craft("adjust\n  |"), []],
  [craft("ports\n  port1 |"), []],
  [craft('use "|"'), []],
  [craft("pack\n  # a note |"), []],
  [craft("pack\n  # allow |"), []],
  [craft('verbatim "D"\n  | a|'), []],
  [craft('board\n  model "pa|"'), []],
  [craft("nonsense\n  |"), []],
];

describe("templates stand where they can, and no label stands twice", () => {
  test.each(places)("%j", (marked, templates) => {
    const offers = offersAt(marked);
    expect(
      offers
        .filter(({ kind }) => kind === "snippet")
        .map(({ label }) => label)
        .sort(),
    ).toEqual([...templates].sort());
    const labels = offers.map(({ label }) => label);
    expect(labels.filter((label, i) => labels.indexOf(label) !== i)).toEqual([]);
  });

  test("of all places at which something can be offered a good many", () => {
    expect(places.length).toBeGreaterThan(30);
  });
});

/** What stands in the text when every stop is left as it is offered, and the first word taken of each list. */
function asOffered(body: string): string {
  return body
    .replaceAll(/\$\{\d+\|([^,|]*)[^}]*\|\}/g, "$1")
    .replaceAll(/\$\{\d+:([^}]*)\}/g, "$1")
    .replaceAll(/\$\d+/g, "");
}

test("a template is understood as it comes, on a channel that is free", () => {
  const seen = new Set<string>();
  for (const [marked] of places) {
    const { workspace, file, position } = atCursor(marked);
    for (const { kind, label, text, range } of completionsAt(workspace, file, position)) {
      if (kind !== "snippet" || seen.has(`${label} ${text}`)) continue;
      seen.add(`${label} ${text}`);
      const written = asOffered(text);
      // A dialect has slots of its own.
      expect(written.replaceAll("{c}", "")).not.toMatch(/\$|\{/);
      const after = edited(marked.replace("|", ""), [{ range, text: written }]);
      const script = atCursor(after).workspace.script(file)!;
      expect(script.issues.map(({ code, message }) => `${label}, ${code}: ${message}`)).toEqual([]);
    }
  }
  expect(seen.size).toBeGreaterThan(12);
});

test("a comment that accepts a finding is offered wherever a line begins", () => {
  for (const marked of [
    craft("al|"),
    craft("pack\n  al|"),
    craft("modes\n  |"),
    handset("controls\n  |"),
    layer("|"),
  ]) {
    const { workspace, file, position } = atCursor(marked);
    const allow = completionsAt(workspace, file, position).filter(({ label }) => label === "allow");
    expect(allow.map(({ text, retrigger }) => [text, retrigger])).toEqual([["# allow ", true]]);
  }
  expect(offersAt("|").map(({ label }) => label)).not.toContain("allow");
});
