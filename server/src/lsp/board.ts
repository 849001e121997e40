/** A board's text in the editor: its states, lines in words, lines that are named, and craft as text for their board. */
import type { Connection } from "vscode-languageserver";
import type { Dialect } from "../../../shared/dialect/dialect.ts";
import { dialectsIn } from "../../../shared/dialect/dialects.ts";
import { movedLines } from "../../../shared/dialect/learn/moved-lines.ts";
import { boardScript, nameFor } from "../../../shared/ide/board/board-script.ts";
import { leadsTo, lineWords } from "../../../shared/ide/board/line-words.ts";
import { nameLineSteps } from "../../../shared/ide/board/name-line.ts";
import { boardNames } from "../../../shared/ide/board/names.ts";
import { type BoardStates, boardStateSteps, craftOfText, dialectFor } from "../../../shared/ide/board/states.ts";
import type { Source } from "../../../shared/model/craft.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import type { Uri } from "../../../shared/protocol/addresses.ts";
import {
  BOARD_DIALECTS_REQUEST,
  BOARD_LINE_REQUEST,
  BOARD_MOVED_REQUEST,
  BOARD_NAMES_REQUEST,
  BOARD_READ_REQUEST,
  BOARD_TEXT_REQUEST,
  type BoardDialectsResult,
  type BoardLineParams,
  type BoardLineResult,
  type BoardMovedParams,
  type BoardMovedResult,
  type BoardNamesParams,
  type BoardNamesResult,
  type BoardReadParams,
  type BoardReadResult,
  type BoardText,
  type BoardTextResult,
  NAME_LINE_REQUEST,
  type NamedDialect,
  type NamedLine,
  type NameLineParams,
  type NameLineResult,
} from "../../../shared/protocol/board.ts";
import type { Refused } from "../../../shared/protocol/file-edits.ts";
import { splitLines } from "../../../shared/syntax/split-lines.ts";
import type { Steps } from "../../../shared/text/steps.ts";
import type { Documents } from "./documents.ts";
import type { Guard, Request } from "./guard.ts";
import type { Links } from "./pages.ts";
import { inSlicesOver } from "./slices.ts";

const FAILED: Refused = {
  kind: "refused",
  message: "This could not be worked out, which is a fault of this tool; its log says more. Nothing was written.",
};

const NO_DIALECT: Refused = {
  kind: "refused",
  message: "No dialect reads this text yet: choose one for it, or name one of its lines first.",
};

const NO_LINE: BoardLineResult = { markdown: "", leadsTo: [] };

interface Parts {
  readonly connection: Connection;
  readonly documents: Documents;
  readonly guard: Guard;
  readonly links: () => Links;
}

/** Answers what the editor asks of a board's text. */
export function answerBoard({ connection, documents, guard, links }: Parts): void {
  connection.onRequest<BoardTextResult, void>(
    BOARD_TEXT_REQUEST,
    guard<Request<BoardText>, BoardTextResult>(
      "board text",
      { kind: "none" },
      async ({ uri, text, dialect }, token) => {
        const file = await fileOf(uri, documents);
        const chosen = dialect && documents.pathOf(dialect);
        const states = await inSlicesOver(documents, (now) => boardStateSteps(now, file, text, chosen), token);
        return toStates(states, documents);
      },
    ),
  );
  connection.onRequest<BoardDialectsResult, void>(
    BOARD_DIALECTS_REQUEST,
    guard<[], BoardDialectsResult>("dialects", { dialects: [] }, async () => {
      await loadScripts(documents);
      return { dialects: dialectsIn(documents.now()).map((each) => named(each, documents)) };
    }),
  );
  connection.onRequest<BoardLineResult, void>(
    BOARD_LINE_REQUEST,
    guard<Request<BoardLineParams>, BoardLineResult>("board line", NO_LINE, async (params, token) => {
      const file = await fileOf(params.uri, documents);
      return inSlicesOver(documents, (now) => lineOf(now, params, file, documents, links()), token);
    }),
  );
  connection.onRequest<BoardNamesResult, void>(
    BOARD_NAMES_REQUEST,
    guard<[BoardNamesParams], BoardNamesResult>("board names", { names: [], craft: null }, async (params) => {
      const file = await fileOf(params.uri, documents);
      const workspace = documents.now();
      const [said] = craftOfText(workspace, file);
      const craft = (params.craft && workspace.craft(documents.pathOf(params.craft))) || said || null;
      return { names: boardNames(workspace, params.typed, craft), craft: craft?.name ?? null };
    }),
  );
  connection.onRequest<NameLineResult, void>(
    NAME_LINE_REQUEST,
    guard<Request<NameLineParams>, NameLineResult>("name a line", FAILED, async (params, token) => {
      const file = await fileOf(params.uri, documents);
      return inSlicesOver(documents, (now) => namedLines(now, params, file, documents), token);
    }),
  );
  connection.onRequest<BoardReadResult, void>(
    BOARD_READ_REQUEST,
    guard<Request<BoardReadParams>, BoardReadResult>("read a board's text", FAILED, async (params, token) => {
      const file = await fileOf(params.uri, documents);
      return inSlicesOver(documents, (now) => scriptOf(now, params, file, documents), token);
    }),
  );
  connection.onRequest<BoardMovedResult, void>(
    BOARD_MOVED_REQUEST,
    guard<[BoardMovedParams], BoardMovedResult>("moved lines", { moved: [] }, ({ before, after }) => ({
      moved: movedLines(before, after),
    })),
  );
}

