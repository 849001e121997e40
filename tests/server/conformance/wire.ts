/**
 * A client that speaks over a pipe message by message, so that a test can send whatever it likes, and that holds
 * every message in both directions to the protocol's own types and to what each side said it can do.
 */
import { PassThrough } from "node:stream";
import {
  type ClientCapabilities,
  type Message,
  ResponseError,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver/node";
import type { ServerFiles } from "../../../server/src/lsp/documents.ts";
import { startServer } from "../../../server/src/lsp/start.ts";
import { connectionOver } from "../../../server/src/node/streams.ts";
import { beyondClient } from "./fits-client.ts";
import { at, METHODS } from "./methods.ts";
import { ownJudge } from "./own-schemas.ts";
import { PROGRESS, protocolJudge } from "./protocol-schemas.ts";

/** The bytes of both directions. */
export interface Pipe {
  readonly toServer: NodeJS.WritableStream;
  readonly fromServer: NodeJS.ReadableStream;
}

export interface Told {
  readonly id?: number | string | null;
  readonly method?: string;
  readonly params?: unknown;
  // biome-ignore lint/suspicious/noExplicitAny: whatever an answer holds is held to its schema.
  readonly result?: any;
  readonly error?: { readonly code: number; readonly message: string; readonly data?: unknown };
}

export interface Wire {
  /** What the server answers, a result or an error. `onSent` is called with the id of the request. */
  request(method: string, params?: unknown, onSent?: (id: number) => void): Promise<Told>;
  notify(method: string, params?: unknown): void;
  /** A message as it is, which is held to nothing. */
  send(message: unknown): void;
  /** Bytes as they are. */
  write(text: string): void;
  /** All that the server sent, in order. */
  readonly heard: readonly Told[];
  /** What was wrong with messages, in words. */
  readonly faults: readonly string[];
  /** Lines that the server logged as errors. */
  readonly errors: readonly string[];
  /** What the server said it can do; with what it registered later. */
  readonly offered: unknown;
  readonly registered: readonly { readonly id: string; readonly method: string }[];
  /** Once the server has answered all that was sent before. */
  settled(): Promise<void>;
  end(): void;
}

const judge = protocolJudge();
const judgeOwn = ownJudge();
const isOwn = (method: string) => method.startsWith("fettle/");

/** What a client answers where nobody has set anything. */
const ANSWERS: Readonly<Record<string, (params: never) => unknown>> = {
  "workspace/configuration": ({ items }: { items: unknown[] }) => items.map(() => null),
  "workspace/workspaceFolders": () => null,
};

/** The server in this process. */
export function inProcess(files: ServerFiles): Pipe {
  const toServer = new PassThrough();
  const fromServer = new PassThrough();
  startServer(connectionOver(toServer, fromServer), files, ResponseError);
  return { toServer, fromServer };
}

/** A client with these abilities; `answers` are to what the server asks, by method, null where none is given. */
export function openWire(
  { toServer, fromServer }: Pipe,
  abilities: ClientCapabilities,
  answers: Readonly<Record<string, (params: never) => unknown>> = {},
): Wire {
  const reader = new StreamMessageReader(fromServer);
  const writer = new StreamMessageWriter(toServer);
  const heard: Told[] = [];
  const faults: string[] = [];
  const errors: string[] = [];
  const registered: { id: string; method: string }[] = [];
  const waiting = new Map<number | string, { method: string; params: unknown; resolve: (told: Told) => void }>();
  /** What is streamed under a token, by the method that it was given with. */
  const streams = new Map<number | string, string>();
  /** How far work is, by its token. */
  const works = new Map<number | string, "created" | "begun" | "ended">();
  let offered: unknown;
  let lastId = 0;
  const hold = (fault: string | null | false | undefined) => void (fault && faults.push(fault));
  // A server that has ended takes nothing more.
  const send = (message: unknown) => void writer.write(message as Message).catch(() => {});

  const answered = ({ id, method, params, result, error, ...more }: Told & { jsonrpc?: string }) => {
    const asked = id === null || id === undefined ? undefined : waiting.get(id);
    if (!asked) return hold(id !== null && `an answer to ${String(id)}, which nobody asked`);
    waiting.delete(id!);
    hold((result === undefined) === (error === undefined) && `${asked.method}: not either a result or an error`);
    hold(Object.keys(more).some((key) => key !== "jsonrpc") && `${asked.method}: an answer with ${Object.keys(more)}`);
    if (error) hold(isOwn(asked.method) || error.data === undefined ? null : judge(asked.method, "error", error.data));
    else if (isOwn(asked.method)) hold(judgeOwn(asked.method, "result", result));
    else if (METHODS.has(asked.method)) {
      hold(judge(asked.method, "result", result));
      for (const fault of beyondClient(asked.method, result, abilities)) hold(fault);
    }
    if (asked.method === "initialize" && result) offered = result.capabilities;
    const { partialResultToken, workDoneToken } = (asked.params ?? {}) as Record<string, number | string | undefined>;
    if (partialResultToken !== undefined) streams.delete(partialResultToken);
    if (workDoneToken !== undefined)
      hold(works.get(workDoneToken) === "begun" && `${asked.method}: answered, and its work did not end`);
    asked.resolve({ ...(error ? { error } : { result }) });
  };
  const progressed = ({ token, value }: { token: number | string; value: { kind?: string; percentage?: number } }) => {
    const method = streams.get(token);
    if (method !== undefined) return hold(judge(method, "partial", value));
    hold(judge(PROGRESS, "params", value));
    const before = works.get(token);
    const isInOrder = value.kind === "begin" ? before === "created" : before === "begun";
    hold(!isInOrder && `progress “${value.kind}” under ${token}, which is ${before ?? "unknown"}`);
    works.set(token, value.kind === "end" ? "ended" : "begun");
  };
  const asked = (method: string, params: unknown) => {
    const known = METHODS.get(method);
    if (known?.clientPath && !at(abilities, known.clientPath))
      hold(`${method}: the client did not say that it can (${known.clientPath})`);
    if (method === "window/workDoneProgress/create") works.set((params as { token: string }).token, "created");
    if (method !== "client/registerCapability") return;
    for (const each of (params as { registrations: { id: string; method: string; registerOptions?: unknown }[] })
      .registrations) {
      hold(registered.some(({ id }) => id === each.id) && `${each.id} is registered twice`);
      registered.push({ id: each.id, method: each.method });
      hold(judge(each.method, "registration", each.registerOptions));
      const path = METHODS.get(each.method)?.clientPath ?? "";
      if (!at(abilities, `${path}.dynamicRegistration`)) hold(`${each.method} is registered, which the client cannot`);
    }
  };
  reader.listen((message) => {
    const told = message as unknown as Told;
    heard.push(told);
    if (told.method === undefined) return answered(told);
    const { method, params } = told;
    if (method === PROGRESS) return progressed(params as Parameters<typeof progressed>[0]);
    const known = METHODS.get(method);
    if (!isOwn(method)) {
      hold(!known && `${method} is no message of the protocol`);
      hold(known?.from === "client" && `${method} is the client's to send`);
      if (known) hold(judge(method, "params", params));
    }
    if (method === "window/logMessage") {
      const { type, message: line } = params as { type: number; message: string };
      if (type === 1) errors.push(line);
    }
    if (told.id === undefined) return;
    asked(method, params);
    const result = (answers[method] ?? ANSWERS[method])?.(params as never) ?? null;
    if (known) hold(judge(method, "result", result));
    send({ jsonrpc: "2.0", id: told.id, result });
  });

  const wire: Wire = {
    heard,
    faults,
    errors,
    registered,
    get offered() {
      return offered;
    },
    request(method, params, onSent) {
      const id = ++lastId;
      if (METHODS.has(method)) hold(judge(method, "params", params));
      const { partialResultToken, workDoneToken } = (params ?? {}) as Record<string, number | string | undefined>;
      if (partialResultToken !== undefined) streams.set(partialResultToken, method);
      if (workDoneToken !== undefined) works.set(workDoneToken, "created");
      return new Promise((resolve) => {
        waiting.set(id, { method, params, resolve });
        send({ jsonrpc: "2.0", id, method, ...(params !== undefined && { params }) });
        onSent?.(id);
      });
    },
    notify(method, params) {
      if (METHODS.has(method)) hold(judge(method, "params", params));
      send({ jsonrpc: "2.0", method, ...(params !== undefined && { params }) });
    },
    send,
    write: (text) => void toServer.write(text),
    async settled() {
      await wire.request("fettle/page", { name: "pack" });
    },
    end: () => reader.dispose(),
  };
  return wire;
}

/** As an editor begins: `initialize`, its answer, `initialized`. */
export async function begin(
  wire: Wire,
  abilities: ClientCapabilities,
  { options, folder = "file:///shed" }: { options?: unknown; folder?: string } = {},
): Promise<Told> {
  const answer = await wire.request("initialize", {
    processId: null,
    rootUri: folder,
    capabilities: abilities,
    workspaceFolders: [{ uri: folder, name: "shed" }],
    ...(options !== undefined && { initializationOptions: options }),
  });
  wire.notify("initialized", {});
  return answer;
}

/** The position of `|` in a text that has one, and the text without it. */
export function marked(text: string): { text: string; position: { line: number; character: number } } {
  const before = text.slice(0, text.indexOf("|")).split("\n");
  return { text: text.replace("|", ""), position: { line: before.length - 1, character: before.at(-1)!.length } };
}
