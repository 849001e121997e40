/** One entry, read by what its section holds. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { QuantityType, SectionSpec, SettingSpec } from "../catalogue/types.ts";
import type { Piece, PieceKind } from "../syntax/piece.ts";
import { readCondition } from "../syntax/read-condition.ts";
import { readControl } from "../syntax/read-control.ts";
import { readCell } from "../syntax/read-place.ts";
import { type Fault, fault, found, isFault, nextCols, piece, type Reading, unknownName } from "../syntax/reading.ts";
import { scanner } from "../syntax/scanner.ts";
import type { Cols } from "../syntax/span.ts";
import type { Word } from "../syntax/tree.ts";
import type { ControlValue, Value } from "../syntax/value.ts";
import { dottedFault, jointFault, outdentFault, secondEntry, signFault, wordRepair } from "./entry-slips.ts";
import { beyondLimits, type LimitIssue } from "./limits.ts";
import { readSimple } from "./read-simple.ts";
import { readSetting } from "./read-value.ts";
import type { EntryKind } from "./script.ts";
import { type NameWithWords, similarNames } from "./similar-names.ts";
import { units } from "./units.ts";

/** An entry without the number of its line: the same text in the same section reads the same. */
export interface EntryReading {
  readonly kind: EntryKind;
  readonly value: Value | null;
  readonly pieces: readonly Piece[];
  readonly fault: Fault | null;
  readonly beyond: readonly LimitIssue[];
  /** The setting that the entry gives a value to, where it is one. */
  readonly setting: SettingSpec | null;
}

/** Reads an entry of a known section. `at` bounds what follows the entry's name. */
export function readEntry(text: string, head: Word, at: Cols, spec: SectionSpec, catalogue: Catalogue): EntryReading {
  switch (spec.holds) {
    case "modes":
      if (!catalogue.mode(head.text)) return unknownHead(text, head, "mode", spec, catalogue);
      return worded(text, head, at, "mode", "when", (reading) => readWhen(reading, catalogue));
    case "outputs":
      if (!isName(head))
        return stray(head, "output", "An output is named in small letters, as in “nose-light when TL is down”.");
      return worded(text, head, at, "output", "when", (reading) => readWhen(reading, catalogue));
    case "controls":
      if (isName(head))
        return stray(
          head,
          "control",
          `A control is named by capitals, as it is called on the handset: ${head.text.toUpperCase()}.`,
        );
      return plain(text, head, at, "control", readControl);
    case "follows":
      return readFollows(text, head, at, catalogue);
    case "kept":
      return stray(head, "setting", "A kept line of board text begins with “|”.");
    case "places":
      if (catalogue.element(head.text)) return worded(text, head, at, "element", "at", readCell);
      return readPlain(text, head, at, spec, catalogue);
    case "settings":
      return readPlain(text, head, at, spec, catalogue);
  }
}

function readPlain(text: string, head: Word, at: Cols, spec: SectionSpec, catalogue: Catalogue): EntryReading {
  const setting = catalogue.setting(spec.name, head.text);
  if (!setting) return unknownHead(text, head, spec.holds === "places" ? "element" : "setting", spec, catalogue);
  const read = readSetting(text, at, setting, units);
  const problem = read.fault && (signFault(text, at) ?? secondEntry(text, head, read.fault, spec, catalogue));
  const pieces: Piece[] = [{ kind: "setting", start: head.start, end: head.end }, ...read.pieces];
  const beyond = read.value ? beyondLimits(read.value, setting) : [];
  return { kind: "setting", value: read.value, pieces, fault: problem ?? read.fault, beyond, setting };
}

type ReadRest = (reading: Reading) => Value | Fault;

/** An entry whose value follows its name at once. */
function plain(text: string, head: Word, at: Cols, kind: EntryKind & PieceKind, read: ReadRest): EntryReading {
  const reading: Reading = { scan: scanner(text, at.start, at.end), units, pieces: [] };
  piece(reading, kind, head);
  const value = finished(reading, read(reading));
  if (isFault(value)) return { kind, value: null, pieces: reading.pieces, fault: value, beyond: [], setting: null };
  return {
    kind,
    value,
    pieces: reading.pieces,
    fault: null,
    beyond: value.kind === "control" ? pulsesBeyond(value) : [],
    setting: null,
  };
}

