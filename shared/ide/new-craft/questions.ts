/** The questions for a new craft, as data: the choices, and which of them go together. */
import { type Answers, type Choice, type LeftOut, NEW_HANDSET_WORD, type Question } from "../../protocol/new-craft.ts";

/** A handset or a layer of the workspace; `path` is its word in an answer. */
export interface FoundFile {
  readonly file: string;
  readonly path: string;
  readonly name: string;
}

/** The files that a new craft can use. */
export interface FoundFiles {
  readonly handsets: readonly (FoundFile & { readonly band: string | null })[];
  readonly layers: readonly FoundFile[];
  readonly notOffered: readonly LeftOut[];
  /** Set where whoever asks can also make a handset, and then go on with it. */
  readonly newHandset?: "offered";
}

const NEW_HANDSET: Choice = {
  word: NEW_HANDSET_WORD,
  label: "A new handset…",
  help: "its controls one by one; then the craft goes on with it",
};

const SIZES = ["31-mm", "40-mm", "2-inch", "3-inch", "5-inch", "7-inch", "10-inch"] as const;
/** A size of propeller. */
export type CraftSize = (typeof SIZES)[number];

/** The packs for each size of propeller, the most common first (common practice, no source). */
const PACKS_OF_SIZE: Readonly<Record<CraftSize, readonly string[]>> = {
  "31-mm": ["1-lihv", "1-lipo", "2-lihv", "2-lipo"],
  "40-mm": ["2-lihv", "1-lihv", "2-lipo", "1-lipo", "3-lipo"],
  "2-inch": ["3-lipo", "2-lipo", "2-lihv", "4-lipo"],
  "3-inch": ["4-lipo", "3-lipo", "6-lipo", "4-li-ion"],
  "5-inch": ["6-lipo", "4-lipo", "4-li-ion", "6-li-ion"],
  "7-inch": ["6-lipo", "4-lipo", "4-li-ion", "6-li-ion"],
  "10-inch": ["6-lipo", "6-li-ion", "8-lipo", "8-li-ion"],
};

/** Sizes that fly with open propellers, and those that fly with ducts; some do either. */
const openSizes: readonly CraftSize[] = ["2-inch", "3-inch", "5-inch", "7-inch", "10-inch"];
const ductedSizes: readonly CraftSize[] = ["31-mm", "40-mm", "2-inch", "3-inch"];

const PACKS = [
  "1-lihv",
  "1-lipo",
  "2-lihv",
  "2-lipo",
  "3-lipo",
  "4-lipo",
  "6-lipo",
  "8-lipo",
  "4-li-ion",
  "6-li-ion",
  "8-li-ion",
];

const CHEMISTRY_HELP: Readonly<Record<string, string>> = {
  lipo: "strong current; charged to 4.20 V a cell",
  lihv: "the high-voltage kind; charged to 4.35 V a cell",
  "li-ion": "long and gentle flights; little current, usable further down",
};

const HELP_OF_BAND: Readonly<Record<string, string>> = {
  "2.4 GHz": "small aerials, allowed nearly everywhere",
  "868 MHz": "far and through trees; a European band",
  "915 MHz": "far and through trees; an American band",
  "433 MHz": "the farthest, with the longest aerials",
};
const wordOfBand = (band: string) => band.toLowerCase().replace(" ", "-");
/** The bands of links. */
export const BAND_CHOICES: readonly Choice[] = Object.entries(HELP_OF_BAND).map(([band, help]) => {
  return { word: wordOfBand(band), label: band, help };
});
const BANDS = BAND_CHOICES.map((each) => ({ ...each, label: `${each.label}, no handset file yet` }));
/** The band as written in a script, by the word of its answer. */
export const BAND_OF_WORD: Readonly<Record<string, string>> = Object.fromEntries(
  Object.keys(HELP_OF_BAND).map((band) => [wordOfBand(band), band]),
);

const analogue = { question: "video", words: ["analogue"] } as const;
const digital = { question: "video", words: ["digital"] } as const;

