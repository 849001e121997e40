/** `fettle switches`: what each position of each control does. */

import { missingReport } from "../../../shared/ide/reports/missing-report.ts";
import { switchReport } from "../../../shared/ide/reports/switch-map.ts";
import { switchboardOf } from "../../../shared/logic/from-craft.ts";
import { signalLossOf } from "../../../shared/loss/signal-loss.ts";
import { oneOf, onePath, readArguments } from "./arguments.ts";
import type { Command, ExitStatus, Io } from "./io.ts";
import { openCraft } from "./scripts.ts";
import { switchesText } from "./switches-text.ts";

const help = `Usage: fettle switches CRAFT [--format text|json] [--handset PATH]

What each position of each control can turn on, which settings a dial moves and how far,
the distinct states that the controls can reach, and what is on at rest and when the signal
is lost, with what the craft does then, phase by phase. “-” reads the craft from standard
input. Where a used file is missing or has errors, that is said first, and the JSON has a
member missing [{path, message, file, line}], with lines from 0.

Of the JSON, “adjusts” of a dial holds the settings that it moves: {setting, from, to},
where an end is {pulse, number, unit, text}; “loss” holds the modes that are certainly on,
what the receiver does (“silent”, “hold”, “preset”, or null where no line says it), and
“courses”, one for each circumstance that a script cannot know: {when, phases: [{what, from,
to, receiver, armed, words, back, lines: [{name, text, file, line}], unknown}]}, with times in
ms from the last packet, null where they are not known, and lines from 0. “calls” is the
line by which it calls by itself after a loss, {name, text, file, line}, or null.

  --format FORMAT   text for people (the usual), or json
  --handset PATH    this handset in place of the one that the craft names
`;

/** As many states as a person will read through. */
const MOST_STATES = 40;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, { format: { type: "string" }, handset: { type: "string" } });
  const format = oneOf(given, "format", ["text", "json"], "text");
  const { craft, workspace, nameOf } = await openCraft(onePath(given, "craft"), io, given.text("handset"));
  const { catalogue } = workspace;
  const report = { ...missingReport(craft, nameOf), ...switchReport(craft, catalogue, nameOf) };
  if (format === "json") io.out(`${JSON.stringify(report, null, 2)}\n`);
  else {
    const board = switchboardOf(craft, catalogue.modeRelations.precedence);
    const { states } = board.listStates(MOST_STATES);
    const { unknown } = board.stateAt(board.rest);
    const handset = craft.handset?.name ?? null;
    io.out(
      switchesText({
        craft: craft.name,
        handset,
        report,
        states,
        loss: board.loss(),
        signalLoss: signalLossOf(craft, workspace),
        unknown,
      }),
    );
  }
  return 0;
}

export const command: Command = { help, run };
