/** Two craft compared, and some of what differs taken over. */
import type { Connection } from "vscode-languageserver";
import { type ComparedRow, comparedRows } from "../../../shared/ide/compare/rows.ts";
import { type ComparedCraft, comparedCraft } from "../../../shared/ide/compare/sides.ts";
import { adoptEdits } from "../../../shared/ide/edits/adopt.ts";
import type { Source } from "../../../shared/model/craft.ts";
import {
  COMPARE_REQUEST,
  type CompareParams,
  type CompareResult,
  type DifferenceRow,
  TAKE_REQUEST,
  type TakeParams,
  type TakeResult,
} from "../../../shared/protocol/compare.ts";
import type { Refused } from "../../../shared/protocol/file-edits.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { toFiles } from "./osd-edits.ts";
import { fileSide, type ReadOther, type ReadSide } from "./other-side.ts";

const FAILED: Refused = {
  kind: "refused",
  message: "The comparison could not be worked out, which is a fault of this tool; its log says more.",
};

/** Answers `fettle/compare` and `fettle/take`. */
export function answerCompare(connection: Connection, documents: Documents, guard: Guard, readOther: ReadOther): void {
  connection.onRequest<CompareResult, void>(
    COMPARE_REQUEST,
    guard<[CompareParams], CompareResult>("compare", FAILED, async (params) => {
      const sides = await sidesOf(params, documents, readOther);
      return sides.kind === "refused" ? sides : toResult(sides);
    }),
  );
  connection.onRequest<TakeResult, void>(
    TAKE_REQUEST,
    guard<[TakeParams], TakeResult>("take", FAILED, async ({ whats, ...params }) => {
      const sides = await sidesOf(params, documents, readOther);
      return sides.kind === "refused" ? sides : take(sides, whats, documents);
    }),
  );
}

/** Both sides of a comparison, read at one moment. */
interface Sides extends ComparedCraft {
  readonly kind: "sides";
  readonly mine: ReadSide;
  readonly theirs: ReadSide;
}

/** The document by itself, or the craft that is meant, and the other side. */
export async function sidesOf(
  { uri, craft, other }: CompareParams,
  documents: Documents,
  readOther: ReadOther,
): Promise<Sides | Refused> {
  const read = await readOther(other);
  if (read.kind === "refused") return read;
  const file = await documents.loadAll(craft ?? uri);
  // A document may have changed while another was waited for: both are of one moment.
  const [mine, theirs] = [fileSide(documents, file), other.kind === "file" ? fileSide(documents, read.file) : read];
  if (mine.kind === "refused") return mine;
  if (theirs.kind === "refused") return theirs;
  const compared = comparedCraft(mine, theirs);
  return compared ? { kind: "sides", mine, theirs, ...compared } : FAILED;
}

/** What makes these the same as on the other side, written into the document itself. */
function take({ mine, before, after }: Sides, whats: readonly string[], documents: Documents): TakeResult {
  const adopted = adoptEdits(mine.workspace, before, after, whats, mine.file);
  if (adopted.kind === "refused") return adopted;
  return { kind: "edits", files: toFiles(adopted.files, documents), left: adopted.left };
}

function toResult({ mine, theirs, before, after, notes }: Sides): CompareResult {
  const rows = comparedRows(before, after, mine.workspace.catalogue).map((row) => {
    // Only what hangs on the handset's own file cannot be written into a craft as any other line.
    if (row.kind !== "handset" || row.notTaken !== null) return row;
    const adopted = adoptEdits(mine.workspace, before, after, [row.what], mine.file);
    return adopted.kind === "refused" ? { ...row, notTaken: adopted.message } : row;
  });
  return {
    kind: "differences",
    mine: { name: mine.title, uri: mine.uri },
    theirs: { name: theirs.title, uri: theirs.uri },
    rows: rows.map((row) => toRow(row, theirs.uriOf)),
    notes,
  };
}

/** A handset that stands in lies on the other side: of either side's lines the addresses are made alike. */
function toRow(row: ComparedRow, uriOf: ReadSide["uriOf"]): DifferenceRow {
  const placed = (at: Source | null) => at && { file: uriOf(at.file), line: at.line };
  return { ...row, mineAt: placed(row.mineAt), theirsAt: placed(row.theirsAt) };
}
