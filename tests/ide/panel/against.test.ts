/** Two craft in the panel: what is told of both, and what holds for any two. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { differencesOf } from "../../../shared/ide/compare/compare.ts";
import { picturesOf } from "../../../shared/ide/panel/against.ts";
import { gogglesOf } from "../../../shared/ide/panel/goggles.ts";
import { panelOf } from "../../../shared/ide/panel/panel.ts";
import { switchesOf } from "../../../shared/ide/panel/switches.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import type { AgainstPictures, ElementMark } from "../../../shared/protocol/against.ts";
import type { GogglesPicture, SwitchesPicture } from "../../../shared/protocol/panel.ts";
import { pairs, shown, workspaceOf } from "../compare/made-pairs.ts";
import { againstCases, modelAgainst, toldAgainst, withFile } from "./told-against.ts";

test.each(againstCases())("$title", (each) => {
  expect(toldAgainst(each)).toBe(each.words);
});

test("there are cases of every kind", () => {
  expect(againstCases().length).toBeGreaterThan(35);
});

interface Both {
  readonly goggles: GogglesPicture | null;
  readonly switches: SwitchesPicture | null;
  readonly against: AgainstPictures;
}

function both(workspace: Workspace, here: string, there: string): Both {
  const [craft, other] = [workspace.craft(here)!, workspace.craft(there)!];
  const [goggles, switches] = [gogglesOf(craft, workspace), switchesOf(craft, workspace, undefined)];
  const against = picturesOf(
    { craft, workspace, goggles, switches, view: "numbers" },
    { workspace, craft: other, name: other.name, from: "", notes: [] },
    {},
  );
  return { goggles, switches, against };
}

/** What differs at the positions of a control, with plus and minus changed over if asked. */
function changesOf({ against }: Both, sides: "as they are" | "changed over"): string[] {
  return (against.switches?.controls ?? [])
    .flatMap(({ name, positions, spans }) =>
      [...positions, ...spans].map((place) => {
        const at = "name" in place ? place.name : [place.fromUs, place.toUs].sort((a, b) => a - b).join("-");
        const [added, gone] = sides === "as they are" ? [place.added, place.gone] : [place.gone, place.added];
        const sorted = [added, gone, place.otherwise].map((names) => [...names].sort().join(" ")).join(" | ");
        return `${name} ${at}: ${sorted}`;
      }),
    )
    .sort();
}

test("any craft differs in nothing from itself; of any two, what differs in meaning is marked, and on either side alike", () => {
  fc.assert(
    fc.property(pairs, (pair) => {
      const workspace = workspaceOf(pair.texts);
      const same = both(workspace, pair.mine, pair.mine).against;
      expect(same.goggles?.marks ?? [], shown(pair)).toEqual([]);
      expect([same.switches?.controls ?? [], same.switches?.modes ?? [], same.numbers?.words], shown(pair)).toEqual([
        [],
        [],
        [],
      ]);

      const [one, other] = [both(workspace, pair.mine, pair.theirs), both(workspace, pair.theirs, pair.mine)];
      if (one.against.goggles && other.against.goggles) {
        const changedOver = marksOf(other).map(({ name, here, there }) => ({ name, here: there, there: here }));
        expect(marksOf(one), shown(pair)).toEqual(changedOver);
      }
      if (one.against.switches && other.against.switches)
        expect(changesOf(one, "as they are"), shown(pair)).toEqual(changesOf(other, "changed over"));

      const [a, b] = [workspace.craft(pair.mine)!, workspace.craft(pair.theirs)!];
      const differences = differencesOf(a, b, workspace.catalogue);
      const whats = (kinds: readonly string[]) =>
        differences.flatMap(({ what, kind }) => (kinds.includes(kind) ? [what] : [])).sort();
      if (one.goggles && one.against.goggles) {
        const { page } = one.goggles;
        const places = whats(["osd"]).filter((what) => what.startsWith(`${page}.`));
        expect(
          marksOf(one).map(({ name }) => `${page}.${name}`),
          shown(pair),
        ).toEqual(places);
      }
      if (one.against.switches) {
        const modes = one.against.switches.modes.map(({ name }) =>
          name.startsWith("outputs.") ? name : `modes.${name}`,
        );
        expect(modes.sort(), shown(pair)).toEqual(whats(["mode", "output"]));
      }
      expect(JSON.parse(JSON.stringify(one.against)), shown(pair)).toEqual(one.against);
    }),
  );
});

function marksOf({ against }: Both): ElementMark[] {
  const byName = (a: ElementMark, b: ElementMark) => (a.name < b.name ? -1 : 1);
  return [...(against.goggles?.marks ?? [])].sort(byName);
}

test("without another side the model has no member for it, and with one that cannot be read a sentence", () => {
  const { workspace, file } = { workspace: workspaceOf({ "/a.fettle": 'craft "Jug"\n' }), file: "/a.fettle" };
  expect("against" in panelOf(workspace, file, 1)).toBe(false);
  const model = panelOf(workspace, file, 1, { against: withFile(workspace, "/gone.fettle") });
  expect(model.against).toEqual({
    kind: "none",
    message: "The file to compare with cannot be read: it may have been moved or deleted.",
  });
});

test("a layout that is previewed on the grid of there is compared there, cell by cell", () => {
  const osd = (grid: string, place: string) => `osd\n  grid ${grid}\n  flight-time at ${place}\n`;
  const model = modelAgainst({ here: osd("53 x 20", "40, 2"), there: osd("30 x 16", "20, 2"), at: {}, page: "osd" });
  expect(model.against).toMatchObject({ goggles: { marks: [{ name: "flight-time", here: "drawn", there: "drawn" }] } });
});
