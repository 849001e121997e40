/** `fettle merge`: three texts put together statement by statement, also as git's merge driver. */
import { resolve } from "node:path";
import { type MergeNames, mergeAnyLines, mergeTexts } from "../../../shared/ide/merge/merge.ts";
import { readAnyBytes, toPath } from "../node/disk.ts";
import { conflictStyle } from "../node/git.ts";
import { type Arguments, oneOf, readArguments } from "./arguments.ts";
import { CannotRun, type Command, type ExitStatus, type Io, oneLine } from "./io.ts";
import { writeOut } from "./write-out.ts";

const help = `Usage: fettle merge BASE OURS THEIRS [--out FILE]

Puts together what two people made of one script, statement by statement: entries, drops,
“use” lines, sections, each with its note. What one side changed, added, moved or removed is
taken; neighbouring lines, columns laid out anew and sections in another order are no
conflict. What both changed in different ways stands between git's own marks, and nothing
else does. All that nobody touched stays as OURS has it, byte for byte, with the line ends
of OURS. No name says in the result what neither side says: what cannot be put together so
is a conflict, such as two new layers of which nobody says which comes first. Dialects keep
the order of their lines. What is no script, is of a newer edition, is not UTF-8 or holds
an unresolved merge is merged line by line, as git does. “-” reads one of the three from
standard input.

The result goes to standard output; what clashes is told on standard error.

  --out FILE          write the result there, whole or not at all; it may be one of the three
  -L, --label LABEL   what stands behind the marks: for OURS, for BASE and for THEIRS, in
                      this order, as git merge-file takes them (the usual: ours, base, theirs)
  --marker-size N     characters in a mark (the usual: 7)
  --style STYLE       merge, or diff3 or zdiff3, which show the lines of BASE as well; where
                      it is not given, the repository's merge.conflictStyle
  --path PATH         what the file is called in messages, as git hands it over

As git's merge driver (fettle git install sets it up), in the configuration:

  [merge "fettle"]
      driver = fettle merge %O %A %B --out %A --marker-size %L --path %P -L %X -L %S -L %Y

and in .gitattributes “*.fettle merge=fettle”. Labels that an older git does not know
(%X, %S, %Y) count as not given.

Exit status: 0 merged, 1 with conflicts, 2 the command could not run; a conflict never
gives 2.
`;

async function run(args: readonly string[], io: Io): Promise<ExitStatus> {
  const given = readArguments(args, {
    out: { type: "string" },
    label: { type: "string", short: "L", multiple: true },
    "marker-size": { type: "string" },
    style: { type: "string" },
    path: { type: "string" },
  });
  const names = namesOf(given, io);
  const [base, ours, theirs] = await readThree(given.paths, io);
  const told = given.text("path") ?? given.paths[1]!;
  const { content, clashes } = mergeBytes(base, ours, theirs, names);
  const out = given.text("out");
  if (out === undefined) io.out(content);
  else writeOut(out, content, "replace", io);
  for (const { line, why } of clashes) io.error(`${oneLine(told)}${line === null ? "" : `:${line + 1}`}: ${why}\n`);
  return clashes.length > 0 ? 1 : 0;
}

async function readThree(paths: readonly string[], io: Io): Promise<[Uint8Array, Uint8Array, Uint8Array]> {
  if (paths.length < 3) throw new CannotRun("say which three: fettle merge BASE OURS THEIRS");
  if (paths.length > 3) throw new CannotRun(`three are merged at a time, and “${paths[3]}” is one too many`);
  if (paths.filter((path) => path === "-").length > 1)
    throw new CannotRun("standard input can be one of the three only");
  const read = async (path: string): Promise<Uint8Array> => {
    if (path === "-") return io.input();
    const bytes = readAnyBytes(toPath(resolve(io.folder, path)));
    if (typeof bytes === "string") throw new CannotRun(`${path}: ${bytes}`);
    return bytes;
  };
  return [await read(paths[0]!), await read(paths[1]!), await read(paths[2]!)];
}

function namesOf(given: Arguments, io: Io): MergeNames {
  const size = given.text("marker-size") ?? "7";
  if (!isUnset(size) && !/^[1-9]\d{0,2}$/.test(size))
    throw new CannotRun(`--marker-size is a whole number from 1 to 999, not “${size}”`);
  const labels = given.all("label");
  if (labels.length > 3) throw new CannotRun("there are three labels at most: for OURS, for BASE and for THEIRS");
  const label = (at: number, usual: string) => {
    const text = oneLine(labels[at] ?? "");
    return text === "" || isUnset(text) ? usual : text;
  };
  const style = oneOf(given, "style", ["merge", "diff3", "zdiff3"], conflictStyle(io.folder));
  const markerSize = isUnset(size) ? 7 : Number(size);
  return { ours: label(0, "ours"), base: label(1, "base"), theirs: label(2, "theirs"), markerSize, style };
}

/** A placeholder that the git which calls does not know comes as it stands in the configuration. */
function isUnset(value: string): boolean {
  return /^%[A-Z]$/.test(value);
}

interface MergedBytes {
  readonly content: string | Uint8Array;
  readonly clashes: readonly { readonly line: number | null; readonly why: string }[];
}

/** Merges any bytes: as a script, else line by line; what is no text at all stays as ours has it, as a conflict. */
function mergeBytes(base: Uint8Array, ours: Uint8Array, theirs: Uint8Array, names: MergeNames): MergedBytes {
  const all = [base, ours, theirs];
  if (isSame(ours, theirs) || isSame(base, theirs)) return asItIs(ours);
  if (isSame(base, ours)) return asItIs(theirs);
  if (all.some((bytes) => bytes.includes(0))) {
    const why = "both sides changed it, and it is no text: it stays as ours has it";
    return { content: ours, clashes: [{ line: null, why }] };
  }
  const [inBase, inOurs, inTheirs] = all.map(inUtf8);
  if (inBase != null && inOurs != null && inTheirs != null) {
    const { text, clashes } = mergeTexts(inBase, inOurs, inTheirs, names);
    return { content: text, clashes };
  }
  // Each byte as a character of its own, so that every one comes back; the labels as the bytes that they are in UTF-8.
  const asBytes = (text: string) => Buffer.from(text, "utf8").toString("latin1");
  const labels = { ours: asBytes(names.ours), base: asBytes(names.base), theirs: asBytes(names.theirs) };
  const [b, o, t] = all.map((bytes) => Buffer.from(bytes).toString("latin1"));
  const { text, clashes } = mergeAnyLines(b!, o!, t!, { ...names, ...labels });
  return { content: Buffer.from(text, "latin1"), clashes };
}

function asItIs(bytes: Uint8Array): MergedBytes {
  return { content: inUtf8(bytes) ?? bytes, clashes: [] };
}

/** The text of bytes in UTF-8; null where they are none. */
function inUtf8(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
}

function isSame(a: Uint8Array, b: Uint8Array): boolean {
  return Buffer.compare(a, b) === 0;
}

export const command: Command = { help, run };
