/** Board text as bytes: UTF-8 where it is that, else Latin-1, so that every byte comes back. */
import { resolve } from "node:path";
import { readFileBytes, toPath } from "../node/disk.ts";
import { CannotRun, type Io } from "./io.ts";

export type BoardEncoding = "utf-8" | "latin-1";

export interface BoardText {
  readonly text: string;
  readonly encoding: BoardEncoding;
}

/** Any bytes as text: of Latin-1 each byte is a character of its own. */
export function boardTextOf(bytes: Uint8Array): BoardText {
  try {
    return { text: new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes), encoding: "utf-8" };
  } catch {
    return { text: Buffer.from(bytes).toString("latin1"), encoding: "latin-1" };
  }
}

/** A board's text from a file, or from standard input for “-”. */
export async function readBoardText(path: string, io: Io): Promise<BoardText> {
  if (path === "-") return boardTextOf(await io.input());
  const bytes = readFileBytes(toPath(resolve(io.folder, path)));
  if (typeof bytes === "string") throw new CannotRun(`${path}: ${bytes}`);
  return boardTextOf(bytes);
}

/** The bytes of a text; a character that Latin-1 does not have is refused with its line. */
export function boardBytesOf(text: string, encoding: BoardEncoding): Uint8Array {
  if (encoding === "utf-8") return new TextEncoder().encode(text);
  const odd = /[^\u0000-\u00ff]/u.exec(text);
  if (odd) {
    const line = text.slice(0, odd.index).split(/\r\n|\r|\n/).length;
    throw new CannotRun(
      `the saved text is in Latin-1, which has no “${odd[0]}” (line ${line} of the new text): spell it otherwise in the script`,
    );
  }
  return Buffer.from(text, "latin1");
}
