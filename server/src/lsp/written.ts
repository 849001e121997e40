/** Answers that are text already. */

/**
 * An answer as the JSON of which its message is made. Where messages are written as JSON it is a part of one as it is
 * (`server/src/node/streams.ts`, or by `toJSON`); where they are passed on as values, `valuesIn` makes one of it.
 */
export class Written {
  readonly json: string;

  constructor(json: string) {
    this.json = json;
  }
  toJSON(): unknown {
    return JSON.parse(this.json);
  }
}

/** What is answered with this JSON: a handler may give it in place of a `T`. */
export function written<T>(json: string): T {
  return new Written(json) as T;
}

/** A message of which the answer is a value, whether it was written or not. */
export function valuesIn<M>(message: M): M {
  const { result } = message as { readonly result?: unknown };
  return result instanceof Written ? { ...message, result: result.toJSON() } : message;
}
