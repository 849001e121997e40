/** Parses one entry by the kind of its section. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { QuantityType, SectionSpec, SettingSpec, ValueType } from "../catalogue/specs.ts";
import type { Piece, PieceKind } from "../syntax/piece.ts";
import { readCondition } from "../syntax/read-condition.ts";
import {
  addPiece,
  describeNext,
  type Fault,
  fault,
  isFault,
  nextCols,
  type ReadContext,
  unknownName,
} from "../syntax/read-context.ts";
import { readControl } from "../syntax/read-control.ts";
import { readCell } from "../syntax/read-place.ts";
import { scanner } from "../syntax/scanner.ts";
import type { Cols } from "../syntax/span.ts";
import type { Word } from "../syntax/tree.ts";
import type { ControlValue, Value } from "../syntax/value.ts";
import { dottedFault, jointFault, keywordRepair, outdentFault, secondEntry, signFault } from "./entry-slips.ts";
import { FIRST_CONTROL_CHANNEL } from "./free-channel.ts";
import { beyondLimits, type LimitIssue } from "./limits.ts";
import type { ParsedEntry } from "./parsed-entry.ts";
import { readSimple } from "./read-simple.ts";
import { readSetting } from "./read-value.ts";
import type { EntryKind } from "./script.ts";
import { type NameWithWords, similarNames } from "./similar-names.ts";
import { units } from "./units.ts";

/** Parses an entry of a known section. `at` are the columns after the entry's name. */
export function readEntry(text: string, head: Word, at: Cols, spec: SectionSpec, catalogue: Catalogue): ParsedEntry {
  switch (spec.holds) {
    case "modes":
      if (!catalogue.mode(head.text)) return unknownHead(text, head, "mode", spec, catalogue);
      return readKeywordEntry(text, head, at, "mode", "when", (context) => readWhen(context, catalogue));
    case "outputs":
      if (!isName(head))
        return faultyEntry(head, "output", "An output is named in small letters, as in “nose-light when TL is down”.");
      return readKeywordEntry(text, head, at, "output", "when", (context) => readWhen(context, catalogue));
    case "controls":
      if (isName(head))
        return faultyEntry(
          head,
          "control",
          `A control is named by capitals, as it is called on the handset: ${head.text.toUpperCase()}.`,
        );
      return readDirectEntry(text, head, at, "control", readControl);
    case "follows":
      return readFollows(text, head, at, catalogue);
    case "kept":
      return faultyEntry(head, "setting", "A kept line of board text begins with “|”.");
    case "places":
      if (catalogue.element(head.text)) return readKeywordEntry(text, head, at, "element", "at", readCell);
      return readSettingEntry(text, head, at, spec, catalogue);
    case "settings":
      return readSettingEntry(text, head, at, spec, catalogue);
  }
}

function readSettingEntry(text: string, head: Word, at: Cols, spec: SectionSpec, catalogue: Catalogue): ParsedEntry {
  const setting = catalogue.setting(spec.name, head.text);
  if (!setting) return unknownHead(text, head, spec.holds === "places" ? "element" : "setting", spec, catalogue);
  const read = readSetting(text, at, setting, units);
  const problem = read.fault && (signFault(text, at) ?? secondEntry(text, head, read.fault, spec, catalogue));
  const pieces: Piece[] = [{ kind: "setting", start: head.start, end: head.end }, ...read.pieces];
  const beyond = read.value ? beyondLimits(read.value, setting) : [];
  return { kind: "setting", value: read.value, pieces, fault: problem ?? read.fault, beyond, setting };
}

type ReadRest = (context: ReadContext) => Value | Fault;

/** Parses an entry whose value follows its name directly. */
function readDirectEntry(text: string, head: Word, at: Cols, kind: EntryKind & PieceKind, read: ReadRest): ParsedEntry {
  const context: ReadContext = { scan: scanner(text, at.start, at.end), units, pieces: [] };
  addPiece(context, kind, head);
  const value = requireLineEnd(context, read(context));
  if (isFault(value)) {
    const sign = kind === "control" || kind === "setting" ? signFault(text, at) : null;
    return { kind, value: null, pieces: context.pieces, fault: sign ?? value, beyond: [], setting: null };
  }
  return {
    kind,
    value,
    pieces: context.pieces,
    fault: null,
    beyond: value.kind === "control" ? pulsesBeyond(value) : [],
    setting: null,
  };
}

