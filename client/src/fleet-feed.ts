/** The fleet for those pages that show it: asked for when the keys pause, and sent where it is another than before. */
import { CancellationTokenSource, type Disposable } from "vscode";
import {
  FLEET_REQUEST,
  type FleetParams,
  type FleetResult,
  type PackedFleet,
} from "../../shared/protocol/fleet-messages.ts";
import type { Ask } from "./ask.ts";
import { coalesce } from "./coalesce.ts";

interface FeedParts {
  readonly ask: Ask;
  /** Whether anybody sees it now. */
  readonly isWanted: () => boolean;
  readonly take: (fleet: PackedFleet) => void;
  /** Where there is none. */
  readonly failed: (error: unknown) => void;
}

export interface FleetFeed extends Disposable {
  /** What it rests on may have changed, or whether it is seen. */
  changed(): void;
  /** A page begins anew, and has nothing of it. */
  forget(): void;
}

/** Nobody reads a table while typing. */
const PAUSE_MS = 200;

export function fleetFeed({ ask, isWanted, take, failed }: FeedParts): FleetFeed {
  /** What the pages have; an answer that was asked for before one of them began anew says nothing of the new one. */
  let pages: { known: string | null } = { known: null };
  let waiting: ReturnType<typeof setTimeout> | undefined;
  let asking: CancellationTokenSource | undefined;
  const refresh = coalesce(async () => {
    if (!isWanted()) return;
    asking = new CancellationTokenSource();
    const { token } = asking;
    const asked = pages;
    try {
      const params: FleetParams = { known: asked.known };
      const result = await ask<FleetResult>(FLEET_REQUEST, params, token);
      if (!result) return failed("the server has no answer");
      asked.known = result.id;
      if (result.fleet) take(result.fleet);
    } catch (error) {
      if (!token.isCancellationRequested) failed(error);
    } finally {
      asking = undefined;
    }
  });
  return {
    changed() {
      if (!isWanted()) asking?.cancel();
      clearTimeout(waiting);
      waiting = setTimeout(refresh, PAUSE_MS);
    },
    forget() {
      pages = { known: null };
    },
    dispose() {
      clearTimeout(waiting);
      asking?.cancel();
    },
  };
}
