import fc from "fast-check";
import { expect, test } from "vitest";
import { parsePositions } from "../../../shared/ide/arming/parse-positions.ts";
import type { ArmingMoment } from "../../../shared/ide/arming/readiness.ts";
import { type Readiness, readinessOf } from "../../../shared/ide/arming/readiness.ts";
import { boardOf } from "../../../shared/logic/from-craft.ts";
import { WHEEL, workspaceOf } from "../../rules/check.ts";

const HEAD = 'craft "Jug"\nuse "wheel.fettle"\n';

function craftOf(text: string) {
  const workspace = workspaceOf({ "wheel.fettle": WHEEL, "jug.fettle": `${HEAD}${text}` });
  return { workspace, craft: workspace.craft("jug.fettle")! };
}

function ready(text: string, moment?: ArmingMoment): Readiness {
  const { craft, workspace } = craftOf(text);
  return readinessOf(craft, workspace, moment);
}

const summary = ({ armed, obstacles }: Readiness) => [armed, ...obstacles.map(({ what, state }) => `${what} ${state}`)];

const SWITCHED = `modes
  arm         when TL is down
  arm-permit  when TR is not up
`;

test("at rest both arm and its permit are obstacles, each with its line", () => {
  const found = ready(SWITCHED);
  expect(summary(found)).toEqual(["no", "modes.arm stands", "modes.arm-permit stands"]);
  expect(found.obstacles.map(({ source }) => source)).toEqual([
    { file: "jug.fettle", line: 3 },
    { file: "jug.fettle", line: 4 },
  ]);
  expect(found.obstacles[0]!.message).toBe("arm is off here: arm is on when TL is down.");
});

test("half-way between two levels, what arrives from a switch is open", () => {
  const { obstacles } = ready("link\n  two-level 6\nmodes\n  arm when TR is down\n", { positions: { TR: "mid" } });
  expect(obstacles.map(({ state, message }) => [state, message])).toEqual([
    ["open", "arm depends on TR, which may arrive as either end: arm is on when TR is down."],
  ]);
});

test("the moves are the shortest way, and following them leaves no obstacle", () => {
  const { moves, positions } = ready(SWITCHED);
  expect(moves).toEqual([
    { name: "TL", from: "up", to: "down" },
    { name: "TR", from: "up", to: "mid" },
  ]);
  const moved = { ...positions, ...Object.fromEntries(moves!.map(({ name, to }) => [name, to])) };
  expect(summary(ready(SWITCHED, { positions: moved }))).toEqual(["yes"]);
  expect(ready(SWITCHED, { positions: moved }).moves).toEqual([]);
});

test("every way is given, in words and as data", () => {
  const { ways, complete } = ready(`modes
  arm when TL is down and TR is not up
  arm when KN above 1700 us and PB is held
`);
  expect(complete).toBe(true);
  expect(ways.map(({ words }) => words).sort()).toEqual([
    "PB held, KN from 1701 us to 2000 us",
    "TL down, TR mid or down",
  ]);
  const dial = ways.flatMap(({ demands }) => demands).find(({ name }) => name === "KN");
  expect(dial).toEqual({ name: "KN", positions: [], pulses: [{ from: 1701, to: 2000 }] });
});

test("a dial that is not set decides, and says so; set, it does not", () => {
  const text = "modes\n  arm when KN above 1500 us\n";
  const open = ready(text);
  expect(summary(open)).toEqual(["depends", "modes.arm open"]);
  expect(open.obstacles[0]!.message).toContain("arm depends on KN, which may stand anywhere");
  expect(ready(text, { positions: { KN: 1501 } }).armed).toBe("yes");
  expect(ready(text, { positions: { KN: 1500 } }).armed).toBe("no");
});

test("a craft that is armed whatever happens needs no move", () => {
  const { armed, moves, ways } = ready("modes\n  arm when always\n");
  expect([armed, moves, ways.map(({ words }) => words)]).toEqual(["yes", [], ["whatever the controls do"]]);
});

