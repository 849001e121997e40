/** A round of the loop, and how much of it the command to the motors takes. */
import type { LoopPicture } from "../protocol/numbers.ts";
import { node, path, rect, rounded, type SceneNode } from "./scene.ts";
import { text } from "./writing.ts";

const barTop = 24;
const barHeight = 18;

/** The round as a bar, the command within it; what does not fit sticks out of it, hatched. */
export function drawLoop(picture: LoopPicture, { width = 520 }: { readonly width?: number } = {}): SceneNode {
  const { roundUs, frameUs } = picture;
  const perUs = (width - 16) / Math.max(roundUs, frameUs);
  const [round, frame] = [8 + roundUs * perUs, 8 + frameUs * perUs];
  const within = Math.min(round, frame) - 8;
  const over = frame - round;
  return node("svg", { viewBox: `0 0 ${Math.ceil(width)} 70`, class: "loop" }, [
    node("defs", {}, [
      node(
        "pattern",
        { id: "over", width: 8, height: 8, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" },
        [rect("hatch-line", { x: 0, y: 0, width: 3, height: 8 })],
      ),
    ]),
    node("g", { class: "chart", role: "img", "aria-label": loopInWords(picture) }, [
      text("chart-title", 0, 13, 13, over > 0 ? "The command does not fit the round" : "A round of the loop"),
      rect("pack-scale", { x: 8, y: barTop, width: round - 8, height: barHeight }),
      rect("delay-bar", { x: 8, y: barTop, width: within, height: barHeight }),
      ...(over > 0 ? [rect("over", { x: round, y: barTop, width: over, height: barHeight })] : []),
      path("pack-mark", `M${rounded(round)} ${barTop - 3}v${barHeight + 9}`),
      text("pack-label", 8, barTop + barHeight + 16, 12, `command ${inUs(frameUs)}`),
      text("small", width - 8, barTop + barHeight + 16, 12, `round ${inUs(roundUs)}, ${spareInWords(picture)}`, "end"),
    ]),
  ]);
}

/** The loop as one says it. */
export function loopInWords(picture: LoopPicture): string {
  const { roundUs, frameUs, gyroRatio } = picture;
  const ratio = gyroRatio === null ? null : Number(gyroRatio.toFixed(2));
  const gyro = ratio === null ? "" : ` ${ratio} gyro ${ratio === 1 ? "sample" : "samples"} to a round.`;
  return `A command of ${inUs(frameUs)} in a round of ${inUs(roundUs)}: ${spareInWords(picture)}.${gyro}`;
}

function spareInWords({ roundUs, frameUs }: LoopPicture): string {
  return frameUs > roundUs ? `${inUs(frameUs - roundUs)} too long` : `${inUs(roundUs - frameUs)} to spare`;
}

function inUs(us: number): string {
  return `${Number(us.toFixed(1))} us`;
}
