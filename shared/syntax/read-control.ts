/** The controls of a handset: `TL switch ch5 up 1000 us down 2000 us`, `KN dial ch9 1000 us to 2000 us`. */
import { pulsesOf, readPulse, readRange } from "./read-number.ts";
import { type Fault, fault, found, isFault, nextCols, piece, RESERVED, type Reading, unknownName } from "./reading.ts";
import type { Cols } from "./span.ts";
import type { ControlKind, ControlPosition, ControlValue } from "./value.ts";

const KINDS: readonly ControlKind[] = ["switch", "selector", "button", "dial"];

/** How many positions each kind has. */
const POSITIONS: Record<Exclude<ControlKind, "dial">, { least: number; most: number; told: string }> = {
  switch: { least: 2, most: 3, told: "A switch has 2 or 3 positions" },
  selector: { least: 2, most: 16, told: "A selector has 2 to 16 positions" },
  button: { least: 2, most: 2, told: "A button has 2 positions, at rest and held" },
};

/** Reads what follows the name of a control. */
export function readControl(reading: Reading): ControlValue | Fault {
  const { scan } = reading;
  const start = scan.at();
  const word = scan.name();
  const kind = KINDS.find((each) => each === word?.text);
  if (!word || !kind) {
    const message = `What this control is stands here: switch, selector, button or dial; ${word ? `“${word.text}” is none of them` : found(reading)}.`;
    return word ? unknownName(word, word.text, KINDS, message) : fault("wrong-type", nextCols(reading), message);
  }
  piece(reading, "keyword", word);
  const channel = scan.channel();
  if (!channel)
    return fault(
      "wrong-type",
      nextCols(reading),
      `The channel of the control is wanted here, as in “ch5”; ${found(reading)}.`,
    );
  piece(reading, "channel", channel);
  const base = {
    kind: "control" as const,
    control: kind,
    channel: channel.channel,
    channelAt: { start: channel.start, end: channel.end },
    start,
  };
  if (kind === "dial") {
    const range = readDial(reading);
    return isFault(range) ? range : { ...base, ...range, positions: [], rest: null };
  }
  const positions = readPositions(reading);
  if (isFault(positions)) return positions;
  const { least, most, told } = POSITIONS[kind];
  if (positions.length < least || positions.length > most) {
    return fault("wrong-type", { start: word.start, end: scan.last() }, `${told}; this one has ${positions.length}.`);
  }
  const rest = readRest(reading, positions);
  if (isFault(rest)) return rest;
  return { ...base, positions, rest, fromUs: null, toUs: null, end: scan.last() };
}

function readDial(reading: Reading): { fromUs: number; toUs: number; end: number } | Fault {
  const range = readRange(reading, "may-fall");
  if (isFault(range)) return range;
  const pulses = pulsesOf(reading, range, "The stop of a dial");
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

function readPositions(reading: Reading): ControlPosition[] | Fault {
  const { scan, units } = reading;
  const positions: ControlPosition[] = [];
  for (;;) {
    const before = scan.last();
    const name = scan.name();
    if (!name) {
      if (!scan.done())
        return fault(
          "syntax",
          nextCols(reading),
          `The name of a position is wanted here, as in “up 1000 us”; ${found(reading)}.`,
        );
      return positions;
    }
    if (name.text === "rests") {
      scan.go(before);
      return positions;
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
    piece(reading, "position", name);
    const pulse = readPulse(reading, `The pulse of “${name.text}”`);
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

/** The position it rests in: the first listed, unless `rests NAME` says otherwise. */
function readRest(reading: Reading, positions: readonly ControlPosition[]): string | Fault {
  const rests = reading.scan.match(/rests(?![A-Za-z0-9_-])/y);
  if (!rests) return positions[0]!.name;
  piece(reading, "keyword", rests);
  const name = reading.scan.name();
  if (!name)
    return fault(
      "syntax",
      nextCols(reading),
      `The position in which the control rests is wanted here; ${found(reading)}.`,
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
  piece(reading, "position", name);
  return name.text;
}

function cols({ start, end }: Cols): Cols {
  return { start, end };
}