test("a condition that nothing makes true has no move and no way", () => {
  const { armed, moves, ways, obstacles } = ready("modes\n  arm when TL is down and TL is up\n");
  expect([armed, moves, ways]).toEqual(["no", null, []]);
  expect(obstacles[0]!.message).toContain("no position of the controls makes that so");
});

test("without a mode “arm” nothing arms, except the sticks where they may", () => {
  expect(summary(ready("modes\n  level when TR is mid\n"))).toEqual(["no", "modes.arm stands"]);
  const sticks = ready("safety\n  stick-arming yes\n");
  expect(summary(sticks)).toEqual(["depends", "modes.arm open"]);
  expect(sticks.ways.map(({ words }) => words)).toEqual(["the sticks held in a corner (stick-arming)"]);
  expect(summary(ready("modes\n  arm when TL is down\n\nsafety\n  stick-arming yes\n"))).toEqual([
    "depends",
    "modes.arm open",
  ]);
});

test("a faulty line leaves open whether the craft is armed", () => {
  const found = ready("modes\n  arm when TL is dwn\n");
  expect(summary(found)).toEqual(["depends", "modes.arm open"]);
  expect([found.moves, found.ways, found.complete]).toEqual([null, [], false]);
});

test("the throttle must be below the limit: at it is not below it", () => {
  const text = `${SWITCHED}\nsafety\n  arm-throttle-limit 1060 us\n`;
  const on = { positions: { TL: "down", TR: "mid" } };
  expect(summary(ready(text, on))).toEqual(["depends", "safety.arm-throttle-limit open"]);
  expect(summary(ready(text, { ...on, throttleUs: 1060 }))).toEqual(["no", "safety.arm-throttle-limit stands"]);
  expect(summary(ready(text, { ...on, throttleUs: 1059 }))).toEqual(["yes"]);
});

test("a stick measured above the limit is an obstacle before anybody moves it", () => {
  const text =
    "safety\n  arm-throttle-limit 1020 us\n\nbench\n  throttle 1040 us to 2000 us\n\nmodes\n  arm when always\n";
  const found = ready(text);
  expect(summary(found)).toEqual(["no", "safety.arm-throttle-limit stands"]);
  expect(found.obstacles[0]!.message).toContain("no lower than 1040 us");
});

test("the tilt may reach its limit and not pass it; “any” is no limit", () => {
  const text = (limit: string) => `modes\n  arm when always\n\nsafety\n  arm-tilt-limit ${limit}\n`;
  expect(summary(ready(text("30 deg")))).toEqual(["depends", "safety.arm-tilt-limit open"]);
  expect(summary(ready(text("30 deg"), { tiltDeg: 30 }))).toEqual(["yes"]);
  expect(summary(ready(text("30 deg"), { tiltDeg: 30.5 }))).toEqual(["no", "safety.arm-tilt-limit stands"]);
  expect(summary(ready(text("any"), { tiltDeg: 170 }))).toEqual(["yes"]);
});

test("what only the field knows is open, and a hold takes time", () => {
  const text = `modes
  arm when always

safety
  arm-needs-fix         yes
  arm-needs-still       yes
  arm-needs-cell-volts  3.8 V/cell
  arm-on-cable          no
  arm-hold              0.3 s
`;
  const found = ready(text);
  expect(summary(found)).toEqual([
    "depends",
    "safety.arm-needs-fix open",
    "safety.arm-needs-still open",
    "safety.arm-needs-cell-volts open",
    "safety.arm-on-cable open",
    "safety.arm-hold wait",
  ]);
  expect(found.obstacles.at(-1)!.message).toContain("300 ms");
});

test("nothing that the script does not mention is an obstacle", () => {
  expect(summary(ready("modes\n  arm when always\n"))).toEqual(["yes"]);
  expect(
    summary(
      ready(
        "modes\n  arm when always\n\nsafety\n  arm-needs-fix no\n  arm-needs-still no\n  arm-on-cable yes\n  arm-hold 0 ms\n",
      ),
    ),
  ).toEqual(["yes"]);
});

