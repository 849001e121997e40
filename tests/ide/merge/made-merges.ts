/**
 * Scripts as two people might change one: values, notes, places and whole sections changed, added, moved, removed and
 * renamed at random, by both, each on their own.
 */
import { CONTROLS, catalogue, type Dice, diceOf, faultyRest, namesIn, restFor } from "../compare/made-lines.ts";

export interface MadeMerge {
  readonly seed: number;
  readonly base: string;
  readonly ours: string;
  readonly theirs: string;
}

interface Entry {
  readonly name: string;
  readonly rest: string;
  readonly note: readonly string[];
  readonly behind: string;
}

interface Section {
  readonly heading: string;
  readonly note: readonly string[];
  readonly entries: readonly Entry[];
}

interface File {
  readonly kind: "craft" | "layer" | "handset";
  readonly name: string;
  readonly uses: readonly string[];
  readonly sections: readonly Section[];
  readonly columns: boolean;
}

/** What the two may change: anything, or each only what the other leaves alone, so that nothing can clash. */
export type Freedom = "any" | "apart";

const SECTIONS = [
  "modes",
  "outputs",
  "osd",
  "osd-second",
  "pack",
  'pack "Winter"',
  "filters",
  "motors",
  "gains",
].concat([
  "gains-second",
  "rates",
  "adjust",
  "controls",
  'verbatim "kiln"',
  "bench",
  "video",
  "safety",
  "failsafe",
  "kettle",
]);
const USES = ["wheel", "habits", "osd-wide", "tune", "maker"].map((name) => `../layers/${name}.fettle`);

export function madeMerge(seed: number, freedom: Freedom): MadeMerge {
  const dice = diceOf(seed);
  let notes = 0;
  const note = () => `# ${dice.pick(["worn", "as on the label", "measured", "why: habit"])} ${notes++}`;
  const base = madeFile(dice, note);
  const columns = (file: File) => ({ ...file, columns: dice.chance(0.1) ? !file.columns : file.columns });
  const mine = (name: string) => freedom === "any" || hashOf(name) % 2 === 0;
  const yours = (name: string) => freedom === "any" || hashOf(name) % 2 === 1;
  const ours = changed(dice, base, note, mine, freedom);
  const theirs = changed(dice, base, note, yours, freedom);
  return {
    seed,
    base: textOf(base),
    ours: textOf(freedom === "any" ? columns(ours) : ours),
    theirs: textOf(freedom === "any" ? columns(theirs) : theirs),
  };
}

function hashOf(name: string): number {
  let hash = 7;
  for (const letter of name) hash = (hash * 31 + letter.charCodeAt(0)) % 1009;
  return hash;
}

function madeFile(dice: Dice, note: () => string): File {
  const kind = dice.pick(["craft", "craft", "layer", "handset"] as const);
  const offered = kind === "handset" ? ["transmitter", "controls"] : SECTIONS;
  const headings = dice.some(offered, 1 + dice.below(5));
  if (dice.chance(0.2)) headings.push(dice.pick(headings));
  return {
    kind,
    name: dice.pick(["Jug", "Tankard"]),
    uses: dice.some(USES, dice.below(4)),
    sections: headings.map((heading) => ({
      heading,
      note: dice.chance(0.2) ? [note()] : [],
      entries: entriesOf(dice, heading, 1 + dice.below(6), note),
    })),
    columns: dice.chance(0.7),
  };
}

function sectionIn(heading: string): string {
  return heading.replace(/ "(.*)"/, "/$1");
}

function entriesOf(dice: Dice, heading: string, count: number, note: () => string): Entry[] {
  const entries = Array.from({ length: count }, () => entryOf(dice, heading, note));
  // Only some names are said twice.
  const seen = new Set<string>();
  return entries.filter(({ name }) => {
    const again = seen.has(name) && !dice.chance(0.3) && name !== "|";
    seen.add(name);
    return !again;
  });
}

