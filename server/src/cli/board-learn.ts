/** `fettle board learn`: a dialect, proposed from scripts and the texts that a board gave for them. */
import { resolve } from "node:path";
import { learnFrom } from "../../../shared/dialect/learn/learn-from.ts";
import type { Pair } from "../../../shared/dialect/learn/learned.ts";
import { isThere } from "../node/disk.ts";
import { oneOf, readArguments } from "./arguments.ts";
import { readBoardText } from "./board-bytes.ts";
import { boardLearnText } from "./board-learn-text.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";
import { openCraft } from "./scripts.ts";
import { writeOut } from "./write-out.ts";

const help = `Usage: fettle board learn SCRIPT=TEXT SCRIPT=TEXT… [--out FILE] [--format text|json]

A dialect, proposed from pairs: a craft, and the text that its board gave while it was set up
so. A line is proposed if it explains every pair and nothing else in the scripts does. Change
one thing on the board, save its text and say the change in a copy of the script: the more
pairs differ in one thing each, the more is learned. The dialect goes to standard output;
what stays open, with the change on the board that would decide it, goes to standard error.
A dialect that is proposed is a guess: read it, and compare what it reads with the board.

  --out FILE       write the dialect there, whole or not at all; an existing file is replaced
  --format FORMAT  text: the dialect (the usual); json: {dialect, lines, open, notes}, lines
                   being [{left, says}] and open [{what, why, change}]

Exit status: 0, or 2 where it could not run.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, { out: { type: "string" }, format: { type: "string" } });
  const format = oneOf(given, "format", ["text", "json"], "text");
  if (given.paths.length === 0) throw new CannotRun("give pairs of a script and its board's text: SCRIPT=TEXT");
  const opened = await openPairs(given.paths, io);
  const learned = learnFrom(
    opened.map(({ pair }) => pair),
    opened[0]!.workspace,
  );
  const out = given.text("out");
  if (out !== undefined) writeOut(out, learned.dialect, "replace", io);
  if (format === "json") {
    io.out(`${JSON.stringify(learned, null, 2)}\n`);
    return 0;
  }
  if (out === undefined) io.out(learned.dialect);
  io.error(boardLearnText(learned, opened.length));
  return 0;
}

async function openPairs(paths: readonly string[], io: Io) {
  const opened = [];
  for (const path of paths) {
    const { script, text } = partsOf(path, io);
    const { craft, workspace, nameOf } = await openCraft(script, io);
    const pair: Pair = { craft, text: (await readBoardText(text, io)).text, name: nameOf(craft.file) };
    opened.push({ pair, workspace });
  }
  return opened;
}

/** The two paths of a pair. A path may have a “=” of its own: what stands before the right one is there. */
function partsOf(pair: string, io: Io): { readonly script: string; readonly text: string } {
  const splits = [...pair.matchAll(/=/g)].map(({ index }) => ({
    script: pair.slice(0, index),
    text: pair.slice(index + 1),
  }));
  const whole = splits.filter(({ script, text }) => script !== "" && text !== "");
  const found = whole.find(({ script }) => script === "-" || isThere(resolve(io.folder, script))) ?? whole[0];
  if (!found) throw new CannotRun(`“${pair}” is no pair: write SCRIPT=TEXT`);
  return found;
}

export const command: Command = { help, run };
