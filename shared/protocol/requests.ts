/** Requests and notifications between client and server that belong to no one view (method names of our own). */
import type { Uri } from "./addresses.ts";

/** `fettle/changed`: a notification that drawings may be out of date, though nothing was typed. */
export const CHANGED_NOTIFICATION = "fettle/changed";

/** `fettle/committed` (client to server): a notification that something was committed, or another branch is checked out. */
export const COMMITTED_NOTIFICATION = "fettle/committed";

/** `fettle/read` (server to client): bytes of a file, base64, where the server has no disk of its own. */
export const READ_REQUEST = "fettle/read";
export interface ReadParams {
  readonly uri: Uri;
}
export type ReadResult =
  | { readonly kind: "bytes"; readonly base64: string }
  | { readonly kind: "missing" }
  | { readonly kind: "unreadable"; readonly why: string };

/** `fettle/list` (server to client): the URIs of every script of the workspace, and of every file of own words. */
export const LIST_REQUEST = "fettle/list";
export interface ListResult {
  readonly uris: readonly Uri[];
  /** True where there are more than the client looks for. */
  readonly cut: boolean;
}
