import fc from "fast-check";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { readinessOf } from "../../../shared/ide/arming/readiness.ts";
import { lensesOf } from "../../../shared/ide/editor/lenses.ts";
import { hoverAt } from "../../../shared/ide/hover/hover.ts";
import { panelOf } from "../../../shared/ide/panel/panel.ts";
import { switchReport } from "../../../shared/ide/reports/switch-map.ts";
import { BUDGET, type WorkBudget } from "../../../shared/logic/budget.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { craft } from "../../logic/generate.ts";
import { clauses, picker, switches, TANGLED, tangledFiles } from "../../logic/tangled.ts";
import { workspaceOf } from "../check.ts";
import { textsOf, written } from "../made-craft.ts";

const CODES: ReadonlySet<string> = new Set(
  `condition-tangled condition-never condition-always mode-clash mode-overlap mode-shadowed arm-at-rest`.split(/\s+/),
);
const desk = {
  "desk.fettle": `handset "Desk"\ncontrols\n${switches(40)
    .map((line) => `  ${line}\n`)
    .join("")}`,
};
const tangle = clauses(picker(1), { count: 80, size: 3, of: 40 });

/** The findings of a craft with these lines of modes: the mode of each, its code and its message. */
function reportedFor(
  ...lines: readonly string[]
): { readonly of: string; readonly code: string; readonly message: string }[] {
  const text = `craft "Jug"\nuse "desk.fettle"\nmodes\n${lines.map((line) => `  ${line}\n`).join("")}`;
  const workspace = makeCore(makeCatalogue()).at(memoryFiles({ ...desk, "jug.fettle": text }));
  return findingsOf(workspace, "jug.fettle")
    .filter(({ code }) => CODES.has(code))
    .map(({ code, range, message }) => ({ of: lines[range.start.line - 3]!.split(" ")[0]!, code, message }));
}

test("one finding stands at the root; what is known keeps its own", () => {
  const reported = reportedFor(
    `arm when ${tangle}`,
    "recorder when arm",
    "level when not arm and S0 is down",
    "finder when S1 is up and S1 is down",
    "lights when S2 is up",
    "lights-off when S2 is up",
  );
  expect(reported.map(({ of, code }) => `${of} ${code}`)).toEqual([
    "arm condition-tangled",
    "finder condition-never",
    "lights-off mode-clash",
  ]);
  expect(reported[0]!.message).toBe(
    "arm is too tangled to follow: 240 tests of 40 controls decide it in more ways than can be gone through, so nothing is claimed of it, nor of what depends on it: recorder, level. Let fewer controls decide it, or split it into several modes that each depend on a few.",
  );
});

test("of a mode of several lines it stands on the last, once, and a note accepts it", () => {
  expect(reportedFor("level when S0 is down", `level when ${tangle}`)).toMatchObject([
    { of: "level", code: "condition-tangled" },
  ]);
  expect(reportedFor("# allow condition-tangled: a bet with Hazel", `level when ${tangle}`)).toEqual([]);
});

/** Two disjoint pairings of `of` switches can each be followed in one order; both at once take more the more there are. */
function pairs(of: number, step: number): string {
  const half = of / 2;
  return Array.from({ length: half }, (_, i) => `S${2 * i} is down and S${2 * ((i * step) % half) + 1} is down`).join(
    " or ",
  );
}

test("two conditions that can be followed, but not together, are reported at the lower-ranking one", () => {
  const lines = [`level when ${pairs(24, 1)}`, `level-blend when ${pairs(24, 5)}`];
  expect(reportedFor(...lines)).toMatchObject([{ of: "level-blend", code: "mode-overlap" }]);
  // Two conditions below the limit that are above it together are hard to write down.
  const reported = withBudget({ ...BUDGET, question: 100 }, () => reportedFor(...lines, "recorder when S0 is down"));
  expect(reported).toEqual([
    {
      of: "level-blend",
      code: "condition-tangled",
      message:
        "level and level-blend are too tangled to follow together, though each by itself is not: nothing is claimed of what they do to one another. Let them depend on the same controls in the same order, or on fewer.",
    },
  ]);
});

test("a condition that cannot be followed together with two others is reported once", () => {
  const lines = [`return-home when ${pairs(24, 1)}`, `level-now when ${pairs(24, 1)}`, `level when ${pairs(24, 5)}`];
  const reported = withBudget({ ...BUDGET, question: 100 }, () => reportedFor(...lines));
  expect(reported.map(({ of, code }) => `${of} ${code}`)).toEqual(["level condition-tangled"]);
});