const FIXED: readonly Question[] = [
  {
    id: "size",
    prompt: "How large are the propellers?",
    choices: [
      { word: "31-mm", label: "31 mm", help: "tiny and ducted, for rooms" },
      { word: "40-mm", label: "40 mm", help: "tiny and ducted, for halls and gardens" },
      { word: "2-inch", label: "2 inch", help: "small, for gardens and halls" },
      { word: "3-inch", label: "3 inch", help: "light, for parks" },
      { word: "5-inch", label: "5 inch", help: "the usual size for racing and figures" },
      { word: "7-inch", label: "7 inch", help: "for distance" },
      { word: "10-inch", label: "10 inch", help: "to carry something" },
    ],
    many: false,
    usual: "5-inch",
  },
  {
    id: "pack",
    prompt: "Which pack: how many cells in series, of which chemistry?",
    choices: PACKS.map((word) => {
      const [, cells = "", chemistry = ""] = /^(\d+)-(.+)$/.exec(word)!;
      return {
        word,
        label: `${cells} ${cells === "1" ? "cell" : "cells"}, ${chemistry}`,
        help: CHEMISTRY_HELP[chemistry]!,
        onlyWith: { question: "size", words: SIZES.filter((size) => PACKS_OF_SIZE[size].includes(word)) },
      };
    }),
    many: false,
    usual: "6-lipo",
  },
  {
    id: "ducts",
    prompt: "Are there rings or ducts round the propellers?",
    choices: [
      { word: "no", label: "No", help: "open propellers", onlyWith: { question: "size", words: openSizes } },
      {
        word: "yes",
        label: "Yes",
        help: "softer in a knock, heavier in the wind",
        onlyWith: { question: "size", words: ductedSizes },
      },
    ],
    many: false,
    usual: "no",
  },
  { id: "link", prompt: "Which radio link, and which handset?", choices: BANDS, many: false, usual: "2.4-ghz" },
  {
    id: "video",
    prompt: "Is the picture analogue or digital?",
    choices: [
      { word: "analogue", label: "Analogue", help: "light and without delay; grows noisy with distance" },
      { word: "digital", label: "Digital", help: "clear; late or frozen at the end of its reach" },
    ],
    many: false,
    usual: "digital",
  },
  {
    id: "grid",
    prompt: "How many characters has the text over the picture?",
    choices: [
      { word: "pal", label: "30 x 16 (pal)", help: "analogue, 625 lines", onlyWith: analogue },
      { word: "ntsc", label: "30 x 13 (ntsc)", help: "analogue, 525 lines", onlyWith: analogue },
      { word: "53x20", label: "53 x 20", help: "common for digital pictures", onlyWith: digital },
      { word: "60x22", label: "60 x 22", help: "finer, where goggles and board have it", onlyWith: digital },
      { word: "50x18", label: "50 x 18", help: "coarser", onlyWith: digital },
      { word: "30x16", label: "30 x 16", help: "as on analogue pictures", onlyWith: digital },
      { word: "none", label: "No text", help: "the bare picture" },
    ],
    many: false,
    usual: "53x20",
  },
  {
    id: "gps",
    prompt: "Does it carry a satellite receiver?",
    choices: [
      { word: "no", label: "No", help: "nothing brings it home but you" },
      { word: "yes", label: "Yes", help: "it can fly home by itself" },
    ],
    many: false,
    usual: "no",
  },
  {
    id: "pilot",
    prompt: "Who is it for?",
    choices: [
      { word: "beginner", label: "A beginner", help: "holds itself level until you switch that off" },
      { word: "pupil", label: "A teacher's pupil", help: "calm rates and a throttle that ends early" },
      { word: "freestyle", label: "Figures in the air", help: "quick, with a soft middle" },
      { word: "racing", label: "Racing", help: "quick and direct, with the camera tilted up" },
      { word: "filming", label: "Cruising and filming", help: "slow and smooth" },
    ],
    many: false,
    usual: "beginner",
  },
  { id: "layers", prompt: "Which layers does it stand on?", choices: [], many: true, usual: null },
];

/** Every question with all its choices, also those that are only valid after certain answers. */
export function allQuestions(found: FoundFiles): Question[] {
  return FIXED.map((question) => {
    if (question.id === "link") {
      const handsets = found.handsets.map(({ path, name, band }) => {
        return { word: path, label: `${name}${band ? `, ${band}` : ""}`, help: `the handset in ${path}` };
      });
      return {
        ...question,
        choices: [...handsets, ...(found.newHandset ? [NEW_HANDSET] : []), ...BANDS],
        usual: handsets[0]?.word ?? question.usual,
      };
    }
    if (question.id !== "layers") return question;
    const choices = found.layers.map(({ path, name }) => ({ word: path, label: name, help: `the layer in ${path}` }));
    return { ...question, choices };
  });
}

/**
 * The questions with the choices that are valid after the answers so far; an unanswered question counts as its usual
 * answer.
 */
export function questionsFor(found: FoundFiles, answers: Answers): Question[] {
  const taken = new Map<string, string>();
  return allQuestions(found).map((question) => {
    const choices = question.choices.filter(
      ({ onlyWith }) => !onlyWith || onlyWith.words.includes(taken.get(onlyWith.question)!),
    );
    const usual = usualOf(question, choices, taken);
    const answer = answers[question.id];
    const chosen = typeof answer === "string" ? answer : usual;
    if (chosen !== null) taken.set(question.id, chosen);
    return { ...question, choices, usual };
  });
}

function usualOf(
  { id, usual }: Question,
  choices: readonly Choice[],
  taken: ReadonlyMap<string, string>,
): string | null {
  const first = id === "pack" ? PACKS_OF_SIZE[taken.get("size") as CraftSize]?.[0] : usual;
  if (first === null) return null;
  return choices.find(({ word }) => word === first)?.word ?? choices[0]?.word ?? null;
}