/** Parses an entry whose value follows a keyword: `NAME when …`, `NAME at …`. */
function readKeywordEntry(
  text: string,
  head: Word,
  at: Cols,
  kind: EntryKind & PieceKind,
  word: "when" | "at",
  read: ReadRest,
): ParsedEntry {
  return readDirectEntry(text, head, at, kind, (context) => {
    const matched = context.scan.match(word === "when" ? /when(?![A-Za-z0-9_-])/y : /at(?![A-Za-z0-9_-])/y);
    if (!matched) {
      const example = word === "when" ? `${head.text} when TL is down` : `${head.text} at left+2, bottom-1`;
      return fault(
        "syntax",
        nextCols(context),
        `“${word}” is expected after ${head.text}, as in “${example}”; ${describeNext(context)}.`,
        ...keywordRepair(context, word),
      );
    }
    addPiece(context, "keyword", matched);
    return read(context);
  });
}

function readWhen(context: ReadContext, catalogue: Catalogue): Value | Fault {
  const names = catalogue.modes.map((mode) => mode.name);
  const condition = readCondition(context, { names, has: (name) => catalogue.mode(name) !== undefined });
  if (isFault(condition)) return withLikelyModes(condition, catalogue);
  const joint = jointFault(context);
  if (joint) return joint;
  return { kind: "condition", condition, start: condition.start, end: condition.end };
}

/** The fault with the modes that were most likely meant, found also by the plain words for them. */
function withLikelyModes(problem: Fault, catalogue: Catalogue): Fault {
  if (!problem.unknown) return problem;
  const { word, candidates } = problem.unknown;
  const isModes = candidates.length === catalogue.modes.length && candidates[0] === catalogue.modes[0]?.name;
  // The catalogue's own list need not be prepared for each search.
  const named = isModes ? catalogue.modes : candidates.map((name) => catalogue.mode(name) ?? name);
  const likely = similarNames(word, named);
  return withChosenCandidates({ ...problem, unknown: { word, candidates: likely } });
}

/** Parses `SETTING follows DIAL from VALUE to VALUE`: both values have the type of that setting. */
function readFollows(text: string, head: Word, at: Cols, catalogue: Catalogue): ParsedEntry {
  const setting = adjustable(head.text, catalogue);
  const type = setting?.types.find((each) => each.is === "quantity");
  if (!setting || type?.is !== "quantity") {
    const dotted = dottedFault(text, head, catalogue);
    if (dotted) return { ...faultyEntry(head, "follows", ""), fault: dotted };
    return unmovable(head, catalogue);
  }
  const read = readDirectEntry(text, head, at, "setting", (context) => readFollowing(context, setting, type));
  const beyond =
    read.value?.kind === "follows" ? [read.value.from, read.value.to].flatMap((end) => beyondLimits(end, setting)) : [];
  return { ...read, kind: "follows", beyond, setting };
}

/** A head that no dial may move: a name that nobody knows, or a setting that is not to change in the air. */
function unmovable(head: Word, catalogue: Catalogue): ParsedEntry {
  const home = catalogue.sections.find((section) => !section.like && catalogue.setting(section.name, head.text));
  const known = home && catalogue.setting(home.name, head.text);
  if (!known)
    return faultyEntry(
      head,
      "follows",
      `There is no setting “${head.text}” that a dial can move.`,
      movableIn(catalogue),
    );
  const why = known.types.some(isQuantity)
    ? known.kind === "hardware"
      ? "it says what the craft is made of, and turning a dial changes nothing of that"
      : "what the craft is to do when something goes wrong must not depend on a dial"
    : "it is no quantity, so there is nothing between two ends of it";
  const message = `No dial may move ${head.text}: ${why}. Say it in “${home.name}”, and take this line out.`;
  return faultyEntry(head, "follows", message, []);
}

function readFollowing(context: ReadContext, setting: SettingSpec, type: QuantityType): Value | Fault {
  const { scan } = context;
  const start = scan.at();
  const missing = (what: string) =>
    fault(
      "syntax",
      nextCols(context),
      `${what} is expected here, as in “${setting.name} follows KN from … to …”; ${describeNext(context)}.`,
    );
  if (!readKeyword(context, FOLLOWS)) return missing("“follows”");
  const dial = scan.control();
  if (!dial) return missing("The dial to follow");
  addPiece(context, "control", dial);
  if (!readKeyword(context, FROM)) return missing("“from”");
  const from = readSimple(context, type, setting.name, (each) => each === "to");
  if (isFault(from)) return from;
  if (!readKeyword(context, TO)) return missing("“to”");
  const to = readSimple(context, type, setting.name, () => false);
  if (isFault(to)) return to;
  return {
    kind: "follows",
    dial: dial.text,
    dialAt: { start: dial.start, end: dial.end },
    from,
    to,
    start,
    end: scan.lastEnd(),
  };
}

