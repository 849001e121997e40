/** A server over a shed in which a stranger's text stands everywhere, with all its scripts open and a past of the stranger's own. */
import type { RevisionParams, RevisionResult } from "../../../shared/protocol/compare.ts";
import { filesInMemory, PULLING, startSession } from "../../server/session.ts";
import { addressIn } from "./own-asks.ts";
import { type Shed, shedOf } from "./shed.ts";

// biome-ignore lint/suspicious/noExplicitAny: any answer of any request.
export type Answer = any;

export interface ServedShed {
  readonly text: string;
  readonly shed: Shed;
  /** The answer; where the server refuses, `refused` hears why and it is null. */
  ask(method: string, params: object): Promise<Answer>;
  /** What the server refused, and what it logged. */
  readonly told: string[];
  end(): void;
}

/** What the extension names when it starts the server. */
const OPTIONS = {
  draws: true,
  pageCommand: "fettle.showPage",
  lineCommand: "fettle.showLine",
  positionsCommand: "fettle.showPositions",
  benchCommand: "fettle.showBench",
  originCommand: "fettle.changeOrigin",
};

export async function servedShed(text: string): Promise<ServedShed> {
  const shed = shedOf(text);
  const files = Object.fromEntries(Object.entries(shed.texts).map(([path, each]) => [`/shed/${path}`, each]));
  const pathOf = (uri: string) => decodeURIComponent(uri.replace("file:///shed/", ""));
  const session = await startSession(filesInMemory(files), PULLING, OPTIONS, undefined, (client) => {
    client.onRequest("client/registerCapability", () => null);
    client.onRequest("workspace/configuration", ({ items }: { items: unknown[] }) => items.map(() => null));
    // Of every revision the text before the last change.
    client.onRequest<RevisionResult, void>("fettle/revision", ({ uri }: RevisionParams): RevisionResult => {
      const now = shed.texts[pathOf(uri)];
      if (now === undefined) return { kind: "unreadable", why: text };
      return { kind: "text", text: now.replace("cells    4", "cells    5").replace("3.6 V", "3.7 V") };
    });
    client.onRequest("fettle/log", () => ({
      kind: "commits",
      commits: ["1", "2"].map((digit) => ({
        id: digit.repeat(40),
        author: text,
        date: "2026-01-01T09:00:00Z",
        subject: text,
      })),
    }));
  });
  for (const path of [shed.craft, shed.other, shed.layer, shed.handset, shed.dialect])
    await session.open(addressIn(path), shed.texts[path]!);
  const told = session.log;
  return {
    text,
    shed,
    told,
    async ask(method, params) {
      try {
        return await session.client.sendRequest(method, params);
      } catch (error) {
        told.push((error as Error).message);
        return null;
      }
    },
    end: session.end,
  };
}
