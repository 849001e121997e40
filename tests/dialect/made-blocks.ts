/**
 * Blocks of made dialects: some facts of one section, with what a craft may say of them and what the board would write
 * for it, line by line. Each block is of settings of its own, so that any of them go together.
 */
import type { FieldsType, SimpleType, ValueType } from "../../shared/catalogue/specs.ts";
import { catalogue, type Dice } from "../ide/compare/made-lines.ts";
import { listSlot, type MadeSlot, numberSlot, orderSlot, spelled, textSlot, wordSlot } from "./made-slots.ts";

export interface MadeLine {
  readonly section: string;
  readonly text: string;
}

/** What a craft says, and what stands in the board's text for it. */
export interface Said {
  readonly entries: readonly MadeLine[];
  readonly board: readonly string[];
}

export interface Block {
  readonly codes: readonly string[];
  /** Facts by the dialect's section, title and all. */
  readonly facts: readonly MadeLine[];
  /** Something a craft with it may say. */
  say(dice: Dice): Said;
}

/** Makes a block; `word` begins its board lines and the names of its codes. */
export type MakeBlock = (dice: Dice, word: string) => Block;

/** The settings that a block of their own can be made of. */
const PLAIN = catalogue.sections
  .filter(({ in: kinds, name }) => kinds.includes("craft") && !["board", "bench", "verbatim"].includes(name))
  .flatMap(({ name, settings }) => settings.map((setting) => ({ section: name, setting })))
  .filter(({ setting }) => !setting.repeatable && isPlain(setting.types[0]!));

/** Whether there is a slot for it. */
function isPlain(type: ValueType): type is SimpleType {
  if (type.is === "list") return type.of.is === "choice";
  return ["quantity", "integer", "choice", "yes-no", "text", "order"].includes(type.is);
}

function slotFor(dice: Dice, slot: string, name: string, type: SimpleType): MadeSlot | null {
  switch (type.is) {
    case "quantity":
      return numberSlot(dice, slot, name, type);
    case "integer": {
      const [from, to] = [type.min?.at ?? 0, Math.min(type.max?.at ?? 999, 9999)];
      const value = (by: Dice) => {
        const text = String(from + by.below(to - from + 1));
        return { board: text, ours: text };
      };
      return { codes: [], left: `{${slot}:${from} to ${to}}`, right: `{${slot}}`, again: `{${slot}}`, value };
    }
    case "choice":
      return wordSlot(
        dice,
        slot,
        name,
        type.choices.map(({ word }) => word),
      );
    case "yes-no":
      return wordSlot(dice, slot, name, ["yes", "no"]);
    case "text":
      return textSlot(dice, slot, name, type.longest);
    case "order":
      return orderSlot(dice, slot, name, type.words);
    case "list":
      return type.of.is === "choice"
        ? listSlot(dice, slot, name, type.of.choices.map(({ word }) => word).slice(0, 10))
        : null;
    default:
      return null;
  }
}

/** A slot that no right side uses, now and then: what stands there is its default, or the line is kept as well. */
function besideOf(dice: Dice): { left: string; value: (dice: Dice) => string } {
  if (!dice.chance(0.25)) return { left: "", value: () => "" };
  return { left: " by {z:0 to 9=4}", value: (by) => ` by ${by.chance(0.85) ? 4 : by.below(10)}` };
}

/** A setting by itself. */
function plainBlock(section: string, name: string, type: SimpleType): MakeBlock {
  return (dice, word) => {
    const slot = slotFor(dice, "a", `${word}-a`, type)!;
    const beside = besideOf(dice);
    // A text without end stands last; so does what may hold blanks.
    return {
      codes: slot.codes,
      facts: [{ section, text: `"${word}${beside.left} ${slot.left}"  ${name} ${slot.right}` }],
      say: (by) => {
        const value = slot.value(by);
        return {
          entries: [{ section, text: `${name} ${value.ours}` }],
          board: [`${word}${beside.value(by)} ${value.board}`],
        };
      },
    };
  };
}

/** Two settings in one line. */
function pairBlock(
  section: string,
  names: readonly [string, string],
  types: readonly [SimpleType, SimpleType],
): MakeBlock {
  return (dice, word) => {
    const [a, b] = [slotFor(dice, "a", `${word}-a`, types[0])!, slotFor(dice, "b", `${word}-b`, types[1])!];
    return {
      codes: [...a.codes, ...b.codes],
      facts: [
        { section, text: `"${word} ${a.left} / ${b.left}"  ${names[0]} ${a.right}` },
        { section, text: `"${word} ${a.again} / ${b.again}"  ${names[1]} ${b.right}` },
      ],
      say: (by) => {
        const [x, y] = [a.value(by), b.value(by)];
        return {
          entries: [
            { section, text: `${names[0]} ${x.ours}` },
            { section, text: `${names[1]} ${y.ours}` },
          ],
          board: [`${word} ${x.board} / ${y.board}`],
        };
      },
    };
  };
}

