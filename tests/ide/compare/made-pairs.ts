/**
 * Pairs of craft as whole workspaces of texts: with layers in layers, one handset or two, drops, second sets, named
 * packs, fields and modes on several lines, board text, notes, odd layout, and now and then a line with a fault.
 * Unrelated ones, ones that share layers, and ones that are changes of each other.
 */
import fc from "fast-check";
import { memoryFiles } from "../../../shared/model/files.ts";
import { type Core, makeCore, type Workspace } from "../../../shared/model/workspace.ts";
import { CONTROLS, catalogue, type Dice, diceOf, faultyRest, namesIn, restFor } from "./made-lines.ts";

/** A workspace with two craft in it, by path. */
export interface MadePair {
  readonly seed: number;
  readonly texts: Readonly<Record<string, string>>;
  readonly mine: string;
  readonly theirs: string;
}

interface MadeEntry {
  readonly name: string;
  readonly rest: string;
  /** Whole-line comments above it, and one at its end. */
  readonly above: readonly string[];
  readonly behind: string;
}

interface MadeSection {
  readonly section: string;
  readonly note: readonly string[];
  readonly entries: readonly MadeEntry[];
}

interface MadeFile {
  readonly path: string;
  readonly kind: "craft" | "layer" | "handset";
  readonly name: string;
  readonly uses: readonly string[];
  readonly sections: readonly MadeSection[];
  readonly layout: Layout;
}

/** How a file is laid out. */
interface Layout {
  readonly eol: string;
  readonly bom: boolean;
  readonly ended: boolean;
  readonly indent: string;
  readonly gap: "columns" | "one" | "tab";
}

const SECTIONS = catalogue.sections.filter(({ in: kinds }) => kinds.includes("craft")).map(({ name }) => name);
/** Sections that are met often: they hold what merges in a way of its own. */
const FAVOURED = [
  "modes",
  "modes",
  "outputs",
  "osd",
  "osd-second",
  "pack",
  "pack/Winter",
  "filters",
  "motors",
  "gains",
];
const MORE_FAVOURED = [
  "gains-second",
  "rates",
  "rates-second",
  "adjust",
  "controls",
  "verbatim/kiln",
  "bench",
  "video",
];
const NOTES = [
  "worn at the tip",
  "allow unusual-value: flown so for a year",
  "as on the label",
  "cells 4",
  "why: habit",
];

/** A pair for a seed: the same seed gives the same texts. */
export function madePair(seed: number): MadePair {
  const dice = diceOf(seed);
  const handsets = ["/shed/handsets/wheel.fettle", "/shed/handsets/tiller.fettle"].map((path) =>
    handsetFile(dice, path),
  );
  const shared = dice.chance(0.3) ? chainOf(dice, "/shed/layers", 1 + dice.below(2), []) : [];
  const mine = craftFiles(dice, "mine", dice.pick(handsets).path, shared);
  const kind = dice.below(10);
  const theirs =
    kind < 5
      ? changedFiles(dice, mine, dice.chance(0.3) ? dice.pick(handsets).path : null)
      : craftFiles(dice, "theirs", dice.chance(0.5) ? handsets[0]!.path : dice.pick(handsets).path, shared);
  const files = [...handsets, ...shared, ...mine, ...theirs];
  return {
    seed,
    texts: Object.fromEntries(files.map((file) => [file.path, textOf(dice, file)])),
    mine: "/shed/mine/jug.fettle",
    theirs: "/shed/theirs/jug.fettle",
  };
}

const SEEDS = fc.nat(2 ** 31 - 1);

/** Any pair, for a property of one's own; `expectOfPairs` tells what fails in fewer lines. */
export const pairs: fc.Arbitrary<MadePair> = SEEDS.map(madePair);

const core = makeCore(catalogue);

/** A workspace of texts, by a core that all made pairs share. */
export function workspaceOf(texts: Readonly<Record<string, string>>, by: Core = core): Workspace {
  return by.at(memoryFiles(texts));
}

/** So many shortened pairs are tried before a person gets to see one. */
const MOST_TRIES = 1500;

/** The pair with every line left out without which it still fails: what a person looks at. */
export function reducedPair(pair: MadePair, fails: (pair: MadePair) => boolean): MadePair {
  let now = pair;
  let tries = 0;
  for (let size = 16; size >= 1; size >>= 1) {
    for (const path of Object.keys(now.texts)) {
      for (let at = 0; ; ) {
        const lines = now.texts[path]!.split(/(?<=\n)/);
        if (at >= lines.length || tries++ > MOST_TRIES) break;
        const less = { ...now, texts: { ...now.texts, [path]: lines.toSpliced(at, size).join("") } };
        if (fails(less)) now = less;
        else at += size;
      }
    }
  }
  return now;
}

