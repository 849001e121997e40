/** How the client's modules ask the server. */

/** Sends a request to the server once it runs, and gives its answer. */
export type Ask = <T>(method: string, params: unknown) => Promise<T>;
