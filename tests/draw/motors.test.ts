/** The motors from above as a drawing: which edge of a blade goes first, where labels stand, and the words. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { motorsScene } from "../../shared/draw/motors.ts";
import { cornerAt, motorsLayout, nextCorner, otherStorey, withMoved } from "../../shared/draw/motors-layout.ts";
import { motorsInWords, motorsTable } from "../../shared/draw/motors-words.ts";
import { blades, turningMark } from "../../shared/draw/propeller.ts";
import type { SceneNode } from "../../shared/draw/scene.ts";
import { motorsPicture } from "../../shared/ide/panel/motors.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import type { MotorsPicture } from "../../shared/protocol/motors.ts";
import { craftOf } from "../rules/motors-in-short.ts";
import { all, texts } from "./find.ts";

const core = makeCore(makeCatalogue());
function pictureOf(short: string): MotorsPicture {
  const workspace = core.at(memoryFiles({ "/jug.fettle": craftOf(short) }));
  return motorsPicture(workspace.craft("/jug.fettle")!, workspace)!;
}

const SOUND = [
  "3 tri: r cw, fl cw, fr acw",
  "4 true-x props-in: rl 3, fl 1, fr 4, rr 2",
  "4 wide-x: rl cw, fl acw, fr cw, rr acw",
  "4 stretched-x props-out: -",
  "4 plus: r cw, left acw, f cw, right acw",
  "6 hexagon: rl cw, left acw, fl cw, fr acw, right cw, rr acw",
  "6 hexagon: r cw, rl acw, fl cw, f acw, fr cw, rr acw",
  "8 octagon: rl cw, lr acw, lf cw, fl acw, fr cw, rf acw, r-r cw, rr acw",
  "8 stacked props-in: rl acw, fl cw, fr acw, rr cw, u-rl cw, u-fl acw, u-fr cw, u-rr acw",
  "6 stacked: fl cw, fr cw, r cw, u-fl acw, u-fr acw, u-r acw",
  "4 true-x props-in: -, fl, fr",
];
const FAULTY = [
  "4 true-x: rl cw 1, fl acw 2, fl cw 2, rr acw 4",
  "4 true-x: fl, fl, fl, fl",
  "-: rl cw, fl acw, fr acw, rr cw",
  "4 true-x: rl, left, fr, rr",
  "8 stacked: rl cw, fl acw, fr cw, rr acw, u-rl cw, u-fl cw",
  "12: rl cw, fl cw",
  "4 true-x: rl kettle, fl",
];
const WIDTHS = [224, 300, 460];

/** The numbers of a path by pairs. */
function points({ attributes }: SceneNode): [number, number][] {
  const found = String(attributes.d)
    .match(/-?\d+(\.\d+)?/g)!
    .map(Number);
  return found.flatMap((x, index) => (index % 2 === 0 ? [[x, found[index + 1]!] as [number, number]] : []));
}

test("of a blade that points ahead the thick edge is on the right where it turns clockwise, else on the left", () => {
  // Straight ahead is up on the screen; a propeller's first blade stands at 70 degrees from its arm.
  const ahead = Math.PI / 2 - (70 * Math.PI) / 180;
  for (const [turn, sign] of [
    ["clockwise", 1],
    ["anticlockwise", -1],
  ] as const) {
    const [blade, edge] = blades({ x: 0, y: 0 }, { from: 10, to: 50 }, ahead, turn, "said");
    expect(points(edge!).every(([x, y]) => x * sign > 0 && y < 0)).toBe(true);
    // The other edge is the thin one, close to the blade's own line.
    const [most, least] = [
      Math.max(...points(blade!).map(([x]) => x * sign)),
      Math.min(...points(blade!).map(([x]) => x * sign)),
    ];
    expect(most).toBeGreaterThan(1.5 * -least);
    expect(String(blade!.attributes.class)).toContain(turn === "clockwise" ? "filled" : "open");
  }
});

