/** The questions of each control. */
import { nextFreeChannel } from "../../model/free-channel.ts";
import type { Choice } from "../../protocol/new-craft.ts";
import type { ControlKind, ControlPlace } from "../../syntax/value.ts";
import type { HandsetControl } from "./draft.ts";
import {
  type PulseEnds,
  type Read,
  readChannel,
  readControlName,
  readPositions,
  readRange,
  spread,
  usualNames,
} from "./parts.ts";
import type { Steps } from "./steps.ts";

export interface ControlsSoFar {
  /** Those that another handset gives: copied into this file, or used. */
  readonly own: readonly HandsetControl[];
  readonly used: readonly HandsetControl[];
  readonly ends: PulseEnds;
}

/** No handset has so many; the loop ends in any case. */
const MOST_CONTROLS = 60;

/** The kinds as one asks for them, each with the letter that begins a usual name. */
const KINDS: readonly (Choice & { readonly kind: ControlKind; readonly letter: string })[] = [
  { word: "switch", label: "Switch", help: "stays where it is put; 2 or 3 positions", kind: "switch", letter: "S" },
  { word: "selector", label: "Selector", help: "up to 16 positions, as a row of keys", kind: "selector", letter: "X" },
  { word: "button", label: "Button", help: "springs back when it is let go", kind: "button", letter: "B" },
  {
    word: "latched-button",
    label: "Button that stays in",
    help: "until it is pressed again: written as a switch",
    kind: "switch",
    letter: "B",
  },
  { word: "dial", label: "Dial or slider", help: "any pulse between two stops", kind: "dial", letter: "D" },
];

/** Asks for controls until there are no more. */
export function askControls(steps: Steps, { own, used, ends }: ControlsSoFar): readonly HandsetControl[] {
  const controls = [...own];
  for (let number = 1; number <= MOST_CONTROLS && steps.going(); number++) {
    const control = askControl(steps, number, { own: controls, used, ends });
    if (control === "done") break;
    if (control) controls.push(control);
  }
  return controls;
}

const NOT_SAID: Choice = { word: "not-said", label: "Not said", help: "below all others in the drawing" };
const PLACES: readonly Choice[] = [
  NOT_SAID,
  ...["left shoulder", "right shoulder", "left face", "right face", "left back", "right back"].map(placeChoice),
  ...["middle shoulder", "middle face", "middle back", "left", "right", "middle"].map(placeChoice),
];

function capital(word: string): string {
  return word.charAt(0).toUpperCase() + word.slice(1);
}

function placeChoice(word: string): Choice {
  const help = { shoulder: "under the index finger", face: "under the thumb", back: "under the other fingers" };
  const face = word.split(" ")[1] as keyof typeof help | undefined;
  const isBetween = word.startsWith("middle");
  return { word, label: capital(word), help: isBetween ? "between the hands" : face ? help[face] : "" };
}

/** One control; “done” where there is no more, null once a question stands open. */
function askControl(steps: Steps, number: number, { own, used, ends }: ControlsSoFar): HandsetControl | "done" | null {
  const before = [...used.filter(({ name }) => !own.some((each) => each.name === name)), ...own];
  const id = (part: string) => `control-${number}.${part}`;
  const isLast = !PARTS.some((part) => steps.given(id(part)));
  const done: Choice = { word: "done", label: "No more controls", help: "write the handset" };
  const kinds = before.length > 0 ? [...KINDS, done] : KINDS;
  const soFar = before.length === 0 ? "" : ` So far: ${before.map(({ name }) => name).join(", ")}.`;
  const word = steps.choice({
    id: id("kind"),
    prompt: `Control ${number}: what is it?${soFar}`,
    choices: isLast ? kinds : KINDS,
    usual: isLast && before.length > 0 ? "done" : "switch",
  });
  if (word === null) return null;
  const asked = KINDS.find((each) => each.word === word);
  if (!asked) return "done";
  const name = steps.text(
    { id: id("name"), prompt: "What do you call it?", usual: freeName(asked.letter, before), typed: "TL" },
    (text): Read<string> => {
      const read = readControlName(text);
      if ("problem" in read || !own.some((each) => each.name === read.value)) return read;
      return { problem: `There is a control ${read.value} already: give this one another name.` };
    },
  );
  // One of the used handset's is said anew, whole: it has its channel still, and may change it.
  const restated = used.find((each) => each.name === name);
  const others = before.filter((each) => each !== restated);
  const channel = askChannel(steps, id("channel"), { name, restated }, others);
  const shape =
    asked.kind === "dial"
      ? askDial(steps, id("range"), name, ends)
      : askPositions(steps, { id, name, word, kind: asked.kind, ends });
  const place = steps.choice({
    id: id("lies"),
    prompt: `Where does the hand find ${name}?`,
    choices: PLACES,
    usual: "not-said",
  });
  if (name === null || channel === null || shape === null || place === null) return null;
  const [side, face] = place.split(" ") as [ControlPlace["side"], ControlPlace["face"] | undefined];
  const lies = place === "not-said" ? null : { side, face: face ?? null };
  const note = noteOf(word, channel);
  const instead = restated ? `in place of the ${name} of the used handset` : null;
  return { name, channel, ...shape, lies, note: note && instead ? `${instead}; ${note}` : (instead ?? note) };
}

