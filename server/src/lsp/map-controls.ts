/** Controls of another handset, answered with a proposal and its edits. */
import type { Connection } from "vscode-languageserver";
import { type MapControls, mapControlsOf } from "../../../shared/ide/edits/map-controls.ts";
import {
  MAP_CONTROLS_REQUEST,
  type MapControlsParams,
  type MapControlsResult,
} from "../../../shared/protocol/map-controls.ts";
import type { Documents } from "./documents.ts";
import type { Guard } from "./guard.ts";

const FAILED: MapControlsResult = {
  kind: "refused",
  message:
    "The mapping could not be worked out, which is a fault of this tool; its log says more. Nothing was written.",
};

/** Answers `fettle/mapControls`, with all files of the workspace read. */
export function answerMapControls(connection: Connection, documents: Documents, guard: Guard): void {
  connection.onRequest<MapControlsResult, void>(
    MAP_CONTROLS_REQUEST,
    guard<[MapControlsParams], MapControlsResult>("map controls", FAILED, async ({ uri, craft, handset, ...ask }) => {
      const file = await documents.loadAll(uri);
      // By their real paths, as the workspace has them.
      const layers = await Promise.all(ask.layers.map((each) => documents.load(each)));
      const other = handset && (await documents.load(handset));
      const query = { ...ask, layers, craft: craft && documents.pathOf(craft), handset: other };
      return toResult(mapControlsOf(documents.now(), file, query), documents);
    }),
  );
}

/** With the editor's own addresses, and the versions of those documents that it has open. */
function toResult(mapping: MapControls, documents: Documents): MapControlsResult {
  if (mapping.kind === "refused") return mapping;
  return {
    ...mapping,
    layers: mapping.layers.map((layer) => ({ ...layer, file: documents.uriOf(layer.file) })),
    files: mapping.files.map(({ file, edits }) => {
      const uri = documents.uriOf(file);
      return { file: uri, version: documents.version(uri), edits };
    }),
  };
}
