/** What is left in an output of a stranger's text that would be more than text there. */
import { Lexer, type Token, type Tokens } from "marked";

/**
 * Characters that turn, hide or move what is read, or that a terminal obeys: by their code points, and not by the
 * list of the program, which is what is tried here.
 */
const UNSEEN =
  // biome-ignore lint/suspicious/noMisleadingCharacterClass: each is meant by itself.
  /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u00ad\u034f\u061c\u115f\u1160\u200b-\u200f\u2028-\u202e\u2060-\u206f\u3164\ufeff\ufff9-\ufffb\ufffe\uffff\u{e0000}-\u{e0fff}]/u;
const LONE = /\p{Cs}/u;

/** The first such character, and what stands around it; null where the text is as it reads. */
export function unseenIn(text: string): string | null {
  const at = text.search(UNSEEN);
  const found = at >= 0 ? at : text.search(LONE);
  if (found < 0) return null;
  const code = text.codePointAt(found)!.toString(16).padStart(4, "0");
  return `U+${code} in ${JSON.stringify(text.slice(Math.max(0, found - 30), found + 30))}`;
}

/** Where links of our own lead: to a line of the workspace, or by our own commands. */
const OWN_LINK = /^(?:file:\/\/\/shed\/|command:fettle\.|#)/;

/** What the Markdown of a reader with every extension of its kind would make of such a text. */
export function markdownFaults(markdown: string): string[] {
  const faults: string[] = [];
  const walk = (tokens: readonly Token[]) => {
    for (const token of tokens) {
      if (token.type === "link" && !OWN_LINK.test((token as Tokens.Link).href)) faults.push(`link ${token.raw}`);
      if (["image", "html", "def", "heading", "table"].includes(token.type) && !isOwn(token))
        faults.push(`${token.type} ${token.raw}`);
      for (const inner of ["tokens", "items"])
        if (inner in token) walk((token as unknown as Record<string, readonly Token[]>)[inner] ?? []);
    }
  };
  walk(new Lexer({ gfm: true }).lex(markdown));
  const seen = unseenIn(decoded(markdown));
  return seen === null ? faults : [...faults, seen];
}

/** Pages have headings of the house's own, and none that a text makes of itself or of the line above it. */
function isOwn(token: Token): boolean {
  return token.type === "heading" && !/^#+ x\b|\n[=-]+\s*$/.test(token.raw);
}

/** Characters that are written by their numbers are shown as the characters. */
function decoded(markdown: string): string {
  return markdown.replaceAll(/(\\?)&#(?:x([0-9a-f]{1,6})|(\d{1,7}));/gi, (whole, mark, hex, decimal) => {
    const code = hex ? Number.parseInt(hex, 16) : Number(decimal);
    return mark || code > 0x10ffff ? whole : String.fromCodePoint(code);
  });
}

/** A piece that a message of an editor makes a link of, or a label an icon. */
export const LINK_IN_NOTICE = /\[[^\]]+\]\((?:https?:\/\/|command:|file:)[^)\s]+/i;
export const ICON_IN_LABEL = /\$\([a-z0-9-]+(?:~[a-z]+)?\)/i;
