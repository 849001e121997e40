import { expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";
import { wheel } from "./shed.ts";

const crock = `craft "Crock"

use "wheel.fettle"

link
  on-loss          preset
  # 5 goes up, 6 to the middle
  preset-channels  1500 us, 1500 us, 1000 us, 1500 us, 1000 us, 1500 us

modes
  arm         when TL is down
  level       when TR is mid
  lights      when TR is down
  lights-off  when KN above 1700 us
  finder      when ch12 above 1800 us

outputs
  # the lamp
  lamp  when TR is not up
`;

async function switches(...args: string[]) {
  const io = held(await folderOf({ "crock.fettle": crock, "wheel.fettle": wheel }), "");
  const status = await run(["switches", ...args], io);
  return { status, out: io.outText(), error: io.errorText() };
}

test("the object has its fixed shape", async () => {
  const { status, out } = await switches("crock.fettle", "--format", "json");
  expect(status).toBe(0);
  expect(JSON.parse(out)).toEqual({
    controls: [
      {
        name: "TL",
        kind: "switch",
        channel: 5,
        positions: [
          { name: "up", pulse: 1000, modes: [] },
          { name: "down", pulse: 2000, modes: ["arm"] },
        ],
        spans: [],
      },
      {
        name: "TR",
        kind: "switch",
        channel: 6,
        positions: [
          { name: "up", pulse: 1000, modes: [] },
          { name: "mid", pulse: 1500, modes: ["level", "outputs.lamp"] },
          { name: "down", pulse: 2000, modes: ["lights", "outputs.lamp"] },
        ],
        spans: [],
      },
      {
        name: "KN",
        kind: "dial",
        channel: 9,
        positions: [],
        spans: [
          { from: 1000, to: 1700, modes: [] },
          { from: 1701, to: 2000, modes: ["lights-off"] },
        ],
      },
    ],
    channels: [
      {
        channel: 12,
        spans: [
          { from: 1000, to: 1800, modes: [] },
          { from: 1801, to: 2000, modes: ["finder"] },
        ],
      },
    ],
    rest: { positions: { TL: "up", TR: "up" }, modes: [], possible: ["lights-off", "finder"] },
    loss: {
      modes: ["level", "outputs.lamp"],
      receiver: "preset",
      premise: "The receiver sends its presets.",
      calls: null,
      courses: [
        {
          when: null,
          phases: [
            {
              what: "Unnoticed",
              from: 0,
              to: null,
              receiver: "unnoticed",
              armed: "yes",
              words:
                "Armed. The receiver has not given up yet: no presets are sent. How long is up to the receiver, and stands in no line.",
              back: "the pilot has the craft at once.",
              lines: [{ name: "link.on-loss", text: "preset", file: expect.stringMatching(/crock\.fettle$/), line: 5 }],
              unknown: [],
            },
            {
              what: "Motors off",
              from: null,
              to: null,
              receiver: "presets",
              armed: "no",
              words: "Not armed. The presets put arm off: the motors stop, and the craft falls.",
              back: "the pilot's switch may arm it again at once.",
              lines: [expect.objectContaining({ name: "link.preset-channels", line: 7 })],
              unknown: [],
            },
          ],
        },
      ],
    },
    // TL 2 x TR 3 x KN 2 x ch12 2, each with modes of its own
    states: 24,
    clashes: [
      {
        modes: ["lights", "lights-off"],
        positions: expect.objectContaining({ TR: "down", KN: expect.any(Number) }),
      },
    ],
  });
});

test("text says what each position does, the states, rest and loss", async () => {
  const { status, out } = await switches("crock.fettle");
  expect(status).toBe(0);
  expect(out).toContain("TR  switch, channel 6\n  up    1000 us  nothing\n  mid   1500 us  level, outputs.lamp\n");
  expect(out).toContain("ch12  no control drives it\n");
  expect(out).toContain("At rest: perhaps lights-off, finder\n");
  expect(out).toContain("When the signal is lost: the receiver sends its presets: level, outputs.lamp");
  expect(out).toContain("Distinct states: 24\n");
  expect(out).toContain("Clash: lights and lights-off, with ");
});

test("text plays the lost signal phase by phase, with what all courses begin with told once", async () => {
  const io = held(
    await folderOf({
      "lid.fettle": `craft "Lid"
use "wheel.fettle"
modes
  arm when TL is down
link
  on-loss     silent
  lost-after  1 s
failsafe
  hold-for          2 s
  hold-with         level
  then              return
  then-without-fix  descend
  descend-throttle  26 %
  descend-for       20 s
  descend-level     yes
  resume-after      2 s
  rearm-needs-off   yes
navigation
  return-height  40 m
  return-climb   first
  return-speed   12 m/s
  arrival        land
safety
  arm-needs-fix  yes
finder
  after-lost  30 s
`,
      "wheel.fettle": wheel,
    }),
    "",
  );
  expect(await run(["switches", "lid.fettle"], io)).toBe(0);
  const [, told] = io.outText().split("When the signal is lost: ");
  expect(told!.split("\n\n")[0]).toBe(`the receiver falls silent, and the failsafe of the craft takes over
  0 s to 1 s   armed         The board still waits for packets: the craft flies on with its sticks as last heard.
                             signal back: the pilot has the craft at once.
  1 s to 3 s   armed         It levels itself and flies on with its throttle as it was.
                             signal back: the pilot gets the craft back after 2 s of good signal.
  With a fix:
    from 3 s     armed         It climbs on the spot to 40 m. How long depends on its height.
    then         armed         It flies home at 40 m and 12 m/s over the ground. How long depends on how far away it is.
    then         armed         It comes down at home. How long depends on its height.
    then         not armed     It has landed, and disarms.
                               signal back: the motors stay off until the arm switch has been at off.
  Without a fix:
    3 s to 23 s  armed         It comes down at 26 % throttle, levelled.
    from 23 s    not armed     The motors stop, however high it still is.
                               signal back: the motors stay off until the arm switch has been at off.
  30 s after the loss is noticed it calls by itself.`);
  expect(await run(["switches", "lid.fettle", "--format", "json"], io)).toBe(0);
  const { loss } = JSON.parse(io.outText().slice(io.outText().indexOf("\n{\n") + 1));
  expect(loss.calls).toEqual({ name: "finder.after-lost", text: "30 s", file: "lid.fettle", line: 25 });
});

test("--handset stands in for the craft's own", async () => {
  const other = await folderOf({
    "knobs.fettle": 'handset "Knobs"\n\ncontrols\n  TL  switch  ch7  down 1000 us  up 2000 us\n',
  });
  const { out } = await switches("crock.fettle", "--format", "json", "--handset", `${other}/knobs.fettle`);
  const { controls, rest } = JSON.parse(out);
  expect(controls.map(({ channel }: { channel: number }) => channel)).toEqual([7]);
  expect(rest.modes).toEqual(["arm"]);
});

test("text names the modes that it cannot know, and stretches of one pulse by that pulse", async () => {
  const io = held(
    await folderOf({
      "lid.fettle":
        'craft "Lid"\nuse "wheel.fettle"\nlink\n  two-level 9\nmodes\n  arm when TL is down\n  level when TR is midle\n  lights when KN above 1500 us\n',
      "wheel.fettle": wheel,
    }),
    "",
  );
  expect(await run(["switches", "lid.fettle"], io)).toBe(0);
  expect(io.outText()).toContain(
    "Not in this map, since a line behind it has a fault (fettle check tells which): level\n",
  );
  expect(io.outText()).toContain("KN  dial, channel 9\n  1000 us  nothing\n  2000 us  lights\n");
});

test("a dial that adjusts says what it moves, as text and as an object", async () => {
  const jug = `craft "Jug"

use "own.fettle"

modes
  arm     when TL is down
  lights  when KR above 1700 us

adjust
  overall         follows KN from 0.85 to 1.15
  throttle-limit  follows KR from 60 % to 100 %
  level-tilt      follows KR from 55 deg to 25 deg
`;
  const own = `handset "Own"

controls
  TL  switch  ch5  up 1000 us  down 2000 us
  KN  dial    ch9  2000 us to 1000 us
  KR  dial    ch10  1200 us to 1800 us
`;
  const files = { "jug.fettle": jug, "own.fettle": own };
  const io = held(await folderOf(files), "");
  await run(["switches", "jug.fettle"], io);
  expect(io.outText()).toContain(`
KN  dial, channel 9
  moves gains.overall  from 0.85 at 2000 us to 1.15 at 1000 us

KR  dial, channel 10
  1200 us to 1700 us  nothing
  1701 us to 1800 us  lights
  moves rates.throttle-limit  from 60 % at 1200 us to 100 % at 1800 us
  moves gains.level-tilt  from 55 deg at 1200 us to 25 deg at 1800 us
`);
  const json = held(await folderOf(files), "");
  await run(["switches", "jug.fettle", "--format", "json"], json);
  const { controls } = JSON.parse(json.outText());
  expect(controls[0]).not.toHaveProperty("adjusts");
  expect(controls[1].adjusts).toEqual([
    {
      setting: "gains.overall",
      from: { pulse: 2000, number: 0.85, unit: "", text: "0.85" },
      to: { pulse: 1000, number: 1.15, unit: "", text: "1.15" },
    },
  ]);
});