function entryOf(dice: Dice, heading: string, note: () => string): Entry {
  const section = sectionIn(heading);
  const above = dice.chance(0.2) ? [note()] : [];
  if (section.startsWith("verbatim"))
    return { name: "|", rest: `shelf ${dice.below(9)} = ${dice.below(99)}`, note: [], behind: "" };
  if (section === "kettle")
    return { name: dice.pick(["water", "sugar", "tea"]), rest: `${dice.below(9)} l`, note: above, behind: "" };
  const names = namesIn(section).slice(0, 9);
  if (dice.chance(0.08))
    return {
      name: "drop",
      rest: dice.chance(0.2) ? "all" : dice.some(names, 1 + dice.below(2)).join(" "),
      note: above,
      behind: "",
    };
  const name = dice.pick(names);
  const rest = dice.chance(0.04) ? faultyRest(dice) : restFor(dice, section, name);
  return { name, rest, note: above, behind: dice.chance(0.1) ? `  ${note()}` : "" };
}

function changed(dice: Dice, file: File, note: () => string, may: (name: string) => boolean, freedom: Freedom): File {
  let sections = file.sections.map((section) => ({ ...section, entries: [...section.entries] }));
  const steps = 1 + dice.below(5);
  for (let i = 0; i < steps; i++) {
    const section = dice.pick(sections);
    if (!section) break;
    const { entries, heading } = section;
    const key = (entry: Entry) => `${heading} ${entry.name}`;
    const at = dice.below(entries.length + 1);
    const entry = entries[at];
    const action = dice.below(freedom === "any" ? 12 : 6);
    if (heading.startsWith("verbatim") && freedom === "apart" && !may(heading)) continue;
    if (action < 3) {
      if (entry && may(key(entry)) && entry.name !== "drop") {
        const rest =
          entry.name === "|" || heading === "kettle"
            ? `new ${dice.below(99)}`
            : restFor(dice, sectionIn(heading), entry.name);
        for (const [j, each] of entries.entries())
          if (j === at || (freedom === "apart" && each.name === entry.name && false)) entries[j] = { ...each, rest };
      }
    } else if (action === 3) {
      const added = entryOf(dice, heading, note);
      if (may(key(added)) && (freedom === "any" || added.name !== "drop")) entries.splice(at, 0, added);
    } else if (action === 4) {
      if (entry && may(key(entry)) && (freedom === "any" || (entries.length > 1 && entry.name !== "drop")))
        entries.splice(at, 1);
    } else if (action === 5) {
      if (entry && may(key(entry)) && entry.name !== "|")
        entries[at] = { ...entry, note: dice.chance(0.5) ? [note()] : [] };
    } else if (action === 6) {
      if (entry) {
        entries.splice(at, 1);
        entries.splice(dice.below(entries.length + 1), 0, entry);
      }
    } else if (action === 7) {
      const moved = dice.below(sections.length);
      const [taken] = sections.splice(moved, 1);
      sections.splice(dice.below(sections.length + 1), 0, taken!);
    } else if (action === 8) {
      if (sections.length > 1) sections = sections.filter((each) => each !== section);
    } else if (action === 9) {
      const heading = file.kind === "handset" ? "controls" : dice.pick(SECTIONS);
      sections.splice(dice.below(sections.length + 1), 0, {
        heading,
        note: [],
        entries: entriesOf(dice, heading, 1 + dice.below(4), note),
      });
    } else if (action === 10) {
      const twin = sections.find((each) => each !== section && each.heading === heading);
      const [taken] = entries.splice(at, 1);
      if (taken) (twin ?? section).entries.push(taken);
    } else if (heading === 'pack "Winter"') {
      sections[sections.indexOf(section)] = { ...section, heading: dice.pick(['pack "Frost"', 'pack "Thaw"']) };
    }
  }
  const uses = freedom === "any" && dice.chance(0.3) ? dice.some(USES, dice.below(5)) : file.uses;
  const name = freedom === "any" && dice.chance(0.05) ? "Saucer" : file.name;
  return { ...file, name, uses, sections };
}

function textOf({ kind, name, uses, sections, columns }: File): string {
  const lines = [`${kind} "${name}"`, ""];
  lines.push(...uses.map((path) => `use "${path}"`));
  if (uses.length > 0) lines.push("");
  for (const { heading, note, entries } of sections) {
    lines.push(...note, heading);
    const width = Math.max(0, ...entries.map((each) => each.name.length));
    for (const each of entries) {
      lines.push(...each.note.map((text) => `  ${text}`));
      lines.push(
        `  ${columns && each.name !== "drop" ? each.name.padEnd(width) : each.name} ${each.rest}${each.behind}`.trimEnd(),
      );
    }
    lines.push("");
  }
  lines.pop();
  return `${lines.join("\n")}\n`;
}

export { CONTROLS, catalogue };
