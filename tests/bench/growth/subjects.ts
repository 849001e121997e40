/** What grows: scripts of a size, with an edit that makes of the text another that nobody has read yet. */
import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import { twinsOf } from "../peer/twins.ts";
import { fleetOf } from "../scripts.ts";

export type Texts = Readonly<Record<string, string>>;

export interface Subject {
  /** What is counted, in a word. */
  readonly name: string;
  readonly sizes: readonly number[];
  /** What is held to a straight line or better, where not all is. */
  readonly what: string;
  /** The files at a size; the craft that is judged are those of `craft`. */
  files(size: number, catalogue: Catalogue): Texts;
  craft(files: Texts): readonly string[];
  /** The file that is typed into, and its text after edit `i`. */
  edited(files: Texts, i: number): readonly [file: string, text: string];
}

const CRAFT = "/shed/tankard.fettle";
const onlyCraft = () => [CRAFT];

/** A note at the end of the craft: what was known of every line before still is, and yet the craft is another. */
const withWeight = (files: Texts, i: number): readonly [string, string] => [
  CRAFT,
  files[CRAFT]!.replace(/^( {2}mass +)\d\S*/m, (_, name: string) => `${name}${640 + (i + 1) / 1000}`),
];

const lines: Subject = {
  name: "lines",
  what: "a craft in which every line but the headings is a setting",
  sizes: [100, 200, 500, 1000, 2000, 5000, 10_000, 12_000],
  files: (size, catalogue) => ({ [CRAFT]: twinsOf(size, catalogue).script }),
  craft: onlyCraft,
  edited: withWeight,
};

const frame = "\nframe\n  mass  640 g\n";

const layers: Subject = {
  name: "layers",
  what: "layers one under the other, each with a pack of six lines; the craft uses the uppermost",
  sizes: [1, 2, 5, 10, 20, 50, 100, 200],
  files: (size) => ({
    [CRAFT]: `craft "Tankard"\n\nuse "layer-${size}.fettle"\n${frame}`,
    ...Object.fromEntries(
      Array.from({ length: size }, (_, i) => {
        const below = i === 0 ? "" : `use "layer-${i}.fettle"\n\n`;
        return [`/shed/layer-${i + 1}.fettle`, `layer "Layer ${i + 1}"\n\n${below}${packOf(i)}`];
      }),
    ),
  }),
  craft: onlyCraft,
  edited: withWeight,
};

const packOf = (i: number) =>
  `pack "Shelf ${i}"\n  chemistry  lipo\n  cells      6\n  capacity   ${1000 + i} mAh\n  full-at    4.2 V/cell\n  warn-at    3.5 V/cell\n  land-at    3.3 V/cell\n`;

const craft: Subject = {
  name: "craft",
  what: "a workspace of craft on six shared files, all of which are judged",
  sizes: [10, 20, 50, 100, 300, 1000, 2000, 3000],
  files: (size) => Object.fromEntries(Object.entries(fleetOf(size)).map(([path, text]) => [`/shed/${path}`, text])),
  craft: (files) => Object.keys(files).filter((path) => /craft-\d+/.test(path)),
  edited: (files, i) => {
    const file = "/shed/shelf-0/craft-0.fettle";
    return [file, files[file]!.replace("mass                520 g", `mass                ${520 + (i + 1) / 1000} g`)];
  },
};

/** Switches of three positions on channels of their own, up to the last that a link has; then they share channels. */
const switchesOf = (count: number) =>
  Array.from({ length: count }, (_, i) => `  S${i} switch ch${5 + (i % 28)} up 1000 us mid 1500 us down 2000 us`).join(
    "\n",
  );

/** Each output looks at two neighbouring controls, and every third waits for another output's control too. */
const outputsOf = (count: number, controls: number) =>
  Array.from({ length: count }, (_, i) => {
    const at = (step: number) => `S${(i + step) % controls}`;
    const third = i % 3 === 0 && controls > 2 ? ` or ${at(2)} is mid` : "";
    return `  lamp-${i} when ${at(0)} is up and ${at(1)} is down${third}`;
  }).join("\n");

const switched = (controls: number, outputs: number): Texts => ({
  "/shed/wheel.fettle": `handset "Wheel"\n\ncontrols\n${switchesOf(controls)}\n`,
  [CRAFT]: `craft "Tankard"\n\nuse "wheel.fettle"\n${frame}\nmodes\n  arm when S0 is down\n\noutputs\n${outputsOf(outputs, controls)}\n`,
});

/** Another condition with every edit: which of two positions counts for some lamp, and a note to make it new. */
const withCondition = (files: Texts, i: number): readonly [string, string] => [
  CRAFT,
  files[CRAFT]!.replace("lamp-0 when S0 is up", i % 2 === 0 ? "lamp-0 when S0 is mid" : "lamp-0 when S0 is up").replace(
    "mass  640 g",
    `mass  ${640 + (i + 1) / 1000} g`,
  ),
];

const controls: Subject = {
  name: "controls",
  what: "a handset of switches of three positions, and a switched output for each",
  sizes: [2, 3, 5, 8, 16, 28, 40, 64],
  files: (size) => switched(size, size),
  craft: onlyCraft,
  edited: withCondition,
};

const modes: Subject = {
  name: "conditions",
  what: "switched outputs, each with a condition, over twelve switches of three positions",
  sizes: [1, 2, 5, 10, 20, 50, 100, 200, 500],
  files: (size) => switched(12, size),
  craft: onlyCraft,
  edited: withCondition,
};

export const SUBJECTS: readonly Subject[] = [lines, layers, craft, controls, modes];