test("a condition on the throttle's channel sees the throttle, where the script says which channel that is", () => {
  const modes = "modes\n  arm when TL is down and ch3 below 1060 us\n";
  const order = "link\n  order roll pitch throttle yaw\n";
  const at = (throttleUs: number) => ({ positions: { TL: "down" }, throttleUs });
  expect(ready(`${order}\n${modes}`, at(1000)).armed).toBe("yes");
  expect(ready(`${order}\n${modes}`, at(1200)).armed).toBe("no");
  expect(ready(modes, at(1000)).armed).toBe("depends");
  expect(ready(`${order}  reversed throttle\n\n${modes}`, at(1000)).armed).toBe("depends");
});

const place = fc.record({
  TL: fc.constantFrom("up", "down"),
  TR: fc.constantFrom("up", "mid", "down"),
  PB: fc.constantFrom("rest", "held"),
  KN: fc.integer({ min: 1000, max: 2000 }),
});
const part = fc.constantFrom(
  "TL is down",
  "TL is up",
  "TR is not up",
  "TR is mid",
  "PB is held",
  "KN above 1300 us",
  "KN in 1400 us to 1600 us",
  "not TL is up",
);
const condition = fc
  .array(fc.array(part, { minLength: 1, maxLength: 3 }), { minLength: 1, maxLength: 3 })
  .map((parts) => parts.map((both) => both.join(" and ")).join(" or "));

test("property: armed is “yes” exactly where some way holds, and the moves lead there", () => {
  const having = new Map<string, number>();
  const count = (what: string) => having.set(what, (having.get(what) ?? 0) + 1);
  fc.assert(
    fc.property(condition, place, (arm, positions) => {
      const text = `modes\n  arm when ${arm}\n`;
      const found = ready(text, { positions });
      const holds = found.ways.some(({ demands }) =>
        demands.every(({ name, positions: names, pulses }) => {
          const at = positions[name as keyof typeof positions];
          return typeof at === "number" ? pulses.some(({ from, to }) => at >= from && at <= to) : names.includes(at);
        }),
      );
      expect(found.armed).toBe(holds ? "yes" : "no");
      count(found.armed);
      count(found.moves === null ? "no way" : "a way");
      if (found.moves === null) expect(found.ways).toEqual([]);
      else {
        const moved = { ...positions, ...Object.fromEntries(found.moves.map(({ name, to }) => [name, to])) };
        expect(ready(text, { positions: moved }).armed).toBe("yes");
      }
    }),
    { numRuns: 150, seed: 2026 },
  );
  expect([...having.keys()].sort()).toEqual(["a way", "no", "no way", "yes"]);
});

const readText = (text: string, ...said: string[]) => {
  const { craft, workspace } = craftOf(text);
  return parsePositions(said, boardOf(craft, workspace));
};

test.each([
  [["TL=down", "KN=1200", "ch12=1700us"], { TL: "down", KN: 1200, ch12: 1700 }],
  [["TL = down"], { TL: "down" }],
  [[], {}],
])("positions %j are read", (said, positions) => {
  expect(readText("modes\n  arm when ch12 above 1500 us\n", ...said)).toEqual({ kind: "positions", positions });
});

test.each([
  ["TL", "is no position"],
  ["=down", "is no position"],
  ["TX=down", "did you mean TL"],
  ["Zebra=down", "this craft has TL, TR, PB, KN"],
  ["TL=dwn", "TL has no position “dwn”: it has up, down"],
  ["TL=2000", "TL has no position “2000”"],
  ["KN=up", "KN takes a pulse in whole us"],
  ["KN=1500.5", "KN takes a pulse in whole us"],
  ["KN=2001", "KN goes from 1000 us to 2000 us"],
  ["ch5=1000", "ch5 is what TL drives: set TL"],
  ["ch11=1000", "no condition names ch11"],
])("%s is refused: %s", (said, why) => {
  const answer = readText("modes\n  arm when TL is down\n", said);
  expect(answer.kind === "refused" && answer.why).toContain(why);
});

test("a control that is set twice is refused", () => {
  expect(readText("", "TL=up", "TL=down")).toMatchObject({ kind: "refused", why: expect.stringContaining("twice") });
});
