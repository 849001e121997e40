/** Bench lists written by hand, for what shows them. */
import type {
  BenchCheckState,
  BenchList,
  BenchPhase,
  BenchReading,
  BenchRisk,
  BenchStep,
} from "../../../shared/protocol/bench.ts";
import type { LinePlace } from "../../../shared/protocol/findings.ts";

const FILE = "craft/saucer.fettle";
const line = (number: number): LinePlace => ({ file: FILE, line: number });

/** A step of which only doing it counts, unless more is said. */
export function step(id: string, what: string, more: Partial<BenchStep> = {}): BenchStep {
  return {
    id,
    what,
    expect: null,
    caution: null,
    risk: "powered",
    due: { state: "each-time" },
    check: null,
    readings: [],
    moves: [],
    picture: null,
    from: [],
    ...more,
  };
}

/** A value to read, of which the script has nothing unless it is said. */
export function reading(name: string, what: string, more: Partial<BenchReading> = {}): BenchReading {
  return { name, what, form: "988 us to 2012 us", expected: null, text: null, at: null, ...more };
}

export function phase(name: string, title: string, steps: readonly BenchStep[], how: string | null = null): BenchPhase {
  return { name, title, how, steps };
}

export const WARNING =
  "Propellers off until the last part, and the craft where it can hurt nobody: it may arm at any step that has power.";

/** A list with these phases and nothing else. */
export function listOf(phases: readonly BenchPhase[], more: Partial<BenchList> = {}): BenchList {
  return { craft: "Saucer", file: FILE, warning: WARNING, phases, checks: [], unknown: [], ...more };
}

const never = { state: "due", why: "No day is written for it." } as const;

const STICKS = ["roll", "pitch", "throttle", "yaw"] as const;
const CORNERS = ["rear right", "front right", "rear left", "front left"] as const;

