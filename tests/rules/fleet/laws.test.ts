/** What holds of habits whatever is written: they go by states, and a craft that is typed needs no new count. */
import * as fc from "fast-check";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { type FileView, memoryFiles } from "../../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { makeHabitCounter, withHabits } from "../../../shared/rules/lib/fleet-habits.ts";
import { finish } from "../../../shared/text/steps.ts";
import { WHEEL } from "./handset.ts";

const core = makeCore(makeCatalogue());

/** A condition that two people may write down in two ways. */
type Made =
  | {
      readonly control: string;
      readonly position: string;
      readonly others: readonly string[];
      readonly pulseUs: number;
    }
  | { readonly join: "and" | "or"; readonly parts: readonly Made[] }
  | { readonly not: Made };

const POSITIONS: readonly (readonly [control: string, channel: number, positions: Readonly<Record<string, number>>])[] =
  [
    ["TL", 5, { up: 1000, down: 2000 }],
    ["TR", 6, { up: 1000, mid: 1500, down: 2000 }],
    ["FL", 7, { up: 1000, mid: 1500, down: 2000 }],
    ["FR", 8, { away: 1000, near: 2000 }],
    ["PB", 9, { rest: 1000, held: 2000 }],
  ];

const test_ = fc.constantFrom(
  ...POSITIONS.flatMap(([control, , positions]) =>
    Object.entries(positions).map(
      ([position, pulseUs]): Made => ({
        control,
        position,
        others: Object.keys(positions).filter((each) => each !== position),
        pulseUs,
      }),
    ),
  ),
);
const condition: fc.Arbitrary<Made> = fc.letrec<{ made: Made }>((tie) => ({
  made: fc.oneof(
    { depthSize: "small", withCrossShrink: true },
    test_,
    fc.record({
      join: fc.constantFrom("and" as const, "or" as const),
      parts: fc.array(tie("made"), { minLength: 2, maxLength: 3 }),
    }),
    fc.record({ not: tie("made") }),
  ),
})).made;

/** So few that many craft agree. */
const few = fc.constantFrom(...fc.sample(condition, { seed: 13, numRuns: 4 }));

/** As one would write it. */
function plainly(made: Made): string {
  if ("control" in made) return `${made.control} is ${made.position}`;
  if ("not" in made) return `not (${plainly(made.not)})`;
  return `(${made.parts.map(plainly).join(` ${made.join} `)})`;
}

/** The same in a roundabout way: turned round, by pulses, by what it is not. */
function roundabout(made: Made): string {
  if ("not" in made) return `not (${roundabout(made.not)})`;
  if ("join" in made) {
    const other = made.join === "and" ? "or" : "and";
    return `not (${[...made.parts]
      .reverse()
      .map((part) => `not (${roundabout(part)})`)
      .join(` ${other} `)})`;
  }
  const { control, position, others, pulseUs } = made;
  if (others.length === 1) return `${control} is not ${others[0]}`;
  const [, channel] = POSITIONS.find(([name]) => name === control)!;
  return position === "mid"
    ? `ch${channel} in ${pulseUs - 200} us to ${pulseUs + 200} us`
    : `not (${others.map((each) => `${control} is ${each}`).join(" or ")})`;
}

const craft = (name: string, lights: string) => `craft "${name}"\nuse "wheel.fettle"\nmodes\n  lights when ${lights}\n`;

function habitsIn(workspace: Workspace, file: string): string[] {
  return findingsOf(workspace, file)
    .filter(({ code }) => code === "fleet-habit")
    .map(({ message }) => message);
}

function workspaceWith(files: Readonly<Record<string, string>>): Workspace {
  const view = memoryFiles(files);
  return core.at(withHabits(view, core, view.list));
}