/**
 * Asks of so many pairs that `fault` finds nothing; it gives what is wrong, beginning with one word for its kind. A
 * pair that fails is shown with its seed (`madePair(SEED)`), and with only the lines that it takes.
 */
export function expectOfPairs(numRuns: number, fault: (pair: MadePair) => string | null): void {
  const property = fc.property(SEEDS, (number) => {
    const pair = madePair(number);
    const found = fault(pair);
    if (found === null) return;
    const kind = found.split(" ")[0]!;
    const least = reducedPair(pair, (each) => fault(each)?.split(" ")[0] === kind);
    throw new Error(`${fault(least)}\n${shown(least)}`);
  });
  fc.assert(property, { numRuns, seed: 2026, endOnFailure: true });
}

/** The texts of a pair, one below the other, for a message. */
export function shown({ seed, texts }: MadePair): string {
  const files = Object.entries(texts).filter(([, text]) => text !== "");
  return [`seed ${seed}`, ...files.map(([path, text]) => `--- ${path}\n${text}`)].join("\n");
}

/** A craft with up to four layers of its own, one within another now and then, over those that are shared. */
function craftFiles(dice: Dice, folder: string, handset: string, shared: readonly MadeFile[]): MadeFile[] {
  const layers = chainOf(dice, `/shed/${folder}`, dice.below(5), shared);
  const nested = new Set(layers.flatMap(({ uses }) => uses));
  const uses = [...shared, ...layers].map(({ path }) => path).filter((path) => !nested.has(path) || dice.chance(0.2));
  const craft: MadeFile = {
    path: `/shed/${folder}/jug.fettle`,
    kind: "craft",
    name: "Jug",
    uses: dice.chance(0.9) ? (dice.chance(0.5) ? [handset, ...uses] : [...uses, handset]) : uses,
    sections: sectionsOf(dice, "craft", 2 + dice.below(7)),
    layout: layoutOf(dice),
  };
  return [...layers, craft];
}

function chainOf(dice: Dice, folder: string, count: number, others: readonly MadeFile[]): MadeFile[] {
  const made: MadeFile[] = [];
  for (let i = 0; i < count; i++) {
    const below = dice.chance(0.3) ? [...others, ...made].map(({ path }) => path) : [];
    made.push({
      path: `${folder}/layer-${i}.fettle`,
      kind: "layer",
      name: `Layer ${i}`,
      uses: below.length > 0 ? [dice.pick(below)] : [],
      sections: sectionsOf(dice, "layer", 1 + dice.below(6)),
      layout: layoutOf(dice),
    });
  }
  return made;
}

function handsetFile(dice: Dice, path: string): MadeFile {
  const settings = dice.some(namesIn("transmitter"), 2 + dice.below(3));
  const controls = dice.some(CONTROLS, 3 + dice.below(3)).map(({ name }) => name);
  return {
    path,
    kind: "handset",
    name: path.includes("wheel") ? "Wheel" : "Tiller",
    uses: [],
    sections: [
      { section: "transmitter", note: [], entries: settings.map((name) => entryOf(dice, "transmitter", name)) },
      { section: "controls", note: [], entries: controls.map((name) => entryOf(dice, "controls", name)) },
    ],
    layout: layoutOf(dice),
  };
}

function sectionsOf(dice: Dice, kind: MadeFile["kind"], count: number): MadeSection[] {
  const made: MadeSection[] = [];
  for (let i = 0; i < count; i++) {
    const section = dice.pick(dice.chance(0.65) ? [...FAVOURED, ...MORE_FAVOURED] : SECTIONS);
    if (section === "verbatim") continue;
    made.push({ section, note: notesOf(dice, 0.15), entries: entriesOf(dice, section, kind) });
  }
  return made;
}

function entriesOf(dice: Dice, section: string, kind: MadeFile["kind"]): MadeEntry[] {
  const plain = (name: string, rest: string): MadeEntry => ({ name, rest, above: [], behind: "" });
  if (section.startsWith("verbatim/")) {
    const lines = Array.from({ length: 1 + dice.below(3) }, () =>
      plain("|", dice.pick([" shelf 3 = 14", " shelf 4 = 9", " # no note"])),
    );
    return dice.chance(0.2) ? [plain("drop", "all"), ...lines] : lines;
  }
  const names = namesIn(section);
  const entries: MadeEntry[] = [];
  // Few names, and those that merge in a way of their own more often, so that files say the same ones.
  const often = names.filter((name) => isJoint(section, name));
  const offered = dice.chance(0.6) ? [...often, ...names.slice(0, 8)] : names;
  for (const name of dice.some([...new Set(offered)], 1 + dice.below(5))) {
    const isMany = section === "modes" || section === "outputs" || isJoint(section, name);
    const lines = isMany || dice.chance(0.04) ? 1 + dice.below(3) : 1;
    for (let i = 0; i < lines; i++) entries.push(entryOf(dice, section, name));
  }
  if (dice.chance(kind === "craft" ? 0.3 : 0.15)) {
    const dropped = dice.chance(0.2) ? ["all"] : dice.some([...new Set(offered)], 1 + dice.below(4));
    const drop = { ...plain("drop", dropped.join(" ")), above: notesOf(dice, 0.2) };
    entries.splice(dice.below(entries.length + 1), 0, drop);
  }
  if (dice.chance(0.05)) entries.push(plain(dice.chance(0.5) ? dice.pick(names) : "kettle", faultyRest(dice)));
  return dice.chance(0.3) ? dice.some(entries, entries.length) : entries;
}

