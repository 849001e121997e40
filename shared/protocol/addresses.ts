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

/**
 * The last part of the address of a text that lies nowhere, by which its tab is called: without what parts a path, as
 * the name of a branch may have it, and without what ends a line or turns the direction of what stands around it.
 */
export function titlePart(title: string): string {
  return encodedPart(title.replaceAll(/[/\\\p{Cc}\u2028\u2029\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu, "-"));
}
