/** Frames with their motors, and the picture that comes of each: corners, directions, what cannot be so, what is not said. */
import { readFileSync, writeFileSync } from "node:fs";
import fc from "fast-check";
import { expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { motorsPicture } from "../../../shared/ide/panel/motors.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import type { MotorsPicture } from "../../../shared/protocol/motors.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { ARRANGEMENTS } from "../../../shared/rules/lib/motor-arrangements.ts";
import { craftOf } from "../../rules/motors-in-short.ts";

const core = makeCore(makeCatalogue());
const JUG = "/shed/jug.fettle";

function pictureOf(files: Readonly<Record<string, string>>): MotorsPicture | null {
  const workspace = core.at(memoryFiles(files));
  return motorsPicture(workspace.craft(JUG)!, workspace);
}

/**
 * A motor as “2 front-left cw”, its direction in brackets where it follows, “!” where it cannot be so; conflicts as
 * “2-3 corner”; empty corners after “free”; what is not said by the words that the sentence begins with.
 */
function told(picture: MotorsPicture | null): string[] {
  if (!picture) return ["nothing"];
  const short = (turn: string | null) => (turn === "clockwise" ? "cw" : turn === null ? "?" : "acw");
  const taken = new Set(picture.motors.map(({ place }) => place));
  const free = picture.corners.filter(({ place }) => !taken.has(place));
  return [
    ...picture.motors.map(
      ({ number, place, direction, directionFrom, output, faults, isRead }) =>
        `${number} ${place ?? "-"} ${directionFrom === "spin" ? `(${short(direction)})` : short(direction)}${output === null ? "" : ` out ${output}`}${isRead ? "" : " unread"}${faults.length > 0 ? " !" : ""}`,
    ),
    ...(free.length === 0
      ? []
      : [
          `free: ${free.map(({ place, direction }) => (direction ? `${place} (${short(direction)})` : place)).join(", ")}`,
        ]),
    ...picture.conflicts.map(({ kind, motors }) => `${motors.join("-")} ${kind}`),
    ...picture.faults.map((fault) => `fault: ${fault.split(":")[0]!.slice(0, 40).trim()}`),
    ...picture.unknown.map((sentence) => `unknown: ${sentence.split(" is not ")[0]!.slice(0, 60).trim()}`),
  ];
}

/** Each block of the file: a craft in short, and below it what is drawn. `UPDATE_MOTORS=1` writes it anew, to be looked at. */
const PATH = inProject("tests/ide/panel/motors.txt");
const blocks = readFileSync(PATH, "utf8")
  .split("\n\n")
  .map((block) => block.trim().split("\n"))
  .filter(([first]) => first !== "" && !first!.startsWith("#"));
const cases = blocks.map(([craft, ...lines]) => [craft!, lines.map((line) => line.trim())] as const);

if (process.env.UPDATE_MOTORS)
  writeFileSync(
    PATH,
    `${["# Craft in short (tests/rules/motors-in-short.ts), and what is drawn of each.", ...cases.map(([craft]) => [craft, ...told(pictureOf({ [JUG]: craftOf(craft) })).map((line) => `  ${line}`)].join("\n"))].join("\n\n")}\n`,
  );

test.each(cases)("%s", (craft, expected) => {
  expect(told(pictureOf({ [JUG]: craftOf(craft) }))).toEqual(expected);
});

test("the file has sound frames and faulty ones", () => {
  expect(cases.length).toBeGreaterThan(40);
  expect(cases.filter(([, lines]) => lines.some((line) => line.endsWith("!"))).length).toBeGreaterThan(10);
});

const catalogue = makeCatalogue();
const words = (field: string) => {
  const type = catalogue.setting("motors", "motor1")!.types[0]!;
  const spec = type.is === "fields" ? type.fields.find(({ name }) => name === field)!.types[0]! : null;
  return spec?.is === "choice" ? spec.choices.map(({ word }) => word) : [];
};

test("every place of the catalogue has a point of its own, on the side that its name says", () => {
  const points = words("place").map((place) => {
    const picture = pictureOf({ [JUG]: `craft "Jug"\nframe\n  motors 5\nmotors\n  motor1 place ${place}\n` });
    const { x, y, isUnder } = picture!.motors[0]!;
    expect(Math.hypot(x, y)).toBeCloseTo(1, 5);
    expect(isUnder).toBe(place.startsWith("under-"));
    for (const [word, side] of [
      ["left", x < -0.3],
      ["right", x > 0.3],
      ["front", y > 0.3],
      ["rear", y < -0.3],
    ] as const)
      if (place.split("-").includes(word)) expect(side, place).toBe(true);
    return `${x} ${y} ${isUnder}`;
  });
  expect(new Set(points).size).toBe(points.length);
});

test("every arrangement is drawn as wide to the left as to the right, its arms clockwise and at distinct points", () => {
  for (const arrangement of ARRANGEMENTS)
    for (const layout of arrangement.layouts) {
      const lines = [...arrangement.places].map((place, index) => `  motor${index + 1} place ${place}`);
      const text = `craft "Jug"\nframe\n  motors ${lines.length}\n  arm-layout ${layout}\nmotors\n${lines.join("\n")}\n`;
      const picture = pictureOf({ [JUG]: text })!;
      expect(picture.faults).toEqual([]);
      const upper = picture.corners.filter(({ isUnder }) => !isUnder);
      expect(upper.map(({ place }) => place)).toEqual(arrangement.arms);
      expect(new Set(upper.map(({ x, y }) => `${x} ${y}`)).size).toBe(upper.length);
      for (const { x, y } of upper)
        expect(upper.some((each) => Math.abs(each.x + x) < 1e-5 && Math.abs(each.y - y) < 1e-5)).toBe(true);
      const angles = upper.map(({ x, y }) => Math.atan2(x, y));
      // Clockwise from the first, each further round than the one before: as a whole once round.
      const steps = angles.map((angle, i) => (angles[(i + 1) % angles.length]! - angle + 4 * Math.PI) % (2 * Math.PI));
      expect(steps.reduce((sum, step) => sum + step, 0)).toBeCloseTo(2 * Math.PI, 5);
      for (const { place, x, y } of picture.corners.filter(({ isUnder }) => isUnder))
        expect(upper).toContainEqual(expect.objectContaining({ place: place.slice("under-".length), x, y }));
    }
});

test("wide and stretched frames keep their proportions", () => {
  const front = (layout: string) =>
    pictureOf({ [JUG]: `craft "Jug"\nframe\n  motors 4\n  arm-layout ${layout}\n` })!.corners.find(
      ({ place }) => place === "front-right",
    )!;
  expect(front("true-x").x).toBeCloseTo(front("true-x").y, 5);
  expect(front("wide-x").x).toBeGreaterThan(1.2 * front("wide-x").y);
  expect(front("stretched-x").y).toBeGreaterThan(1.2 * front("stretched-x").x);
});

const motorLine = fc
  .record({
    place: fc.option(fc.constantFrom(...words("place").slice(0, 9), "under-rear-left"), { nil: null }),
    direction: fc.option(fc.constantFrom(...words("direction")), { nil: null }),
    output: fc.option(fc.integer({ min: 1, max: 5 }), { nil: null }),
  })
  .map(({ place, direction, output }) =>
    [place && `place ${place}`, direction && `direction ${direction}`, output && `output ${output}`]
      .filter(Boolean)
      .join(" "),
  );
const anyCraft = fc
  .record({
    count: fc.option(fc.integer({ min: 1, max: 12 }), { nil: null }),
    layout: fc.option(fc.constantFrom("true-x", "wide-x", "plus", "hexagon", "octagon", "stacked", "tri"), {
      nil: null,
    }),
    spin: fc.option(fc.constantFrom("props-in", "props-out", "kettle"), { nil: null }),
    motors: fc.array(motorLine, { maxLength: 8 }),
  })
  .map(({ count, layout, spin, motors }) =>
    [
      'craft "Jug"',
      "frame",
      ...(count === null ? [] : [`  motors ${count}`]),
      ...(layout === null ? [] : [`  arm-layout ${layout}`]),
      "motors",
      ...(spin === null ? [] : [`  spin ${spin}`]),
      ...motors.map((line, index) => `  motor${index + 1} ${line}`),
      "",
    ].join("\n"),
  );

test("what is shown as wrong is what the rule reports, each finding once", () => {
  const seen = new Set<string>();
  fc.assert(
    fc.property(anyCraft, (text) => {
      const reported = findingsOf(core.at(memoryFiles({ [JUG]: text })), JUG)
        .filter(({ code }) => code === "motor-layout")
        .map(({ message }) => message);
      const picture = pictureOf({ [JUG]: text });
      const unread = picture?.motors.filter(({ isRead }) => !isRead).flatMap(({ faults }) => faults) ?? [];
      const shown = [...(picture?.faults ?? []), ...(picture?.motors ?? []).flatMap(({ faults }) => faults)];
      expect(new Set(shown.filter((each) => !unread.includes(each)))).toEqual(new Set(reported));
      for (const each of picture?.conflicts ?? []) seen.add(each.kind);
      for (const motor of picture?.motors ?? []) {
        if (motor.directionFrom === null) expect(motor.direction).toBeNull();
        // What follows from the whole set is never at odds with what is said of a neighbour.
        if (motor.directionFrom === "spin")
          expect(picture!.conflicts.filter(({ kind }) => kind === "direction")).toEqual([]);
      }
    }),
    { seed: 13, numRuns: 400 },
  );
  expect([...seen].sort()).toEqual(["corner", "direction", "output"]);
});

test("a motor of a layer is known by its line there, and a field of the craft's own by the craft's", () => {
  const picture = pictureOf({
    "/shed/base.fettle": 'layer "Base"\nmotors\n  motor1 place rear-left\n  motor2 place front-left output 3\n',
    [JUG]: 'craft "Jug"\nuse "base.fettle"\nmotors\n  motor2 direction clockwise limit 80 %\n',
  })!;
  expect(picture.motors[0]!.at).toEqual({ file: "/shed/base.fettle", line: 2 });
  expect(picture.motors[1]).toMatchObject({
    place: "front-left",
    direction: "clockwise",
    directionFrom: "own",
    output: 3,
    limitPercent: 80,
    at: { file: "/shed/base.fettle", line: 3 },
  });
});

test("where a used file is missing nothing is claimed that it may make good", () => {
  const text = (use: string) =>
    `craft "Jug"\n${use}motors\n  motor1 place front-left direction clockwise\n  motor2 place front-right direction clockwise\n`;
  expect(pictureOf({ [JUG]: text("") })!.motors[1]!.faults).toHaveLength(1);
  // Six motors may stand there, of which these two turn alike.
  expect(pictureOf({ [JUG]: text('use "gone.fettle"\n') })!.motors[1]!.faults).toEqual(
    findingsOf(core.at(memoryFiles({ [JUG]: text('use "gone.fettle"\n') })), JUG)
      .filter(({ code }) => code === "motor-layout")
      .map(({ message }) => message),
  );
});