test("the mark on the rim ends where the blades go", () => {
  // Above the circle: clockwise is to the right there.
  for (const [turn, sign] of [
    ["clockwise", 1],
    ["anticlockwise", -1],
  ] as const) {
    const mark = turningMark({ x: 0, y: 0 }, 40, Math.PI / 2, turn, "said");
    const tips = String(mark.attributes.d)
      .match(/L(-?[\d.]+) (-?[\d.]+)/g)!
      .map((each) => each.slice(1).split(" ").map(Number));
    expect(tips[1]![0]! * sign).toBeGreaterThan(25);
    expect(points(mark)[0]![0] * sign).toBeLessThan(-25);
  }
});

test.each([...SOUND, ...FAULTY])("%s: all of it lies in the drawing, and no label over a propeller", (short) => {
  const picture = pictureOf(short);
  for (const width of WIDTHS) {
    const layout = motorsLayout(picture, width);
    for (const { x, y, radius, motor } of layout.motors) {
      expect(x - radius, `${motor.number}`).toBeGreaterThanOrEqual(-0.5);
      expect(x + radius).toBeLessThanOrEqual(width + 0.5);
      expect(y - radius).toBeGreaterThanOrEqual(0);
      expect(y + radius).toBeLessThanOrEqual(layout.height);
    }
    // Propellers leave each other room, but for those that cannot stand as they are said to, and those of one arm.
    const spread = layout.motors.filter(({ motor }) => motor.place !== null);
    for (const [i, one] of spread.entries())
      for (const other of spread.slice(i + 1)) {
        if (one.motor.x === other.motor.x && one.motor.y === other.motor.y) continue;
        expect(Math.hypot(one.x - other.x, one.y - other.y)).toBeGreaterThan(one.radius + other.radius - 0.5);
      }
    const scene = motorsScene(picture, { width });
    expect(all(scene, "motor-number").flatMap(texts).sort()).toEqual(
      picture.motors.map(({ number }) => String(number)),
    );
    for (const number of all(scene, "motor-number"))
      expect(Number(number.attributes["font-size"])).toBeGreaterThanOrEqual(17);
    for (const label of all(scene, "small").filter(
      (each) => texts(each)[0] !== "forward" && each.attributes["text-anchor"] === "middle",
    )) {
      const half = (texts(label)[0]!.length * 11 * 0.54) / 2;
      const [x, y] = [Number(label.attributes.x), Number(label.attributes.y) - 4];
      expect(x - half).toBeGreaterThanOrEqual(-0.5);
      for (const spot of spread) {
        const across = Math.max(0, Math.abs(spot.x - x) - half);
        expect(Math.hypot(across, spot.y - y), texts(label)[0]).toBeGreaterThan(spot.radius - 3);
      }
    }
  }
});

test("what cannot be so is hatched, what is sound is not, and what only follows is drawn broken", () => {
  for (const short of SOUND) expect(all(motorsScene(pictureOf(short)), "motor-clash"), short).toEqual([]);
  for (const short of FAULTY.slice(0, 5))
    expect(all(motorsScene(pictureOf(short)), "motor-clash").length, short).toBeGreaterThan(0);
  const follows = motorsScene(pictureOf("4 true-x props-in: rl acw, fl, fr, rr"));
  expect(all(follows, "motor-turn").map(({ attributes }) => String(attributes.class).split(" ")[1])).toEqual([
    "said",
    "follows",
    "follows",
    "follows",
  ]);
});

test("the words have every motor, which propeller belongs on it, what is wrong and what is not said", () => {
  const words = motorsInWords(pictureOf("4 true-x props-in: rl 3, -, fr cw"));
  expect(words[0]).toBe("Motor 1 stands at rear left. It is wired to output 3.");
  expect(words[1]).toBe("Motor 2 has no corner yet.");
  expect(words[2]).toContain(
    "Motor 3 stands at front right and turns clockwise as seen from above: with a blade pointing away from you",
  );
  expect(words.join(" ")).toContain("With props-in a motor at front-right turns anticlockwise");
  const { head, rows } = motorsTable(pictureOf("4 true-x props-in: rl 3"));
  expect(head).toEqual(["motor", "corner", "turns", "thick edge", "output"]);
  expect(rows[0]).toEqual(["1", "rear left", "anticlockwise (follows)", "left", "3"]);
  expect(rows[1]).toEqual(["2", "not said", "not said", "", ""]);
});

