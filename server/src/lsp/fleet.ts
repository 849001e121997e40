/** All craft of the workspace side by side. */
import type { Connection } from "vscode-languageserver";
import { fleetOf, scriptsOf } from "../../../shared/ide/fleet/fleet.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import {
  FLEET_REQUEST,
  type FleetParams,
  type FleetResult,
  packFleet,
} from "../../../shared/protocol/fleet-messages.ts";
import { fileNameOf } from "../../../shared/text/file-name.ts";
import type { Steps } from "../../../shared/text/steps.ts";
import type { Documents } from "./documents.ts";
import type { Guard, Request } from "./guard.ts";
import { sessionIds } from "./session-ids.ts";
import { inSlicesOver } from "./slices.ts";

/** Answers `fettle/fleet`, with all files of the workspace read. */
export function answerFleet(connection: Connection, documents: Documents, guard: Guard): void {
  const idOf = nameWorkspaces();
  connection.onRequest(
    FLEET_REQUEST,
    guard<Request<FleetParams>, FleetResult>("fleet", null, async ({ known }, token) => {
      await documents.loadWorkspace();
      return inSlicesOver(documents, (now) => packedSteps(now, idOf(now), known, documents), token);
    }),
  );
}

function* packedSteps(now: Workspace, id: string, known: string | null, { uriOf }: Documents): Steps<FleetResult> {
  if (id === known) return { id, fleet: null };
  const fleet = yield* fleetOf(scriptsOf(now), { titleOf: fileNameOf });
  yield;
  return { id, fleet: packFleet(fleet, uriOf) };
}

/** An id for each workspace, the same for as long as no text has changed. */
function nameWorkspaces(): (now: Workspace) => string {
  let latest: WeakRef<Workspace> | null = null;
  const nextId = sessionIds();
  let id = "";
  return (now) => {
    if (latest?.deref() !== now) {
      latest = new WeakRef(now);
      id = nextId();
    }
    return id;
  };
}
