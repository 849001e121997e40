/** What is asked of the whole workspace, and of the craft behind a document: the tree, the status, the effective craft. */
import type { Connection } from "vscode-languageserver";
import { type Diagnostic, DiagnosticSeverity } from "vscode-languageserver-types";
import { pickedCraft } from "../../../shared/ide/context/picked-craft.ts";
import { effectiveScript } from "../../../shared/ide/reports/effective-script.ts";
import { craftStatusOf } from "../../../shared/ide/workspace-tree/craft-status.ts";
import { countsOf, makeTrees, type Weighed } from "../../../shared/ide/workspace-tree/workspace-tree.ts";
import type { Source } from "../../../shared/model/craft.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { asUri } from "../../../shared/protocol/addresses.ts";
import { EFFECTIVE_REQUEST, type EffectiveParams, type EffectiveText } from "../../../shared/protocol/effective.ts";
import type { LinePlace } from "../../../shared/protocol/findings.ts";
import { type CraftStatus, STATUS_REQUEST, type StatusParams } from "../../../shared/protocol/status.ts";
import { TREE_REQUEST, type TreeParams, type WorkspaceTree } from "../../../shared/protocol/workspace-tree.ts";
import type { Steps } from "../../../shared/text/steps.ts";
import type { ClosedScripts } from "./closed-scripts.ts";
import type { Documents } from "./documents.ts";
import type { Guard, Request } from "./guard.ts";
import { loadFor } from "./load.ts";
import { pathOf } from "./paths.ts";
import { inSlicesOver } from "./slices.ts";
import { makeBreather } from "./timers.ts";

/** Answers `fettle/workspaceTree`, `fettle/status` and `fettle/effective`. */
export function answerWorkspaceTree(
  connection: Connection,
  documents: Documents,
  guard: Guard,
  closedScripts: Pick<ClosedScripts, "found">,
): void {
  const { uriOf, now } = documents;
  const trees = makeTrees();
  /** What the client is told of scripts that are not open is counted as it is told. */
  const counted = (file: FilePath) => {
    const found = documents.isOpen(file) ? undefined : closedScripts.found(file);
    return found && countsOf(found.map(toWeighed));
  };
  connection.onRequest(
    TREE_REQUEST,
    guard<[TreeParams], WorkspaceTree | null>("workspace tree", null, async ({ findings }) => {
      await documents.loadAll(asUri("untitled:"));
      const breathe = makeBreather();
      const { files } = await (findings ? trees.withFindings(now(), breathe, counted) : trees.files(now(), breathe));
      return { files: files.map((each) => ({ ...each, file: uriOf(each.file) })) };
    }),
  );
  connection.onRequest(
    STATUS_REQUEST,
    guard<[StatusParams], CraftStatus | null>("status", null, async ({ uri, craft }) => {
      const file = await loadFor(documents, { textDocument: { uri } });
      const status = craftStatusOf(now(), file, craft && pathOf(craft));
      return status && { ...status, craft: status.craft && { ...status.craft, file: uriOf(status.craft.file) } };
    }),
  );
  connection.onRequest(
    EFFECTIVE_REQUEST,
    guard<Request<EffectiveParams>, EffectiveText | null>("effective craft", null, async ({ uri, craft }, token) => {
      const file = await loadFor(documents, { textDocument: { uri } });
      const ofCraft = (workspace: Workspace) => effectiveSteps(workspace, file, craft && pathOf(craft), documents);
      return inSlicesOver(documents, ofCraft, token);
    }),
  );
}

function toWeighed({ severity, range }: Diagnostic): Weighed {
  return { severity: SEVERITY_NAMES[severity ?? DiagnosticSeverity.Error], range };
}

const SEVERITY_NAMES = {
  [DiagnosticSeverity.Error]: "error",
  [DiagnosticSeverity.Warning]: "warning",
  [DiagnosticSeverity.Information]: "info",
  [DiagnosticSeverity.Hint]: "hint",
} as const;

/** The craft that is shown for a file, with the editor's own addresses; null where there is none. */
function* effectiveSteps(
  workspace: Workspace,
  file: FilePath,
  preferred: FilePath | undefined,
  { uriOf }: Documents,
): Steps<EffectiveText | null> {
  const craft = pickedCraft(workspace, file, preferred);
  if (!craft || craft.script.tree.newer) return null;
  yield;
  const { text, lines } = effectiveScript(craft, workspace);
  const placed = ({ file, line }: Source): LinePlace => ({ file: uriOf(file), line });
  return {
    file: uriOf(craft.file),
    craft: craft.name,
    text,
    lines: lines.map((each) => ({ ...each, sources: each.sources.map(placed) })),
  };
}
