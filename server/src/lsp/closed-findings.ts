/** The findings of scripts that are not open, told to a client that pulls them for the workspace, or pushed to any other. */
import type {
  CancellationToken,
  Connection,
  ResultProgressReporter,
  WorkspaceDiagnosticParams,
  WorkspaceDiagnosticReport,
  WorkspaceDiagnosticReportPartialResult,
  WorkspaceDocumentDiagnosticReport,
} from "vscode-languageserver";
import type { FilePath } from "../../../shared/model/files.ts";
import { asUri, type Uri } from "../../../shared/protocol/addresses.ts";
import type { ClosedScripts, Judged, Listener } from "./closed-scripts.ts";
import type { Documents } from "./documents.ts";
import { pathOf } from "./paths.ts";
import { shownProgress } from "./progress.ts";

interface Parts {
  readonly connection: Connection;
  readonly documents: Documents;
  readonly scripts: ClosedScripts;
}

type PartialResult = ResultProgressReporter<WorkspaceDiagnosticReportPartialResult> | undefined;

export interface ClosedFindings {
  /**
   * A client asks for all. Where it takes partial results, it is told whenever something changes, until it cancels
   * or asks again; else it has its answer after one round.
   */
  pull(
    params: WorkspaceDiagnosticParams,
    token: CancellationToken | undefined,
    partial: PartialResult,
  ): Promise<WorkspaceDiagnosticReport>;
  /** From now on what changes is pushed. */
  push(): void;
  /** A client that opens a script drops what it was told of it. */
  opened(uri: Uri): void;
}

/** Reports are gathered for so long: a client takes time for each message. */
const GATHER_MS = 100;

/** Nobody has asked yet. */
export function tellClosedFindings({ connection, documents, scripts }: Parts): ClosedFindings {
  const progress = shownProgress(connection, "Fettle checks all scripts");
  let endLast = () => {};

  return {
    pull({ previousResultIds }, token, partial) {
      const told = new Map(
        previousResultIds.map(({ uri, value: id }) => [pathOf(asUri(uri)), { uri: asUri(uri), id }]),
      );
      /** What the client has of an earlier time, and this round has not come to. */
      const left = new Map(previousResultIds.map(({ uri }) => [pathOf(asUri(uri)), uri]));
      return new Promise((resolve) => {
        endLast();
        const items: WorkspaceDocumentDiagnosticReport[] = [];
        const passOn = () => {
          if (items.length > 0) partial?.report({ items: items.splice(0) });
        };
        const end = () => {
          endLast = () => {};
          scripts.listen(null);
          progress(0);
          resolve({ items: items.splice(0) });
        };
        endLast = end;
        token?.onCancellationRequested(end);
        if (token?.isCancellationRequested) return end();
        let isFirst = true;
        scripts.listen(
          gathering({
            judged({ path, id, diagnostics }) {
              const uri = documents.uriOf(path);
              left.delete(path);
              const isSame = told.get(path)?.id === id;
              if (isSame && !isFirst) return;
              told.set(path, { uri, id });
              items.push(
                isSame
                  ? { kind: "unchanged", uri, version: null, resultId: id }
                  : { kind: "full", uri, version: null, resultId: id, items: [...diagnostics] },
              );
            },
            gone(path, why) {
              left.delete(path);
              const now = documents.uriOf(path);
              const uri = told.get(path)?.uri ?? now;
              told.delete(path);
              // What is opened under another address the client has been told of under this one.
              if (why === "gone" || uri !== now) items.push({ kind: "full", uri, version: null, items: [] });
            },
            left(count) {
              progress(count);
              if (count > 0) return;
              for (const [path, uri] of left)
                if (!documents.isOpen(path)) items.push({ kind: "full", uri, version: null, items: [] });
              left.clear();
              isFirst = false;
              if (partial) passOn();
              else end();
            },
            turn: passOn,
          }),
        );
      });
    },
    opened: (uri) => scripts.opened(pathOf(uri)),
    push() {
      const shown = new Map<FilePath, { readonly uri: Uri; readonly id: string }>();
      const send = (uri: Uri, diagnostics: Judged["diagnostics"]) =>
        void connection.sendDiagnostics({ uri, diagnostics: [...diagnostics] });
      scripts.listen({
        judged({ path, id, diagnostics }) {
          const before = shown.get(path);
          if (before?.id === id || (!before && diagnostics.length === 0)) return;
          const uri = documents.uriOf(path);
          if (diagnostics.length === 0) shown.delete(path);
          else shown.set(path, { uri, id });
          send(uri, diagnostics);
        },
        gone(path, why) {
          const before = shown.get(path);
          shown.delete(path);
          if (before && (why === "gone" || before.uri !== documents.uriOf(path))) send(before.uri, []);
        },
        left: progress,
        turn() {},
      });
    },
  };
}

/** As a listener, but what is to be passed on is gathered for a while. */
function gathering(listener: Listener): Listener {
  let last = 0;
  return {
    ...listener,
    turn() {
      if (Date.now() - last < GATHER_MS) return;
      last = Date.now();
      listener.turn();
    },
  };
}