/** An entry whose value follows a word: `NAME when …`, `NAME at …`. */
function worded(
  text: string,
  head: Word,
  at: Cols,
  kind: EntryKind & PieceKind,
  word: "when" | "at",
  read: ReadRest,
): EntryReading {
  return plain(text, head, at, kind, (reading) => {
    const said = reading.scan.match(word === "when" ? /when(?![A-Za-z0-9_-])/y : /at(?![A-Za-z0-9_-])/y);
    if (!said) {
      const example = word === "when" ? `${head.text} when TL is down` : `${head.text} at left+2, bottom-1`;
      return fault(
        "syntax",
        nextCols(reading),
        `“${word}” is wanted after ${head.text}, as in “${example}”; ${found(reading)}.`,
        ...wordRepair(reading, word),
      );
    }
    piece(reading, "keyword", said);
    return read(reading);
  });
}

function readWhen(reading: Reading, catalogue: Catalogue): Value | Fault {
  const names = catalogue.modes.map((mode) => mode.name);
  const condition = readCondition(reading, { names, has: (name) => catalogue.mode(name) !== undefined });
  if (isFault(condition)) return offeringModes(condition, catalogue);
  const joint = jointFault(reading);
  if (joint) return joint;
  return { kind: "condition", condition, start: condition.start, end: condition.end };
}

/** Names that a condition could have meant, also by the plain words for modes. */
function offeringModes(problem: Fault, catalogue: Catalogue): Fault {
  if (!problem.unknown) return problem;
  const { word, candidates } = problem.unknown;
  const likely = similarNames(
    word,
    candidates.map((name) => catalogue.mode(name) ?? name),
  );
  return offering({ ...problem, unknown: { word, candidates: likely } });
}

/** `SETTING follows DIAL from VALUE to VALUE`: both ends are read as that setting's. */
function readFollows(text: string, head: Word, at: Cols, catalogue: Catalogue): EntryReading {
  const setting = adjustable(head.text, catalogue);
  const type = setting?.types.find((each) => each.is === "quantity");
  if (!setting || type?.is !== "quantity") {
    const names = catalogue.sections.flatMap((section) => section.settings.filter(isQuantity));
    const dotted = dottedFault(text, head, catalogue);
    if (dotted) return { ...stray(head, "follows", ""), fault: dotted };
    const message = `No setting “${head.text}” can follow a dial: only a setting that is a quantity can.`;
    return stray(head, "follows", message, names);
  }
  const read = plain(text, head, at, "setting", (reading) => readFollowing(reading, setting, type));
  const beyond =
    read.value?.kind === "follows" ? [read.value.from, read.value.to].flatMap((end) => beyondLimits(end, setting)) : [];
  return { ...read, kind: "follows", beyond, setting };
}

function readFollowing(reading: Reading, setting: SettingSpec, type: QuantityType): Value | Fault {
  const { scan } = reading;
  const start = scan.at();
  const wanted = (what: string) =>
    fault(
      "syntax",
      nextCols(reading),
      `${what} is wanted here, as in “${setting.name} follows KN from … to …”; ${found(reading)}.`,
    );
  if (!word(reading, FOLLOWS)) return wanted("“follows”");
  const dial = scan.control();
  if (!dial) return wanted("The dial to follow");
  piece(reading, "control", dial);
  if (!word(reading, FROM)) return wanted("“from”");
  const from = readSimple(reading, type, setting.name, (each) => each === "to");
  if (isFault(from)) return from;
  if (!word(reading, TO)) return wanted("“to”");
  const to = readSimple(reading, type, setting.name, () => false);
  if (isFault(to)) return to;
  return {
    kind: "follows",
    dial: dial.text,
    dialAt: { start: dial.start, end: dial.end },
    from,
    to,
    start,
    end: scan.last(),
  };
}

/** The quantity that a bare name means in `adjust`: of several sections' the first. */
export function adjustable(name: string, catalogue: Catalogue): SettingSpec | undefined {
  for (const section of catalogue.sections) {
    const setting = section.settings.find((each) => each.name === name && isQuantity(each));
    if (setting) return setting;
  }
  return undefined;
}

function isQuantity(setting: SettingSpec): boolean {
  return setting.types.some((type) => type.is === "quantity");
}

function word(reading: Reading, pattern: RegExp): boolean {
  const said = reading.scan.match(pattern);
  if (said) piece(reading, "keyword", said);
  return said !== null;
}

/** A value that must fill the rest of its line. */
function finished(reading: Reading, value: Value | Fault): Value | Fault {
  if (isFault(value) || reading.scan.done()) return value;
  const rest = reading.scan.rest();
  return fault(
    "syntax",
    rest,
    `The entry ends before “${rest.text}”: remove what is too much, or begin it with # as a comment.`,
  );
}

