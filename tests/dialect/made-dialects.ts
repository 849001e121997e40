/**
 * Dialects made at random, each with a craft that says what it can and a board's text: codes of every kind, headings,
 * numbered lines, one left side on several lines and several texts on one left side, optional tails, words for unset,
 * named packs, second sets, values in two parts, texts with marks in them; and in the board's text comments, unknown
 * lines, lines said twice, opening and closing. The same seeds give the same texts, and fewer blocks are tried first.
 */
import fc from "fast-check";
import { type Dice, diceOf } from "../ide/compare/made-lines.ts";
import { ALL_BLOCKS, type MadeLine, type Said, SPECIAL } from "./made-blocks.ts";

export interface MadeBoard {
  readonly dialect: string;
  /** A craft that says what the board's text does, or something else that the dialect has lines for. */
  readonly craft: string;
  readonly board: string;
  /** Whether the dialect's text may be written as it was made: every line's facts count where it stands. */
  readonly headings: readonly string[];
}

export const HANDSET = `handset "Wheel"

controls
  TL  switch    ch5  up 1000 us  down 2000 us
  TR  switch    ch6  up 1000 us  mid 1500 us  down 2000 us
  PB  button    ch7  rest 1000 us  held 2000 us
  KN  dial      ch9  1000 us to 2000 us
`;

interface Plan {
  readonly blocks: readonly { readonly kind: number; readonly seed: number; readonly under: number }[];
  readonly seed: number;
  readonly headings: number;
  readonly noise: number;
  readonly same: boolean;
}

const WORDS = ["kiln", "spool", "ebb", "hook", "clay", "warp", "tide", "ash"];
const HEADINGS = ["firing 1", "firing 2"];
const NOISE = [
  ";",
  "; raked out at dusk",
  "",
  "",
  "zz 17",
  "zz the stoker's own {x}",
  "  zz |# 'odd' \"line\"  ",
  "KILN",
];

/** No heading, the lines above all headings, or one of the headings. */
type Under = string | null;

interface Placed {
  readonly under: Under;
  readonly codes: readonly string[];
  readonly facts: readonly MadeLine[];
  readonly base: Said;
  readonly wanted: Said | null;
}

/** The board that a plan stands for. */
export function madeBoard({ blocks, seed, headings: count, noise, same }: Plan): MadeBoard {
  const dice = diceOf(seed);
  const headings = HEADINGS.slice(0, count);
  const places: Under[] = [null, "", ...headings];
  const placed = blocks.map(({ kind, seed: own, under }): Placed => {
    const by = diceOf(own);
    const block = ALL_BLOCKS[kind]!(by, `${WORDS[kind % WORDS.length]}${kind}`);
    const base = block.say(by);
    const wanted = same ? base : by.chance(0.15) ? null : by.chance(0.4) ? base : block.say(by);
    return { ...block, base, wanted, under: headings.length > 0 ? places[under % places.length]! : null };
  });
  const opening = dice.chance(0.4) ? "rake the coals" : null;
  const closing = dice.chance(0.4) ? "close the damper" : null;
  return {
    dialect: dialectText(dice, placed, headings, opening, closing),
    craft: craftText(placed.flatMap(({ wanted }) => wanted?.entries ?? [])),
    board: boardText(dice, placed, headings, noise, opening, closing),
    headings,
  };
}

function dialectText(
  dice: Dice,
  placed: readonly Placed[],
  headings: readonly string[],
  opening: string | null,
  closing: string | null,
): string {
  const facts = [
    'comment ";"',
    ...(headings.length > 0 && dice.chance(0.6) ? ['heading "firing {n}"'] : []),
    ...(opening === null ? [] : [`opening "${opening}"`]),
    ...(closing === null ? [] : [`closing "${closing}"`]),
    ...(dice.chance(0.3) ? ['known-by "kiln of spring"'] : []),
    ...(dice.chance(0.4) ? ["blanks exact"] : []),
  ];
  const codes = placed.flatMap((each) => each.codes);
  const sections = new Map<string, Map<Under, string[]>>();
  for (const { under, facts: own } of placed)
    for (const { section, text } of own) {
      const byUnder = sections.get(section) ?? new Map<Under, string[]>();
      sections.set(section, byUnder);
      byUnder.set(under, [...(byUnder.get(under) ?? []), text]);
    }
  const blocksOf = [...sections].map(([section, byUnder]) => {
    const plain = byUnder.get(null) ?? [];
    const others = [...byUnder].filter(([under]) => under !== null);
    return [
      section,
      ...plain.map(indented),
      ...others.flatMap(([under, own]) => [`  under "${under}"`, ...own.map(indented)]),
    ];
  });
  return [
    ['dialect "Kiln, spring"'],
    ["text", ...facts.map(indented)],
    ...(codes.length > 0 ? [["codes", ...codes.map(indented)]] : []),
    ...blocksOf,
  ]
    .map((lines) => `${lines.join("\n")}\n`)
    .join("\n");
}

function indented(text: string): string {
  return `  ${text}`;
}

function craftText(entries: readonly MadeLine[]): string {
  const sections = new Map<string, string[]>();
  for (const { section, text } of entries) sections.set(section, [...(sections.get(section) ?? []), text]);
  const blocks = [...sections].map(
    ([section, lines]) => `\n${section}\n${lines.map((line) => `  ${line}\n`).join("")}`,
  );
  return `craft "Kiln, spring"\n\nuse "wheel.fettle"\n${blocks.join("")}`;
}

function boardText(
  dice: Dice,
  placed: readonly Placed[],
  headings: readonly string[],
  noise: number,
  opening: string | null,
  closing: string | null,
): string {
  const groups = new Map<Under, string[]>(["", ...headings].map((under) => [under, []]));
  // Lines that mean one entry together stand under one heading.
  for (const { under, base } of placed) groups.get(under ?? dice.pick(["", ...headings]))!.push(...base.board);
  for (let i = 0; i < noise; i++) {
    const lines = groups.get(dice.pick([...groups.keys()]))!;
    // Now and then a line is said a second time.
    lines.push(dice.chance(0.15) && lines.length > 0 ? dice.pick(lines) : dice.pick(NOISE));
  }
  const body = [...groups].flatMap(([heading, lines]) => {
    const mixed = dice.some(lines, lines.length);
    return heading === "" || heading === null ? mixed : lines.length > 0 || dice.chance(0.5) ? [heading, ...mixed] : [];
  });
  const all = [
    ...(opening !== null && dice.chance(0.7) ? [opening] : []),
    ...body,
    ...(closing !== null && dice.chance(0.7) ? [closing] : []),
  ];
  return all.length === 0 ? "" : all.join("\n") + (dice.chance(0.9) ? "\n" : "");
}

const kinds = fc.oneof(
  { weight: 1, arbitrary: fc.nat(SPECIAL.length - 1) },
  { weight: 1, arbitrary: fc.nat(ALL_BLOCKS.length - 1) },
);
const seeds = fc.noShrink(fc.nat(2 ** 31 - 1));

/** Any dialect with its craft and its board's text; `same`: the craft says what the text does, and nothing else. */
export function madeBoards(same: boolean): fc.Arbitrary<MadeBoard> {
  return fc
    .record({
      blocks: fc.uniqueArray(fc.record({ kind: kinds, seed: seeds, under: fc.nat(3) }), {
        selector: ({ kind }) => kind,
        minLength: 1,
        maxLength: 7,
      }),
      seed: seeds,
      headings: fc.nat(HEADINGS.length),
      noise: fc.nat(6),
      same: fc.constant(same),
    })
    .map(madeBoard);
}
