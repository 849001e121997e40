/**
 * Addresses of documents, as editors write them: `file:///shed/my%20jug.fettle`. They cross between
 * server, client and panel; the core knows files by their paths, which are plain text. The two are
 * made of each other in `server/src/lsp/paths.ts` and nowhere else.
 */
export type Uri = string & { readonly __text: "uri" };

/** What an editor or a page has sent as the address of a document. */
export function asUri(text: string): Uri {
  return text as Uri;
}

/**
 * A text as a part of an address, percent-encoded. Half of a surrogate pair, as a cut name may end with, is no
 * character that an address could hold: it becomes U+FFFD.
 */
export function encodedPart(text: string): string {
  return encodeURIComponent(text.replaceAll(/\p{Surrogate}/gu, "\uFFFD"));
}