/** Where a text lies, with every script read. It is no script itself, however it is spelled: nobody looks for its “use” lines. */
async function fileOf(uri: Uri, documents: Documents): Promise<FilePath> {
  await loadScripts(documents);
  return documents.placeOf(uri);
}

async function loadScripts(documents: Documents): Promise<void> {
  const files = await documents.listed();
  await Promise.all(files.filter((file) => !documents.isRead(file)).map((file) => documents.read(file)));
}

function named({ file, name }: Dialect, documents: Documents): NamedDialect {
  return { uri: documents.uriOf(file), name };
}

function toStates(states: BoardStates, documents: Documents): BoardTextResult {
  switch (states.kind) {
    case "none":
      return states;
    case "several":
      return { kind: "several", dialects: states.dialects.map((each) => named(each, documents)) };
    case "read": {
      const craft = states.craft.map(({ file, name }) => ({ uri: documents.uriOf(file), name }));
      const lines = states.lines.map(({ line, state, by, says, why }) => ({ line, state, by, says, why }));
      return { kind: "read", dialect: named(states.dialect, documents), lines, counts: states.counts, craft };
    }
  }
}

function* lineOf(
  workspace: Workspace,
  params: BoardLineParams,
  file: FilePath,
  documents: Documents,
  links: Links,
): Steps<BoardLineResult> {
  const chosen = params.dialect && documents.pathOf(params.dialect);
  const states = yield* boardStateSteps(workspace, file, params.text, chosen);
  const line = states.kind === "read" ? states.lines[params.line] : undefined;
  if (states.kind !== "read" || !line) return NO_LINE;
  const targets = {
    line: (at: Source) => links.lineOf(documents.uriOf(at.file), at.line),
    page: (kind: "setting" | "mode" | "element" | "section", name: string) => links.pageOf({ kind, name }),
  };
  const dialect = states.dialect.file;
  const text = splitLines(params.text).lines[params.line]!;
  return {
    markdown: lineWords(workspace, dialect, line, text, targets),
    leadsTo: leadsTo(workspace, dialect, line, states.craft).map((at) => ({
      file: documents.uriOf(at.file),
      line: at.line,
    })),
  };
}

function* namedLines(
  workspace: Workspace,
  params: NameLineParams,
  file: FilePath,
  documents: Documents,
): Steps<NameLineResult> {
  const chosen = params.dialect && documents.pathOf(params.dialect);
  const found = dialectFor(workspace, params.text, chosen, craftOfText(workspace, file));
  if (found.kind === "several")
    return { kind: "refused", message: "Several dialects know this text: choose the one that is meant first." };
  const beside = found.kind === "one" ? found.dialect.file : freeBeside(file, "-dialect", workspace.view.list());
  const dialectName = nameFor(file);
  const offered = yield* nameLineSteps(workspace, { ...params, file: beside, dialectName });
  if (offered.kind === "refused") return offered;
  const uri = documents.uriOf(beside);
  return {
    kind: "lines",
    dialect: { uri, name: found.kind === "one" ? found.dialect.name : dialectName },
    isNew: found.kind === "none",
    offers: offered.offers.map(
      ({ fact, how, reads, lines, edits, text }): NamedLine => ({
        fact,
        how,
        reads,
        lines,
        adopt: edits
          ? { kind: "edits", files: [{ file: uri, version: documents.version(uri), edits }] }
          : { kind: "edits", files: [], creates: [{ file: uri, text }] },
      }),
    ),
  };
}

/** A file beside a text that no script has. */
function freeBeside(file: FilePath, end: string, taken: readonly FilePath[]): FilePath {
  const stem = file.replace(/\.[^./]*$/, "");
  for (let number = 1; ; number++) {
    const path = `${stem}${end}${number === 1 ? "" : `-${number}`}.fettle`;
    if (!taken.includes(path)) return path;
  }
}

function* scriptOf(
  workspace: Workspace,
  params: BoardReadParams,
  file: FilePath,
  documents: Documents,
): Steps<BoardReadResult> {
  const chosen = params.dialect && documents.pathOf(params.dialect);
  const found = dialectFor(workspace, params.text, chosen, craftOfText(workspace, file));
  if (found.kind !== "one") return NO_DIALECT;
  const handset = params.handset && workspace.script(documents.pathOf(params.handset));
  const place = { file: freeBeside(file, "", workspace.view.list()), textFile: file };
  const script = yield* boardScript(workspace, found.dialect, params.text, handset || null, place);
  return { kind: "script", proposed: documents.uriOf(place.file), ...script };
}
