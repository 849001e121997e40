/** The findings of what is typed in, pulled as an editor does: after each key, the question before withdrawn. */
import { CancellationTokenSource, type Diagnostic, ResponseError } from "vscode-languageserver/node";
import type { Served } from "./served.ts";

export interface FindingsPuller {
  /** A key went into a document: its findings are asked for. */
  typed(path: string): void;
  /** How long after each key its findings were there, in ms, since this was last asked. */
  takeDelaysMs(): number[];
  /** Once all that was asked is answered. */
  settled(): Promise<void>;
  /** Answers that are neither findings nor a withdrawal. */
  readonly faults: readonly string[];
}

/** Cancelled by the client, changed meanwhile, or to be asked again, as the protocol numbers them. */
const WITHDRAWN = new Set([-32800, -32801, -32802]);

export function makeFindingsPuller({ client, root }: Served): FindingsPuller {
  const faults: string[] = [];
  let delaysMs: number[] = [];
  /** When the keys were pressed for which no findings came yet. */
  let waiting: number[] = [];
  let last: { path: string; cancel: CancellationTokenSource; done: Promise<void> } | null = null;

  const pull = async (path: string, cancel: CancellationTokenSource): Promise<void> => {
    const params = { textDocument: { uri: `${root}/${path}` } };
    try {
      const { items } = await client.sendRequest<{ items: Diagnostic[] }>(
        "textDocument/diagnostic",
        params,
        cancel.token,
      );
      if (!Array.isArray(items)) faults.push(`${path}: findings are ${JSON.stringify(items)}`);
      if (cancel.token.isCancellationRequested) return;
      const now = performance.now();
      delaysMs.push(...waiting.map((pressed) => now - pressed));
      waiting = [];
    } catch (error) {
      if (!(error instanceof ResponseError && WITHDRAWN.has(error.code))) faults.push(`${path}: ${error}`);
      // A server that gives up on a text that nobody changed has to be asked again.
      else if (!cancel.token.isCancellationRequested) return pull(path, cancel);
    }
  };

  return {
    faults,
    typed(path) {
      last?.cancel.cancel();
      // Who goes on in another document looks at that one.
      if (last && last.path !== path) waiting = [];
      waiting.push(performance.now());
      const cancel = new CancellationTokenSource();
      last = { path, cancel, done: pull(path, cancel) };
    },
    takeDelaysMs() {
      const taken = delaysMs;
      delaysMs = [];
      return taken;
    },
    settled: () => last?.done ?? Promise.resolve(),
  };
}
