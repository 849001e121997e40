/** Where the edges of a range lie that a board's line holds for some pulses of a channel, and not for those next to them. */
import type { BoxSpan, PulseRange, SwitchInput } from "../../logic/switchboard-types.ts";
import { type Condition, type Subject, walkCondition } from "../../syntax/condition.ts";
import type { EdgePlace } from "./edges.ts";
import { type ChannelRange, driverOf } from "./from-ranges.ts";
import type { RangePart } from "./shapes.ts";

/** An edge that the script says and the board writes as another one. */
export interface RoundedEdge {
  /** The control, or `ch9`. */
  readonly name: string;
  readonly saidUs: number;
  readonly writtenUs: number;
  /** Whether the board then does in some state what the script does not: on dials and free channels only. */
  readonly changesStates: boolean;
}

export interface HeldSpan {
  readonly range: ChannelRange;
  readonly rounded: readonly RoundedEdge[];
}

/** The bounds that a mode's conditions name, by control or `ch9`. */
export type SaidBounds = ReadonlyMap<string, readonly number[]>;

/** The bounds in a mode's own lines and in those of the modes that it names. */
export function boundsSaid({ conditions, controls }: SwitchInput, name: string): SaidBounds {
  const bounds = new Map<string, number[]>();
  const drivers = new Map(controls.map((control) => [control.name, control]));
  const nameOf = (subject: Subject): string =>
    subject.kind === "control" ? subject.name : (driverOf(subject.channel, drivers)?.name ?? `ch${subject.channel}`);
  const lines = new Map(conditions.map((spec) => [spec.name, spec.lines]));
  const names = new Set([name]);
  // A set is iterated in insertion order, including elements added meanwhile.
  for (const each of names) {
    for (const { condition } of lines.get(each) ?? []) {
      for (const node of condition ? walkCondition(condition) : []) {
        if (node.kind === "mode") names.add(node.name);
        if (!("subject" in node)) continue;
        const of = nameOf(node.subject);
        bounds.set(of, [...(bounds.get(of) ?? []), ...boundsOf(node)]);
      }
    }
  }
  return bounds;
}

function boundsOf(node: Extract<Condition, { subject: Subject }>): readonly number[] {
  return node.kind === "in" ? [node.fromUs, node.toUs] : [node.boundUs];
}

/**
 * The range by which a part of a line holds these pulses and none next to them; null where it cannot. Between two
 * pulses the edge is the bound that the script says, else half-way; it reaches the board's end where no pulse lies
 * beyond. On a dial or a free channel it is rounded to a step that may change states.
 */
export function holdSpan(
  span: BoxSpan,
  part: RangePart,
  bounds: readonly number[],
  endpointsUs: PulseRange,
): HeldSpan | null {
  const { channel, name } = span.variable;
  if (!part.channel.holds(channel)) return null;
  const [back, backTo, negated] = [mirror(span), mirrorPlace(part.to), bounds.map(negative)];
  let low = lowEdge(span, part.from, bounds, endpointsUs);
  let high = mirrored(lowEdge(back, backTo, negated, mirrorEnds(endpointsUs)));
  if (!low || !high) return null;
  if (low.us === high.us) {
    // One pulse of a dial: a range needs two ends, so one of them lies a little further out.
    const outer = outerEdge(span, part.from);
    if (outer) low = outer;
    else high = mirrored(outerEdge(back, backTo)) ?? high;
  }
  if (low.us >= high.us) return null;
  const rounded = [low, high].flatMap(({ us, saidUs, changesStates }) =>
    saidUs === null || saidUs === us ? [] : { name, saidUs, writtenUs: us, changesStates },
  );
  return { range: { channel, fromUs: low.us, toUs: high.us }, rounded };
}

interface Edge {
  readonly us: number;
  /** What the script says of it; null where it says nothing. */
  readonly saidUs: number | null;
  readonly changesStates: boolean;
}

