/** `fettle bench`: what to check on the bench for this craft, in the order that is safe. */
import { benchList } from "../../../shared/ide/bench/bench-list.ts";
import { benchMarkdown } from "../../../shared/ide/bench/bench-markdown.ts";
import { benchPage, type SheetPictures } from "../../../shared/ide/bench/bench-page.ts";
import { benchReport } from "../../../shared/ide/bench/bench-report.ts";
import { putBackList } from "../../../shared/ide/bench/put-back.ts";
import { sheetPictures } from "../../../shared/ide/bench/sheet-pictures.ts";
import type { BenchList } from "../../../shared/protocol/bench.ts";
import { makeCheckedPasts } from "../node/git-checks.ts";
import { type Arguments, oneOf, onePath, readArguments } from "./arguments.ts";
import { benchText } from "./bench-text.ts";
import { putBackOptions } from "./bench-wiped.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";
import { openCraft } from "./scripts.ts";
import { writeOut } from "./write-out.ts";

const help = `Usage: fettle bench CRAFT [--out FILE.html|FILE.md] [--format text|json|markdown]
                    [--due] [--handset PATH]
       fettle bench CRAFT --wiped [--dialect DIALECT] [--flashed DATE] [--out …] [--format …]

What to check on the bench for this craft, in the order that is safe, with the readings to
expect: propellers off first, the way home last. Each check of section “bench” that has a day
is held against git, where there is one: what changed since is due again. What the script does
not say is listed, and nothing is expected there. “-” reads the craft from standard input.

  --out FILE         write it there: .html to print, with the pictures of the craft, on A4 or
                     letter; .md as Markdown; a file of that name is replaced
  --format FORMAT    text for people (the usual), markdown with boxes to tick, or json
  --due              only what is due, with what safety asks before it
  --handset PATH     this handset in place of the one that the craft names
  --wiped            after newer software has wiped the board, or before: what to keep, then
                     the order in which the craft is put back, then what is to be checked
                     again. It writes nothing into the script, and says what to write
  --dialect DIALECT  with --wiped: in which the new software takes its lines; without it the
                     craft's own (board.dialect), else the one that knows its saved text
                     (board.text). Without any, all is set by hand
  --flashed DATE     with --wiped: the day of the new software; the usual is today

The shape of the JSON, with lines from 0 and null for what is not said:
  craft, file, warning
  phases   [{name, title, how, steps: [{id, what, expect, caution, risk, due, check, readings,
           moves, picture, from: [{file, line}]}]}]; risk is “unpowered”, “powered”, “may-arm”,
           “spins” or “flies”; due is {state: “due”, why}, {state: “done”, day} or {state:
           “each-time”}; check is the day that it belongs to, as SECTION.NAME; readings are
           [{name, what, form, expected, text, at}]; moves is [{control, to, on, comesOn,
           goesOff}]; lines, where there are any, are sent to the board as one text
  putBack  {day, dialect}, with --wiped alone
  checks   [{name, title, due, at}], each check that has a day
  unknown  what the script does not say, a sentence each

Exit status: 0 the list is made, 2 it cannot be.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {
    out: { type: "string" },
    format: { type: "string" },
    due: { type: "boolean" },
    handset: { type: "string" },
    wiped: { type: "boolean" },
    dialect: { type: "string" },
    flashed: { type: "string" },
  });
  const path = onePath(given, "craft");
  const out = given.text("out");
  const format = formatOf(given, out);
  const isWiped = given.has("wiped");
  if (isWiped && given.has("due")) throw new CannotRun("--wiped holds only what is due by itself: leave out --due");
  for (const name of isWiped ? [] : ["dialect", "flashed"])
    if (given.has(name)) throw new CannotRun(`--${name} goes with --wiped`);
  const opened = await openCraft(path, io, given.text("handset"), makeCheckedPasts());
  const { craft, workspace, nameOf } = opened;
  const made = isWiped
    ? putBackList(craft, workspace, await putBackOptions(opened, given, io))
    : benchList(craft, workspace, given.has("due") ? { only: "due" } : {});
  const list = benchReport(made, nameOf);
  const content = contentOf(list, format, () => sheetPictures(craft, workspace));
  if (out === undefined) io.out(content);
  else writeOut(out, content, "replace", io);
  return 0;
}

type Format = "text" | "json" | "markdown" | "html";

const ENDS: Readonly<Record<string, Format>> = { html: "html", htm: "html", md: "markdown" };

/** As asked for; a file says by its end what it is. */
function formatOf(given: Arguments, out: string | undefined): Format {
  const asked = oneOf(given, "format", ["text", "json", "markdown"], "text");
  if (out === undefined) return asked;
  const byEnd = ENDS[/\.([a-z]+)$/i.exec(out)?.[1]?.toLowerCase() ?? ""];
  if (given.has("format")) {
    if (byEnd !== undefined && byEnd !== asked)
      throw new CannotRun(`--format ${asked} does not go into “${out}”: leave it out, or name another file`);
    return asked;
  }
  if (byEnd !== undefined) return byEnd;
  throw new CannotRun(`a bench list is HTML or Markdown: name a file that ends in .html or .md, not “${out}”`);
}

function contentOf(list: BenchList, format: Format, pictures: () => SheetPictures): string {
  switch (format) {
    case "text":
      return benchText(list);
    case "markdown":
      return benchMarkdown(list);
    case "html":
      return benchPage(list, pictures());
    case "json":
      return `${JSON.stringify(list, null, 2)}\n`;
  }
}

export const command: Command = { help, run };
