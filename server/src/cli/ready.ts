/** `fettle ready`: what stands between a craft and arming. */

import { parsePositions } from "../../../shared/ide/arming/parse-positions.ts";
import type { ArmingMoment } from "../../../shared/ide/arming/readiness.ts";
import { readinessOf } from "../../../shared/ide/arming/readiness.ts";
import { missingReport } from "../../../shared/ide/reports/missing-report.ts";
import { boardOf } from "../../../shared/logic/from-craft.ts";
import { type Arguments, oneOf, onePath, readArguments } from "./arguments.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";
import { readyText } from "./ready-text.ts";
import { openCraft } from "./scripts.ts";

const help = `Usage: fettle ready CRAFT [--set CONTROL=POSITION…] [--throttle US] [--tilt DEG]
                    [--format text|json] [--handset PATH]

What stands between this craft and arming, the shortest way there, and every way in
which it can come to be armed. Controls that are not set are at rest, dials anywhere.
It goes by what the script says and never by a default. “-” reads the craft from
standard input. Propellers off before you try any of it.

  --set CONTROL=POSITION   a control that is not at rest, as in TL=down or KN=1500;
                           once for each control
  --throttle US            where the throttle stands, as a pulse in us
  --tilt DEG               how far the craft is tilted, in degrees
  --format FORMAT          text for people (the usual), or json
  --handset PATH           this handset in place of the one that the craft names

Exit status: 0 nothing surely stands in between, 1 something does, 2 the command could
not run.

The shape of the JSON, with lines from 0 and null for what is not given or not known:
  craft, handset, throttle, tilt, positions {CONTROL: position or pulse}
  armed      “yes”, “no” or “depends”
  moves      [{name, from, to}], the shortest way: empty where nothing has to move,
             null where no move arms it, or, with complete false, where it is not known
  ways       [{words, demands: [{name, positions, pulses: [{from, to}]}]}]: all demands
             of one way at once, each met by any of its positions or pulses in us
  complete   false where there are more ways, or some that are not known
  missing    only where a part of the craft is missing: [{path, message, file, line}]
  obstacles  [{what, state, message, file, line}], what as SECTION.NAME, state “stands”,
             “open” (what is not known decides) or “wait” (it goes by itself)
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {
    set: { type: "string" },
    throttle: { type: "string" },
    tilt: { type: "string" },
    format: { type: "string" },
    handset: { type: "string" },
  });
  const format = oneOf(given, "format", ["text", "json"], "text");
  const throttleUs = numberIn(given, "throttle", { unit: "us", from: 500, to: 2500 });
  const tiltDeg = numberIn(given, "tilt", { unit: "deg", from: 0, to: 180 });
  const { craft, workspace, nameOf } = await openCraft(onePath(given, "craft"), io, given.text("handset"));
  const said = parsePositions(given.all("set"), boardOf(craft, workspace));
  if (said.kind === "refused") throw new CannotRun(`--set: ${said.why}`);
  const moment: ArmingMoment = {
    positions: said.positions,
    ...(throttleUs !== null && { throttleUs }),
    ...(tiltDeg !== null && { tiltDeg }),
  };
  const { obstacles, ...ready } = readinessOf(craft, workspace, moment);
  const report = {
    ...missingReport(craft, nameOf),
    craft: craft.name,
    handset: craft.handset?.name ?? null,
    throttle: throttleUs,
    tilt: tiltDeg,
    ...ready,
    obstacles: obstacles.map(({ source, ...rest }) => ({
      ...rest,
      file: source && nameOf(source.file),
      line: source ? source.line : null,
    })),
  };
  io.out(format === "json" ? `${JSON.stringify(report, null, 2)}\n` : readyText(report));
  return report.armed === "no" ? 1 : 0;
}

interface Span {
  readonly unit: string;
  readonly from: number;
  readonly to: number;
}

/** The number of an option, with or without its unit; null where it is not given. */
function numberIn(given: Arguments, option: string, { unit, from, to }: Span): number | null {
  const text = given.text(option);
  if (text === undefined) return null;
  const match = /^(-?\d+(?:\.\d+)?) ?([a-z]*)$/.exec(text);
  const number = Number(match?.[1]);
  if (match && (match[2] === "" || match[2] === unit) && number >= from && number <= to) return number;
  throw new CannotRun(`--${option} takes a number from ${from} to ${to} in ${unit}, not “${text}”`);
}

export const command: Command = { help, run };
