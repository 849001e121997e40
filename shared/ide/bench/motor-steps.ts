/** The motors, one at a time: corner, direction, output, and which propeller belongs there. */
import { placeWords, propellerWords } from "../../draw/motors-words.ts";
import { capital } from "../../draw/words.ts";
import type { BenchStep } from "../../protocol/bench.ts";
import type { MotorsPicture, PlacedMotor } from "../../protocol/motors.ts";
import { motorsPicture } from "../panel/motors.ts";
import { canArm } from "./armed-at-rest.ts";
import { benchStep, sentences } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";

const CHECK = "bench.motors-checked";

export function motorSteps(view: BenchView): BenchStep[] {
  const picture = motorsPicture(view.whole, view.workspace);
  const isSaid = picture?.motors.some(
    ({ place, direction, isRead }) => place !== null || direction !== null || !isRead,
  );
  return [
    ...calibrationSteps(view),
    ...(picture && isSaid ? eachMotor(view, picture) : [unsaidMotors(view)]),
    ...servoSteps(view),
    ...idleSteps(view),
    ...turtleSteps(view),
  ];
}

function calibrationSteps(view: BenchView): BenchStep[] {
  if (view.word("motors.esc-signal") !== "pulse") return [];
  const range = view.text("motors.pulse-range");
  return [
    benchStep({
      id: "motors.calibrate",
      what: "Teach each controller the ends of its pulses.",
      expect:
        range === null
          ? "All motors start at one and the same throttle."
          : `It learns ${range}; all motors start at one and the same throttle.`,
      caution: "For this the board sends full speed: propellers off, and nothing near the bells.",
      risk: "spins",
      check: CHECK,
      from: view.from("motors.esc-signal", "motors.pulse-range"),
    }),
  ];
}

/** Nobody says anything of any motor: what must be true of any craft is still seen. */
function unsaidMotors(view: BenchView): BenchStep {
  view.unknown(
    "The script does not say where the motors sit and which way they turn: write “place” and “direction” of “motor1” and the others in section “motors”.",
  );
  const count = view.integer("frame.motors");
  const spin = view.word("motors.spin");
  const layout = view.word("frame.arm-layout");
  const isStacked = layout === "stacked" || layout === "stacked-tri";
  return benchStep({
    id: "motors.each",
    what: "Start one motor after the other, and write down its number, its corner and its direction.",
    expect: sentences(
      count === null
        ? "Each starts by itself, and none twice."
        : `${count} motors, each by itself and ${isStacked ? "two of them on each arm" : "in a place of its own"}.`,
      count === 4 && "Neighbours turn against each other; those across from each other turn alike.",
      spin !== null && count === 4 && layout !== "plus" && spinInWords(spin),
    ),
    risk: "spins",
    check: CHECK,
    picture: "motors",
    from: view.from("frame.motors", "motors.spin"),
  });
}

function spinInWords(spin: string): string {
  return spin === "props-in"
    ? "The two at the front turn inwards there: front left clockwise, front right anticlockwise (props-in)."
    : "The two at the front turn outwards there: front left anticlockwise, front right clockwise (props-out).";
}

/** A step for each motor that is said, or that the frame must have. */
function eachMotor(view: BenchView, { motors, spin, faults }: MotorsPicture): BenchStep[] {
  return motors.map((motor, i) => {
    const { number, place, direction, isRead } = motor;
    if (isRead && place === null)
      view.unknown(
        `The script does not say where motor ${number} sits: write its “place” in “motor${number}”, in section “motors”.`,
      );
    if (isRead && direction === null)
      view.unknown(
        `The script does not say which way motor ${number} turns: write its “direction” in “motor${number}”, or “spin” of them all, in section “motors”.`,
      );
    if (!isRead) for (const fault of motor.faults) view.unknown(fault);
    const wrong = [...(i === 0 ? faults : []), ...(isRead ? motor.faults : [])];
    return benchStep({
      id: `motors.motor${number}`,
      what: `Start motor ${number} alone, slowly, with a slip of paper at its bell.`,
      expect: expectedOf(motor, spin),
      caution: wrong.length === 0 ? null : `As the script has it this cannot be: ${wrong.join(" ")}`,
      risk: "spins",
      check: CHECK,
      picture: i === 0 ? "motors" : null,
      from: [
        ...(motor.at ? [motor.at] : []),
        ...view.from(`motors.motor${number}`, ...(motor.directionFrom === "spin" ? ["motors.spin"] : [])),
      ],
    });
  });
}