/** High and low part of one number, in one line or in two. */
const parts: MakeBlock = (dice, word) => {
  const isSplit = dice.chance(0.5);
  const left = isSplit
    ? `"${word} high {h:${word}-h}" "${word} low {l:${word}-l}"`
    : `"${word} {h:${word}-h}.{l:${word}-l}"`;
  return {
    codes: [`${word}-h number 0 to 255 each 256`, `${word}-l number 0 to 255 base 16 digits 2`],
    facts: [{ section: "pack", text: `${left}  capacity {h} + {l} mAh` }],
    say: (by) => {
      const number = 20 + by.below(60_000);
      const [high, low] = [String(number >> 8), spelled(number & 255, 16, 2)];
      return {
        entries: [{ section: "pack", text: `capacity ${number} mAh` }],
        board: isSplit ? [`${word} high ${high}`, `${word} low ${low}`] : [`${word} ${high}.${low}`],
      };
    },
  };
};

const AXES = ["roll", "pitch", "yaw"];

/** Fields of three axes, the axis in a slot. */
function axisBlock(section: string): MakeBlock {
  return (dice, word) => {
    const axis = wordSlot(dice, "x", `${word}-x`, AXES);
    const type = catalogue.setting(section, "roll")!.types[0] as FieldsType;
    const fields = type.fields.map(({ name, types }, i) => ({
      name,
      slot: slotFor(dice, `f${i}`, `${word}-f${i}`, types[0]!)!,
    }));
    const left = fields.map(({ name, slot }) => `${name[0]}${slot.left}`).join(" ");
    return {
      codes: [...axis.codes, ...fields.flatMap(({ slot }) => slot.codes)],
      facts: [
        {
          section,
          text: `"${word} ${axis.left} ${left}"  {x} ${fields.map(({ name, slot }) => `${name} ${slot.right}`).join(" ")}`,
        },
      ],
      say: (by) => {
        const said = new Map(
          by.some(AXES, 1 + by.below(3)).map((name) => [name, fields.map(({ slot }) => slot.value(by))]),
        );
        const spell = (name: string): string => {
          for (;;) {
            const one = axis.value(by);
            if (one.ours === name) return one.board;
          }
        };
        return {
          entries: [...said].map(([name, values]) => ({
            section,
            text: `${name} ${fields.map((field, i) => `${field.name} ${values[i]!.ours}`).join(" ")}`,
          })),
          board: [...said].map(
            ([name, values]) =>
              `${word} ${spell(name)} ${fields.map((field, i) => field.name[0] + values[i]!.board).join(" ")}`,
          ),
        };
      },
    };
  };
}

/** An optional tail: the line with it says its value, the line without it the usual one. */
const tail: MakeBlock = (_, word) => ({
  codes: [],
  facts: [
    { section: "filters", text: `"${word} {c:1 to 4000} of {o:1 to 4}"  smooth-gyro cut {c} Hz order {o}` },
    { section: "filters", text: `"${word} {c:1 to 4000}"  smooth-gyro cut {c} Hz order 1` },
  ],
  say: (by) => {
    const [cut, order] = [20 + by.below(900), by.pick([1, 1, 2])];
    return {
      entries: [{ section: "filters", text: `smooth-gyro cut ${cut} Hz order ${order}` }],
      board: [order === 1 ? `${word} ${cut}` : `${word} ${cut} of ${order}`],
    };
  },
});

/** A named pack for each line: the title stands in a slot. */
const titled: MakeBlock = (_, word) => ({
  codes: [`${word}-n text within "'" escape "'"`],
  facts: [{ section: 'pack "{n}"', text: `"${word} {n:${word}-n} {c:20 to 99999}"  capacity {c} mAh` }],
  say: (by) => {
    const said = by
      .some(["Winter", "old one", "Small"], 1 + by.below(2))
      .map((name) => ({ name, number: 20 + by.below(9000) }));
    return {
      entries: said.map(({ name, number }) => ({ section: `pack "${name}"`, text: `capacity ${number} mAh` })),
      board: said.map(({ name, number }) => `${word} '${name}' ${number}`),
    };
  },
});

const ELEMENTS = ["pack-volts", "amps", "flight-time", "link-quality", "height"].filter((name) =>
  catalogue.element(name),
);

/** Elements by place: packed in one number with a bit that shows them, or in two lines. */
const places: MakeBlock = (dice, word) => {
  const element = wordSlot(dice, "e", `${word}-e`, ELEMENTS);
  const isPacked = dice.chance(0.5);
  const spellings = new Map<string, string>();
  for (let i = 0; i < 400; i++) {
    const { board, ours } = element.value(dice);
    spellings.set(ours, board);
  }
  const facts = isPacked
    ? [{ section: "osd", text: `"${word} ${element.left} {p:${word}-p=0000}"  {e} at {p.column}, {p.row}` }]
    : [{ section: "osd", text: `"${word}x ${element.left} {c:0 to 50}" "${word}y {e} {r:0 to 19}"  {e} at {c}, {r}` }];
  const packed = `${word}-p bits base 16 digits 4 0-4 row, 6-11 column, 14 is 1 or unset`;
  return {
    codes: [...element.codes, ...(isPacked ? [packed] : [])],
    facts,
    say: (by) => {
      const said = by.some(ELEMENTS, 1 + by.below(ELEMENTS.length)).map((name) => ({
        name,
        column: by.below(40),
        row: by.below(19),
      }));
      return {
        entries: said.map(({ name, column, row }) => ({ section: "osd", text: `${name} at ${column}, ${row}` })),
        board: said.flatMap(({ name, column, row }) =>
          isPacked
            ? [`${word} ${spellings.get(name)} ${spelled(2 ** 14 + column * 64 + row, 16, 4)}`]
            : [`${word}x ${spellings.get(name)} ${column}`, `${word}y ${spellings.get(name)} ${row}`],
        ),
      };
    },
  };
};

