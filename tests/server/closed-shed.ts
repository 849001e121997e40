/** A small workspace, and a client that follows the findings of its scripts. */
import {
  type CancellationTokenSource as Cancellation,
  CancellationTokenSource,
  type Diagnostic,
} from "vscode-languageserver/node";
import type { Session } from "./session.ts";

export const craft = (name: string, uses: readonly string[], more = "") =>
  `craft "${name}"\n${uses.map((path) => `use "${path}"\n`).join("")}${more}`;
export const pack = "pack\n  chemistry lipo\n  cells 4\n";
export const twice = `${pack}  cells 6\n`;
export const base = (tilt = "30 deg") => `layer "Base"\nsafety\n  arm-tilt-limit ${tilt}\n`;

/** A shed of five scripts: two craft on a layer, one of them with a finding of its own, one craft by itself, one faulty. */
export const shed = () => ({
  "/shed/base.fettle": base(),
  "/shed/jug.fettle": craft("Jug", ["base.fettle"], pack),
  "/shed/far/mug.fettle": craft("Mug", ["../base.fettle"], twice),
  "/shed/urn.fettle": craft("Urn", [], pack),
  "/shed/bowl.fettle": craft("Bowl", ["gone.fettle"], "kettle\n"),
});

export interface Report {
  readonly uri: string;
  readonly kind: "full" | "unchanged";
  readonly resultId?: string;
  readonly version: null;
  readonly items: Diagnostic[];
}

export const uriOf = (name: string) => `file:///shed/${name}.fettle`;
export const nameOf = (uri: string) => uri.replace("file:///shed/", "").replace(".fettle", "");
/** What a client knows that takes partial results: the last report of each script, and all of them in order. */
export function following(session: Session) {
  const shown = new Map<string, Diagnostic[]>();
  const ids = new Map<string, string>();
  let reports: Report[] = [];
  const source: Cancellation = new CancellationTokenSource();
  return {
    shown,
    ids,
    /** The names of what was reported since the last time this was asked. */
    news: () => {
      const names = reports.map(({ uri, kind }) => (kind === "unchanged" ? `${nameOf(uri)} unchanged` : nameOf(uri)));
      reports = [];
      return names.sort();
    },
    begin(token = "stream", previousResultIds: readonly { uri: string; value: string }[] = []) {
      session.client.onNotification("$/progress", (progress: { token: string; value: { items: Report[] } }) => {
        if (progress.token !== token) return;
        for (const report of progress.value.items) {
          reports.push(report);
          if (report.kind === "full") shown.set(report.uri, report.items);
          if (report.resultId === undefined) ids.delete(report.uri);
          else ids.set(report.uri, report.resultId);
        }
      });
      const answer = session.client.sendRequest<{ items: Report[] }>(
        "workspace/diagnostic",
        { previousResultIds, partialResultToken: token },
        source.token,
      );
      // It stays open until somebody ends it: with the session, in most cases.
      answer.catch(() => undefined);
      return answer;
    },
    cancel: () => source.cancel(),
  };
}
