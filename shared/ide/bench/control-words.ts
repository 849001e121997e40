/** What a hand does to controls and sticks, in words, and how the sticks of a craft rest. */
import { linkOf, stickOrder } from "../../logic/from-craft.ts";
import type { Positions } from "../../logic/switchboard-types.ts";
import type { TourStick } from "../../logic/tour-types.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { BenchView } from "./bench-view.ts";

type Place = string | number;

/** How the names of a switchboard's variables are called, and moved. */
export interface ControlWords {
  readonly sticks: readonly TourStick[];
  /** The pulses at which the sticks rest that conditions name, as `ch3`. */
  readonly sticksAtRest: Positions;
  /** Controls in the order of the hand: from left to right, and then as the handset lists them. */
  readonly order: readonly string[];
  /** Channels that conditions name and that neither a control nor a stick drives. */
  isMoved(name: string): boolean;
  /** Whether it is back at rest once it is let go. */
  springs(name: string): boolean;
  /** As in “TL”, or “the throttle stick”. */
  called(name: string): string;
  /** As in “put TL to down”, “hold PB”, “turn KN to 1700 us”. */
  moved(name: string, to: Place): string;
  /** Where it stands, as in “TL at down”, “KN at 1700 us”, “PB held”. */
  stands(name: string, at: Place): string;
}

/** From left to right, and at each side from the upper edge to the back. */
const SIDES = ["left", "middle", "right"];
const FACES = ["shoulder", "face", "back"];

export function controlWords(view: BenchView): ControlWords {
  const { craft } = view;
  const order = view.isUnclear("link.order") ? [] : stickOrder(craft);
  const sticks = order.map((stick, i) => stickOf(view, stick, i + 1));
  const stickNames = new Map(order.map((stick, i) => [`ch${i + 1}`, stick]));
  const kindOf = (name: string) => craft.controls.get(name)?.value?.control;
  const restOf = (name: string) => craft.controls.get(name)?.value?.rest ?? null;
  const called = (name: string): string => {
    const stick = stickNames.get(name);
    return stick && !craft.controls.has(name) ? `the ${stick} stick` : name;
  };
  const restUs = (name: string) => sticks.find(({ channel }) => `ch${channel}` === name)?.restUs;
  return {
    sticks,
    sticksAtRest: Object.fromEntries(sticks.map(({ channel, restUs: us }) => [`ch${channel}`, us])),
    order: handOrder(view),
    isMoved: (name) => craft.controls.has(name) || stickNames.has(name),
    springs: (name) => kindOf(name) === "button" || (stickNames.has(name) && !craft.controls.has(name)),
    called,
    moved(name, to) {
      if (kindOf(name) === "button") return to === restOf(name) ? `let go of ${name}` : held(name, to, view);
      if (kindOf(name) === "dial") return `turn ${name} to ${to} us`;
      if (typeof to === "string") return `put ${name} to ${to}`;
      if (to === restUs(name))
        return stickNames.get(name) === "throttle" ? "close the throttle" : `let go of ${called(name)}`;
      return stickNames.has(name) ? `move ${called(name)} until ${name} is at ${to} us` : `bring ${name} to ${to} us`;
    },
    stands(name, at) {
      if (kindOf(name) === "button") return at === restOf(name) ? `${name} let go` : `${name} held`;
      return `${called(name)} at ${typeof at === "number" ? `${at} us` : at}`;
    },
  };
}

/** “hold PB”; of a button with several positions besides its rest also which. */
function held(name: string, to: Place, { craft }: BenchView): string {
  const positions = craft.controls.get(name)?.value?.positions ?? [];
  return positions.length > 2 ? `hold ${name} at ${to}` : `hold ${name}`;
}

function stickOf(view: BenchView, stick: string, channel: number): TourStick {
  const { endpointsUs } = linkOf(view.craft);
  const measured = view.said(`bench.${stick}`)?.value;
  const ends = measured?.kind === "range" ? { fromUs: measured.from.number, toUs: measured.to.number } : endpointsUs;
  const isReversed = (view.text("link.reversed") ?? "").split(/[,\s]+/).includes(stick);
  const centreUs = Math.round(view.amount("link.centre", "us") ?? 1500);
  if (stick !== "throttle" || throttleIsMiddle(view))
    return { channel, restUs: Math.min(Math.max(centreUs, ends.fromUs), ends.toUs), springs: true };
  return { channel, restUs: isReversed ? ends.toUs : ends.fromUs, springs: true };
}

function handOrder({ craft }: BenchView): readonly string[] {
  const rank = (name: string): number => {
    const lies = craft.controls.get(name)?.value?.lies;
    if (!lies) return SIDES.length * 10;
    const face = FACES.indexOf(lies.face ?? "face");
    return SIDES.indexOf(lies.side) * 10 + face;
  };
  return [...craft.controls.keys()].sort((a, b) => rank(a) - rank(b));
}

/** Whether the throttle stands in its middle while the motors shall stand still. */
export function throttleIsMiddle(view: BenchView): boolean {
  const said = view.word("safety.arm-throttle");
  return said === "middle" || (said === null && view.said("motors.reverse-band") !== null);
}

/** Movements one after another, as in “hold PB, and put TR to mid and TL to down”. */
export function movesAsked(
  words: ControlWords,
  moves: readonly { readonly name: string; readonly to: Place }[],
): string {
  const asked = moves.map(({ name, to }) => words.moved(name, to));
  // What is asked twice in a row is said once.
  return joinWithAnd(
    asked.map((text, i) => {
      const [verb] = text.split(" ", 1);
      return (verb === "put" || verb === "turn" || verb === "hold") && asked[i - 1]?.startsWith(`${verb} `)
        ? text.slice(verb.length + 1)
        : text;
    }),
  );
}

/** The first letter as a capital, and a full stop. */
export function asSentence(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}
