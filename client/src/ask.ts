/** How the client's modules ask the server. */

import type { CancellationToken } from "vscode";

/** Sends a request to the server once it runs, and gives its answer; rejects where the token is cancelled before that. */
export type Ask = <T>(method: string, params: unknown, token?: CancellationToken) => Promise<T>;
