/** Parses conditions: `not`, `and` and `or` over tests of controls and channels, and over other modes. */
import type { Condition, Subject } from "./condition.ts";
import {
  addPiece,
  describeNext,
  type Fault,
  fault,
  isFault,
  nextCols,
  RESERVED,
  type ReadContext,
  unknownName,
} from "./read-context.ts";
import { pulsesOf, readPulse, readRange } from "./read-number.ts";
import type { Cols } from "./span.ts";

/** Deeper than anybody writes; the limit keeps a malicious line from exhausting the stack. */
const DEEPEST = 60;

/** The names of all modes. */
export interface ModeNames {
  readonly names: readonly string[];
  has(name: string): boolean;
}

/** Parses a condition. A name on its own that is none of `modes` is a fault. */
export function readCondition(context: ReadContext, modes: ModeNames): Condition | Fault {
  return readJoined(context, modes, "or", 0);
}

function readJoined(context: ReadContext, modes: ModeNames, word: "or" | "and", depth: number): Condition | Fault {
  const parts: Condition[] = [];
  for (;;) {
    const before = parts.at(-1);
    const part = word === "or" ? readJoined(context, modes, "and", depth) : readPart(context, modes, depth);
    if (isFault(part)) return before && word === "or" ? explainPosition(context, part, before) : part;
    parts.push(part);
    const joint = keyword(context, word);
    if (!joint) break;
  }
  if (parts.length === 1) return parts[0]!;
  return { kind: word, parts, start: parts[0]!.start, end: parts.at(-1)!.end };
}

function readPart(context: ReadContext, modes: ModeNames, depth: number): Condition | Fault {
  const { scan } = context;
  if (depth > DEEPEST)
    return fault(
      "syntax",
      nextCols(context),
      "This condition is nested too deeply to be read; name parts of it as modes of their own.",
    );
  const not = keyword(context, "not");
  if (not) {
    const part = readPart(context, modes, depth + 1);
    return isFault(part) ? part : { kind: "not", part, start: not.start, end: part.end };
  }
  const open = scan.mark("(");
  if (open) {
    const inner = readJoined(context, modes, "or", depth + 1);
    if (isFault(inner)) return inner;
    const close = scan.mark(")");
    if (!close)
      return fault(
        "syntax",
        nextCols(context),
        `The bracket opened at column ${open.start + 1} is not closed: ${describeNext(context)}.`,
      );
    return { ...inner, start: open.start, end: close.end };
  }
  return readTest(context, modes);
}

function readTest(context: ReadContext, modes: ModeNames): Condition | Fault {
  const { scan } = context;
  const channel = scan.channel();
  if (channel) {
    if (channel.channel < 1)
      return fault("wrong-type", channel, "Channels count from 1: 1 to 4 carry the sticks, controls take 5 and up.");
    addPiece(context, "channel", channel);
    return readBounds(context, { kind: "channel", ...channel });
  }
  const control = scan.control();
  if (control) {
    addPiece(context, "control", control);
    const is = keyword(context, "is");
    if (is) return readIs(context, control);
    return readBounds(context, { kind: "control", name: control.text, start: control.start, end: control.end });
  }
  const before = scan.lastEnd();
  const name = scan.name();
  if (!name || (RESERVED.has(name.text) && name.text !== "always")) {
    scan.moveTo(before);
    return fault(
      "syntax",
      nextCols(context),
      `A test is expected here, as in “TL is down”, “ch9 above 1500 us” or the name of a mode; ${describeNext(context)}.`,
    );
  }
  if (name.text === "always") {
    addPiece(context, "keyword", name);
    return { kind: "always", start: name.start, end: name.end };
  }
  if (!modes.has(name.text)) {
    const digits = CHANNEL_WORD.test(name.text) ? scan.digits() : null;
    if (digits) {
      const channel = `ch${digits.text}`;
      const at = { start: name.start, end: digits.end };
      return fault("syntax", at, `A channel is written “${channel}”.`, {
        title: `Write ${channel}`,
        ...at,
        text: channel,
      });
    }
    const control = name.text.toUpperCase();
    if (scan.match(TESTING) && !control.includes("-"))
      return unknownName(
        name,
        name.text,
        [control],
        `There is no mode “${name.text}”, and a control begins with a capital letter.`,
      );
    return unknownName(
      name,
      name.text,
      modes.names,
      `There is no mode “${name.text}”; a position stands after its control, as in “TL is ${name.text}”.`,
    );
  }
  addPiece(context, "mode", name);
  return { kind: "mode", name: name.text, start: name.start, end: name.end };
}