/** The widest pulses that a control may be given. */
const PULSES_US = { least: 500, most: 2500, source: "common practice, no source" };
/** Channels 1 to 4 carry the sticks. */
const FIRST_CONTROL_CHANNEL = 5;

function pulsesBeyond(control: ControlValue): LimitIssue[] {
  const issues: LimitIssue[] = [];
  const report = (at: Cols, message: string) =>
    issues.push({ code: "out-of-range", start: at.start, end: at.end, message });
  if (control.channel < FIRST_CONTROL_CHANNEL) {
    report(
      control.channelAt,
      "Out of range: channels 1 to 4 carry the sticks, so a control takes channel 5 or one above it.",
    );
  }
  const { least, most, source } = PULSES_US;
  const pulses = control.positions.map((position) => ({ pulseUs: position.pulseUs, at: position.pulseAt as Cols }));
  if (control.fromUs !== null && control.toUs !== null) {
    for (const pulseUs of [control.fromUs, control.toUs]) pulses.push({ pulseUs, at: control });
  }
  for (const { pulseUs, at } of pulses) {
    if (pulseUs < least || pulseUs > most)
      report(at, `Out of range: a pulse lies between ${least} us and ${most} us (${source}).`);
  }
  return issues;
}

function unknownHead(
  text: string,
  first: Word,
  kind: "setting" | "mode" | "element",
  spec: SectionSpec,
  catalogue: Catalogue,
): EntryReading {
  const what = { setting: "setting", mode: "mode", element: "setting or element" }[kind];
  const candidates =
    kind === "mode"
      ? catalogue.modes
      : kind === "element"
        ? [...catalogue.settingsOf(spec.name), ...catalogue.elements]
        : catalogue.settingsOf(spec.name);
  const head = spoken(text, first, candidates);
  const message = `“${spec.name}” has no ${what} “${head.text}”`;
  const outdented = outdentFault(text, head, catalogue);
  if (outdented) return { ...stray(head, kind, ""), fault: outdented };
  const home = homeOf(head.text, catalogue);
  // Where it is at home is what was meant; a name that is like it is not.
  return home
    ? stray(head, kind, `${message}: it belongs in “${home}”.`, [])
    : stray(head, kind, `${message}.`, candidates);
}

/** The section in which a name may stand; undefined where it may stand in none. */
function homeOf(name: string, catalogue: Catalogue): string | undefined {
  if (catalogue.mode(name)) return "modes";
  if (catalogue.element(name)) return "osd";
  return catalogue.sections.find((section) => catalogue.setting(section.name, name))?.name;
}

/** Small words in a row, up to what a value or a condition begins with. */
const PHRASE = /[a-z][a-z0-9-]*(?:[ \t]+(?!when\b|at\b|follows\b)[a-z][a-z0-9-]*)+/y;

/** The words at the head of a line, where together they are plain words for something; else the first alone. */
function spoken(text: string, first: Word, candidates: readonly NameWithWords[]): Word {
  PHRASE.lastIndex = first.start;
  const said = PHRASE.exec(text)?.[0];
  const plainWords = said?.split(/[ \t]+/).join(" ");
  const known = candidates.some(({ words = [] }) => words.some((word) => word.toLowerCase() === plainWords));
  return said && plainWords && known ? { text: plainWords, start: first.start, end: first.start + said.length } : first;
}

/** An entry whose name is not to be had here; without candidates it is the grammar that forbids it. */
function stray(
  head: Word,
  kind: (EntryKind & PieceKind) | "follows",
  message: string,
  candidates?: readonly (string | NameWithWords)[],
): EntryReading {
  const problem = candidates
    ? offering(unknownName(head, head.text, similarNames(head.text, candidates), message))
    : fault("syntax", head, message);
  return { kind, value: null, pieces: [], fault: problem, beyond: [], setting: null };
}

/** The candidates were chosen with the plain words for them, of which nothing is left to choose by. */
function offering(fault: Fault): Fault {
  return { ...fault, ...(fault.unknown && { unknown: { ...fault.unknown, chosen: true } }) };
}

function isName(head: Word): boolean {
  return /^[a-z]/.test(head.text);
}

const FOLLOWS = /follows(?![A-Za-z0-9_-])/y;
const FROM = /from(?![A-Za-z0-9_-])/y;
const TO = /to(?![A-Za-z0-9_-])/y;
