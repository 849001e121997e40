/** What stands between a craft and arming, as a person reads it. */

import type { Obstacle, Readiness } from "../../../shared/ide/arming/readiness.ts";
import type { ReportedMissing } from "../../../shared/ide/reports/missing-report.ts";
import type { Move } from "../../../shared/logic/switchboard-types.ts";
import { positionsInWords } from "../../../shared/rules/lib/positions-in-words.ts";
import { oneLine } from "./io.ts";
import { missingText } from "./missing-text.ts";

/** What `fettle ready` reports, as JSON has it too. */
export interface ReadyTold extends Omit<Readiness, "obstacles"> {
  readonly missing?: readonly ReportedMissing[];
  readonly craft: string;
  readonly handset: string | null;
  /** In us. */
  readonly throttle: number | null;
  /** In deg. */
  readonly tilt: number | null;
  /** Lines from 0. */
  readonly obstacles: readonly (Omit<Obstacle, "source"> & {
    readonly file: string | null;
    readonly line: number | null;
  })[];
}

const VERDICTS = {
  yes: "Armed: nothing in the script stands in between.",
  no: "Not armed: something stands in between.",
  depends: "Armed or not: what is not known here decides.",
} as const;

const STATES = { stands: "stands", open: "not known", wait: "takes time" } as const;

/** The whole report: the moment, the verdict with what stands in between, and the ways there. */
export function readyText(told: ReadyTold): string {
  const { craft, handset, obstacles } = told;
  const parts = [
    `craft    ${oneLine(craft)}\nhandset  ${oneLine(handset ?? "none")}\n${missingText(told.missing)}with     ${momentText(told)}\n`,
    "Propellers off before you try any of this.\n",
    `${VERDICTS[told.armed]}\n${obstacles.map(obstacleText).join("")}`,
    movesText(told),
    waysText(told),
  ];
  return parts.filter((part) => part !== "").join("\n");
}

function momentText({ positions, throttle, tilt }: ReadyTold): string {
  const throttleText = throttle === null ? "throttle not given" : `throttle at ${throttle} us`;
  const tiltText = tilt === null ? "tilt not given" : `tilted ${tilt} deg`;
  const controls = Object.keys(positions).length > 0 ? `${positionsInWords(positions)}; ` : "";
  return oneLine(`${controls}${throttleText}; ${tiltText}`);
}

const WIDEST_STATE = Math.max(...Object.values(STATES).map((word) => word.length));

function obstacleText({ state, message, file, line }: ReadyTold["obstacles"][number]): string {
  const from = file === null || line === null ? "" : `  (${file}:${line + 1})`;
  return `  ${STATES[state].padEnd(WIDEST_STATE)}  ${oneLine(message)}${oneLine(from) && ` ${oneLine(from)}`}\n`;
}

function movesText({ moves, ways, complete }: ReadyTold): string {
  if (moves === null && ways.length > 0) return "";
  if (moves === null) return `${complete ? "No move of the controls arms it" : "Which moves arm it is not known"}.\n`;
  if (moves.length === 0) return "";
  return `The shortest way of the controls: ${oneLine(moves.map(moveText).join(", "))}\n`;
}

function moveText({ name, from, to }: Move): string {
  const place = (at: string | number) => (typeof at === "number" ? `${at} us` : at);
  return from === null ? `${name} to ${place(to)}` : `${name} from ${place(from)} to ${place(to)}`;
}

function waysText({ ways, complete }: ReadyTold): string {
  if (ways.length === 0) return "";
  const more = complete ? "" : "  … and more, or some that are not known\n";
  return `Every way in which the controls can arm it:\n${ways.map(({ words }) => `  ${oneLine(words)}\n`).join("")}${more}`;
}
