/** A connection over two streams, which also answers what is no message at all. */
import {
  AbstractMessageReader,
  AbstractMessageWriter,
  type Connection,
  createConnection,
  type DataCallback,
  Disposable,
  Message,
  type MessageReader,
  type MessageWriter,
  ProposedFeatures,
  RAL,
  type ResponseMessage,
} from "vscode-languageserver/node";
import { Written } from "../lsp/written.ts";

/** Codes of JSON-RPC 2.0. */
const PARSE_ERROR = -32700;
const INVALID_REQUEST = -32600;

/**
 * Gives each message in the turn in which its last byte is there. The library's own reader waits two turns for
 * decoders that may take their time, and there are none; what is buffered, and how, is the library's.
 */
class PromptMessageReader extends AbstractMessageReader implements MessageReader {
  readonly #input: NodeJS.ReadableStream;
  readonly #buffer = RAL().messageBuffer.create("utf-8");
  /** Bytes of the message whose header is read; null before it. */
  #length: number | null = null;

  constructor(input: NodeJS.ReadableStream) {
    super();
    this.#input = input;
  }
  listen(callback: DataCallback): Disposable {
    const take = (bytes: Uint8Array) => {
      this.#buffer.append(bytes);
      try {
        for (let body = this.#next(); body; body = this.#next()) this.#give(body, callback);
      } catch (error) {
        this.fireError(error);
      }
    };
    this.#input.on("data", take);
    this.#input.on("error", (error: Error) => this.fireError(error));
    this.#input.on("close", () => this.fireClose());
    return Disposable.create(() => this.#input.off("data", take));
  }
  /** The next whole message; undefined where there is none yet. */
  #next(): Uint8Array | undefined {
    if (this.#length === null) {
      const headers = this.#buffer.tryReadHeaders(true);
      if (!headers) return undefined;
      const said = headers.get("content-length");
      const length = Number.parseInt(said ?? "", 10);
      if (Number.isNaN(length)) throw new Error(`A message with “Content-Length: ${said ?? ""}”.`);
      this.#length = length;
    }
    const body = this.#buffer.tryReadBody(this.#length);
    if (body) this.#length = null;
    return body;
  }
  /** One message that is no JSON does not take the next one along. */
  #give(body: Uint8Array, callback: DataCallback): void {
    try {
      callback(JSON.parse(Buffer.from(body.buffer, body.byteOffset, body.byteLength).toString()));
    } catch (error) {
      this.fireError(error);
    }
  }
}

/**
 * Writes each message, with its header, at once: written apart, the header alone wakes the editor, which then waits for
 * the rest. The class is that of the protocol's library.
 */
class WholeMessageWriter extends AbstractMessageWriter implements MessageWriter {
  readonly #output: NodeJS.WritableStream;

  constructor(output: NodeJS.WritableStream) {
    super();
    this.#output = output;
    output.on("error", (error: Error) => this.fireError(error));
    output.on("close", () => this.fireClose());
  }
  write(message: Message): Promise<void> {
    const text = jsonOf(message);
    const whole = `Content-Length: ${Buffer.byteLength(text)}\r\n\r\n${text}`;
    return new Promise((resolve, reject) => {
      this.#output.write(whole, (error) => (error ? reject(error) : resolve()));
    });
  }
  end(): void {
    this.#output.end();
  }
}

/** A message as JSON; an answer that is text already becomes a part of it as it is. */
function jsonOf(message: Message): string {
  const { id, result } = message as Partial<ResponseMessage>;
  if (!(result instanceof Written)) return JSON.stringify(message);
  return `{"jsonrpc":"2.0","id":${JSON.stringify(id)},"result":${result.json}}`;
}

/** Reads messages from `input`, writes those of the server to `output`. */
export function connectionOver(input: NodeJS.ReadableStream, output: NodeJS.WritableStream): Connection {
  const reader = new PromptMessageReader(input);
  const writer = new WholeMessageWriter(output);
  const refuse = (id: unknown, code: number, message: string) => {
    const isId = typeof id === "number" || typeof id === "string";
    const answer = { jsonrpc: "2.0", id: isId ? id : null, error: { code, message } };
    // Who has closed the stream no longer waits for it.
    writer.write(answer as Message).catch(() => {});
  };
  reader.onError((error) => {
    if (error instanceof SyntaxError) refuse(null, PARSE_ERROR, `This message is no JSON: ${error.message}`);
  });
  const handleMessage = (message: Message, next: (message: Message) => void) => {
    const isKnown =
      typeof message === "object" &&
      message !== null &&
      (Message.isRequest(message) || Message.isNotification(message) || Message.isResponse(message));
    if (isKnown) next(message);
    else
      refuse(
        (message as { id?: unknown } | null)?.id,
        INVALID_REQUEST,
        "This is neither a request, a notification nor an answer; several messages at once are sent one after another.",
      );
  };
  return createConnection(ProposedFeatures.all, reader, writer, { messageStrategy: { handleMessage } });
}