function expectedOf({ place, direction, directionFrom, output }: PlacedMotor, spin: string | null): string {
  const follows = directionFrom === "spin" ? `, as ${spin} has it` : "";
  return sentences(
    place !== null && `${capital(placeWords(place))}.`,
    direction !== null && `It turns ${direction} seen from above${follows}.`,
    output !== null && `Output ${output}.`,
    direction !== null && `The propeller that belongs there: ${propellerWords(direction)}.`,
    place === null && direction === null && "One motor starts, and no other.",
  );
}

function servoSteps(view: BenchView): BenchStep[] {
  const output = view.integer("motors.yaw-servo-output");
  const isReversed = view.word("motors.yaw-servo-reversed") === "yes";
  if (output === null && view.word("frame.arm-layout") !== "tri") return [];
  return [
    benchStep({
      id: "motors.yaw-servo",
      what: "Push yaw to the right, and watch the tilting motor from behind.",
      expect: sentences(
        "It tilts so that its air is pushed to the left, which swings the nose to the right.",
        output !== null &&
          `Its servo is on output ${output}${isReversed ? ", turned round (yaw-servo-reversed)" : ""}.`,
      ),
      risk: "powered",
      check: CHECK,
      from: view.from("motors.yaw-servo-output", "motors.yaw-servo-reversed"),
    }),
  ];
}

function idleSteps(view: BenchView): BenchStep[] {
  if (!canArm(view)) return [];
  const idle = view.text("motors.idle");
  const spins = view.word("safety.spin-when-armed");
  const band = view.text("motors.reverse-band");
  const expect =
    spins === "no"
      ? "The motors stand still until the throttle is opened."
      : spins === "yes"
        ? `All motors turn at once${idle === null ? "" : `, at ${idle}`}, evenly and without a rattle.`
        : `The motors turn evenly and without a rattle${idle === null ? "" : `, at ${idle} with the throttle closed`}; whether they turn as soon as it is armed the script does not say (spin-when-armed).`;
  return [
    benchStep({
      id: "motors.idle",
      what: "Tie the craft down, arm it, look at the motors, open the throttle a little, and disarm.",
      expect: sentences(
        expect,
        band !== null && `With the stick below ${band} they turn backwards, and within it they rest (reverse-band).`,
        "With arm off all of them stop at once.",
      ),
      caution: view.reached("grip-at-idle")
        ? "With grip-at-idle on, the motors of a craft that cannot turn wind up by themselves: that is no fault, but disarm soon."
        : "A craft that cannot turn corrects more and more, so its motors may wind up by themselves: disarm soon.",
      risk: "spins",
      from: [
        ...view.from("motors.idle", "safety.spin-when-armed", "motors.reverse-band"),
        ...view.modeLines("arm"),
        ...view.modeLines("grip-at-idle"),
      ],
    }),
  ];
}

function turtleSteps(view: BenchView): BenchStep[] {
  const turtle = view.reached("turtle");
  if (!turtle || (view.mode("arm") && !canArm(view))) return [];
  const power = view.text("safety.turtle-power");
  const stop = view.text("safety.turtle-stop-after");
  return [
    benchStep({
      id: "motors.turtle",
      what: `Select turtle (${turtle.text}), then arm, and push one stick to one side for a moment.`,
      expect: sentences(
        view.word("motors.reversible") === "no"
          ? "STOP: as the script has it the motors cannot run backwards (reversible no), so nothing rights the craft. Mend that line or the one of turtle first."
          : "Two or more motors of one side run, backwards, and stop when the stick is let go.",
        power !== null && `They have ${power} at most.`,
        stop !== null && `After ${stop} they stop by themselves.`,
      ),
      caution: "Short bursts: motors that are blocked burn. Nobody near, for in the grass it jumps.",
      risk: "spins",
      from: [
        ...view.modeLines("turtle"),
        ...view.from("motors.reversible", "safety.turtle-power", "safety.turtle-stop-after"),
      ],
    }),
  ];
}
