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
import { inSlicesOver } from "./slices.ts";

/** Answers `fettle/fleet`, with all files of the workspace read. */
export function answerFleet(connection: Connection, documents: Documents, guard: Guard): void {
  const numbered = numberWorkspaces();
  connection.onRequest(
    FLEET_REQUEST,
    guard<Request<FleetParams>, FleetResult>("fleet", null, async ({ known }, token) => {
      await documents.loadWorkspace();
      return inSlicesOver(documents, (now) => packedSteps(now, numbered(now), known, documents), token);
    }),
  );
}

function* packedSteps(now: Workspace, id: number, known: number | null, { uriOf }: Documents): Steps<FleetResult> {
  if (id === known) return { id, fleet: null };
  const fleet = yield* fleetOf(scriptsOf(now), { titleOf: fileNameOf });
  yield;
  return { id, fleet: packFleet(fleet, uriOf) };
}

/** A number for each workspace, the same for as long as no text has changed. */
function numberWorkspaces(): (now: Workspace) => number {
  let latest: WeakRef<Workspace> | null = null;
  let number = 0;
  return (now) => {
    if (latest?.deref() !== now) {
      latest = new WeakRef(now);
      number++;
    }
    return number;
  };
}
