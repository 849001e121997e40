/** Decodes bytes as the text of a script, on every host. */
import type { FileAnswer } from "./files.ts";
import { MOST_BYTES, tooLarge } from "./script-limits.ts";

// The decoder of the Encoding Standard: every host has it, but the configured TypeScript library does not declare it.
declare const TextDecoder: new (
  label: string,
  options: { readonly fatal?: boolean; readonly ignoreBOM?: boolean },
) => { decode(bytes: Uint8Array): string };

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