test("an arrow key leads to the next corner that way, on the same storey", () => {
  const next = (short: string, number: number, direction: "up" | "down" | "left" | "right") =>
    nextCorner(motorsLayout(pictureOf(short), 300), number, direction)?.corner.place ?? null;
  const x = "4 true-x: rl, fl, fr, rr";
  expect([next(x, 1, "up"), next(x, 1, "right"), next(x, 1, "left"), next(x, 1, "down")]).toEqual([
    "front-left",
    "rear-right",
    null,
    null,
  ]);
  const plus = "4 plus: r, left, f, right";
  expect([next(plus, 1, "up"), next(plus, 1, "left"), next(plus, 1, "right")]).toEqual(["front", "left", "right"]);
  const eight = "8 octagon: rl, lr, lf, fl, fr, rf, r-r, rr";
  expect([next(eight, 1, "up"), next(eight, 1, "left"), next(eight, 1, "right"), next(eight, 4, "right")]).toEqual([
    "left-rear",
    "left-rear",
    "rear-right",
    "front-right",
  ]);
  const stacked = "8 stacked: rl, fl, fr, rr, u-rl, u-fl, u-fr, u-rr";
  expect(next(stacked, 5, "up")).toBe("under-front-left");
  expect(otherStorey(motorsLayout(pictureOf(stacked), 300), 5)?.corner.place).toBe("rear-left");
  // From below the frame to a corner that is free.
  expect(next("4 true-x: -, fl, fr, rr", 1, "up")).toBe("rear-left");
  expect(next("4 true-x: -, fl, fr, rr", 1, "left")).toBe(null);
});

test("by arrow keys every motor comes to every corner of its storey", () => {
  for (const short of SOUND) {
    const start = pictureOf(short);
    for (const from of start.corners.filter(({ isUnder }) => !isUnder)) {
      const reached = new Set<string>();
      const queue = [from.place];
      while (queue.length > 0) {
        const place = queue.pop()!;
        if (reached.has(place)) continue;
        reached.add(place);
        const corner = start.corners.find((each) => each.place === place)!;
        const motor = { ...start.motors[0]!, ...corner };
        const layout = motorsLayout({ ...start, motors: [motor] }, 300);
        for (const direction of ["up", "down", "left", "right"] as const) {
          const there = nextCorner(layout, motor.number, direction)?.corner.place;
          if (there !== undefined) queue.push(there);
        }
      }
      expect(reached.size, `${short} from ${from.place}`).toBe(start.corners.filter(({ isUnder }) => !isUnder).length);
    }
  }
});

test("a spot near a corner means it, one beside the frame means none", () => {
  const layout = motorsLayout(pictureOf("4 true-x: -"), 300);
  for (const { corner, x, y } of layout.corners)
    expect(cornerAt(layout, { x: x + 4, y: y - 6 })?.corner.place).toBe(corner.place);
  expect(cornerAt(layout, { x: 0, y: layout.height - 2 })).toBe(null);
});

test("what was done is drawn before the script says so, but for what will be refused", () => {
  const places = (picture: MotorsPicture) => picture.motors.map(({ place }) => place);
  const full = pictureOf("4 true-x: rl, fl, fr, rr");
  expect(places(withMoved(full, 1, "front-right"))).toEqual(["front-right", "front-left", "rear-left", "rear-right"]);
  expect(withMoved(full, 1, "rear-left")).toBe(full);
  expect(withMoved(full, 1, "kettle")).toBe(full);
  const some = pictureOf("4 true-x: -, fl, fl, rr");
  expect(places(withMoved(some, 1, "rear-left"))).toEqual(["rear-left", "front-left", "front-left", "rear-right"]);
  for (const place of ["front-left", "rear-right"]) expect(withMoved(some, 1, place)).toBe(some);
  expect(withMoved(some, 4, "front-left")).toBe(some);
});
