/** `fettle show`: the effective craft, each value with the file and line that it comes from. */
import { effectiveCraft } from "../../../shared/ide/reports/effective-craft.ts";
import { effectiveScript } from "../../../shared/ide/reports/effective-script.ts";
import { missingReport } from "../../../shared/ide/reports/missing-report.ts";
import { oneOf, onePath, readArguments } from "./arguments.ts";
import { craftText } from "./craft-text.ts";
import type { Command, ExitStatus, Io } from "./io.ts";
import { openCraft } from "./scripts.ts";

const help = `Usage: fettle show CRAFT [--format text|json|script]

The craft as it is once its handset and layers are laid over one another: each value,
with the file and line that it comes from. What nobody said and has a default stands
without a file. “-” reads the craft from standard input.

Where a used file is missing or has errors, that is said first, and the JSON has a member
missing [{path, message, file, line}], with lines from 0.

  --format FORMAT   text for people (the usual), json, or script: the craft as one
                    script, in which each value has the line that it comes from behind
                    it. Saved beside the craft it is the same craft.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, { format: { type: "string" } });
  const format = oneOf(given, "format", ["text", "json", "script"], "text");
  const { craft, workspace, nameOf } = await openCraft(onePath(given, "craft"), io);
  if (format === "script") {
    io.out(effectiveScript(craft, workspace).text);
    return 0;
  }
  const shown = { ...missingReport(craft, nameOf), ...effectiveCraft(craft, workspace, nameOf) };
  io.out(format === "json" ? `${JSON.stringify(shown, null, 2)}\n` : craftText(shown));
  return 0;
}

export const command: Command = { help, run };