/** A list as a craft with everything has it. */
export function richList(controls = 6, motors = 4): BenchList {
  const spins: BenchRisk = "spins";
  return listOf(
    [
      phase("unpowered", "Without a pack", [
        step("unpowered.propellers", "Take all propellers off, and put them where you see them.", {
          risk: "unpowered",
        }),
        step("unpowered.antennas", "Look at the antennas of the receiver and of the video transmitter.", {
          expect: "Each is on its connector: a video transmitter without an antenna burns itself out.",
          risk: "unpowered",
        }),
        step("unpowered.short", "Measure between the two leads of the pack, plus to minus.", {
          expect: "No beep: the resistance climbs as the capacitor fills.",
          risk: "unpowered",
        }),
      ]),
      phase(
        "first-power",
        "First power",
        [
          step("first-power.limited", "Put a current limiter between pack and craft, and plug in.", {
            expect: "Its lamp flashes once and goes out. It stays bright where something is shorted: unplug at once.",
            caution: "The video transmitter heats up without wind: half a minute at a time.",
          }),
        ],
        "Stand so that you can pull the plug.",
      ),
      phase(
        "sticks",
        "Sticks",
        STICKS.map((stick, index) =>
          step(`sticks.${stick}`, `Move ${stick} to both ends and let it go.`, {
            expect: `Channel ${index + 1} moves, and no other: 978 us to 1013 us at one end, 1987 us to 2022 us at the other.`,
            check: "bench.endpoints-checked",
            due: { state: "due", why: "“channels” changed after 2026-03-15: it was AETR, and is TAER." },
            readings: [
              reading(`bench.${stick}`, `both ends of ${stick}`, {
                expected: "978 us to 2022 us",
                text: "990 us to 2010 us",
                at: line(12),
              }),
              reading(`bench.centres ${stick}`, `middle of ${stick}`, {
                form: "1500 us",
                expected: "1495 us to 1505 us",
              }),
            ],
          }),
        ),
      ),
      phase("mount", "How the board sits", [
        step("mount.tilt", "Lift the left side by hand.", {
          expect: "The horizon of the OSD falls to the left.",
          due: { state: "done", day: "2026-03-15" },
          check: "bench.mount-checked",
        }),
        step("mount.nose", "Lift the nose by hand.", {
          expect: "The horizon sinks.",
          due: { state: "done", day: "2026-03-15" },
          check: "bench.mount-checked",
        }),
      ]),
      phase(
        "switches",
        "What each switch does",
        Array.from({ length: controls }, (_, index) => [
          step(`switches.S${index + 1}.up`, `S${index + 1} to mid`, {
            expect: `On: level, recorder. Came on: level. Went off: turn-assist.`,
            picture: "switches",
            moves: [
              {
                control: `S${index + 1}`,
                to: "mid",
                on: ["level", "recorder"],
                comesOn: ["level"],
                goesOff: ["turn-assist"],
              },
            ],
            check: "bench.switches-checked",
            due: never,
          }),
          step(`switches.S${index + 1}.down`, `S${index + 1} to down`, {
            expect: `On: recorder. Went off: level.`,
            picture: "switches",
            moves: [{ control: `S${index + 1}`, to: "down", on: ["recorder"], comesOn: [], goesOff: ["level"] }],
            check: "bench.switches-checked",
            due: never,
          }),
        ]).flat(),
        "Begin with every control at rest, disarmed. One movement at a time; watch the modes on the OSD.",
      ),
      phase("arming", "Arming", [
        step("arming.tilt", "Lean the craft by 40 deg, and put TR up.", {
          expect: "It refuses: it leans more than 25 deg.",
          risk: "may-arm",
          picture: "switches",
        }),
        step("arming.once", "Level, throttle down, put TR up.", { expect: "It arms. Put TR back.", risk: "may-arm" }),
      ]),
      phase(
        "motors",
        "Motors, one at a time",
        Array.from({ length: motors }, (_, index) =>
          step(`motors.${index + 1}`, `Let motor ${index + 1} turn slowly.`, {
            expect: `The one at ${CORNERS[index % 4]} turns ${index % 2 === 0 ? "clockwise" : "anticlockwise"} seen from above. Its propeller's leading edge goes the same way.`,
            risk: spins,
            picture: "motors",
            check: "bench.motors-checked",
            due: never,
          }),
        ),
      ),
      phase("loss", "Handset off", [
        step("loss.off", "Switch the handset off while the craft is disarmed.", {
          expect: "After 0.3 s the OSD says that the signal is lost; after 1.5 s more the motors would stop.",
          risk: "may-arm",
        }),
      ]),
      phase("meters", "Meters", [
        step("meters.pack", "Measure the pack at its balance plug.", {
          readings: [
            reading("bench.pack-meter", "volts by the meter", {
              form: "24.8 V",
              expected: "within 0.1 V of what the OSD shows",
            }),
          ],
          check: "bench.meter-checked",
          due: never,
        }),
      ]),
      phase("picture", "The picture", [
        step("picture.osd", "Hold the OSD on the viewer beside ours.", {
          expect: "Every element stands where it stands here.",
          picture: "osd",
        }),
        step("picture.second", "Change to the second page.", { picture: "osd-second" }),
      ]),
      phase("outdoors", "Outdoors, propellers on", [
        step("outdoors.hover", "Hover for half a minute, and land.", {
          expect: "It holds with some 24 % throttle; the motors are warm, not hot.",
          risk: "flies",
        }),
      ]),
    ],
    {
      checks: [
        check(
          "bench.endpoints-checked",
          "ends of the sticks",
          { state: "due", why: "“channels” changed after 2026-03-15: it was AETR, and is TAER." },
          12,
        ),
        check("bench.mount-checked", "mount", { state: "done", day: "2026-03-15" }, 14),
        check("bench.switches-checked", "switches", never, null),
        check("bench.motors-checked", "motors", never, null),
        check("bench.meter-checked", "pack meter", never, null),
      ],
      unknown: [
        "The script does not say which frequency the video transmitter sends on: write “frequency” into “video”.",
        "The script does not say where motor 3 stands: write “place” into its line.",
      ],
    },
  );
}

function check(name: string, title: string, due: BenchCheckState["due"], at: number | null): BenchCheckState {
  return { name, title, due, at: at === null ? null : line(at) };
}
