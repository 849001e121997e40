/** Bytes as a script's text, wherever they come from. */
import type { FileAnswer } from "./files.ts";

// The Encoding Standard's decoder: every host has it, though the language's own library does not name it.
declare const TextDecoder: new (
  label: string,
  options: { readonly fatal?: boolean; readonly ignoreBOM?: boolean },
) => { decode(bytes: Uint8Array): string };

/** The largest script that is read, in bytes: far beyond any that a person writes. */
export const MOST_BYTES = 4 * 1024 * 1024;

/** The text of some bytes. Invalid UTF-8 is read as far as it goes, and said; too much is not read. */
export function textAnswer(bytes: Uint8Array): FileAnswer {
  if (bytes.length > MOST_BYTES) {
    const size = (bytes.length / 1024 / 1024).toFixed(1);
    return { kind: "unreadable", why: `it is ${size} MB, and a script is read up to 4 MB: is it a script at all?` };
  }
  try {
    return {
      kind: "text",
      text: new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes),
      validUtf8: true,
    };
  } catch {
    return { kind: "text", text: new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes), validUtf8: false };
  }
}