test("what is on in the same states is one habit, however it is written", () => {
  fc.assert(
    fc.property(condition, (made) => {
      const files = {
        "wheel.fettle": WHEEL,
        "cup.fettle": craft("Cup", plainly(made)),
        "jug.fettle": craft("Jug", plainly(made)),
        "urn.fettle": craft("Urn", roundabout(made)),
      };
      expect(habitsIn(workspaceWith(files), "urn.fettle")).toEqual([]);
    }),
    { seed: 13, numRuns: 150 },
  );
});

test("a craft as it is typed is told what it would be told if all were counted anew", () => {
  fc.assert(
    fc.property(fc.array(few, { minLength: 3, maxLength: 6 }), few, (others, typed) => {
      const files = Object.fromEntries(
        others.map((made, i) => [`craft-${i}.fettle`, craft(`Craft ${i}`, plainly(made))]),
      );
      const before = memoryFiles({ "wheel.fettle": WHEEL, ...files });
      const counted = finish(makeHabitCounter().count(before, () => core, before.list()));
      const now = { "wheel.fettle": WHEEL, ...files, "craft-0.fettle": craft("Craft 0", plainly(typed)) };
      const stale: FileView = { ...memoryFiles(now), habits: counted.of };
      const found = habitsIn(core.at(stale), "craft-0.fettle");
      expect(found).toEqual(habitsIn(workspaceWith(now), "craft-0.fettle"));
    }),
    { seed: 13, numRuns: 200 },
  );
});

test("counting again gives what a first count gives, and reads only what changed", () => {
  fc.assert(
    fc.property(
      fc.array(condition, { minLength: 3, maxLength: 6 }),
      fc.array(fc.tuple(fc.nat(), condition), { minLength: 1, maxLength: 4 }),
      (made, changes) => {
        const counter = makeHabitCounter();
        const files: Record<string, string> = { "wheel.fettle": WHEEL };
        for (const [i, each] of made.entries()) files[`craft-${i}.fettle`] = craft(`Craft ${i}`, plainly(each));
        const answers = new Map(
          Object.entries(files).map(([path, text]) => [path, { text, answer: memoryFiles(files).read(path) }]),
        );
        const view = (): FileView => ({
          ...memoryFiles(files),
          read(path) {
            const known = answers.get(path);
            if (known?.text !== files[path])
              answers.set(path, { text: files[path]!, answer: memoryFiles(files).read(path) });
            return answers.get(path)?.answer;
          },
        });
        for (const [at, change] of [[0, made[0]!] as const, ...changes]) {
          const file = `craft-${at % made.length}.fettle`;
          files[file] = craft(`Craft ${at % made.length}`, plainly(change));
          const now = view();
          let reads = 0;
          const counting = {
            ...core,
            at: (...args: Parameters<typeof core.at>) => {
              reads++;
              return core.at(...args);
            },
          };
          const again = finish(counter.count(now, () => counting, now.list()));
          const first = finish(makeHabitCounter().count(now, () => core, now.list()));
          for (const each of now.list()) {
            expect(again.of(each)?.id).toEqual(first.of(each)?.id);
            expect(again.of(each)?.votes).toEqual(first.of(each)?.votes);
          }
          if (at !== 0 || change !== made[0]) expect(reads).toBeLessThanOrEqual(1);
        }
      },
    ),
    { seed: 13, numRuns: 60 },
  );
});

test("a count is what it was made of, also while the craft are counted again", () => {
  const cup = 'craft "Cup"\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n';
  const before = memoryFiles({ "wheel.fettle": WHEEL, "bellows.fettle": WHEEL, "cup.fettle": cup });
  const now = memoryFiles({
    "wheel.fettle": WHEEL,
    "bellows.fettle": WHEEL,
    "cup.fettle": `${cup.replace("wheel", "bellows")}  turtle when TR is down\n`,
  });
  const counter = makeHabitCounter();
  const counted = finish(counter.count(before, () => core, before.list()));
  finish(counter.count(now, () => core, now.list()));
  const { handset, votes } = counted.of("cup.fettle")!;
  expect([handset, [...votes.keys()]]).toEqual(["wheel.fettle", ["arm"]]);
});
