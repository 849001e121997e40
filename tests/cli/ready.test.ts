import { beforeAll, expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";
import { shed } from "./shed.ts";

const bowl = `craft "Bowl"

use "../handsets/wheel.fettle"

modes
  arm  when TL is down

safety
  arm-throttle-limit  1060 us
  arm-tilt-limit      30 deg
`;

/** Its arm switch lies on the other side. */
const bellows = `handset "Bellows"

controls
  TL  switch  ch5  away 1000 us  down 2000 us  rests down
`;

let folder: string;
beforeAll(async () => {
  folder = await folderOf({ ...shed, "craft/bowl.fettle": bowl, "handsets/bellows.fettle": bellows });
});

async function ready(args: readonly string[], input = "") {
  const io = held(folder, input);
  const status = await run(["ready", ...args], io);
  return { status, out: io.outText(), error: io.errorText() };
}

test("the text names what stands in between, where it is said, and the way there", async () => {
  const { status, out, error } = await ready(["craft/bowl.fettle", "--throttle", "1000"]);
  expect(error).toBe("");
  expect(out).toBe(`craft    Bowl
handset  Wheel
with     TL up, TR up; throttle at 1000 us; tilt not given

Propellers off before you try any of this.

Not armed: something stands in between.
  stands      arm is off here: arm is on when TL is down. (craft/bowl.fettle:6)
  not known   The craft must be tilted by 30 deg at most, and how it lies is not given. (craft/bowl.fettle:10)

The shortest way of the controls: TL from up to down

Every way in which the controls can arm it:
  TL down
`);
  expect(status).toBe(1);
});

test("the status is 0 where nothing surely stands in between", async () => {
  const down = ["craft/bowl.fettle", "--set", "TL=down"];
  expect(await ready([...down, "--throttle", "1000", "--tilt", "3"])).toMatchObject({
    status: 0,
    out: expect.stringContaining("Armed: nothing in the script stands in between."),
  });
  expect(await ready(down)).toMatchObject({ status: 0, out: expect.stringContaining("Armed or not") });
  expect(await ready([...down, "--tilt", "40"])).toMatchObject({ status: 1 });
});

test("json holds the same as plain data, lines from 0", async () => {
  const { status, out } = await ready([
    "craft/bowl.fettle",
    "--set",
    "KN=1200",
    "--set=TR=mid",
    "--throttle=1100us",
    "--tilt=3",
    "--format=json",
  ]);
  expect(status).toBe(1);
  expect(JSON.parse(out)).toEqual({
    craft: "Bowl",
    handset: "Wheel",
    throttle: 1100,
    tilt: 3,
    positions: { TL: "up", TR: "mid", KN: 1200 },
    armed: "no",
    obstacles: [
      { what: "modes.arm", state: "stands", message: expect.any(String), file: "craft/bowl.fettle", line: 5 },
      {
        what: "safety.arm-throttle-limit",
        state: "stands",
        message: "The throttle must be below 1060 us, and it stands at 1100 us.",
        file: "craft/bowl.fettle",
        line: 8,
      },
    ],
    moves: [{ name: "TL", from: "up", to: "down" }],
    ways: [{ words: "TL down", demands: [{ name: "TL", positions: ["down"], pulses: [] }] }],
    complete: true,
  });
});

test("another handset stands in for the craft's own", async () => {
  const { status, out } = await ready([
    "craft/bowl.fettle",
    "--handset",
    "handsets/bellows.fettle",
    "--format",
    "json",
  ]);
  expect(status).toBe(0);
  expect(JSON.parse(out)).toMatchObject({ handset: "Bellows", positions: { TL: "down" }, armed: "depends", moves: [] });
});

test("where a line behind arm has a fault, no move is said to be in vain", async () => {
  const faulty = await ready(["-"], 'craft "Lid"\n\nmodes\n  arm when lights\n  lights when arm\n');
  expect(faulty.out).toContain("Which moves arm it is not known.\n");
  const never = await ready(["-"], 'craft "Lid"\n\nmodes\n  arm when not always\n');
  expect(never.out).toContain("No move of the controls arms it.\n");
});

test("standard input is read as a craft", async () => {
  const { status, out } = await ready(["-"], 'craft "Lid"\n\nmodes\n  arm when always\n');
  expect(status).toBe(0);
  expect(out).toContain("whatever the controls do");
});

test.each([
  [["--set", "TX=down"], "there is no control TX: did you mean TL"],
  [["--set", "TL=dwn"], "TL has no position “dwn”: it has up, down"],
  [["--set", "TL"], "as in TL=down"],
  [["--set"], "--set needs a value"],
  [["--throttle", "low"], "--throttle takes a number from 500 to 2500 in us, not “low”"],
  [["--throttle", "10 %"], "--throttle takes a number"],
  [["--tilt", "181"], "--tilt takes a number from 0 to 180 in deg"],
  [["--tilt", "3 us"], "in deg, not “3 us”"],
  [["--format", "sarif"], "--format is text or json"],
])("%j cannot run, and says why in one line", async (args, why) => {
  const { status, out, error } = await ready(["craft/bowl.fettle", ...args]);
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(error).toContain(why);
  expect(error.trimEnd().split("\n")).toHaveLength(1);
});

test("a handset is no craft, and a file that is not there is none either", async () => {
  expect(await ready(["handsets/wheel.fettle"])).toMatchObject({
    status: 2,
    error: expect.stringContaining("craft is expected"),
  });
  expect(await ready(["craft/no.fettle"])).toMatchObject({ status: 2, error: expect.stringContaining("no such file") });
});
