/** `fettle explain`: the page of every thing of a name, or every name that has one. */

import { namesLike, referencePage } from "../../../shared/ide/reference/page.ts";
import { listNames, type NamedPage } from "../../../shared/ide/reference/page-names.ts";
import { oneOf, readArguments } from "./arguments.ts";
import { CannotRun, type Command, type ExitStatus, type Io } from "./io.ts";
import { wordsAround } from "./own-words.ts";

const help = `Usage: fettle explain NAME
       fettle explain --list [--format text|json]

What a setting, mode, element, rule, unit or section is, why one would change it and
what goes wrong at each end. A setting is named alone or as SECTION.NAME; plain words
find it as well: fettle explain low voltage warning. Words of the language are told of
too, such as handset, layer, use or when, and all of it under “language”.

Your own words and the settings of your own are found as well, from the *.aliases.json and
*.catalogue.json of the workspace that the working folder stands in (the nearest folder around
it that is a git repository or has a file named .fettle-root; else the working folder).

  --list            every name that has a page; the words of the language are on the page “language”
  --format FORMAT   of the list: text for people (the usual), or json
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, { list: { type: "boolean" }, format: { type: "string" } });
  const format = oneOf(given, "format", ["text", "json"], "text");
  const name = given.paths.join(" ");
  if (given.has("list")) {
    if (name !== "") throw new CannotRun("--list lists every name, so it stands without one");
    const { catalogue } = await wordsAround(io);
    const names = listNames(catalogue);
    io.out(format === "json" ? `${JSON.stringify(names, null, 2)}\n` : listText(names));
    return 0;
  }
  if (name === "") throw new CannotRun("say which name to explain, or --list for every name");
  if (given.has("format")) throw new CannotRun("--format belongs to --list: a page is Markdown, for people");
  const { catalogue } = await wordsAround(io);
  const page = referencePage(catalogue, name);
  if (page === null) {
    const near = namesLike(catalogue, name);
    const question =
      near.length > 0
        ? `did you mean ${near.map((each) => each.name).join(", ")}?`
        : "fettle explain --list has every name";
    throw new CannotRun(`nothing is called “${name}”: ${question}`);
  }
  io.out(page);
  return 0;
}

function listText(names: readonly NamedPage[]): string {
  const width = Math.max(...names.map(({ name }) => name.length));
  return names.map(({ name, kind, summary }) => `${name.padEnd(width)}  ${kind.padEnd(7)}  ${summary}\n`).join("");
}

export const command: Command = { help, run };