/** The setting that a name means in `adjust`: a quantity that a dial may move in flight. */
export function adjustable(name: string, catalogue: Catalogue): SettingSpec | undefined {
  for (const section of catalogue.sections) {
    const setting = section.settings.find((each) => each.name === name && isMovable(each));
    if (setting) return setting;
  }
  return undefined;
}

const movable = new WeakMap<Catalogue, readonly SettingSpec[]>();

/** Every setting that can follow a dial, the same list for the same catalogue. */
function movableIn(catalogue: Catalogue): readonly SettingSpec[] {
  let found = movable.get(catalogue);
  if (!found) {
    found = catalogue.sections.flatMap((section) => section.settings.filter(isMovable));
    movable.set(catalogue, found);
  }
  return found;
}

function isMovable({ adjustable, types }: SettingSpec): boolean {
  return adjustable === true && types.some(isQuantity);
}

function isQuantity({ is }: ValueType): boolean {
  return is === "quantity";
}

function readKeyword(context: ReadContext, pattern: RegExp): boolean {
  const matched = context.scan.match(pattern);
  if (matched) addPiece(context, "keyword", matched);
  return matched !== null;
}

/** A fault if anything is left on the line after the value. */
function requireLineEnd(context: ReadContext, value: Value | Fault): Value | Fault {
  if (isFault(value) || context.scan.done()) return value;
  const rest = context.scan.rest();
  return fault(
    "syntax",
    rest,
    `The entry ends before “${rest.text}”: remove what follows, or begin it with # as a comment.`,
  );
}

/** The widest pulses that a control may be given. */
const PULSES_US = { least: 500, most: 2500, source: "common practice, no source" };

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
): ParsedEntry {
  const what = { setting: "setting", mode: "mode", element: "setting or element" }[kind];
  const candidates =
    kind === "mode"
      ? catalogue.modes
      : kind === "element"
        ? [...catalogue.settingsOf(spec.name), ...catalogue.elements]
        : catalogue.settingsOf(spec.name);
  const head = headFromPlainWords(text, first, candidates);
  const message = `“${spec.name}” has no ${what} “${head.text}”`;
  const outdented = outdentFault(text, head, catalogue);
  if (outdented) return { ...faultyEntry(head, kind, ""), fault: outdented };
  const home = sectionHolding(head.text, catalogue);
  // The name exists in another section, so that was meant, and no similar name.
  return home
    ? faultyEntry(head, kind, `${message}: it belongs in “${home}”.`, [])
    : faultyEntry(head, kind, `${message}.`, candidates);
}

/** The name of the section that a name belongs to; undefined if no section has it. */
function sectionHolding(name: string, catalogue: Catalogue): string | undefined {
  if (catalogue.mode(name)) return "modes";
  if (catalogue.element(name)) return "osd";
  return catalogue.sections.find((section) => catalogue.setting(section.name, name))?.name;
}

/** Several lower-case words in a row, up to a keyword that ends the name of an entry. */
const PHRASE = /[a-z][a-z0-9-]*(?:[ \t]+(?!when\b|at\b|follows\b)[a-z][a-z0-9-]*)+/y;

/** The first words of a line, if together they are the plain words for a candidate; else the first word alone. */
function headFromPlainWords(text: string, first: Word, candidates: readonly NameWithWords[]): Word {
  PHRASE.lastIndex = first.start;
  const matched = PHRASE.exec(text)?.[0];
  const plainWords = matched?.split(/[ \t]+/).join(" ");
  const known = candidates.some(({ words = [] }) => words.some((word) => word.toLowerCase() === plainWords));
  return matched && plainWords && known
    ? { text: plainWords, start: first.start, end: first.start + matched.length }
    : first;
}

/** The result for an entry whose name is wrong: unknown with candidates, against the grammar without them. */
function faultyEntry(
  head: Word,
  kind: (EntryKind & PieceKind) | "follows",
  message: string,
  candidates?: readonly (string | NameWithWords)[],
): ParsedEntry {
  const problem = candidates
    ? withChosenCandidates(unknownName(head, head.text, similarNames(head.text, candidates), message))
    : fault("syntax", head, message);
  return { kind, value: null, pieces: [], fault: problem, beyond: [], setting: null };
}

/** Marks the candidates as final: they were found by their plain words too, which the fault does not carry. */
function withChosenCandidates(fault: Fault): Fault {
  return { ...fault, ...(fault.unknown && { unknown: { ...fault.unknown, chosen: true } }) };
}

function isName(head: Word): boolean {
  return /^[a-z]/.test(head.text);
}

const FOLLOWS = /follows(?![A-Za-z0-9_-])/y;
const FROM = /from(?![A-Za-z0-9_-])/y;
const TO = /to(?![A-Za-z0-9_-])/y;