function lowEdge(span: BoxSpan, place: EdgePlace, bounds: readonly number[], endpointsUs: PulseRange): Edge | null {
  if (span.belowUs === null) return endEdge(span, place, endpointsUs);
  const between = { fromUs: span.belowUs, toUs: span.fromUs, isFromOpen: true, isToOpen: !span.isContinuous };
  const middleUs = (between.fromUs + between.toUs) / 2;
  const isInside = (us: number) => us > between.fromUs && (between.isToOpen ? us < between.toUs : us <= between.toUs);
  // Of several the one with the most room on either side; of a dial's pulses there is hardly any.
  const said = bounds.filter(isInside).sort((a, b) => Math.abs(a - middleUs) - Math.abs(b - middleUs))[0] ?? null;
  if (span.isContinuous) {
    const saidUs = said ?? span.fromUs;
    const exact = place.within(between, saidUs);
    if (exact !== null) return { us: exact, saidUs: said, changesStates: false };
    const nearest = place.nearest(saidUs);
    return nearest === null ? null : { us: nearest, saidUs, changesStates: true };
  }
  // Of two whole us the lower one; pulses counted the other way are negative.
  const wholeUs = span.fromUs < 0 ? Math.ceil(middleUs) : Math.floor(middleUs);
  const half = isInside(wholeUs) ? wholeUs : middleUs;
  const us = place.within(between, said ?? half);
  return us === null ? null : { us, saidUs: said, changesStates: false };
}

/** The edge beyond which the channel carries nothing: the board's end. */
function endEdge(span: BoxSpan, place: EdgePlace, endpointsUs: PulseRange): Edge | null {
  const endUs = place.lowestUs ?? Math.min(endpointsUs.fromUs, span.fromUs);
  const reach = { fromUs: Math.min(endUs, span.fromUs), toUs: span.fromUs, isFromOpen: false, isToOpen: false };
  const us = endUs > span.fromUs ? null : place.within(reach, endUs);
  if (us !== null) return { us, saidUs: null, changesStates: false };
  const nearest = span.isContinuous ? place.nearest(span.fromUs) : null;
  return nearest === null ? null : { us: nearest, saidUs: span.fromUs, changesStates: true };
}

/** An edge below the lowest pulse of a range, and above all that are not in it. */
function outerEdge(span: BoxSpan, place: EdgePlace): Edge | null {
  const belowUs = span.belowUs ?? span.fromUs - 2;
  const between = { fromUs: belowUs, toUs: span.fromUs, isFromOpen: true, isToOpen: true };
  const us = place.within(between, (belowUs + span.fromUs) / 2);
  return us === null ? null : { us, saidUs: null, changesStates: false };
}

// The upper edge is the lower one of pulses counted the other way.

function negative(us: number): number {
  return -us;
}

function mirror(span: BoxSpan): BoxSpan {
  const { fromUs, toUs, belowUs, aboveUs } = span;
  return { ...span, fromUs: -toUs, toUs: -fromUs, belowUs: aboveUs === null ? null : -aboveUs, aboveUs: belowUs };
}

function mirrorEnds({ fromUs, toUs }: PulseRange): PulseRange {
  return { fromUs: -toUs, toUs: -fromUs };
}

function mirrorPlace(place: EdgePlace): EdgePlace {
  const back = (us: number | null): number | null => (us === null ? null : -us);
  return {
    slot: place.slot,
    lowestUs: back(place.highestUs),
    highestUs: back(place.lowestUs),
    nearest: (us) => back(place.nearest(-us)),
    within: ({ fromUs, toUs, isFromOpen, isToOpen }, preferUs) =>
      back(place.within({ fromUs: -toUs, toUs: -fromUs, isFromOpen: isToOpen, isToOpen: isFromOpen }, -preferUs)),
  };
}

function mirrored(edge: Edge | null): Edge | null {
  return (
    edge && { us: -edge.us, saidUs: edge.saidUs === null ? null : -edge.saidUs, changesStates: edge.changesStates }
  );
}
