/**
 * A board's text taken apart by what its lines speak of, so that it can be sent a part at a time. Each part is a text of
 * its own in the form in which changed lines are sent: opened, its lines in their order below their headings, closed.
 */
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { boardLines } from "../board-lines.ts";
import type { Dialect } from "../dialect.ts";
import { type EntryReader, entryReader } from "../read/entries.ts";
import { joinEntries, type Surroundings } from "../read/join-entries.ts";
import { type LineReader, lineReader } from "../read/line-reader.ts";
import { surroundingsOf } from "../read/read-board.ts";
import { nameOf, type PlacedLine, type Sayings, saidOf, sayingsOf } from "../read/sayings.ts";

/** The part of lines that nobody reads. */
export const UNREAD = "unread";

export interface TextPart {
  /** The name of the part, or `UNREAD`. */
  readonly part: string;
  /** All that is to be sent: what opens and closes a text and the headings stand in each part. */
  readonly lines: readonly string[];
  /** How many of them are in this part alone. */
  readonly own: number;
  /** What they say, as `SECTION NAME`. */
  readonly says: ReadonlySet<string>;
}

/** `order`: the parts in which they are sent, those that nobody reads last; `partOf` gives one of them for a section. */
export interface Parting {
  readonly order: readonly string[];
  readonly partOf: (section: string) => string;
}

/**
 * The parts in order, without empty ones; every line but blank ones, comments and headings is in exactly one. Null where
 * the board would come to something else by them than by the text as a whole, which then is to be sent whole.
 */
export function partsOf(
  dialect: Dialect,
  text: string,
  { craft, workspace }: { readonly craft: Craft; readonly workspace: Workspace },
  { order, partOf }: Parting,
): readonly TextPart[] | null {
  const entries = entryReader(workspace.catalogue);
  const reader = lineReader(dialect, entries);
  const around = surroundingsOf({ workspace, handset: null, craft });
  const whole = sayingsOf(boardLines(text), reader, entries);
  const indexOf = (line: PlacedLine) => {
    if (line.parse.kind !== "fits") return order.length;
    // Of a line that says several things the first that is needed counts.
    return Math.min(...line.parse.left.meanings.map(({ section }) => order.indexOf(partOf(section))));
  };
  const byPart = new Map<number, PlacedLine[]>();
  for (const line of whole.placed) {
    const { kind } = line.parse;
    if (kind === "idle" || kind === "heading") continue;
    const index = indexOf(line);
    byPart.set(index, [...(byPart.get(index) ?? []), line]);
  }
  const parts = [...byPart]
    .sort(([a], [b]) => a - b)
    .map(
      ([index, lines]): TextPart => ({
        part: order[index] ?? UNREAD,
        lines: textOfPart(dialect, lines, whole.placed),
        own: lines.length,
        says: saidBy(lines, whole),
      }),
    );
  const sent = parts.flatMap(({ lines }) => lines);
  return meaningOf(sent, reader, entries, around) === meaningOf(boardLines(text), reader, entries, around)
    ? parts
    : null;
}

function textOfPart(dialect: Dialect, lines: readonly PlacedLine[], all: readonly PlacedLine[]): string[] {
  const { opening, closing } = dialect.text;
  const made: string[] = [];
  let heading = -1;
  for (const { text, headingLine } of lines) {
    // Each part begins above all headings, as every text does.
    if (headingLine !== heading && headingLine >= 0) made.push(all[headingLine]!.text);
    heading = headingLine;
    made.push(text);
  }
  return [...opening, ...made, ...closing];
}

function saidBy(lines: readonly PlacedLine[], { takings }: Sayings): ReadonlySet<string> {
  return new Set(
    lines.flatMap(({ line }) =>
      (takings.get(line)?.sayings ?? []).flatMap((saying) => {
        const said = saidOf(saying);
        return said && said.body.kind !== "unset" ? [nameOf(said)] : [];
      }),
    ),
  );
}

/** What a board comes to by these lines, as a text that is equal where they mean the same. */
function meaningOf(lines: readonly string[], reader: LineReader, entries: EntryReader, around: Surroundings): string {
  const said = new Map<string, string[]>();
  for (const { section, name, rest } of joinEntries(sayingsOf(lines, reader, entries).all, entries, around).entries) {
    const key = `${section} ${name}`;
    said.set(key, [...(said.get(key) ?? []), rest]);
  }
  return [...said]
    .map(([key, rests]) => `${key}\n${rests.join("\n")}`)
    .sort()
    .join("\n\n");
}
