/** Which craft a file is a part of stays right while files change, come and go, and lead elsewhere. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import type { FileView } from "../../shared/model/files.ts";
import { makeUsersKeeper, type Users } from "../../shared/model/users.ts";
import { makeCore } from "../../shared/model/workspace.ts";

const NAMES = ["jug", "bowl", "base", "wide", "wheel"].map((name) => `/shed/${name}.fettle`);

interface Files {
  readonly texts: Readonly<Record<string, string>>;
  /** A path that is another name of a file, as a link is. */
  readonly links: Readonly<Record<string, string>>;
}

const use = fc.constantFrom(...NAMES, "/shed/link.fettle").map((path) => `use "${path.replace("/shed/", "")}"`);
const other = fc.constantFrom(
  "pack\n  cells 6",
  "# a note",
  "modes\n  level when TL is up",
  "use",
  'use "gone.fettle"',
);
const body = fc.array(fc.oneof(use, use, other), { maxLength: 4 }).map((lines) => `${lines.join("\n")}\n`);
const header = fc.constantFrom('craft "A"', 'craft "A"', 'layer "A"', 'layer "A"', 'handset "A"', "");
const text = fc.tuple(header, body).map((parts) => parts.join("\n"));

const step = fc.oneof(
  fc
    .tuple(fc.constantFrom(...NAMES), fc.option(text, { freq: 6 }))
    .map(([path, now]) => ({ texts, links }: Files): Files => {
      const { [path]: _, ...rest } = texts;
      return { texts: now === null ? rest : { ...rest, [path]: now }, links };
    }),
  fc.constantFrom(...NAMES).map(
    (to) =>
      ({ texts }: Files): Files => ({ texts, links: { "/shed/link.fettle": to } }),
  ),
);

function viewOf({ texts, links }: Files): FileView {
  const list = Object.keys(texts).sort();
  return {
    read: (path) =>
      texts[path] === undefined ? { kind: "missing" } : { kind: "text", text: texts[path]!, validUtf8: true },
    list: () => list,
    realPath: (path) => links[path] ?? path,
    listsUsersOf: () => true,
  };
}

const answers = (users: Users) => NAMES.map((file) => [file, users.of(file), users.partsOf(file)]);

test("what is kept is what would be found now", () => {
  /** How many craft a file had, at most, in each run. */
  const most: number[] = [];
  fc.assert(
    fc.property(fc.array(step, { minLength: 4, maxLength: 20 }), (steps) => {
      const core = makeCore(makeCatalogue());
      const keep = makeUsersKeeper();
      let files: Files = { texts: {}, links: {} };
      for (const change of steps) {
        files = change(files);
        const workspace = core.at(viewOf(files));
        const kept = answers(keep(workspace));
        expect(kept).toEqual(answers(makeUsersKeeper()(workspace)));
        most.push(Math.max(...kept.map(([, of]) => of!.length)));
      }
    }),
    { numRuns: 300, seed: 13 },
  );
  expect(Math.max(...most)).toBeGreaterThan(2);
});

test("a key in a layer leaves what is known as it is", () => {
  const core = makeCore(makeCatalogue());
  const keep = makeUsersKeeper();
  const craft = 'craft "A"\nuse "base.fettle"\n';
  const at = (base: string) =>
    keep(core.at(viewOf({ texts: { "/shed/jug.fettle": craft, "/shed/base.fettle": base }, links: {} })));
  const before = at('layer "B"\npack\n  cells 4\n');
  expect(at('layer "B"\npack\n  cells 6\n')).toBe(before);
  expect(before.of("/shed/base.fettle")).toEqual(["/shed/jug.fettle"]);
  expect(at('handset "B"\n')).not.toBe(before);
});
