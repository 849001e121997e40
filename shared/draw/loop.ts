/** One round of the loop beside the gyro's samples and the command to the motors, on one time scale. */
import type { LoopPicture } from "../protocol/numbers.ts";
import { node, rect, type SceneNode } from "./scene.ts";
import { text } from "./writing.ts";

const SIZE = 12;
const BAR_HEIGHT = 14;
const ROW_HEIGHT = 38;
/** More samples in a round cannot be distinguished. */
const MOST_SAMPLES = 32;

export interface LoopOptions {
  readonly width?: number;
  /** `none` if the page has a heading of its own. */
  readonly heading?: "drawn" | "none";
}

/** The round as a bar, and below it the command, its answer and the pause; what does not fit is hatched beyond the round. */
export function drawLoop(picture: LoopPicture, { width = 520, heading = "drawn" }: LoopOptions = {}): SceneNode {
  const { roundUs, frameUs, pauseUs, gyroRatio } = picture;
  const answerUs = picture.answerUs ?? 0;
  const perUs = (width - 2) / Math.max(roundUs, frameUs);
  const x = (us: number) => 1 + us * perUs;
  const begin = heading === "drawn" ? 22 : 0;
  const title = frameUs > roundUs ? "The command does not fit the round" : "A round of the loop";
  const command = frameUs - pauseUs - answerUs;
  const answered = command + answerUs;
  const stretch = (kind: string, from: number, to: number) => ({ kind, from, to: Math.max(from, to) });
  const rows = [
    ...(gyroRatio === null ? [] : [{ name: "gyro", bars: samples(roundUs, gyroRatio, 2 / perUs) }]),
    { name: "loop", bars: [stretch("loop-round", 0, roundUs)] },
    {
      name: "command",
      bars: [
        stretch("delay-bar", 0, Math.min(command, roundUs)),
        stretch("loop-answer", Math.min(command, roundUs), Math.min(answered, roundUs)),
        stretch("loop-pause", Math.min(answered, roundUs), Math.min(frameUs, roundUs)),
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

/** The gyro's samples that begin in one round, with a small gap after each but the last. */
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

/** The parts of a round with their durations, as name and words. */
export function loopTableRows(picture: LoopPicture): (readonly [name: string, said: string])[] {
  const { roundUs, frameUs, pauseUs, answerUs, gyroRatio } = picture;
  const answer = answerUs === null ? "" : `, answer ${inUs(answerUs)}`;
  const pause = pauseUs > 0 ? `, pause ${inUs(pauseUs)}` : "";
  return [
    ...(gyroRatio === null ? [] : [["gyro", `a sample every ${inUs(roundUs / gyroRatio)}`] as const]),
    ["loop", `a round of ${inUs(roundUs)}`],
    ["command", `${inUs(frameUs - pauseUs - (answerUs ?? 0))}${answer}${pause}`],
  ];
}

/** The loop in words. */
export function loopInWords(picture: LoopPicture): string {
  const { roundUs, frameUs, answerUs, gyroRatio } = picture;
  const ratio = gyroRatio === null ? null : Number(gyroRatio.toFixed(2));
  const gyro = ratio === null ? "" : ` ${ratio} gyro ${ratio === 1 ? "sample" : "samples"} to a round.`;
  const command = answerUs === null ? "A command of" : "A command with its answer, in all";
  return `${command} ${inUs(frameUs)} in a round of ${inUs(roundUs)}: ${spareInWords(picture)}.${gyro}`;
}

/** The time that is left in the round, or that is missing, in words. */
export function spareInWords({ roundUs, frameUs }: LoopPicture): string {
  return frameUs > roundUs ? `${inUs(frameUs - roundUs)} too long` : `${inUs(roundUs - frameUs)} to spare`;
}

function inUs(us: number): string {
  return `${Number(us.toFixed(1))} us`;
}
