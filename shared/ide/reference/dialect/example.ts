/**
 * Examples of the pages about dialects, as data: a dialect, lines of board text, and what becomes of each. Tests read
 * them with the code that reads a pilot's own, so the pages cannot say what the program does not do.
 */

/** A dialect with what it shows. Texts begin and end without a line break. */
export interface DialectExample {
  /** The whole file, with its header. */
  readonly dialect: string;
  /** What a board's text means; empty where the example is about writing or about faults alone. */
  readonly reads: readonly ExampleLine[];
  /** The handset with which it is read, as a script; null without. */
  readonly handset: string | null;
  /** The script that the lines become; null where the example does not say. */
  readonly script: string | null;
  readonly writes: ExampleWrite | null;
  /** The codes of the findings about the dialect itself, in order. */
  readonly finds: readonly string[];
}

/** A line of board text, its state, and its meaning in our words: `SECTION NAME VALUE` each. */
export interface ExampleLine {
  readonly text: string;
  readonly state: "read" | "odd" | "kept" | "idle";
  readonly says: readonly string[];
  /** Why an odd line is odd, for the reader of the page; "" without. */
  readonly why: string;
}

/** A craft that is written onto a base. */
export interface ExampleWrite {
  readonly craft: string;
  /** The board's last text; null without one. */
  readonly base: string | null;
  readonly text: string;
  /** Only what changed; null where the example does not say. */
  readonly changes: string | null;
}

interface Parts {
  /** Without its header. */
  readonly dialect: string;
  /** Lines as `TEXT => STATE MEANING; MEANING`, or `TEXT => odd (why)`. */
  readonly reads?: string;
  readonly handset?: string;
  readonly script?: string;
  readonly writes?: {
    readonly craft: string;
    readonly base?: string;
    readonly text: string;
    readonly changes?: string;
  };
  readonly finds?: readonly string[];
}

/** The name of the dialect in every example that does not need another. */
export const EXAMPLE_NAME = "Kiln, spring";

/** An example from its parts: the header is put before the dialect, and each line of `reads` is taken apart. */
export function example({ dialect, reads = "", handset, script, writes, finds = [] }: Parts): DialectExample {
  return {
    dialect: `dialect "${EXAMPLE_NAME}"\n\n${trimmed(dialect)}`,
    reads: reads === "" ? [] : trimmed(reads).split("\n").map(lineOf),
    handset: handset === undefined ? null : trimmed(handset),
    script: script === undefined ? null : trimmed(script),
    writes: writes
      ? {
          craft: trimmed(writes.craft),
          base: writes.base === undefined ? null : trimmed(writes.base),
          text: trimmed(writes.text),
          changes: writes.changes === undefined ? null : trimmed(writes.changes),
        }
      : null,
    finds,
  };
}

/** Without the line breaks at both ends. */
function trimmed(text: string): string {
  return text.replace(/^\n+|\n+$/g, "");
}

const READ_LINE = /^(.*?) *=> (read|odd|kept|idle)(?: \((.*)\)| (.*))?$/;

function lineOf(written: string): ExampleLine {
  const [, text, state, why = "", says = ""] = READ_LINE.exec(written) ?? [];
  if (text === undefined) throw new Error(`an example has a line without “=> STATE”: ${written}`);
  return { text, state: state as ExampleLine["state"], says: says === "" ? [] : says.split("; "), why };
}

/** The board text of an example, as the board would write it. */
export function boardTextOf({ reads }: DialectExample): string {
  return reads.map(({ text }) => text).join("\n");
}

/** A part of a page: Markdown, or an example. */
export type PagePart = string | DialectExample;

/** A page of its own, called by a word of the language. */
export interface DialectPage {
  /** `dialect-codes` */
  readonly name: string;
  readonly title: string;
  readonly parts: readonly PagePart[];
}

/** The page as Markdown; its examples are fenced. */
export function pageText({ title, parts }: DialectPage): string {
  const text = parts.map((part) => (typeof part === "string" ? trimmed(part) : exampleText(part)));
  return [`# ${title}`, ...text].join("\n\n");
}

function exampleText({ dialect, reads, handset, script, writes }: DialectExample): string {
  return [
    fenced(dialect, "fettle"),
    ...(handset === null ? [] : ["With this handset", fenced(handset, "fettle")]),
    ...(reads.length === 0 ? [] : ["reads these lines of a board's text like this:", fenced(readsText(reads))]),
    ...(script === null ? [] : ["and the script that they become is", fenced(script, "fettle")]),
    ...(writes ? writesText(writes) : []),
  ].join("\n\n");
}

function fenced(text: string, language = ""): string {
  return `\`\`\`${language}\n${text}\n\`\`\``;
}

/** Beside each line of the board what it is, and below that its further meanings. */
function readsText(reads: readonly ExampleLine[]): string {
  const width = Math.max(...reads.map(({ text }) => text.length));
  return reads
    .flatMap(({ text, state, says, why }) => {
      const [first = why, ...more] = says;
      const colon = first === "" ? "" : ": ";
      return [
        `${text.padEnd(width)}  → ${state}${colon}${first}`,
        ...more.map((each) => `${" ".repeat(width)}    ${" ".repeat(state.length)}  ${each}`),
      ];
    })
    .join("\n");
}

function writesText({ craft, base, text, changes }: ExampleWrite): string[] {
  return [
    "writes this craft",
    fenced(craft, "fettle"),
    ...(base === null ? ["without a base as"] : ["onto the base", fenced(base), "as"]),
    fenced(text),
    ...(changes === null ? [] : ["and as changes only", fenced(changes)]),
  ];
}

/** All examples of some pages, each with the page and its number there. */
export function examplesOf(
  pages: readonly DialectPage[],
): { readonly title: string; readonly example: DialectExample }[] {
  return pages.flatMap(({ name, parts }) =>
    parts.filter((part) => typeof part !== "string").map((each, at) => ({ title: `${name} ${at + 1}`, example: each })),
  );
}
