/** Code actions: repairs of findings, their positions on the panel, and refactorings. */
import type { Connection } from "vscode-languageserver";
import { type CodeAction, CodeActionKind, type Command } from "vscode-languageserver-types";
import { benchFindingsAt, fixesAt, witnessedFindingsAt } from "../../../shared/ide/editor/fixes.ts";
import { acceptancesAt, mayAcceptAt } from "../../../shared/ide/edits/acceptances.ts";
import { calibrationsAt } from "../../../shared/ide/edits/calibration.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import type { Uri } from "../../../shared/protocol/addresses.ts";
import type { Range } from "../../../shared/syntax/span.ts";
import type { Steps } from "../../../shared/text/steps.ts";
import { visibleLine } from "../../../shared/text/visible-text.ts";
import { type AcceptForm, toAcceptActions } from "./accept-actions.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { ORGANIZE, organizeActions } from "./layout.ts";
import { KINDS, type OriginForm, originActions } from "./origin-actions.ts";
import { inSlicesOver } from "./slices.ts";
import { fixAllActions, SOURCE_KINDS } from "./source-actions.ts";
import { type PageOfRule, toBenchAction, toDiagnostic, toShowAction } from "./to-lsp.ts";
import { type EditForm, toWorkspaceEdit } from "./workspace-edits.ts";

interface Parts {
  readonly connection: Connection;
  readonly documents: Documents;
  readonly guard: Guard;
  readonly editForm: () => EditForm;
  readonly pageOfRule: PageOfRule;
  /** The client's command that shows positions on its panel; null where it has none. */
  readonly positionsCommand: () => string | null;
  /** The client's command that shows the bench list; null where it has none. */
  readonly benchCommand: () => string | null;
  /** What the client can do when a finding is accepted. */
  readonly acceptForm: () => AcceptForm;
  /** And when lines go from one file to another. */
  readonly originForm: () => OriginForm;
  /** Takes actions that bring edits; else it takes commands alone. */
  readonly takesActions: () => boolean;
}

/** What actions are asked for: of a stretch of a document, once its files are loaded. */
interface Asked {
  readonly uri: Uri;
  readonly file: FilePath;
  readonly range: Range;
}

/** Answers with the actions of the kinds that are asked for; of all kinds where none is named. */
export function answerActions(parts: Parts): void {
  const { connection, documents, guard } = parts;
  connection.onCodeAction(
    guard("code actions", null, async ({ textDocument: { uri }, range, context: { only, triggerKind } }, token) => {
      const isWanted = (kind: string) => isAsked(kind, only);
      // Asked at every move of the cursor, almost any line could go somewhere: that is no news worth a light.
      const isGlance = triggerKind === AUTOMATIC && isEmpty(range);
      const moves = !isGlance && Object.values(KINDS).some(isWanted);
      const refactors = isAsked(CodeActionKind.RefactorRewrite, only) && (await mayCalibrate(documents, uri, range));
      const accepts = isAsked(CodeActionKind.QuickFix, only) && (await mayAccept(documents, uri, range));
      // Only with every craft read is it known whose line a refactoring would change as well, or whom a layer speaks for.
      const file = await (refactors ||
      accepts ||
      (moves && (!documents.isCraft(uri) || parts.originForm().command === null))
        ? documents.loadAll(uri)
        : documents.loadForFindings(uri));
      const asked = { uri, file, range };
      const repairs = isAsked(CodeActionKind.QuickFix, only);
      const organizes = only !== undefined && isWanted(ORGANIZE);
      const fixesAll = isWanted(SOURCE_KINDS.fixAll) && (only !== undefined || !isGlance);
      const wanted = { repairs, refactors, moves, organizes, fixesAll, isWanted };
      const actions = await inSlicesOver(documents, () => actionsAt(asked, parts, wanted), token);
      return parts.takesActions() ? actions : commandsAmong(actions);
    }),
  );
}

/** Those actions that are nothing but a command of the client's own. */
function commandsAmong(actions: readonly CodeAction[]): Command[] {
  return actions.flatMap(({ edit, command }) => (edit || !command ? [] : [command]));
}

