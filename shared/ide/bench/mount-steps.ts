/** How the board lies in its frame: tilted by hand, with the horizon watched; the heading; the compass; level. */
import type { BenchStep } from "../../protocol/bench.ts";
import { joinWithAnd } from "../../text/list.ts";
import { formatNumber } from "../context/format.ts";
import { benchStep, sentences } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";

const ROLL = "sensors.mount-roll";
const PITCH = "sensors.mount-pitch";
const YAW = "sensors.mount-yaw";
const MOUNT = [ROLL, PITCH, YAW] as const;

export function mountSteps(view: BenchView): BenchStep[] {
  return [tiltStep(view), ...compassSteps(view), ...levelSteps(view), ...heightSteps(view)];
}

/** How the board sits, in words, as far as it is known; null where nothing of it is. */
function mountInWords(view: BenchView): string | null {
  const unclear = MOUNT.filter((name) => view.isUnclear(name));
  const [roll, pitch, yaw] = MOUNT.map((name) => turnOf(view.amount(name, "deg") ?? 0)) as [number, number, number];
  const parts = [
    ...(roll === 0 ? [] : [Math.abs(roll) === 180 ? "upside down" : `rolled by ${roll} deg`]),
    ...(pitch === 0 ? [] : [`pitched by ${pitch} deg`]),
    ...(yaw === 0 ? [] : [yawInWords(yaw)]),
  ];
  if (unclear.length > 0)
    return parts.length === 0 ? null : `The board sits ${joinWithAnd(parts)}, and perhaps turned otherwise besides.`;
  if (parts.length === 0)
    return MOUNT.some((name) => view.said(name))
      ? "The board lies as it is meant to: upright, its mark forwards."
      : "The script says nothing of a turned board, so it lies upright with its mark forwards.";
  return `The board sits ${joinWithAnd(parts)}.`;
}

/** An angle from above −180 to 180 degrees. */
function turnOf(deg: number): number {
  const turn = ((deg % 360) + 360) % 360;
  return Number(formatNumber(turn > 180 ? turn - 360 : turn, 5));
}

function yawInWords(deg: number): string {
  if (deg === 180) return "half round, its mark to the rear";
  const way = deg > 0 ? "clockwise" : "anticlockwise";
  if (Math.abs(deg) === 90) return `a quarter round, ${way} seen from above`;
  return `${Math.abs(deg)} deg round, ${way} seen from above`;
}

function tiltStep(view: BenchView): BenchStep {
  const how = mountInWords(view);
  const unclear = MOUNT.find((name) => view.isUnclear(name));
  if (unclear) view.asked(unclear, "how the board sits in its frame");
  const feelsLevel = view.word("sensors.accelerometer") !== "no";
  const drawn = view.placed("osd").some(({ name }) => name === "horizon-line")
    ? "the horizon in the goggles"
    : "the board's own drawing of the craft";
  return benchStep({
    id: "mount.tilt",
    what: feelsLevel
      ? `Lift the nose, then the left side, then swing the nose to the right, and watch ${drawn}.`
      : "Turn the craft quickly nose up, then left side up, then nose to the right, and watch the gyro's figures.",
    expect: sentences(
      how,
      feelsLevel
        ? "Nose up: the horizon sinks. Left side up: the craft leans to the right, and the horizon's left end sinks. Nose to the right: the heading grows. A lean that shows as a nod is a board that sits a quarter round from what the script says."
        : "Nose up: pitch alone moves, backwards as with the stick pulled. Left side up: roll alone moves, to the right. Nose to the right: yaw alone moves, to the right.",
    ),
    risk: "powered",
    check: "bench.mount-checked",
    from: view.from(...MOUNT, "sensors.accelerometer"),
  });
}

function compassSteps(view: BenchView): BenchStep[] {
  if (view.word("sensors.compass") !== "yes") return [];
  const yaw = view.text("sensors.compass-yaw");
  const isFlipped = view.word("sensors.compass-flipped") === "yes";
  const declination = view.text("sensors.declination");
  return [
    benchStep({
      id: "mount.compass",
      what: "Away from iron and from the bench, point the nose north, east, south and west by another compass; then tilt the craft at each.",
      expect: sentences(
        "The heading reads 0, 90, 180 and 270 deg, within about ten, and hardly moves as the craft tilts.",
        (yaw !== null || isFlipped) &&
          `The compass sits ${joinWithAnd([...(yaw === null ? [] : [`turned ${yaw} clockwise seen from above`]), ...(isFlipped ? ["with its parts to the ground"] : [])])}.`,
        declination !== null && `It is set for a place where a needle points ${declination} off true north.`,
      ),
      risk: "powered",
      check: "bench.mount-checked",
      from: view.from("sensors.compass", "sensors.compass-yaw", "sensors.compass-flipped", "sensors.declination"),
    }),
  ];
}

const LEVELLING = ["level", "level-blend", "level-now", "hold-height", "hold-place", "return-home"];

function levelSteps(view: BenchView): BenchStep[] {
  if (view.word("sensors.accelerometer") === "no") return [];
  const trims = ["sensors.level-trim-roll", "sensors.level-trim-pitch"];
  const isUsed = LEVELLING.some((name) => view.mode(name)) || trims.some((name) => view.said(name));
  if (!isUsed) return [];
  const [roll, pitch] = trims.map((name) => view.text(name));
  const trim = [...(roll ? [`${roll} to the right`] : []), ...(pitch ? [`${pitch} nose down`] : [])];
  return [
    benchStep({
      id: "mount.level",
      what: "Stand the craft on a level table, and read the angles.",
      expect: sentences(
        "Roll and pitch read 0 deg, or next to it.",
        trim.length > 0 && `Level is trimmed by ${joinWithAnd(trim)}.`,
      ),
      risk: "powered",
      from: view.from(...trims),
    }),
  ];
}

/** What tells the height: the air, an echo from the ground, and beside them what sees the ground slide by. */
function heightSteps(view: BenchView): BenchStep[] {
  const has = (name: string) => view.word(`sensors.${name}`) === "yes";
  const steps: BenchStep[] = [];
  if (has("barometer"))
    steps.push(
      benchStep({
        id: "mount.barometer",
        what: "Lift the craft from the floor to above your head, slowly, and set it down again.",
        expect: "The height grows by as much, within half a metre or so, and comes back to where it was.",
        risk: "powered",
        from: view.from("sensors.barometer"),
      }),
    );
  if (has("range-finder"))
    steps.push(
      benchStep({
        id: "mount.range-finder",
        what: "Hold the craft level one metre above the floor.",
        expect: "The distance to the ground reads 1 m, and follows the craft at once.",
        risk: "powered",
        from: view.from("sensors.range-finder"),
      }),
    );
  if (has("flow"))
    steps.push(
      benchStep({
        id: "mount.flow",
        what: "Over a floor with a pattern, push the craft forwards, then to the right, level and at one height.",
        expect: "The shown movement goes forwards, then to the right, and stops as the craft stops.",
        risk: "powered",
        from: view.from("sensors.flow"),
      }),
    );
  return steps;
}
