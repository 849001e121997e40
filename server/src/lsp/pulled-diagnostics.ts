/** Findings as a client asks for them: of one document, and of the whole workspace. */
import type { Connection, DiagnosticServerCancellationData, DocumentDiagnosticReport } from "vscode-languageserver";
import type { Uri } from "../../../shared/protocol/addresses.ts";
import type { ClosedFindings } from "./closed-findings.ts";
import { diagnosticsOf, idOf } from "./diagnostics.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import { CODES, Refused } from "./refused.ts";
import type { Settings } from "./settings.ts";
import type { PageOfRule } from "./to-lsp.ts";

interface Parts {
  readonly connection: Connection;
  readonly documents: Documents;
  readonly guard: Guard;
  readonly pageOfRule: PageOfRule;
  readonly closed: ClosedFindings;
  readonly settings: () => Settings;
}

const NOTHING: DocumentDiagnosticReport = { kind: "full", items: [] };
const ASK_AGAIN: DiagnosticServerCancellationData = { retriggerRequest: true };

/** Answers both requests for findings. */
export function answerDiagnostics({ connection, documents, guard, pageOfRule, closed, settings }: Parts): void {
  /** An editor that closes a script asks for its findings once more, and shows them from then on. */
  const isShownClosed = async (uri: Uri) =>
    settings().findsInClosed && (await documents.listed()).includes(documents.pathOf(uri));
  const { diagnostics } = connection.languages;
  diagnostics.on(
    guard("diagnostics", NOTHING, async ({ textDocument: { uri }, previousResultId }, token) => {
      const isShown = documents.version(uri) !== null || (await isShownClosed(uri));
      if (!isShown) return NOTHING;
      const { diagnostics: items } = await diagnosticsOf(documents, uri, pageOfRule, token).catch(askedAgain);
      const resultId = idOf(items);
      return resultId === previousResultId ? { kind: "unchanged", resultId } : { kind: "full", resultId, items };
    }),
  );
  const pullAll = guard<Parameters<ClosedFindings["pull"]>, Awaited<ReturnType<ClosedFindings["pull"]>>>(
    "workspace diagnostics",
    { items: [] },
    (params, token, partial) => closed.pull(params, token, partial),
  );
  // A client that is told for as long as its request stays open would show its progress for as long.
  diagnostics.onWorkspace((params, token, _, partial) => pullAll(params, token, partial));
}

/** Where the texts change faster than they are judged, the protocol has the client ask again. */
function askedAgain(error: unknown): never {
  if (error instanceof Refused && error.code === CODES.contentModified)
    throw new Refused(error.message, CODES.serverCancelled, ASK_AGAIN);
  throw error;
}
