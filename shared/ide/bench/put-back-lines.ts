/** What is written to a wiped board: its lines by stage, and what no line says. */
import type { Dialect } from "../../dialect/dialect.ts";
import { partsOf, type TextPart } from "../../dialect/write/parts.ts";
import { writeBoard } from "../../dialect/write/write-board.ts";
import type { Written } from "../../dialect/write/written.ts";
import type { BenchView } from "./bench-view.ts";
import { STAGES, stageOf } from "./put-back-stages.ts";
import type { Said } from "./put-back-values.ts";

export interface BoardLines {
  readonly dialect: Dialect;
  readonly written: Written;
  /** The saved text is what is written onto: it is of this dialect. */
  readonly ontoBase: boolean;
  /** Null where the board would come to something else by its parts: the text is to be sent whole. */
  readonly parts: readonly TextPart[] | null;
}

/** The board's lines for a craft. `base`: the text that was saved before the wipe; null where none is known. */
export function boardLinesOf(view: BenchView, dialect: Dialect, base: string | null): BoardLines {
  const { whole, workspace } = view;
  const { knownBy } = dialect.text;
  const ontoBase = base !== null && knownBy.some((each) => base.includes(each));
  const written = writeBoard(dialect, whole, workspace, ontoBase ? base : null);
  const order = STAGES.map(({ name }) => name);
  const parts = partsOf(dialect, written.text, { craft: whole, workspace }, { order, partOf: stageOf });
  return { dialect, written, ontoBase, parts };
}

/** Whether a line of the board says it; some are said by a figure that is made of them. */
export function isSpoken(board: BoardLines, said: Pick<Said, "what" | "section">): boolean {
  const { unsaid, cannot } = board.written;
  return !unsaid.includes(said.what) && !cannot.some(({ what }) => what === said.what) && !isExcused(board, said);
}

/** Whether the dialect says that the board has nothing for it, and no line says it all the same. */
export function isExcused({ dialect, parts }: BoardLines, { what, section }: Pick<Said, "what" | "section">): boolean {
  if (parts?.some(({ says }) => says.has(what))) return false;
  const name = what.slice(section.length + 1);
  const spec = section.replace(/\/.*/, "");
  return dialect.cannot.some((each) => each.section === spec && (each.names === null || each.names.includes(name)));
}
