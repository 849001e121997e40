/** Decodes bytes as the text of a script, on every host. */
import type { FileAnswer } from "./files.ts";

// The decoder of the Encoding Standard: every host has it, but the configured TypeScript library does not declare it.
declare const TextDecoder: new (
  label: string,
  options: { readonly fatal?: boolean; readonly ignoreBOM?: boolean },
) => { decode(bytes: Uint8Array): string };

/** The largest script that is read, in bytes: far more than any person writes. */
export const MOST_BYTES = 4 * 1024 * 1024;

/** What stands for a file of so many bytes that it is not read. */
export function tooLarge(bytes: number): FileAnswer {
  const size = (bytes / 1024 / 1024).toFixed(1);
  return { kind: "unreadable", why: `it is ${size} MB, and a script is read up to 4 MB: is it a script at all?` };
}

/**
 * The text of a file's bytes. Invalid UTF-8 is decoded with replacement characters and flagged
 * (`validUtf8: false`); a file over `MOST_BYTES` is unreadable.
 */
export function textAnswer(bytes: Uint8Array): FileAnswer {
  if (bytes.length > MOST_BYTES) return tooLarge(bytes.length);
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