const MODES = ["arm", "level", "turtle", "finder", "recorder"].filter((name) => catalogue.mode(name));
/** Each with channel and ends as a board with steps of 20 us from 880 us would have them. */
const CONDITIONS = [
  ["TL is down", 5, 31, 60],
  ["TL is up", 5, 0, 31],
  ["TR is down", 6, 44, 60],
  ["TR is mid", 6, 19, 44],
  ["TR is not down", 6, 0, 44],
  ["PB is held", 7, 31, 60],
  ["ch8 in 1280 us to 1680 us", 8, 20, 40],
  ["KN in 1480 us to 2080 us", 9, 30, 60],
] as const;

/** Modes by numbered lines of ranges, with a word for a line that is free. */
const modes: MakeBlock = (_, word) => {
  const letters = "alkfr";
  const count = 9;
  return {
    codes: [
      `${word}-m words - unset, ${MODES.map((mode, i) => `${letters[i]} ${mode}`).join(", ")}`,
      `${word}-c number 0 to 11 from ch5`,
      `${word}-a number 0 to 60 from 880 us each 20 us`,
    ],
    facts: [
      {
        section: "modes",
        text: `"${word} {#:0 to ${count}} {m:${word}-m} by {c:${word}-c=0} {a:${word}-a=0}..{b:${word}-a=0}"  {m} when {c} in {a} to {b}`,
      },
    ],
    say: (by) => {
      const lines = by.some([...MODES.keys()], 1 + by.below(MODES.length)).map((i) => ({ i, of: by.pick(CONDITIONS) }));
      const board = lines.map(
        ({ i, of: [, channel, a, b] }, n) => `${word} ${n} ${letters[i]} by ${channel - 5} ${a}..${b}`,
      );
      if (by.chance(0.3)) board.push(`${word} ${board.length} - by 0 0..0`);
      return {
        entries: lines.map(({ i, of: [text] }) => ({ section: "modes", text: `${MODES[i]} when ${text}` })),
        board,
      };
    },
  };
};

/** Rates by a curve of the board's own. */
const curve: MakeBlock = (_, word) => ({
  codes: [],
  facts: [
    {
      section: "rates",
      text: `"${word} {s:1 to 99} {e:0 to 99}"  yaw curve 10 * ({s} * stick + {e} * stick ^ 3)`,
    },
  ],
  say: (by) => {
    const [s, e] = [5 + by.below(30), 1 + by.below(60)];
    return {
      entries: [{ section: "rates", text: `yaw slope ${10 * s} deg/s end ${10 * (s + e)} deg/s bend 3` }],
      board: [`${word} ${s} ${e}`],
    };
  },
});

/** What other blocks say, and a number of which not every one is a value: magnets of a motor come in pairs. */
const TAKEN = new Set(["pack.capacity", "rates.yaw", "motors.poles"]);

const plainBlocks = PLAIN.filter(({ section, setting }) => !TAKEN.has(`${section}.${setting.name}`)).flatMap(
  ({ section, setting }, i, all): MakeBlock[] => {
    const next = all[i + 1];
    const own = plainBlock(section, setting.name, setting.types[0] as SimpleType);
    // A text may hold the mark between two.
    const fits = (type: { readonly is: string }) => ["quantity", "integer", "choice", "yes-no"].includes(type.is);
    if (i % 5 === 0 && next?.section === section && fits(setting.types[0]!) && fits(next.setting.types[0]!))
      return [
        pairBlock(
          section,
          [setting.name, next.setting.name],
          [setting.types[0] as SimpleType, next.setting.types[0] as SimpleType],
        ),
      ];
    if (
      i % 5 === 1 &&
      all[i - 1]?.section === section &&
      fits(setting.types[0]!) &&
      fits(all[i - 1]!.setting.types[0]!)
    )
      return [];
    return [own];
  },
);

/** Every kind of block; those behind the plain ones are each of their own kind. */
export const SPECIAL: readonly MakeBlock[] = [
  parts,
  tail,
  titled,
  places,
  modes,
  curve,
  axisBlock("gains"),
  axisBlock("gains-second"),
];
export const ALL_BLOCKS: readonly MakeBlock[] = [...SPECIAL, ...plainBlocks];