test.each(TANGLED)("$title: findings in time, each tangled condition reported once", (each) => {
  const start = performance.now();
  const found = findingsOf(workspaceOf(tangledFiles(each)), "jug.fettle");
  expect(performance.now() - start).toBeLessThan(10_000);
  const reported = found.filter(({ code }) => code === "condition-tangled").map(({ range }) => range.start.line);
  expect(new Set(reported).size).toBe(reported.length);
});

test("everything that shows a set says that it is not known, and why", () => {
  const workspace = workspaceOf({
    ...desk,
    "jug.fettle": `craft "Jug"\nuse "desk.fettle"\nmodes\n  arm when ${tangle}\n  recorder when arm\n  lights when S0 is down\n`,
  });
  const jug = workspace.craft("jug.fettle")!;
  // The first four stand above the header.
  const lenses = lensesOf(workspace, "jug.fettle").slice(4);
  expect(lenses.map(({ title }) => title)).toEqual([
    "not known: its condition is too tangled to follow",
    "not known: it depends on arm, which is too tangled to follow",
    "on in 1 of 2 states; at rest: off",
  ]);
  const hoverOf = (line: number) => hoverAt(workspace, "jug.fettle", { line, character: 3 })?.markdown;
  expect(hoverOf(3)).toContain("When it is on is not known: its condition is too tangled to follow.");
  expect(hoverOf(3)).toMatch(/`when .{1,300} …`\*\* on Jug, jug\.fettle:4/);
  expect(hoverOf(4)).toContain("When it is on is not known: it depends on arm, which is too tangled to follow.");
  expect(hoverOf(5)).not.toContain("not known");
  expect(hoverAt(workspace, "desk.fettle", { line: 2, character: 3 })?.markdown).toContain(
    "Not known, their conditions being too tangled to follow: arm, recorder.",
  );
  const ready = readinessOf(jug, workspace);
  expect(ready).toMatchObject({ armed: "depends", moves: null, ways: [], complete: false });
  expect(ready.obstacles[0]?.message).toBe("When arm is on is not known: its condition is too tangled to follow.");
  expect(switchReport(jug, workspace.catalogue).tangled).toEqual(["arm", "recorder"]);
  const switchesShown = panelOf(workspace, "jug.fettle", 1).switches;
  expect(switchesShown?.state).toMatchObject({
    armed: "unknown",
    unknown: ["arm", "recorder"],
    tangled: ["arm", "recorder"],
  });
  expect(switchesShown?.modes).toMatchObject([
    { name: "arm", ways: null, tangled: "arm" },
    { name: "recorder", ways: null, tangled: "arm" },
    { name: "lights", ways: ["S0 down"] },
  ]);
});

const tiny: fc.Arbitrary<WorkBudget> = fc.record({
  condition: fc.integer({ min: 0, max: 25 }),
  craft: fc.integer({ min: 0, max: 60 }),
  test: fc.integer({ min: 0, max: 3 }),
  craftAtMost: fc.constant(100),
  variables: fc.constant(1000),
  question: fc.oneof(fc.integer({ min: 0, max: 12 }), fc.constant(1000)),
  ways: fc.constant(1000),
  states: fc.constant(1000),
  tour: fc.constant(1000),
});

/** Codes by line, of a core of its own, so that nothing is there from before. */
function foundIn(texts: Readonly<Record<string, string>>): string[] {
  const workspace = makeCore(makeCatalogue()).at(memoryFiles(texts));
  return findingsOf(workspace, "jug.fettle").map(({ code, range }) => `${range.start.line} ${code}`);
}

/** What the work gives while every craft has this budget. */
function withBudget<T>(given: WorkBudget, work: () => T): T {
  const usual = { ...BUDGET };
  Object.assign(BUDGET, given);
  try {
    return work();
  } finally {
    Object.assign(BUDGET, usual);
  }
}

test("property: with a tiny budget the rules find nothing that is not so", () => {
  const seen = { same: 0, fewer: 0 };
  fc.assert(
    fc.property(craft(4, 6), tiny, (made, given) => {
      const texts = textsOf(written(made));
      const found = withBudget(given, () => foundIn(texts));
      const exact = foundIn(texts);
      const claimed = found.filter((each) => !each.endsWith("condition-tangled"));
      expect(exact).toEqual(expect.arrayContaining(claimed));
      // No finding is lost without a message that says so.
      if (claimed.length < exact.length && given.question > 100) expect(claimed.length).toBeLessThan(found.length);
      seen[claimed.length < exact.length ? "fewer" : "same"]++;
    }),
    { numRuns: 300, seed: 11 },
  );
  for (const count of Object.values(seen)) expect(count).toBeGreaterThan(30);
});
