/** Files that use one another in a circle: the same as by following every path from every file. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { inOneCircle } from "../../shared/model/circles.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { leadsBack } from "../../shared/model/uses.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import { findingsOf } from "../../shared/rules/engine/engine.ts";
import { expectGrowth } from "../growth.ts";

const NAMES = ["jug", "bowl", "base", "wide", "wheel", "rates"];
const catalogue = makeCatalogue();

const uses = fc.array(fc.array(fc.constantFrom(...NAMES, "gone"), { maxLength: 3 }), {
  minLength: NAMES.length,
  maxLength: NAMES.length,
});

test("each use of a file in a random workspace", () => {
  let circular = 0;
  fc.assert(
    fc.property(uses, (usesOf) => {
      const files = NAMES.map((name, i): [string, string] => [
        `/shed/${name}.fettle`,
        [`layer "${name}"`, ...usesOf[i]!.map((used) => `use "${used}.fettle"`), ""].join("\n"),
      ]);
      const workspace = makeCore(catalogue).at(memoryFiles(Object.fromEntries(files)));
      for (const [file] of files) {
        const script = workspace.script(file)!;
        for (const use of script.uses) {
          const target = workspace.target(script, use);
          if (target.kind !== "script") continue;
          const isCircular = leadsBack(workspace, script, target.script);
          if (isCircular) circular++;
          expect(inOneCircle(workspace, script, target.script), `${file}: ${use.path}`).toBe(isCircular);
        }
      }
    }),
    { seed: 16, numRuns: 500 },
  );
  expect(circular).toBeGreaterThan(500);
});

/** A craft on so many layers, one under the other. */
const deep = (count: number) => {
  const layer = (i: number) =>
    `layer "L${i}"\n${i === 0 ? "" : `\nuse "${i - 1}.fettle"\n`}\nframe\n  mass  ${400 + i} g\n`;
  const files = Object.fromEntries(Array.from({ length: count }, (_, i) => [`/shed/${i}.fettle`, layer(i)]));
  return { ...files, "/shed/jug.fettle": `craft "Jug"\n\nuse "${count - 1}.fettle"\n` };
};

test("a key in a craft on layers that lie deep takes time in proportion to them", () => {
  const typing = (count: number) => {
    const [core, files] = [makeCore(catalogue), deep(count)];
    let typed = files["/shed/jug.fettle"];
    const key = () => {
      typed += "#";
      return findingsOf(core.at(memoryFiles({ ...files, "/shed/jug.fettle": typed })), "/shed/jug.fettle");
    };
    key();
    return key;
  };
  // Following all that each layer uses would take some sixty times as long.
  expectGrowth(12, { small: typing(200), large: typing(1600) });
});
