/** Where completion is asked for in a dialect. */
import type { Dialect } from "../../dialect/dialect.ts";
import { dialectOf } from "../../dialect/dialects.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { CursorContext } from "../context/cursor-context.ts";
import type { FactLine } from "../dialect-files/fact-line.ts";
import type { DialectWord } from "../dialect-files/words.ts";
import type { Offer } from "./completion-item.ts";

/** What stands before the cursor, on a line of a dialect. */
export interface InDialect {
  readonly workspace: Workspace;
  readonly cursor: CursorContext;
  readonly section: string;
  /** The line up to the cursor. */
  readonly before: string;
  /** The whole line in pieces, and the part of it before the cursor. */
  readonly whole: FactLine | null;
  readonly fact: FactLine | null;
}

/** A word with what may follow it. */
export function wordOffer({ word, what, more, text }: DialectWord, group = 1): Offer {
  return {
    label: word,
    kind: "keyword",
    detail: what,
    text: text === "" ? word : `${word} ${text}`,
    snippet: text !== "",
    group,
    doc: { of: "text", text: more },
  };
}

/** The dialect of the file, as far as it can be read. */
export function dialectAt({ workspace, cursor }: InDialect): Dialect | null {
  return dialectOf(workspace, cursor.script.file);
}
