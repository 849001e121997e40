/** A run of the command line without a process: what it writes is kept. */
import type { Io } from "../../server/src/cli/io.ts";

export interface HeldIo extends Io {
  outText(): string;
  errorText(): string;
}

export function held(
  folder: string,
  input: string | Uint8Array,
  ink: "plain" | "coloured" = "plain",
  more: Partial<Pick<Io, "columns" | "progress">> = {},
): HeldIo {
  let out = "";
  let error = "";
  return {
    ...more,
    folder,
    colour: ink === "coloured",
    out: (text) => {
      out += typeof text === "string" ? text : Buffer.from(text).toString("latin1");
    },
    error: (text) => {
      error += text;
    },
    input: async () => (typeof input === "string" ? new TextEncoder().encode(input) : input),
    outText: () => out,
    errorText: () => error,
  };
}
