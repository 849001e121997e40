/** An answer that is no result: a refusal in words, or the end of a request that the client no longer wants. */
import { visibleText } from "../../../shared/text/visible-text.ts";

/** The codes of the protocol (`LSPErrorCodes` and `ErrorCodes`) that the server answers with. */
export const CODES = {
  requestFailed: -32803,
  serverCancelled: -32802,
  contentModified: -32801,
  requestCancelled: -32800,
  invalidRequest: -32600,
  methodNotFound: -32601,
  notInitialized: -32002,
} as const;

/** Thrown by a handler; the guard makes an error of the protocol of it. */
export class Refused extends Error {
  readonly code: number;
  /** What the protocol has a client told besides. */
  readonly data: unknown;

  /** `message` is for the pilot: an editor shows it. */
  constructor(message: string, code: number = CODES.requestFailed, data?: unknown) {
    super(visibleText(message));
    this.code = code;
    this.data = data;
  }
}

/** The protocol library's `ResponseError`: each host brings its own library, which knows only its own class. */
export type ResponseErrorClass = new (code: number, message: string, data?: unknown) => Error;

/** What a client is told that has cancelled. */
export function cancelled(): Refused {
  return new Refused("The client no longer wants this answer.", CODES.requestCancelled);
}