function readIs(context: ReadContext, control: Cols & { text: string }): Condition | Fault {
  const not = keyword(context, "not");
  const before = context.scan.lastEnd();
  const position = context.scan.name();
  if (!position || RESERVED.has(position.text)) {
    context.scan.moveTo(before);
    return fault(
      "syntax",
      nextCols(context),
      `The position of ${control.text} is expected here, as in “${control.text} is down”; ${describeNext(context)}.`,
    );
  }
  addPiece(context, "position", position, control.text);
  return {
    kind: "is",
    control: control.text,
    controlAt: { start: control.start, end: control.end },
    position: position.text,
    positionAt: { start: position.start, end: position.end },
    negated: not !== null,
    start: control.start,
    end: position.end,
  };
}

function readBounds(context: ReadContext, subject: Subject): Condition | Fault {
  const { scan } = context;
  const who = subject.kind === "control" ? subject.name : `ch${subject.channel}`;
  const word = keyword(context, "in") ?? keyword(context, "above") ?? keyword(context, "below");
  if (!word) {
    const sign = scan.match(/[<>]=?|==?/y);
    if (sign) return operatorFault(sign, subject);
    const at = scan.at();
    const position = subject.kind === "control" ? scan.name() : null;
    if (position && !RESERVED.has(position.text))
      return fault("syntax", position, `Between a control and its position stands “is”: ${who} is ${position.text}.`, {
        title: `Write is ${position.text}`,
        start: position.start,
        end: position.start,
        text: "is ",
      });
    scan.moveTo(at);
    const is = subject.kind === "channel" && scan.match(/is(?![A-Za-z0-9_-])/y);
    const hint = is
      ? "a channel has no positions: test its pulse"
      : `a test of ${who} goes on with “is”, “in”, “above” or “below”`;
    return fault("syntax", is || nextCols(context), `Here ${hint}, as in “${who} above 1500 us”.`);
  }
  if (word.text === "in") {
    const range = readRange(context);
    if (isFault(range)) return range;
    const pulses = pulsesOf(context, range, "A pulse");
    if (isFault(pulses)) return pulses;
    return { kind: "in", subject, ...pulses, start: subject.start, end: range.end };
  }
  const bound = readPulse(context, "A pulse");
  if (isFault(bound)) return bound;
  return {
    kind: word.text as "above" | "below",
    subject,
    boundUs: bound.pulseUs,
    start: subject.start,
    end: bound.at.end,
  };
}

/** The fault of a comparison operator of other languages in place of a keyword. */
function operatorFault({ text, start, end }: Cols & { text: string }, subject: Subject): Fault {
  const word = text.startsWith(">") ? "above" : text.startsWith("<") ? "below" : "is";
  if (word === "is" && subject.kind === "channel")
    return fault(
      "syntax",
      { start, end },
      `A channel has no positions: test its pulse, as in “ch${subject.channel} above 1500 us”.`,
    );
  return fault("syntax", { start, end }, `“${text}” is written “${word}” here.`, {
    title: `Write ${word}`,
    start,
    end,
    text: word,
    // “above” and “below” do not include the bound.
    ...(/^[<>]=/.test(text) && { doubtful: true }),
  });
}

/** A position on its own after `or` is a common mistake with one certain repair: write its control before it. */
function explainPosition(context: ReadContext, part: Fault, before: Condition): Fault {
  const test = lastTest(before);
  if (!part.unknown || test?.kind !== "is" || context.scan.lastEnd() !== part.end) return part;
  const position = part.unknown.word;
  return fault(
    "syntax",
    part,
    `A position cannot stand alone after “or”: say whose it is, “or ${test.control} is ${position}”.`,
    {
      title: `Write ${test.control} is ${position}`,
      start: part.start,
      end: part.end,
      text: `${test.control} is ${position}`,
    },
  );
}

function lastTest(condition: Condition): Condition | undefined {
  let test: Condition | undefined = condition;
  while (test && test.kind !== "is") {
    if (test.kind === "not") test = test.part;
    else test = test.kind === "and" || test.kind === "or" ? test.parts.at(-1) : undefined;
  }
  return test;
}

function keyword(context: ReadContext, word: string) {
  const found = context.scan.match(KEYWORDS[word]!);
  if (found) addPiece(context, "keyword", found);
  return found;
}

const CHANNEL_WORD = /^(?:ch|chan|channel)$/;

/** The keywords that follow a control, and never a mode. */
const TESTING = /(?:is|in|above|below)(?![A-Za-z0-9_-])/y;

const KEYWORDS: Record<string, RegExp> = Object.fromEntries(
  ["or", "and", "not", "is", "in", "above", "below"].map((word) => [word, new RegExp(`${word}(?![A-Za-z0-9_-])`, "y")]),
);