/** What is asked of a control behind its kind. */
const PARTS = ["name", "channel", "positions", "range", "rest", "lies"];

/** The first name of a letter and a number that is free. */
function freeName(letter: string, before: readonly HandsetControl[]): string {
  for (let number = 1; ; number++) {
    const name = `${letter}${number}`;
    if (!before.some((each) => each.name === name)) return name;
  }
}

/** Many links carry no more channels than this (common practice, no source). */
const USUAL_CHANNELS = 16;

function noteOf(word: string, channel: number): string | null {
  const notes = [
    ...(word === "button" ? ["springs back"] : []),
    ...(word === "latched-button" ? ["a button that stays in until it is pressed again"] : []),
    ...(channel > USUAL_CHANNELS ? [`beyond channel ${USUAL_CHANNELS}: many links do not carry it`] : []),
  ];
  return notes.length === 0 ? null : notes.join("; ");
}

function askChannel(
  steps: Steps,
  id: string,
  { name, restated }: { readonly name: string | null; readonly restated: HandsetControl | undefined },
  before: readonly HandsetControl[],
): number | null {
  const next = nextFreeChannel(before.map(({ channel }) => channel));
  const isOwnFree = restated !== undefined && !before.some(({ channel }) => channel === restated.channel);
  const free = isOwnFree ? restated.channel : next;
  return steps.text(
    {
      id,
      prompt: `On which channel does ${name} come?`,
      choices: [{ word: `ch${free}`, label: `ch${free}`, help: isOwnFree ? "as it is" : "the next one that is free" }],
      usual: `ch${free}`,
      typed: "ch7",
    },
    (text): Read<number> => {
      const read = readChannel(text);
      const owner = "value" in read ? before.find(({ channel }) => channel === read.value) : undefined;
      if (!owner) return read;
      return { problem: `ch${owner.channel} is ${owner.name}'s already. The next free one is ch${next}.` };
    },
  );
}

type Shape = Pick<HandsetControl, "kind" | "positions" | "rest" | "fromUs" | "toUs">;

function askDial(steps: Steps, id: string, name: string | null, { fromUs, toUs }: PulseEnds): Shape | null {
  const choice = (from: number, to: number, help: string): Choice => {
    return { word: `${from} us to ${to} us`, label: `${from} us to ${to} us`, help };
  };
  const choices = [choice(fromUs, toUs, "more to the right, or upwards"), choice(toUs, fromUs, "reversed")];
  const usual = choices[0]!.word;
  const ends = steps.text(
    { id, prompt: `Which pulses does ${name} send at its two stops?`, choices, usual, typed: "1000 us to 2000 us" },
    readRange,
  );
  return ends && { kind: "dial", positions: [], rest: null, ...ends };
}

interface PositionsAsked {
  readonly id: (part: string) => string;
  readonly name: string | null;
  /** The kind as it was asked for, and as it is written. */
  readonly word: string;
  readonly kind: Exclude<ControlKind, "dial">;
  readonly ends: PulseEnds;
}

function askPositions(steps: Steps, { id, name, word, kind, ends }: PositionsAsked): Shape | null {
  const usualLists: readonly (readonly string[])[] =
    word === "button"
      ? [["rest", "held"]]
      : word === "latched-button"
        ? [["released", "pressed"]]
        : kind === "switch"
          ? [
              ["up", "down"],
              ["up", "mid", "down"],
              ["away", "near"],
              ["off", "on"],
            ]
          : [6, 4, 3].map(usualNames);
  const choices = usualLists.map((names): Choice => {
    const text = spread(names, ends)
      .map((each) => `${each.name} ${each.pulseUs} us`)
      .join("  ");
    return { word: names.join(", "), label: names.join(", "), help: text };
  });
  const positions = steps.text(
    {
      id: id("positions"),
      prompt: `Which positions has ${name}, from where it rests?`,
      choices,
      usual: choices[0]!.word,
      typed: "up 1000 us, down 2000 us",
    },
    (text) => readPositions(text, kind, ends),
  );
  if (!positions) return null;
  const names = positions.map((each) => each.name);
  const rest =
    kind === "button"
      ? names[0]!
      : steps.choice({
          id: id("rest"),
          prompt: `Where does ${name} stand when the handset is switched on?`,
          choices: names.map((each): Choice => ({ word: each, label: each, help: "" })),
          usual: names[0]!,
        });
  if (rest === null) return null;
  const written = kind === "switch" && names.length > 3 ? "selector" : kind;
  return { kind: written, positions, rest, fromUs: null, toUs: null };
}
