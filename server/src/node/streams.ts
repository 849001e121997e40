/** A connection over two streams, which also answers what is no message at all. */
import {
  AbstractMessageWriter,
  type Connection,
  createConnection,
  Message,
  type MessageWriter,
  ProposedFeatures,
  StreamMessageReader,
} from "vscode-languageserver/node";

/** Codes of JSON-RPC 2.0. */
const PARSE_ERROR = -32700;
const INVALID_REQUEST = -32600;

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
    const text = JSON.stringify(message);
    const whole = `Content-Length: ${Buffer.byteLength(text)}\r\n\r\n${text}`;
    return new Promise((resolve, reject) => {
      this.#output.write(whole, (error) => (error ? reject(error) : resolve()));
    });
  }
  end(): void {
    this.#output.end();
  }
}

/** Reads messages from `input`, writes those of the server to `output`. */
export function connectionOver(input: NodeJS.ReadableStream, output: NodeJS.WritableStream): Connection {
  const reader = new StreamMessageReader(input);
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