/** Which of them are asked for. */
interface Wanted {
  readonly repairs: boolean;
  readonly refactors: boolean;
  readonly moves: boolean;
  /** Asked for by name alone, and never among all actions: it would stand at every line. */
  readonly organizes: boolean;
  readonly fixesAll: boolean;
  readonly isWanted: (kind: string) => boolean;
}

function* actionsAt(asked: Asked, parts: Parts, wanted: Wanted): Steps<CodeAction[]> {
  const { repairs, refactors, moves, organizes, fixesAll, isWanted } = wanted;
  const actions: CodeAction[] = [];
  if (repairs) {
    actions.push(...fixes(asked, parts), ...shows(asked, parts), ...onBench(asked, parts));
    yield;
    actions.push(...acceptances(asked, parts));
    yield;
  }
  if (fixesAll) actions.push(...(yield* fixAllActions(asked.file, parts.documents, parts.editForm())));
  if (refactors) actions.push(...calibrations(asked, parts));
  if (moves) actions.push(...(yield* originActions(asked, parts.documents, parts.originForm(), isWanted)));
  if (organizes) actions.push(...organizeActions(asked.file, parts.documents, parts.editForm()));
  return actions;
}

/** The protocol's `CodeActionTriggerKind.Automatic`. */
const AUTOMATIC = 2;

function isEmpty({ start, end }: Range): boolean {
  return start.line === end.line && start.character === end.character;
}

/** True for a kind that is asked for by its own name, or by that of a kind above it. */
export function isAsked(kind: string, only: readonly string[] | undefined): boolean {
  return only === undefined || only.some((asked) => asked === "" || kind === asked || kind.startsWith(`${asked}.`));
}

function fixes({ file, range }: Asked, { documents, editForm, pageOfRule }: Parts): CodeAction[] {
  return fixesAt(documents.now(), file, range).map((fix) => ({
    title: visibleLine(fix.title),
    kind: CodeActionKind.QuickFix,
    diagnostics: [toDiagnostic(fix.finding, documents.uriOf, pageOfRule)],
    isPreferred: fix.only,
    edit: toWorkspaceEdit(fix.edits, documents, editForm()),
  }));
}

function acceptances({ file, range }: Asked, { documents, pageOfRule, acceptForm }: Parts): CodeAction[] {
  const notes = acceptancesAt(documents.now(), file, range);
  return toAcceptActions(notes, documents, acceptForm(), (finding) =>
    toDiagnostic(finding, documents.uriOf, pageOfRule),
  );
}

/** False where no note could accept anything here. */
async function mayAccept(documents: Documents, uri: Uri, range: Range): Promise<boolean> {
  const file = await documents.loadForFindings(uri);
  return mayAcceptAt(documents.now(), file, range);
}

function shows({ uri, file, range }: Asked, { documents, pageOfRule, positionsCommand }: Parts): CodeAction[] {
  const command = positionsCommand();
  if (command === null) return [];
  return witnessedFindingsAt(documents.now(), file, range).map((finding) =>
    toShowAction(finding, uri, command, toDiagnostic(finding, documents.uriOf, pageOfRule)),
  );
}

/** The checks that are to be made again, on the bench list. */
function onBench({ uri, file, range }: Asked, { documents, pageOfRule, benchCommand }: Parts): CodeAction[] {
  const command = benchCommand();
  if (command === null) return [];
  return benchFindingsAt(documents.now(), file, range).map((finding) =>
    toBenchAction(uri, command, toDiagnostic(finding, documents.uriOf, pageOfRule)),
  );
}

/** False where it is known without the other craft that there is none. */
async function mayCalibrate(documents: Documents, uri: Uri, range: Range): Promise<boolean> {
  const file = await documents.load(uri);
  return !documents.isCraft(uri) || calibrationsAt(documents.now(), file, range).length > 0;
}

function calibrations({ file, range }: Asked, { documents, editForm }: Parts): CodeAction[] {
  return calibrationsAt(documents.now(), file, range).map(({ title, files }) => ({
    title: visibleLine(title),
    kind: CodeActionKind.RefactorRewrite,
    edit: toWorkspaceEdit(
      files.flatMap((each) => each.edits.map((edit) => ({ file: each.file, ...edit }))),
      documents,
      editForm(),
    ),
  }));
}
