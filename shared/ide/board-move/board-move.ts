/** What becomes of a board's text on another board, or on newer firmware: lost, renamed, rounded, new. */
import type { Dialect, Left } from "../../dialect/dialect.ts";
import { readBoard } from "../../dialect/read/read-board.ts";
import { writeBoard } from "../../dialect/write/write-board.ts";
import type { Written } from "../../dialect/write/written.ts";
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import { pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { splitLines } from "../../syntax/split-lines.ts";
import { withFile } from "../context/trial.ts";
import { type BenchLook, benchLooks } from "./bench-look.ts";

export interface BoardMove {
  /** For the other board, with nothing of its own as a base. */
  readonly text: string;
  /** The script between the two. */
  readonly script: string;
  /** What the old text says, and the new one does not. */
  readonly lost: readonly {
    readonly what: string;
    readonly was: string;
    readonly why: string;
    readonly lines: readonly string[];
  }[];
  /** What is said by a line of another kind. */
  readonly renamed: readonly {
    readonly what: string;
    readonly was: readonly string[];
    readonly now: readonly string[];
  }[];
  /** What means a little less or more: in our words, before and after. */
  readonly rounded: readonly { readonly what: string; readonly was: string; readonly now: string }[];
  /** What the other board can be told, and the first cannot. */
  readonly gained: readonly string[];
  /** Lines of the old text that nobody understood: they are not carried. */
  readonly kept: readonly { readonly line: number; readonly text: string; readonly why: string | null }[];
  /** What the other board can hold, and nobody said. */
  readonly filled: Written["filled"];
  readonly curves: Written["curves"];
  readonly bench: readonly BenchLook[];
  readonly notes: readonly string[];
}

/** Carries a board's text to another dialect. `handset`: whose controls the channels are; null where it is not known. */
export function moveBoard(
  from: Dialect,
  to: Dialect,
  text: string,
  { workspace, handset }: { readonly workspace: Workspace; readonly handset: Script | null },
): BoardMove {
  const file = `${folderOf(handset?.file ?? to.file)}/moved-board-text.fettle` as FilePath;
  const uses = handset ? [pathBetween(file, handset.file)] : [];
  const read = readBoard(from, text, { workspace, handset, craft: null, uses });
  const trial = withFile(workspace, file, read.script);
  const craft = trial.craft(file)!;
  const written = writeBoard(to, craft, trial, null);
  const back = readBoard(to, written.text, { workspace: trial, handset, craft });
  const [before, after] = [saidIn(read), saidIn(back)];
  const [oldLines, newLines] = [splitLines(text).lines, splitLines(written.text).lines];
  const lost: BoardMove["lost"][number][] = [];
  const renamed: BoardMove["renamed"][number][] = [];
  const rounded: BoardMove["rounded"][number][] = [];
  for (const [what, said] of before) {
    const now = after.get(what);
    const was = said.values.join("; ");
    if (!now) {
      lost.push({ what, was, why: whyLost(what, written), lines: said.lines.map((line) => oldLines[line]!.trim()) });
      continue;
    }
    if (now.values.join("; ") !== was) rounded.push({ what, was, now: now.values.join("; ") });
    const [old, fresh] = [
      said.lines.map((line) => oldLines[line]!.trim()),
      now.lines.map((line) => newLines[line]!.trim()),
    ];
    if (kindsOf(from, said.by) !== kindsOf(to, now.by)) renamed.push({ what, was: old, now: fresh });
  }
  const isLost = new Set(lost.map(({ what }) => what));
  const changed = [
    ...isLost,
    ...rounded.map(({ what }) => what),
    ...written.curves.map(({ what }) => what),
    ...written.filled.map(({ what }) => what),
  ];
  return {
    text: written.text,
    script: read.script,
    lost,
    renamed,
    rounded,
    gained: gainedIn(from, to),
    kept: read.lines
      .filter(({ state }) => state === "kept" || state === "odd")
      .map(({ line, why }) => ({ line, text: oldLines[line]!, why })),
    filled: written.filled,
    curves: written.curves,
    bench: benchLooks([...new Set(changed)], workspace.catalogue),
    notes: [...new Set([...read.notes, ...written.notes])],
  };
}

function folderOf(file: string): string {
  return file.slice(0, file.lastIndexOf("/"));
}

interface Said {
  readonly values: string[];
  readonly lines: number[];
  readonly by: number[];
}

/** What each line says that counts, by `SECTION NAME`. */
function saidIn({ lines }: ReturnType<typeof readBoard>): ReadonlyMap<string, Said> {
  const said = new Map<string, Said>();
  for (const { line, state, says, by } of lines) {
    if (state !== "read") continue;
    for (const each of says) {
      const [section = "", name = ""] = each.split(" ");
      const what = `${section} ${name}`;
      const own = said.get(what) ?? { values: [], lines: [], by: [] };
      const value = each.slice(what.length + 1);
      if (!own.values.includes(value)) own.values.push(value);
      own.lines.push(line);
      own.by.push(...by);
      said.set(what, own);
    }
  }
  return said;
}

/** The left sides by which something is said, as text to compare. */
function kindsOf({ lefts }: Dialect, by: readonly number[]): string {
  const kinds = new Set(lefts.filter(({ meanings }) => meanings.some(({ line }) => by.includes(line))).map(kindOf));
  return [...kinds].sort().join("\n");
}

/** The words of a line without its slots, below its heading. */
function kindOf({ pattern, under }: Left): string {
  const words = pattern.parts.map((part) => (part.kind === "literal" ? part.text : "{}")).join("");
  return `${under.kind === "heading" ? under.pattern.key : ""}\n${words}`;
}

function whyLost(what: string, { cannot, unsaid }: Written): string {
  const known = cannot.find((each) => each.what === what);
  if (known) return known.why;
  return unsaid.some((each) => each === what || each.startsWith(`${what} `))
    ? "the other board's dialect has no line for it"
    : "the other board has nothing for it, as its dialect says";
}

/** The names that a dialect has lines for and another has none; of names that slots make the words of their codes. */
function gainedIn(from: Dialect, to: Dialect): string[] {
  const known = new Set(namesIn(from));
  return [...new Set(namesIn(to))].filter((name) => !known.has(name));
}

function namesIn({ meanings }: Dialect): string[] {
  return meanings.flatMap(({ section, right, lefts }) => {
    const slot = right.name.find((part) => typeof part !== "string");
    if (slot === undefined || typeof slot === "string") return [`${section} ${right.name.join("")}`];
    if (right.name.length > 1) return [];
    const code = lefts.map(({ pattern }) => pattern.slots.get(slot.slot)?.code).find((each) => each);
    const own = code?.kind === "bits" ? code.parts.find(({ name }) => name === slot.part)?.code : code;
    return own?.kind === "words" ? own.words.flatMap(({ ours }) => (ours === null ? [] : [`${section} ${ours}`])) : [];
  });
}
