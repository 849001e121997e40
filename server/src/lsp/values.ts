/** What the editor asks of the values themselves: their parts while they are typed, their colours, what readings make of them. */
import type { Connection } from "vscode-languageserver";
import {
  type CodeAction,
  CodeActionKind,
  type Color,
  MarkupKind,
  type SignatureHelp,
} from "vscode-languageserver-types";
import { type ColourAt, coloursOf, spellingsOf } from "../../../shared/ide/editor/colours.ts";
import { type CalibrationAction, calibrationsAt } from "../../../shared/ide/edits/calibration.ts";
import { type SignatureHelp as Parts, signatureAt } from "../../../shared/ide/signature/signature.ts";
import type { Range } from "../../../shared/syntax/span.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { loadFor } from "./load.ts";

/** Answers signature help and both questions about colours. */
export function answerValues(connection: Connection, documents: Documents, guard: Guard): void {
  connection.onSignatureHelp(
    guard("signature help", null, async (params) => {
      const file = await loadFor(documents, params);
      const help = signatureAt(documents.now(), file, params.position);
      return help && toSignatureHelp(help);
    }),
  );
  connection.onDocumentColor(
    guard("colours", [], async ({ textDocument }) => {
      const file = await documents.load(textDocument.uri);
      return coloursOf(documents.now(), file).map(({ rgb, range }) => ({ color: toColor(rgb), range }));
    }),
  );
  connection.onColorPresentation(
    guard("ways to write a colour", [], ({ color, range }) =>
      spellingsOf(
        [color.red, color.green, color.blue].map((part) => Math.round(part * 255)) as [number, number, number],
      ).map((label) => ({ label, textEdit: { range, newText: label } })),
    ),
  );
}

/** Refactorings of a stretch of lines; none where the editor asks for another kind. */
export async function refactorings(
  documents: Documents,
  uri: string,
  range: Range,
  only: readonly string[] | undefined,
): Promise<CodeAction[]> {
  const wanted = only === undefined || only.some((kind) => isWithin(CodeActionKind.RefactorRewrite, kind));
  if (!wanted) return [];
  const here = await documents.load(uri);
  if (documents.isCraft(uri) && calibrationsAt(documents.now(), here, range).length === 0) return [];
  // Only with every craft read is it known whose line would change as well.
  const file = await documents.loadAll(uri);
  return calibrationsAt(documents.now(), file, range).map((each) => toRefactoring(each, documents.uriOf));
}

function isWithin(kind: string, wanted: string): boolean {
  return wanted === "" || kind === wanted || kind.startsWith(`${wanted}.`);
}

function toRefactoring({ title, files }: CalibrationAction, uriOf: (file: string) => string): CodeAction {
  const changes = Object.fromEntries(
    files.map(({ file, edits }) => [uriOf(file), edits.map(({ range, text }) => ({ range, newText: text }))]),
  );
  return { title, kind: CodeActionKind.RefactorRewrite, edit: { changes } };
}

function toSignatureHelp({ signatures, active, parameter }: Parts): SignatureHelp {
  const markup = (value: string) => ({ kind: MarkupKind.Markdown, value });
  return {
    signatures: signatures.map(({ label, markdown, parameters }) => ({
      label,
      ...(markdown !== "" && { documentation: markup(markdown) }),
      parameters: parameters.map((part) => ({ label: [part.start, part.end], documentation: markup(part.markdown) })),
    })),
    activeSignature: active,
    activeParameter: parameter,
  };
}

function toColor([red, green, blue]: ColourAt["rgb"]): Color {
  return { red: red / 255, green: green / 255, blue: blue / 255, alpha: 1 };
}
