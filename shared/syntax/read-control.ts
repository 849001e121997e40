/** Parses the controls of a handset: `TL switch ch5 up 1000 us down 2000 us lies left`, `KN dial ch9 1000 us to 2000 us`. */

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
import { placeWithoutLies, readLies } from "./read-lies.ts";
import { pulsesOf, readPulse, readRange } from "./read-number.ts";
import type { Cols } from "./span.ts";
import type { ControlKind, ControlPosition, ControlValue } from "./value.ts";

const CONTROL_KINDS: readonly ControlKind[] = ["switch", "selector", "button", "dial"];

/** How many positions each kind has, and the sentence that says so. */
const POSITIONS: Record<Exclude<ControlKind, "dial">, { min: number; max: number; rule: string }> = {
  switch: { min: 2, max: 3, rule: "A switch has 2 or 3 positions" },
  selector: { min: 2, max: 16, rule: "A selector has 2 to 16 positions" },
  button: { min: 2, max: 2, rule: "A button has 2 positions, at rest and held" },
};

/** Parses what follows the name of a control. */
export function readControl(context: ReadContext): ControlValue | Fault {
  const { scan } = context;
  const start = scan.at();
  const word = scan.name();
  const kind = CONTROL_KINDS.find((each) => each === word?.text);
  if (!word || !kind) {
    const message = `What this control is stands here: switch, selector, button or dial; ${word ? `“${word.text}” is none of them` : describeNext(context)}.`;
    return word
      ? unknownName(word, word.text, CONTROL_KINDS, message)
      : fault("wrong-type", nextCols(context), message);
  }
  addPiece(context, "keyword", word);
  const channel = scan.channel();
  if (!channel)
    return fault(
      "wrong-type",
      nextCols(context),
      `The channel of the control is expected here, as in “ch5”; ${describeNext(context)}.`,
    );
  addPiece(context, "channel", channel);
  const base = {
    kind: "control" as const,
    control: kind,
    channel: channel.channel,
    channelAt: { start: channel.start, end: channel.end },
    start,
  };
  if (kind === "dial") {
    const range = readDial(context);
    if (isFault(range)) return range;
    const lies = restlessDial(context, range.end) ?? readLies(context);
    if (isFault(lies)) return lies;
    return { ...base, ...range, positions: [], rest: null, lies, end: scan.lastEnd() };
  }
  const positions = readPositions(context);
  if (isFault(positions)) return positions;
  const { min, max, rule } = POSITIONS[kind];
  if (positions.length < min || positions.length > max) {
    return fault(
      "wrong-type",
      { start: word.start, end: scan.lastEnd() },
      `${rule}; this one has ${positions.length}.`,
    );
  }
  const rest = readRest(context, positions);
  if (isFault(rest)) return rest;
  const lies = readLies(context);
  if (isFault(lies)) return lies;
  return { ...base, positions, rest, fromUs: null, toUs: null, lies, end: scan.lastEnd() };
}

/** The fault of a dial of which a rest is said; null where none is. */
function restlessDial({ scan }: ReadContext, rangeEnd: number): Fault | null {
  const rests = scan.match(/rests(?![A-Za-z0-9_-])/y);
  if (!rests) return null;
  const end = scan.name()?.end ?? rests.end;
  return fault("syntax", rests, "A dial may rest anywhere in its range, so “rests” says nothing of it.", {
    start: rangeEnd,
    end,
    title: "Remove it",
    text: "",
  });
}

function readDial(context: ReadContext): { fromUs: number; toUs: number; end: number } | Fault {
  const range = readRange(context, "may-fall");
  if (isFault(range)) return range;
  const pulses = pulsesOf(context, range, "The stop of a dial");
  if (isFault(pulses)) return pulses;
  const { fromUs, toUs } = pulses;
  if (fromUs === toUs)
    return fault(
      "wrong-type",
      range,
      "A dial that goes from a pulse to the same pulse does nothing: say both of its stops.",
    );
  return { fromUs, toUs, end: range.end };
}

function readPositions(context: ReadContext): ControlPosition[] | Fault {
  const { scan, units } = context;
  const positions: ControlPosition[] = [];
  for (;;) {
    const before = scan.lastEnd();
    const name = scan.name();
    if (!name) {
      if (!scan.done())
        return fault(
          "syntax",
          nextCols(context),
          `The name of a position is expected here, as in “up 1000 us”; ${describeNext(context)}.`,
        );
      return positions;
    }
    if (name.text === "rests" || (name.text === "lies" && positions.length > 1)) {
      scan.moveTo(before);
      return positions;
    }
    if (positions.length > 1) {
      scan.moveTo(before);
      const place = placeWithoutLies(context);
      if (place) return place;
      scan.moveTo(name.end);
    }
    if (RESERVED.has(name.text) || units.symbol(name.text)) {
      return fault(
        "syntax",
        name,
        `No position may be called “${name.text}”: the language uses the word. Give it another name.`,
      );
    }
    if (positions.some((each) => each.name === name.text)) {
      return fault(
        "wrong-type",
        name,
        `This control has a position “${name.text}” already: each needs a name of its own.`,
      );
    }
    addPiece(context, "position", name);
    const pulse = readPulse(context, `The pulse of “${name.text}”`);
    if (isFault(pulse)) return pulse;
    positions.push({
      name: name.text,
      nameAt: cols(name),
      pulseUs: pulse.pulseUs,
      pulseAt: cols(pulse.at),
      start: name.start,
      end: pulse.at.end,
    });
  }
}

/** The name of the rest position: the first listed, unless `rests NAME` names another. */
function readRest(context: ReadContext, positions: readonly ControlPosition[]): string | Fault {
  const rests = context.scan.match(/rests(?![A-Za-z0-9_-])/y);
  if (!rests) return positions[0]!.name;
  addPiece(context, "keyword", rests);
  const name = context.scan.name();
  if (!name)
    return fault(
      "syntax",
      nextCols(context),
      `The position in which the control rests is expected here; ${describeNext(context)}.`,
    );
  if (!positions.some((each) => each.name === name.text)) {
    const names = positions.map((each) => each.name);
    return unknownName(
      name,
      name.text,
      names,
      `This control has no position “${name.text}”: it has ${names.join(", ")}.`,
    );
  }
  addPiece(context, "position", name);
  return name.text;
}

function cols({ start, end }: Cols): Cols {
  return { start, end };
}
