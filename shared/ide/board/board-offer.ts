/** A board's text as an offer for a craft: what a dialect understands of it, and the lines that it does not. */
import type { Dialect } from "../../dialect/dialect.ts";
import { readBoard } from "../../dialect/read/read-board.ts";
import type { ReadLine } from "../../dialect/read/reading.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { splitLines } from "../../syntax/split-lines.ts";
import { specsOf } from "../edits/mapping-rows.ts";
import { type Offered, scriptOfOffer, type Unknown } from "../review/offer.ts";

/** Its channels are those of the craft's own handset: it is the same pilot's board. */
export function offerOfBoard(
  workspace: Workspace,
  dialect: Dialect,
  text: string,
  name: string,
  craft: Craft,
): Offered {
  const reading = readBoard(dialect, text, { workspace, handset: craft.handset, craft });
  const lines = splitLines(text.replace(/^\uFEFF/, "")).lines;
  const isRead = reading.lines.some(({ says }) => says.length > 0);
  if (!isRead)
    return {
      kind: "no-script",
      looksLike: `“${dialect.name}” reads no line of this text: name some of its lines first, or choose another dialect.`,
    };
  const script = scriptOfOffer(workspace, withoutKept(reading.script));
  return {
    kind: "offer",
    offer: {
      name,
      lines,
      script,
      linesOf: reading.linesOf,
      unknown: unknownIn(lines, reading.lines),
      controls: new Map(specsOf(craft).map((each) => [each.name, each])),
      handset: craft.handset?.name ?? null,
      notes: reading.notes,
    },
  };
}

/** What is kept is offered line by line, and not as a part of the script; it stands last. */
function withoutKept(script: string): string {
  const lines = script.split("\n");
  const from = lines.findIndex((line) => /^verbatim(?: |$)/.test(line));
  return from < 0 ? script : `${lines.slice(0, from).join("\n")}\n`;
}

const NOT_READ = "No line of the dialect reads it: it can be kept as text of this board.";

/** Neighbours that are kept stand together; what is odd stands by itself, with its reason. */
function unknownIn(texts: readonly string[], lines: readonly ReadLine[]): readonly Unknown[] {
  const found: (Unknown & { lines: number[]; texts: string[] })[] = [];
  let open: (typeof found)[number] | null = null;
  for (const { line, state, why } of lines) {
    const text = texts[line] ?? "";
    if (state === "kept" && open) {
      open.lines.push(line);
      open.texts.push(text);
    } else if (state === "kept" || state === "odd") {
      const made = {
        lines: [line],
        texts: [text],
        reason: state === "odd" ? (why ?? NOT_READ) : NOT_READ,
        notKept: null,
      };
      found.push(made);
      open = state === "kept" ? made : null;
    } else if (text.trim() !== "") open = null;
  }
  return found;
}
