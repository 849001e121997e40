/** Messages over a stream: whole or in pieces, several at once, and what is none. */
import { PassThrough } from "node:stream";
import { setImmediate as turn } from "node:timers/promises";
import { expect, onTestFinished, test } from "vitest";
import { connectionOver } from "../../server/src/node/streams.ts";

const message = (body: string) => Buffer.from(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
const told = (name: string) => message(JSON.stringify({ jsonrpc: "2.0", method: "jug/told", params: { name } }));

/** What the server is told by these chunks, and what it answers. */
async function after(chunks: readonly Uint8Array[]) {
  const [input, output] = [new PassThrough(), new PassThrough()];
  const connection = connectionOver(input, output);
  onTestFinished(() => connection.dispose());
  const names: string[] = [];
  connection.onNotification("jug/told", ({ name }: { name: string }) => void names.push(name));
  connection.listen();
  for (const chunk of chunks) {
    input.write(chunk);
    await turn();
  }
  for (let i = 0; i < 20; i++) await turn();
  return { names, answers: String(output.read() ?? "") };
}

test("several messages in one piece are given in their order", async () => {
  expect((await after([Buffer.concat([told("a"), told("ü"), told("c")])])).names).toEqual(["a", "ü", "c"]);
});

test("a message may come byte by byte, with a letter of several bytes", async () => {
  const bytes = [...told("Krug ü"), ...told("b")].map((byte) => Uint8Array.of(byte));
  expect((await after(bytes)).names).toEqual(["Krug ü", "b"]);
});

test("what is no JSON is refused, and the message behind it is read", async () => {
  const { names, answers } = await after([Buffer.concat([message("{ jug"), told("b")])]);
  expect(names).toEqual(["b"]);
  expect(answers).toContain('"code":-32700');
});

test("a header without a length is passed over", async () => {
  expect((await after([Buffer.from("Jug: 1\r\n\r\n"), told("b")])).names).toEqual(["b"]);
});
