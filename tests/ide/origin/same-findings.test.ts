/** On craft that fly well nothing is found that was not before, and nothing is lost, wherever their lines go. */
import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { inlineLayer } from "../../../shared/ide/origin/inline.ts";
import { extractLayer, type Moved, moveIntoLayer } from "../../../shared/ide/origin/move.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { workspaceOf } from "../../rules/check.ts";
import { scriptsIn } from "../../rules/fixtures.ts";
import type { Texts } from "../edits/scripts-edited.ts";
import { after, lines, saidBy } from "./moved.ts";

const examples = Object.fromEntries(
  ["craft", "layers", "handsets"].flatMap((folder) =>
    readdirSync(inProject(`examples/${folder}`)).map((name) => [
      `examples/${folder}/${name}`,
      readFileSync(inProject(`examples/${folder}/${name}`), "utf8"),
    ]),
  ),
);
const shelves: Texts[] = [
  examples,
  scriptsIn("shelf"),
  scriptsIn("sane"),
  ...["rack", "kitchen", "field"].map((room) => scriptsIn(`sound/${room}`)),
];

/** What is found on a craft, without the lines and files by which messages name their places. */
function found(texts: Texts, file: string): string[] {
  return findingsOf(workspaceOf(texts), file)
    .map(
      ({ code, severity, message }) =>
        `${severity} ${code} ${message.replace(/ It stands in .*/, "").replaceAll(/\(?(on |see )?\S*\.fettle:?\d*\)?|(, |on )?line \d+/g, "")}`,
    )
    .sort();
}

/** A craft full of faults: what is unusual in it is judged by its size, which a layer does not know. */
const PASTED = "examples/craft/wobbly-jug.fettle";

function held(texts: Texts, file: string, moved: Moved, what: string): boolean {
  if (moved.kind === "refused") {
    expect(moved.message, what).not.toContain("would be another craft");
    return false;
  }
  const now = after(texts, moved);
  if (file !== PASTED) {
    expect(found(now, file), what).toEqual(found(texts, file));
    for (const made of moved.creates) expect(found(now, made.file), what).toEqual([]);
  }
  const [before, then] = [workspaceOf(texts), workspaceOf(now)];
  expect(saidBy(then.craft(file)!, then), what).toBe(saidBy(before.craft(file)!, before));
  return true;
}

const craft = shelves.flatMap((texts) => {
  const workspace = workspaceOf(texts);
  return Object.keys(texts)
    .filter((file) => workspace.craft(file))
    .map((file) => [file, texts] as const);
});

test.each(craft)("%s is found the same", (file, texts) => {
  const workspace = workspaceOf(texts);
  const { script, scripts } = workspace.craft(file)!;
  const layers = scripts.filter(({ kind }) => kind === "layer");
  let made = 0;
  // From one craft to the next other sections, each of them in some craft.
  const { sections } = script.tree;
  const chosen = sections.filter((_, i) => (i + file.length) % Math.ceil(sections.length / 4) === 0);
  chosen.forEach(({ line, name, entries }, i) => {
    // One section whole, the next only in part.
    const [first, last] = [entries[0] ?? line, entries.at(-1) ?? line];
    const range = i % 2 === 0 ? lines(line) : lines(first + Math.floor((last - first) / 2), last);
    if (held(texts, file, extractLayer(workspace, file, range, "Bits"), `${name} into a new layer`)) made++;
    const layer = layers[i % Math.max(1, layers.length)];
    if (layer && held(texts, file, moveIntoLayer(workspace, file, range, layer.file), `${name} into ${layer.name}`))
      made++;
  });
  for (const { line, path } of script.uses) {
    if (held(texts, file, inlineLayer(workspace, file, line), `use "${path}" written out`)) made++;
  }
  expect(made).toBeGreaterThan(0);
});
