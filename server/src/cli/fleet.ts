/** `fettle fleet`: all craft side by side. */
import { fleetOf } from "../../../shared/ide/fleet/fleet.ts";
import { fleetPage } from "../../../shared/ide/fleet/fleet-page.ts";
import { makeCheckedPasts } from "../node/git-checks.ts";
import { type Arguments, oneOf, readArguments } from "./arguments.ts";
import { fleetText } from "./fleet-text.ts";
import { CannotRun, type Command, type ExitStatus, type Io, oneLine } from "./io.ts";
import { finishShown } from "./progress.ts";
import { openScripts } from "./scripts.ts";
import { writeOut } from "./write-out.ts";

const help = `Usage: fettle fleet [PATH…] [--together CRAFT…] [--format text|json | --out FILE.html]

All craft side by side: what each position of their controls does, with a table for each
handset; key settings; which layers they use, in the order in which these are merged; the
days of their checks on the bench, and what is due again; video channels. A PATH is a
folder (every craft below it) or a craft; without one, the working folder.

A cell that is otherwise than on most craft is marked: “most” are more than half of those
that say anything there. What the controls do counts, and not how it is written.

  --together CRAFT… these craft, up to the next option, are flown at the same time: whose
                    analogue picture disturbs whose, and the smallest change of channels
                    after which none does
  --format FORMAT   text for people (the usual), or json
  --out FILE.html   a page to print, on A4 or letter; a file of that name is replaced

The JSON holds craft: [{file, name, handset: {name, file} | null}], and the tables controls
(one for each handset), settings, layers, checks, and table of video: {title, columns:
[{name, what}], rows: [{craft, cells: [{text, most, at: {file, line} | null}]}]}. “craft”
of a row is an index of the list; “text” is empty where the craft says nothing; “most” is
what most craft have where this one has something else, else null; lines count from 0.
video holds besides, of craft that are flown together, as indices of the list: together,
conflicts: [{kind: overlap|product, message, craft}], of which the first is disturbed, plan:
[{craft, fromMhz, toMhz, note}], empty where nothing is in the way, null where there is no
plan, and noPlan, why there is none. missing: [{file, why}] are files that are no readable craft, or not wholly.

Exit status: 0, or 2 if a file could not be read or there is no craft; whatever could be
read is still shown.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {
    format: { type: "string" },
    out: { type: "string" },
    together: { type: "string", multiple: true, variadic: true },
  });
  const format = oneOf(given, "format", ["text", "json"], "text");
  const out = pageOut(given);
  const together = given.all("together");
  // Whoever is named has a place among the others.
  const paths = [...(given.paths.length > 0 ? given.paths : ["."]), ...together];
  const opening = { pasts: makeCheckedPasts(), together };
  const { opened, refused, wordsFaulty, nameOf } = await openScripts(paths, io, opening);
  for (const reason of refused) io.error(`fettle: ${oneLine(reason)}\n`);
  const fleet = finishShown(fleetOf(opened, { nameOf }), io, (done) => `${done} of ${opened.length} scripts read`);
  if (fleet.craft.length === 0) {
    if (refused.length > 0) return 2;
    throw new CannotRun(`${paths.join(", ")}: no craft is here. A craft begins with: craft "NAME"`);
  }
  if (out !== undefined) writeOut(out, fleetPage(fleet), "replace", io);
  else if (format === "json") io.out(`${JSON.stringify(fleet, null, 2)}\n`);
  else io.out(fleetText(fleet, io.columns));
  return refused.length > 0 || wordsFaulty ? 2 : 0;
}

function pageOut(given: Arguments): string | undefined {
  const out = given.text("out");
  if (out === undefined) return undefined;
  if (given.has("format"))
    throw new CannotRun("--out writes a page to print, and --format says how to show it here: give one of them");
  if (!/\.html?$/i.test(out))
    throw new CannotRun(`the fleet is written as HTML: name a file that ends in .html, not “${out}”`);
  return out;
}

export const command: Command = { help, run };
