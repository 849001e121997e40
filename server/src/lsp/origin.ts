/** Where a value comes from, and lines that go from one file to another. */
import type { Connection } from "vscode-languageserver";
import { inlineSteps } from "../../../shared/ide/origin/inline.ts";
import { layersFor } from "../../../shared/ide/origin/layers-for.ts";
import { extractLayer, findingsBrought, type Moved, moveIntoLayer } from "../../../shared/ide/origin/move.ts";
import { type Origin, originOf } from "../../../shared/ide/origin/origin.ts";
import { overrideHere } from "../../../shared/ide/origin/override.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import type { Uri } from "../../../shared/protocol/addresses.ts";
import {
  LAYERS_FOR_REQUEST,
  type LayersForParams,
  type LayersForResult,
  ORIGIN_REQUEST,
  type OriginParams,
  type OriginResult,
  RELOCATE_REQUEST,
  type RelocateParams,
  type RelocateResult,
} from "../../../shared/protocol/origin.ts";
import type { Steps } from "../../../shared/text/steps.ts";
import type { Documents } from "./documents.ts";
import type { Guard, Request } from "./guard.ts";
import { toFiles } from "./osd-edits.ts";
import { inSlicesOver } from "./slices.ts";

const FAILED = {
  kind: "refused",
  message: "This could not be worked out, which is a fault of this tool; its log says more. Nothing was written.",
} as const;

/** Answers `fettle/origin`, `fettle/relocate` and `fettle/layersFor`, with all files of the workspace read. */
export function answerOrigin(connection: Connection, documents: Documents, guard: Guard): void {
  connection.onRequest<OriginResult, void>(
    ORIGIN_REQUEST,
    guard<[OriginParams], OriginResult>("origin", FAILED, async ({ uri, position, craft }) => {
      const file = await documents.loadAll(uri);
      const origin = originOf(documents.now(), file, position, craft && documents.pathOf(craft));
      return origin.kind === "refused" ? origin : toOrigin(origin, documents);
    }),
  );
  connection.onRequest<RelocateResult, void>(
    RELOCATE_REQUEST,
    guard<Request<RelocateParams>, RelocateResult>("relocate", FAILED, async ({ uri, craft, change }, token) => {
      const file = await documents.loadAll(uri);
      const of = craft && documents.pathOf(craft);
      const moved = await inSlicesOver(documents, (now) => relocated(now, file, of, change, documents.pathOf), token);
      return toResult(documents.now(), file, moved, documents);
    }),
  );
  connection.onRequest<LayersForResult, void>(
    LAYERS_FOR_REQUEST,
    guard<Request<LayersForParams>, LayersForResult>("layers for lines", NO_LAYERS, async ({ uri, range }, token) => {
      const file = await documents.loadAll(uri);
      const { layers, ...answer } = await inSlicesOver(documents, (now) => layersFor(now, file, range), token);
      return { ...answer, layers: layers.map(({ file: of, ...layer }) => ({ ...layer, uri: documents.uriOf(of) })) };
    }),
  );
}

const NO_LAYERS: LayersForResult = { what: "", refused: FAILED.message, layers: [] };

function* relocated(
  now: Workspace,
  file: FilePath,
  craft: FilePath | undefined,
  change: RelocateParams["change"],
  pathOf: (uri: Uri) => FilePath,
): Steps<Moved> {
  switch (change.kind) {
    case "override":
      return overrideHere(now, file, change.position, craft);
    case "move":
      return moveIntoLayer(now, file, change.range, pathOf(change.into));
    case "extract":
      return extractLayer(now, file, change.range, change.name);
    case "inline":
      return yield* inlineSteps(now, file, change.line);
  }
}

/** With the editor's own addresses, the versions of those documents that it has open, and the findings that are new. */
function toResult(now: Workspace, file: FilePath, moved: Moved, documents: Documents): RelocateResult {
  if (moved.kind === "refused") return moved;
  const { files, creates, notes, select } = moved;
  return {
    kind: "edits",
    files: toFiles(files, documents),
    creates: creates.map((each) => ({ ...each, file: documents.uriOf(each.file) })),
    notes: [...notes, ...findingsBrought(now, file, moved)],
    select: select && { ...select, file: documents.uriOf(select.file) },
  };
}

function toOrigin({ craft, steps, ...origin }: Origin, { uriOf }: Documents): OriginResult {
  return {
    ...origin,
    craft: { name: craft.name, uri: uriOf(craft.file) },
    steps: steps.map(({ source, ...step }) => ({ ...step, at: { file: uriOf(source.file), line: source.line } })),
  };
}
