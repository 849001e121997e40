/** Addresses of texts of another side, which server and client make alike: a file at a revision, or a text that lies nowhere. */
import { asUri, encodedPart, titlePart, type Uri } from "./addresses.ts";
import { OTHER_SCHEME, type OtherSide } from "./compare.ts";

/** What such an address stands for. */
export type OtherText =
  | { readonly uri: Uri; readonly revision: string }
  /** `key` is `keyOfText` of the text, which whoever offered it remembers. */
  | { readonly key: string; readonly name: string };

/** The address of a read-only document; its last part is what a tab is called by. */
export function otherAddress(text: OtherText): Uri {
  const title = "uri" in text ? `${stemOf(text.uri)} (${text.revision})` : text.name;
  return asUri(`${OTHER_SCHEME}:/${titlePart(`${title}.fettle`)}?${encodedPart(JSON.stringify(text))}`);
}

/** The address of the main text of another side, and of a file of the workspace its own. */
export function addressOfOther(other: OtherSide): Uri {
  switch (other.kind) {
    case "file":
    case "board":
      return other.uri;
    case "revision":
      return otherAddress({ uri: other.uri, revision: other.revision });
    case "text":
      return otherAddress({ key: keyOfText(other.text), name: other.name });
  }
}

/** What the query of such an address says, decoded; null where it is none. */
export function otherTextIn(query: string): OtherText | null {
  try {
    const text: Partial<Record<"uri" | "revision" | "key" | "name", unknown>> | null = JSON.parse(query);
    if (typeof text?.uri === "string" && typeof text.revision === "string")
      return { uri: asUri(text.uri), revision: text.revision };
    return typeof text?.key === "string" && typeof text.name === "string" ? { key: text.key, name: text.name } : null;
  } catch {
    return null;
  }
}

function stemOf(uri: Uri): string {
  const last = /([^/?#]*)(?:[?#].*)?$/.exec(uri)?.[1] ?? "";
  try {
    return decodeURIComponent(last).replace(/\.fettle$/, "");
  } catch {
    return last;
  }
}

/**
 * A short key of a text, the same for the same text: 64 bits of FNV-1a over its UTF-16 units, as two halves that begin
 * apart (Fowler, Noll and Vo, “The FNV Non-Cryptographic Hash Algorithm”), with its length.
 */
export function keyOfText(text: string): string {
  let [a, b] = [0x811c9dc5, 0x01234567];
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    a = Math.imul(a ^ unit, 0x01000193);
    b = Math.imul(b ^ unit, 0x01000193);
  }
  return `${text.length.toString(36)}-${(a >>> 0).toString(36)}${(b >>> 0).toString(36)}`;
}
