/** A bench list by hand, with a step of each kind. */
import type { BenchDue, BenchList, BenchStep } from "../../shared/protocol/bench.ts";

export const JUG = "file:///shed/craft/jug.fettle";
const at = (line: number) => ({ file: JUG, line });
const EACH: BenchDue = { state: "each-time" };
const WHY =
  "Done on 2026-03-15; since then what it covers has changed: motors.motor1 output from 1 to 2 (not committed yet).";

function step(some: Partial<BenchStep> & Pick<BenchStep, "id" | "what">): BenchStep {
  const nothing = { expect: null, caution: null, check: null, readings: [], moves: [], picture: null, from: [] };
  return { risk: "powered", due: EACH, ...nothing, ...some };
}

/** The day of the motors as the script has it; null where it was taken out. */
export function benchOf({ motors = "2026-03-15", roll = null as string | null, due = true } = {}): BenchList {
  const motorsDue: BenchDue = due ? { state: "due", why: WHY } : { state: "done", day: motors };
  const motor = (number: number, corner: string, turns: string) =>
    step({
      id: `motors.motor${number}`,
      what: `Start motor ${number} alone, slowly.`,
      expect: `The one at the ${corner} turns ${turns}, seen from above.`,
      risk: "spins",
      due: motorsDue,
      check: "bench.motors-checked",
      picture: "motors",
      from: [at(30 + number)],
    });
  return {
    craft: "Jug",
    file: JUG,
    warning: "Propellers OFF: take every one off first, and leave them off until this list says that they go on.",
    phases: [
      {
        name: "unpowered",
        title: "Before any power",
        how: null,
        steps: [
          step({ id: "unpowered.propellers", what: "Take all four propellers off.", risk: "unpowered" }),
          step({
            id: "unpowered.antennas",
            what: "Screw the antennas onto the receiver and the video transmitter.",
            expect: "Both sit tight; a transmitter without its antenna burns out.",
            risk: "unpowered",
            from: [at(12), at(14)],
          }),
        ],
      },
      {
        name: "sticks",
        title: "Sticks",
        how: "With the board's own figures in view, or those of the goggles.",
        steps: [
          step({
            id: "sticks.roll",
            what: "Move roll to its left and its right end.",
            expect: "Channel 1 rises to the right and reaches 1000 us to 2000 us.",
            check: "bench.order-checked",
            due: { state: "done", day: "2026-10-02" },
            readings: [
              {
                name: "bench.roll",
                what: "Both ends of roll",
                form: "998 us to 2003 us",
                expected: "1000 us to 2000 us, at most 10 us short and 25 us beyond",
                text: roll,
                at: roll === null ? null : at(40),
              },
            ],
            from: [at(20)],
          }),
        ],
      },
      {
        name: "switches",
        title: "Switches and modes",
        how: "Disarmed, and beginning with every control at rest.",
        steps: [
          step({
            id: "switches.1",
            what: "Put TR to mid.",
            expect: "level comes on.",
            moves: [{ control: "TR", to: "mid", on: ["level"], comesOn: ["level"], goesOff: [] }],
          }),
          step({
            id: "switches.2",
            what: "Turn KN to 1800 us.",
            expect: "lights comes on; level stays on.",
            moves: [{ control: "KN", to: 1800, on: ["level", "lights"], comesOn: ["lights"], goesOff: [] }],
          }),
        ],
      },
      {
        name: "motors",
        title: "Motors",
        how: "By the board's own motor test, one at a time, the craft tied down.",
        steps: [motor(1, "rear right", "clockwise"), motor(2, "front right", "anticlockwise")],
      },
      {
        name: "picture",
        title: "Picture",
        how: null,
        steps: [step({ id: "picture.osd", what: "Hold the OSD in the viewer beside ours.", picture: "osd" })],
      },
      {
        name: "outdoors",
        title: "Outdoors",
        how: null,
        steps: [
          step({
            id: "outdoors.hover",
            what: "Propellers on. Hover for half a minute, land, pull the pack and feel each motor.",
            expect: "Warm, all alike.",
            caution:
              "An open place with nobody near, and the line of sight and the rules that the law where you fly asks for.",
            risk: "flies",
          }),
        ],
      },
    ],
    checks: [
      {
        name: "bench.order-checked",
        title: "order of the sticks",
        due: { state: "done", day: "2026-10-02" },
        at: at(50),
      },
      { name: "bench.motors-checked", title: "motors", due: motorsDue, at: at(51) },
    ],
    unknown: ["The script does not say where the finder stands: write “sounder” in section “finder”."],
  };
}
