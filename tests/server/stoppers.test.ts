/** What might stop a server: each is answered, and whoever asks meanwhile is not kept waiting. */
import { afterEach, expect, test } from "vitest";
import { readUsed } from "../../server/src/lsp/read-used.ts";
import type { Workspace } from "../../shared/model/workspace.ts";
import { filesInMemory, type Session, startSession } from "./session.ts";

const JUG = "file:///shed/jug.fettle";
let session: Session;
afterEach(() => session.end());

const ask = <T>(method: string, more: object = {}): Promise<T> =>
  session.client.sendRequest(`textDocument/${method}`, { textDocument: { uri: JUG }, ...more });

async function opened(text: string, texts: Record<string, string> = {}): Promise<void> {
  session = await startSession(filesInMemory(texts));
  await session.open(JUG, text);
}

test.each([
  ["a condition of forty thousand parts", `modes\n  arm when ${"ch5 above 1500 us or ".repeat(40_000)}level`],
  ["a list of a hundred thousand", `link\n  preset-channels ${"1500 us, ".repeat(100_000)}1500 us`],
  ["a name that does not end", `pack\n  ${"a".repeat(900_000)}`],
  ["a control of fifty thousand positions", `controls\n  T switch ch5 ${"up 1000 us ".repeat(50_000)}`],
  ["brackets in brackets", `modes\n  arm when ${"(".repeat(900_000)}`],
])("%s on one line is read by nobody, and said to be too long", async (_, body) => {
  await opened(`craft "Jug"\n${body}\n`);
  const findings = await session.pull(JUG);
  expect(findings.map(({ message }) => message)).toEqual([
    expect.stringMatching(/^This file was not read: line 3 has \d+ characters, and a line is read up to 20000/),
  ]);
  const position = { line: 2, character: 12 };
  expect(await ask("hover", { position })).toBeNull();
  expect(await ask("completion", { position })).toMatchObject({ items: [] });
  expect(await ask("semanticTokens/full")).toEqual({ data: [] });
  expect(await session.client.sendRequest("fettle/panel", { uri: JUG })).toMatchObject({ goggles: null });
  expect(session.log).toEqual([]);
});

test.each([
  ["a condition", `modes\n  arm when ${"not ".repeat(4_000)}level`],
  ["brackets in brackets", `modes\n  arm when ${"(".repeat(9_000)}level${")".repeat(9_000)}`],
  ["a list", `link\n  two-level ${"1, ".repeat(6_000)}1`],
  ["names that are dropped", `pack\n  drop ${"cells ".repeat(3_000)}`],
  ["quotes", `pack\n  cells ${'"'.repeat(19_000)}`],
])("%s as long as a line may be is answered without a fault", async (_, body) => {
  await opened(`craft "Jug"\n${body}\n`);
  const position = { line: 2, character: 12 };
  await session.pull(JUG);
  for (const [method, more] of [
    ["hover", { position }],
    ["completion", { position }],
    ["signatureHelp", { position }],
    ["documentSymbol", {}],
    ["semanticTokens/full", {}],
    ["inlayHint", { range: { start: position, end: position } }],
  ] as const)
    await ask(method, more);
  await session.client.sendRequest("fettle/panel", { uri: JUG });
  expect(session.log).toEqual([]);
});

test("of very many findings the gravest are sent, and how many more there are", async () => {
  const warning = "  cells 4\n";
  const error = "  teapot 1\n";
  await opened(`craft "Jug"\npack\n${warning.repeat(1500)}${error.repeat(600)}`);
  const [more, ...findings] = await session.pull(JUG);
  expect(findings).toHaveLength(1000);
  expect(findings.filter(({ severity }) => severity === 1)).toHaveLength(600);
  expect(more).toMatchObject({ severity: 3, message: expect.stringMatching(/^1\d\d\d more findings are not shown/) });
  // In the order in which they stand.
  const lines = findings.map(({ range }) => range.start.line);
  expect(lines).toEqual([...lines].sort((a, b) => a - b));
});

test("while a large workspace is looked through, others have their turn", async () => {
  await opened('craft "Jug"\n');
  let turns = 0;
  const counter = setInterval(() => turns++, 0);
  const workspace = {
    script() {
      const until = performance.now() + 5;
      while (performance.now() < until);
      return null;
    },
  } as unknown as Workspace;
  const paths = Array.from({ length: 40 }, (_, i) => `/shed/${i}.fettle`);
  await readUsed(() => paths, { now: () => workspace, isRead: () => true, read: async () => {} });
  clearInterval(counter);
  // 200 ms in slices of 20 ms.
  expect(turns).toBeGreaterThan(4);
});

test("a chain of uses a thousand files long is followed to its end", async () => {
  const links = Array.from({ length: 1000 }, (_, i) => [
    `/shed/l${i}.fettle`,
    `layer "L${i}"\nuse "l${i + 1}.fettle"\n`,
  ]);
  await opened('craft "Jug"\nuse "l0.fettle"\n', {
    ...Object.fromEntries(links),
    "/shed/l1000.fettle": 'layer "End"\npack\n  cells 99\n',
  });
  // It is told of where it comes in.
  expect(await session.pull(JUG)).toMatchObject([
    { code: "use-broken", message: expect.stringContaining("l0.fettle") },
  ]);
  expect(session.log).toEqual([]);
});

test("a circle of uses ends", async () => {
  await opened('craft "Jug"\nuse "a.fettle"\n', {
    "/shed/a.fettle": 'layer "A"\nuse "b.fettle"\n',
    "/shed/b.fettle": 'layer "B"\nuse "a.fettle"\n',
  });
  expect((await session.pull(JUG)).map(({ code }) => code)).toEqual(["use-broken"]);
  expect(session.log).toEqual([]);
});
