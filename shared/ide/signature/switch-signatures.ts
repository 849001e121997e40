/** The signatures of a condition, and of a control's line. */
import type { ControlValue } from "../../syntax/value.ts";
import { describeControl } from "../context/known-controls.ts";
import { list } from "../context/markdown.ts";
import { type Shape, type SignatureHelp, type Slot, signatureHelp } from "./shape.ts";

const JOIN: Slot = {
  text: "[and … | or …]",
  markdown: "`and`: both must hold; `or`: one is enough. `and` binds first; brackets group otherwise.",
};
const VERBS = ["is", "in", "above", "below"] as const;
const MODE_OR_ALWAYS: Slot = {
  text: "MODE | always",
  markdown: "Another mode, on when that one is; or `always`, on at every moment.",
};

/** Signature help in a condition; `written` is the text after the name up to the cursor. */
export function conditionSignatures(
  head: string,
  written: string,
  controls: ReadonlyMap<string, ControlValue>,
): SignatureHelp {
  const tokens = written.match(/[()]|[^\s()]+/g) ?? [];
  const partialWord = /[^\s()]$/.test(written) ? (tokens.pop() ?? "") : "";
  const test = currentTest(tokens);
  const subject = test[0] ?? partialWord;
  const control = controls.get(subject);
  const shapes = conditionShapes(head, control, controls);
  if (test.length === 0) {
    const mode = /^[a-z]/.test(partialWord) && !/^ch\d*$/.test(partialWord);
    return signatureHelp(shapes, mode ? VERBS.length : 0, 0);
  }
  const verb = VERBS.indexOf(test[1] as (typeof VERBS)[number]);
  if (verb < 0) {
    if (/^[a-z]/.test(subject) && !/^ch\d+$/.test(subject)) return signatureHelp(shapes, VERBS.length, 1);
    const typed = VERBS.findIndex((each) => partialWord !== "" && each.startsWith(partialWord));
    const likely = control?.control === "dial" || /^ch\d+$/.test(subject) ? VERBS.indexOf("in") : 0;
    return signatureHelp(shapes, typed >= 0 ? typed : likely, 1);
  }
  return signatureHelp(shapes, verb, partAfter(VERBS[verb]!, test.slice(2)));
}

/** The words of the test that is being written: those after the last `and`, `or`, `not`, `when` or bracket. */
function currentTest(tokens: readonly string[]): string[] {
  let first = 0;
  tokens.forEach((token, i) => {
    const negates = token === "not" && tokens[i - 1] !== "is";
    if (negates || token === "and" || token === "or" || token === "(" || token === "when") first = i + 1;
  });
  return tokens.slice(first);
}

/** The index of the parameter after a verb and the words that follow it. */
function partAfter(verb: (typeof VERBS)[number], words: readonly string[]): number {
  if (verb === "is") return words.some((word) => word !== "not" && word !== ")") ? 2 : 1;
  const to = words.indexOf("to");
  if (verb === "in" && to < 0) return 1;
  return wholePulse(words.slice(verb === "in" ? to + 1 : 0)) ? (verb === "in" ? 3 : 2) : verb === "in" ? 2 : 1;
}

function wholePulse(words: readonly string[]): boolean {
  return words.length > 1 || /\dus$/.test(words[0] ?? "");
}

function conditionShapes(
  head: string,
  control: ControlValue | undefined,
  controls: ReadonlyMap<string, ControlValue>,
): Shape[] {
  const known = list([...controls].map(([name, value]) => `\`${name}\`: ${describeControl(value)}`));
  const subjectSlot: Slot = { text: "CONTROL", markdown: control ? describeControl(control) : known };
  const places = (control?.positions ?? []).map(
    ({ name, pulseUs }) => `\`${name}\`: ${pulseUs} us${name === control?.rest ? ", at rest" : ""}`,
  );
  const positionSlot: Slot = { text: "[not] POSITION", markdown: list(places) || "The name of one of its positions." };
  const pulse = (text: string, markdown: string): Slot => ({ text, markdown });
  const of = (slots: readonly Slot[], markdown: string): Shape => ({ start: `${head} when`, slots, markdown });
  return [
    of(
      [subjectSlot, { ...positionSlot, text: `is ${positionSlot.text}` }, JOIN],
      "A switch, selector or button stands at the named position.",
    ),
    of(
      [
        subjectSlot,
        pulse("in PULSE", "The lower end, which counts."),
        pulse("to PULSE", "The upper end, which counts."),
        JOIN,
      ],
      "A control or a channel (`ch9`) lies between two pulses.",
    ),
    of(
      [subjectSlot, pulse("above PULSE", "The bound itself does not count."), JOIN],
      "A control or a channel lies above a pulse.",
    ),
    of(
      [subjectSlot, pulse("below PULSE", "The bound itself does not count."), JOIN],
      "A control or a channel lies below a pulse.",
    ),
    of([MODE_OR_ALWAYS, JOIN], "Depends on another mode, or on nothing."),
  ];
}

