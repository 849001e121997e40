/** A round of the loop beside the samples of the gyro and the command to the motors, all on one scale of time. */
import type { LoopPicture } from "../protocol/numbers.ts";
import { node, rect, type SceneNode } from "./scene.ts";
import { text } from "./writing.ts";

const SIZE = 12;
const BAR_HEIGHT = 14;
const ROW_HEIGHT = 38;
/** More samples than these in a round cannot be told apart. */
const MOST_SAMPLES = 32;

export interface LoopOptions {
  readonly width?: number;
  /** The page says what it is. */
  readonly heading?: "drawn" | "none";
}

/** The round as a bar, the command and its pause under it; what does not fit sticks out, hatched. */
export function drawLoop(picture: LoopPicture, { width = 520, heading = "drawn" }: LoopOptions = {}): SceneNode {
  const { roundUs, frameUs, pauseUs, gyroRatio } = picture;
  const perUs = (width - 2) / Math.max(roundUs, frameUs);
  const x = (us: number) => 1 + us * perUs;
  const begin = heading === "drawn" ? 22 : 0;
  const title = frameUs > roundUs ? "The command does not fit the round" : "A round of the loop";
  const command = frameUs - pauseUs;
  const stretch = (kind: string, from: number, to: number) => ({ kind, from, to: Math.max(from, to) });
  const rows = [
    ...(gyroRatio === null ? [] : [{ name: "gyro", bars: samples(roundUs, gyroRatio, 2 / perUs) }]),
    { name: "loop", bars: [stretch("loop-round", 0, roundUs)] },
    {
      name: "command",
      bars: [
        stretch("delay-bar", 0, Math.min(command, roundUs)),
        stretch("loop-pause", Math.min(command, roundUs), Math.min(frameUs, roundUs)),
        stretch("over", roundUs, frameUs),
      ].filter(({ from, to }) => to > from),
    },
  ];
  const tableRows = loopTableRows(picture);
  const drawn = rows.map(({ name, bars }, index) => {
    const top = begin + index * ROW_HEIGHT;
    const words = tableRows.find(([of]) => of === name)?.[1] ?? "";
    return node("g", { class: "loop-row", "data-loop": name }, [
      rect("reach", { x: -4, y: top - 2, width: width + 8, height: ROW_HEIGHT - 1 }),
      text("pack-label", 0, top + 13, SIZE, `${name}: ${words}`),
      ...bars.map(({ kind, from, to }) =>
        rect(kind, { x: x(from), y: top + 18, width: (to - from) * perUs, height: BAR_HEIGHT }),
      ),
    ]);
  });
  const bottom = begin + rows.length * ROW_HEIGHT;
  return node("svg", { viewBox: `0 0 ${Math.ceil(width)} ${bottom + 20}`, class: "loop" }, [
    node("defs", {}, [
      node(
        "pattern",
        { id: "over", width: 8, height: 8, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" },
        [rect("hatch-line", { x: 0, y: 0, width: 3, height: 8 })],
      ),
    ]),
    node("g", { class: "chart", role: "group", "aria-label": loopInWords(picture) }, [
      ...(heading === "drawn" ? [text("chart-title", 0, 13, 13, title)] : []),
      ...drawn,
      text("small", 0, bottom + 13, SIZE, spareInWords(picture)),
    ]),
  ]);
}

/** The samples of the gyro that begin in one round, with a little air after each but the last. */
function samples(roundUs: number, ratio: number, airUs: number): { kind: string; from: number; to: number }[] {
  const each = roundUs / ratio;
  const count = Math.ceil(ratio - 1e-9);
  if (count > MOST_SAMPLES) return [{ kind: "loop-sample", from: 0, to: roundUs }];
  return Array.from({ length: count }, (_, index) => ({
    kind: "loop-sample",
    from: index * each,
    to: index === count - 1 ? roundUs : Math.max(index * each, (index + 1) * each - airUs),
  }));
}

/** What takes how long, as name and words. */
export function loopTableRows(picture: LoopPicture): (readonly [name: string, said: string])[] {
  const { roundUs, frameUs, pauseUs, gyroRatio } = picture;
  const pause = pauseUs > 0 ? `, pause ${inUs(pauseUs)}` : "";
  return [
    ...(gyroRatio === null ? [] : [["gyro", `a sample every ${inUs(roundUs / gyroRatio)}`] as const]),
    ["loop", `a round of ${inUs(roundUs)}`],
    ["command", `${inUs(frameUs - pauseUs)}${pause}`],
  ];
}

/** The loop as one says it. */
export function loopInWords(picture: LoopPicture): string {
  const { roundUs, frameUs, gyroRatio } = picture;
  const ratio = gyroRatio === null ? null : Number(gyroRatio.toFixed(2));
  const gyro = ratio === null ? "" : ` ${ratio} gyro ${ratio === 1 ? "sample" : "samples"} to a round.`;
  return `A command of ${inUs(frameUs)} in a round of ${inUs(roundUs)}: ${spareInWords(picture)}.${gyro}`;
}

/** What is left of the round, or lacking. */
export function spareInWords({ roundUs, frameUs }: LoopPicture): string {
  return frameUs > roundUs ? `${inUs(frameUs - roundUs)} too long` : `${inUs(roundUs - frameUs)} to spare`;
}

function inUs(us: number): string {
  return `${Number(us.toFixed(1))} us`;
}
