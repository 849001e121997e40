/** The panel's model, of the present or of a commit. */
import type { Connection } from "vscode-languageserver";
import { benchPicture } from "../../../shared/ide/bench/bench-picture.ts";
import { panelOf } from "../../../shared/ide/panel/panel.ts";
import { PANEL_REQUEST, type PanelModel, type PanelParams } from "../../../shared/protocol/panel.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";
import type { ReadOther } from "./other-side.ts";
import { drawnWith } from "./panel-against.ts";
import { pastPanel } from "./panel-past.ts";
import { toPanelModel } from "./panel-to-lsp.ts";

/** Answers `fettle/panel`. */
export function answerPanel(connection: Connection, documents: Documents, guard: Guard, readOther: ReadOther): void {
  connection.onRequest(
    PANEL_REQUEST,
    guard<[PanelParams], PanelModel | null>("panel", null, async ({ past, ...params }) =>
      past ? pastPanel({ ...params, past }, documents, readOther) : presentPanel(params, documents, readOther),
    ),
  );
}

async function presentPanel(
  { uri, craft, against, bench, ...ask }: Omit<PanelParams, "past">,
  documents: Documents,
  readOther: ReadOther,
): Promise<PanelModel> {
  const read = against && (await readOther(against));
  const file = await documents.loadAll(uri);
  const [workspace, version] = [documents.now(), documents.version(uri) ?? 0];
  const model = panelOf(workspace, file, version, {
    ...ask,
    craft: craft && documents.pathOf(craft),
    against: against && drawnWith(against, read!, documents, workspace),
    benchOf: (drawn) => benchPicture(drawn, workspace, bench),
  });
  return toPanelModel(model, documents.uriOf, read?.kind === "read" ? read.uriOf : undefined);
}