const POSITION: Slot = {
  text: "POSITION PULSE",
  markdown: "A name of your own, and the pulse that is sent there, as in `up 1000 us`.",
};
const OPTIONAL_POSITION: Slot = { text: "[POSITION PULSE]", markdown: `A third one. ${POSITION.markdown}` };
const MORE_POSITIONS: Slot = { text: "[POSITION PULSE …]", markdown: `Up to 16 in all. ${POSITION.markdown}` };
const RESTS: Slot = {
  text: "[rests POSITION]",
  markdown: "Where it stands when the handset is switched on; the first position unless another is named.",
};
const LIES: Slot = {
  text: "[lies PLACE]",
  markdown:
    "Where the hand finds it: `left`, `right` or `middle`, and behind it `shoulder`, `face` or `back` if you like, as in `lies left shoulder`. The panel lays the controls out by it.",
};
const CHANNEL: Slot = { text: "CHANNEL", markdown: "As in `ch5`. The sticks have 1 to 4, so controls begin at 5." };

const CONTROL_KINDS = {
  switch: {
    slots: [CHANNEL, POSITION, POSITION, OPTIONAL_POSITION, RESTS, LIES],
    what: "It stays where it is put, in 2 or 3 positions.",
  },
  selector: { slots: [CHANNEL, POSITION, POSITION, MORE_POSITIONS, RESTS, LIES], what: "It has 2 to 16 positions." },
  button: {
    slots: [CHANNEL, POSITION, POSITION, RESTS, LIES],
    what: "It springs back to the first of its 2 positions.",
  },
  dial: {
    slots: [
      CHANNEL,
      { text: "PULSE", markdown: "At its low stop." },
      { text: "to PULSE", markdown: "At its high stop. A dial that is reversed falls." },
      LIES,
    ],
    what: "It may rest anywhere in its range.",
  },
} as const satisfies Record<string, { slots: readonly Slot[]; what: string }>;

/** Signature help in a control's line; `written` is the text after its name up to the cursor. */
export function controlSignatures(head: string, written: string): SignatureHelp {
  const tokens = written.trim().split(/\s+/).filter(Boolean);
  const partialWord = /\S$/.test(written) ? (tokens.pop() ?? "") : "";
  const names = Object.keys(CONTROL_KINDS) as (keyof typeof CONTROL_KINDS)[];
  const shapes = names.map((kind): Shape => {
    const { slots, what } = CONTROL_KINDS[kind];
    return { start: head, slots: [{ text: kind, markdown: what }, ...slots], markdown: what };
  });
  const kind = names.indexOf(tokens[0] as keyof typeof CONTROL_KINDS);
  if (kind < 0) {
    const typed = names.findIndex((each) => partialWord !== "" && each.startsWith(partialWord));
    return signatureHelp(shapes, Math.max(0, typed), 0);
  }
  const shape = [shapes[kind]!];
  const words = tokens.slice(2);
  const last = shape[0]!.slots.length - 1;
  const begins = (keyword: string) => partialWord !== "" && keyword.startsWith(partialWord);
  if (tokens.length === 1) return signatureHelp(shape, 0, 1);
  if (names[kind] === "dial") {
    const whole = words.includes("to") && words.length > words.indexOf("to") + 1;
    const isDone = whole && /us$/.test(words.at(-1)!);
    return signatureHelp(shape, 0, words.includes("lies") || isDone ? last : words.includes("to") ? 3 : 2);
  }
  const isWhole = words.length > 3;
  if (isWhole && (words.includes("lies") || begins("lies") || words.at(-2) === "rests"))
    return signatureHelp(shape, 0, last);
  if (words.includes("rests") || (begins("rests") && isWhole)) return signatureHelp(shape, 0, last - 1);
  const whole = words.filter((word) => /^(\d+)?us$/.test(word)).length;
  return signatureHelp(shape, 0, Math.min(2 + whole, last - (names[kind] === "selector" ? 2 : 1)));
}
