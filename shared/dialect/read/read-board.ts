/**
 * Reads a board's text by a dialect: every line gets its state, what is understood becomes a script, and what is not is
 * kept in it byte for byte.
 */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft } from "../../model/craft.ts";
import { scriptReader } from "../../model/read-script.ts";
import type { Script } from "../../model/script.ts";
import { scriptAnswer } from "../../model/script-limits.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { ControlValue } from "../../syntax/value.ts";
import { finish, type Steps } from "../../text/steps.ts";
import { boardLines } from "../board-lines.ts";
import { exactIn } from "../codes/held.ts";
import type { Dialect } from "../dialect.ts";
import { type Exact, exactOf } from "../exact.ts";
import { entryReader } from "./entries.ts";
import { type Joined, joinEntries, type Surroundings } from "./join-entries.ts";
import { lineReader } from "./line-reader.ts";
import { keptLines, linesRead } from "./lines-read.ts";
import type { Reading, ReadLine } from "./reading.ts";
import { sayingSteps } from "./sayings.ts";
import { scriptText } from "./script-text.ts";

export interface ReadContext {
  readonly workspace: Workspace;
  /** Whose controls the channels become; without one that of the craft, else channels stay. */
  readonly handset: Script | null;
  /** The craft whose text it is, if there is one: its name, its divider's lower resistor, its ends of the scale. */
  readonly craft: Craft | null;
  /** Paths for `use` lines, from where the script will stand. */
  readonly uses?: readonly string[];
}

/** Reads a whole text. Never throws, for any text. */
export function readBoard(dialect: Dialect, text: string, context: ReadContext): Reading {
  return finish(readBoardSteps(dialect, text, context));
}

/** The same in steps: a text of fifty thousand lines takes a second. */
export function* readBoardSteps(dialect: Dialect, text: string, context: ReadContext): Steps<Reading> {
  const { catalogue } = context.workspace;
  const entries = entryReader(catalogue);
  const lines = boardLines(text);
  const reader = lineReader(dialect, entries, false);
  const sayings = yield* sayingSteps(lines, reader, entries);
  const joined = joinEntries(sayings.all, entries, surroundingsOf(context));
  yield;
  const read = linesRead(sayings, reader);
  yield;
  const { text: script, from } = scriptText(
    {
      name: context.craft?.name ?? dialect.name,
      uses: context.uses ?? [],
      entries: joined.entries,
      dialect: dialect.name,
      kept: keptLines(sayings.placed, read),
    },
    catalogue,
  );
  let parsed: Script | null = null;
  return {
    lines: read,
    script,
    // Only some ask for it, and a long text takes a while.
    get read() {
      parsed ??= scriptReader(catalogue).read(READ_FILE, script, true);
      return parsed;
    },
    linesOf: (line) => from[line] ?? [],
    notes: [...joined.notes, ...notesOn(script, joined, context)],
    curves: joined.curves,
  };
}

/**
 * The state of each line and what it says, without a handset: channels stay as they are. Lines that were read before are
 * remembered with the dialect.
 */
export function lineReadings(dialect: Dialect, text: string, catalogue: Catalogue): readonly ReadLine[] {
  return finish(lineReadingSteps(dialect, text, catalogue));
}

/** The same in steps. */
export function* lineReadingSteps(dialect: Dialect, text: string, catalogue: Catalogue): Steps<readonly ReadLine[]> {
  const { entries, lines } = readersOf(dialect, catalogue);
  const sayings = yield* sayingSteps(boardLines(text), lines, entries);
  joinEntries(sayings.all, entries, RAW);
  yield;
  return linesRead(sayings, lines);
}

/** Where the script stands that is read, for what asks for a file. */
const READ_FILE = "/read.fettle";

const RAW: Surroundings = {
  controls: "raw",
  endpoints: null,
  twoLevelChannels: [],
  dividerBottomKohm: null,
  shuntGain: null,
};

const remembered = new WeakMap<Dialect, { readonly catalogue: Catalogue; readonly readers: Readers }>();

type Readers = ReturnType<typeof makeReaders>;

function makeReaders(dialect: Dialect, catalogue: Catalogue) {
  const entries = entryReader(catalogue);
  return { entries, lines: lineReader(dialect, entries) };
}

function readersOf(dialect: Dialect, catalogue: Catalogue): Readers {
  const known = remembered.get(dialect);
  if (known?.catalogue === catalogue) return known.readers;
  const readers = makeReaders(dialect, catalogue);
  remembered.set(dialect, { catalogue, readers });
  return readers;
}

/** What a craft, or a handset, says beside the board's text. */
export function surroundingsOf({ workspace, handset, craft }: ReadContext): Surroundings {
  const pack = craft?.settings.get("pack");
  const numberOf = (name: string, unit: string): Exact | null => {
    const value = pack?.get(name)?.value;
    const exact = value?.kind === "quantity" ? exactOf(value.digits) : null;
    return exact && value?.kind === "quantity" ? exactIn(exact, value.unit, unit) : null;
  };
  const link = craft?.settings.get("link");
  const ends = link?.get("endpoints")?.value;
  const twoLevel = link?.get("two-level")?.value;
  return {
    controls: handset ? controlsOf(workspace, handset) : craft ? controlValues(craft) : null,
    endpoints: ends?.kind === "range" ? { fromUs: ends.from.number, toUs: ends.to.number } : null,
    twoLevelChannels:
      twoLevel?.kind === "list" ? twoLevel.items.flatMap((item) => (item.kind === "integer" ? [item.number] : [])) : [],
    dividerBottomKohm: numberOf("divider-bottom", "kohm"),
    shuntGain: numberOf("shunt-gain", ""),
  };
}

/** The controls of a handset with all that it uses. */
function controlsOf(workspace: Workspace, handset: Script): ReadonlyMap<string, ControlValue> {
  const whole = workspace.script(handset.file) === handset ? workspace.craftLike(handset.file) : null;
  if (whole) return controlValues(whole) ?? new Map();
  return new Map(
    handset.entries.flatMap(({ name, value }) => (value?.kind === "control" ? [[name, value] as const] : [])),
  );
}

function controlValues({ controls }: Craft): ReadonlyMap<string, ControlValue> | null {
  const values = [...controls.values()].flatMap(({ name, value }) => (value ? [[name, value] as const] : []));
  return values.length > 0 ? new Map(values) : null;
}

function notesOn(script: string, { entries }: Joined, { handset, craft }: ReadContext): string[] {
  const notes: string[] = [];
  const hasConditions = entries.some(({ spec }) => spec.holds === "modes" || spec.holds === "outputs");
  if (hasConditions && !handset && !craft?.controls.size)
    notes.push("Conditions name channels, as it is not known which control of a handset sends which.");
  if (script.includes("\0"))
    notes.push(
      "The text holds zero bytes, and a script with them is no text that is read: take them out, and read it again.",
    );
  const answer = scriptAnswer({ kind: "text", text: script, validUtf8: true });
  if (answer.kind === "unreadable") notes.push(`The script is more than is read of a file: ${answer.why}`);
  return notes;
}