function isJoint(section: string, name: string): boolean {
  const spec = catalogue.setting(section, name);
  return spec?.repeatable === true || spec?.types.some(({ is }) => is === "fields") === true;
}

function entryOf(dice: Dice, section: string, name: string): MadeEntry {
  const behind = dice.chance(0.12) ? `${dice.pick(["  ", " "])}# ${dice.pick(NOTES)}` : "";
  return { name, rest: restFor(dice, section, name), above: notesOf(dice, 0.12), behind };
}

function notesOf(dice: Dice, share: number): string[] {
  return dice.chance(share) ? dice.some(NOTES, 1 + dice.below(2)).map((note) => `# ${note}`) : [];
}

/** The files of a craft again, in a folder of their own, with some of their lines changed. */
function changedFiles(dice: Dice, files: readonly MadeFile[], handset: string | null): MadeFile[] {
  const share = dice.pick([0, 0.05, 0.2, 0.5]);
  const moved = (path: string): string =>
    path.includes("/handsets/") && handset ? handset : path.replace("/shed/mine/", "/shed/theirs/");
  return files.map((file) => ({
    ...file,
    path: moved(file.path),
    uses: file.uses.map(moved),
    layout: layoutOf(dice),
    sections: [
      ...file.sections.flatMap((section) => changedSection(dice, section, file.kind, share)),
      ...(dice.chance(share) ? sectionsOf(dice, file.kind, 1) : []),
    ],
  }));
}

function changedSection(dice: Dice, made: MadeSection, kind: MadeFile["kind"], share: number): MadeSection[] {
  if (dice.chance(share / 6)) return [];
  if (dice.chance(share / 6)) return [{ ...made, entries: entriesOf(dice, made.section, kind) }];
  const entries = made.entries.flatMap((entry): MadeEntry[] => {
    if (!dice.chance(share)) return [entry];
    const known = namesIn(made.section).includes(entry.name);
    const what = dice.below(5);
    if (what === 0) return [];
    if (what === 1) return [{ ...entry, above: notesOf(dice, 0.5), behind: "" }];
    return known ? [{ ...entry, rest: restFor(dice, made.section, entry.name) }] : [entry];
  });
  return [
    { ...made, note: notesOf(dice, 0.15), entries: dice.chance(share) ? dice.some(entries, entries.length) : entries },
  ];
}

function layoutOf(dice: Dice): Layout {
  return {
    eol: dice.chance(0.1) ? "\r\n" : "\n",
    bom: dice.chance(0.06),
    ended: dice.chance(0.9),
    indent: dice.pick(["  ", "  ", "  ", "    ", "\t", " "]),
    gap: dice.pick(["columns", "columns", "one", "tab"]),
  };
}

function textOf(dice: Dice, { path, kind, name, uses, sections, layout }: MadeFile): string {
  const { eol, bom, ended, indent, gap } = layout;
  const folder = path.split("/").slice(0, -1);
  const lines = [...notesOf(dice, 0.2), `${kind} "${name}"`];
  if (uses.length > 0) lines.push("");
  for (const use of uses) {
    const parts = use.split("/");
    let same = 0;
    while (same < folder.length && folder[same] === parts[same]) same++;
    lines.push(`use "${[...folder.slice(same).map(() => ".."), ...parts.slice(same)].join("/")}"`);
  }
  for (const { section, note, entries } of sections) {
    if (dice.chance(0.9)) lines.push("");
    const slash = section.indexOf("/");
    lines.push(...note, slash < 0 ? section : `${section.slice(0, slash)} "${section.slice(slash + 1)}"`);
    const width = Math.max(0, ...entries.map((entry) => entry.name.length)) + 2;
    for (const { name: head, rest, above, behind } of entries) {
      if (dice.chance(0.04)) lines.push("");
      lines.push(...above.map((comment) => indent + comment));
      const blanks = gap === "tab" ? "\t" : gap === "one" ? " " : " ".repeat(width - head.length);
      lines.push(head === "|" ? `${indent}|${rest}` : `${indent}${head}${blanks}${rest}${behind}`);
    }
  }
  return `${bom ? "\uFEFF" : ""}${lines.join(eol)}${ended ? eol : ""}`;
}
