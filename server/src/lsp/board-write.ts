/** A craft as text for its board. */
import type { Connection } from "vscode-languageserver";
import { boardFileOf, dialectOf } from "../../../shared/dialect/dialects.ts";
import { writeBoard } from "../../../shared/dialect/write/write-board.ts";
import { lineCount, remarksOn } from "../../../shared/ide/board/remarks.ts";
import { pickedCraft } from "../../../shared/ide/context/picked-craft.ts";
import {
  BOARD_OF_REQUEST,
  BOARD_WRITE_REQUEST,
  type BoardOfParams,
  type BoardOfResult,
  type BoardWriteParams,
  type BoardWriteResult,
} from "../../../shared/protocol/board.ts";
import type { Refused } from "../../../shared/protocol/file-edits.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";

const FAILED: Refused = {
  kind: "refused",
  message: "The board's text could not be worked out, which is a fault of this tool; its log says more.",
};
const NO_CRAFT: Refused = {
  kind: "refused",
  message: "No craft uses this file, and a craft is what is written for a board: open one first.",
};

/** Answers `fettle/boardOf` and `fettle/boardWrite`. */
export function answerBoardWrite(connection: Connection, documents: Documents, guard: Guard): void {
  connection.onRequest<BoardOfResult, void>(
    BOARD_OF_REQUEST,
    guard<[BoardOfParams], BoardOfResult>("board of a craft", FAILED, async (params) => {
      await documents.loadAll(params.uri);
      return boardOf(params, documents);
    }),
  );
  connection.onRequest<BoardWriteResult, void>(
    BOARD_WRITE_REQUEST,
    guard<[BoardWriteParams], BoardWriteResult>("write for a board", FAILED, async (params) => {
      await documents.loadAll(params.craft);
      return written(params, documents);
    }),
  );
}

function boardOf({ uri, craft: of }: BoardOfParams, documents: Documents): BoardOfResult {
  const workspace = documents.now();
  const file = documents.pathOf(uri);
  const craft = pickedCraft(workspace, file, of && documents.pathOf(of));
  if (!craft) return NO_CRAFT;
  const dialectFile = boardFileOf(craft, "dialect");
  const how = `write its file in the section “board”, as in: dialect "kiln.fettle"`;
  if (dialectFile === null)
    return { kind: "refused", message: `“${craft.name}” names no dialect of its board: ${how}.` };
  const dialect = dialectOf(workspace, dialectFile);
  if (!dialect) return { kind: "refused", message: `The dialect that “${craft.name}” names cannot be read: ${how}.` };
  const base = boardFileOf(craft, "text");
  return {
    kind: "board",
    craft: { uri: documents.uriOf(craft.file), name: craft.name },
    dialect: { uri: documents.uriOf(dialect.file), name: dialect.name },
    base: base === null ? null : documents.uriOf(base),
  };
}

function written({ craft: of, dialect: by, base }: BoardWriteParams, documents: Documents): BoardWriteResult {
  const workspace = documents.now();
  const craft = workspace.craft(documents.pathOf(of));
  const dialect = dialectOf(workspace, documents.pathOf(by));
  if (!craft || !dialect) return NO_CRAFT;
  const made = writeBoard(dialect, craft, workspace, base);
  return {
    kind: "written",
    text: made.text,
    changes: made.changes,
    changedLines: lineCount(made.changes),
    remarks: remarksOn(made, craft, workspace.catalogue).map(({ at, ...remark }) => ({
      ...remark,
      at: at && { file: documents.uriOf(at.file), line: at.line },
    })),
  };
}
