/** Files for a server without a disk: what the editor gives, within bounds. */
import { beforeEach, expect, test, vi } from "vitest";
import { listForServer, readForServer } from "../../client/src/file-requests.ts";
import { asUri } from "../../shared/protocol/addresses.ts";

const editor = vi.hoisted(() => ({
  found: [] as string[],
  searches: [] as { include: string; exclude: string; most: number }[],
  size: 0,
  reads: 0,
  /** Set where a search ends only when it is told to. */
  isEndless: false,
}));

vi.mock("vscode", () => ({
  Uri: { parse: (text: string) => text },
  FileSystemError: class extends Error {},
  CancellationTokenSource: class {
    token = { isCancellationRequested: false, onCancelled: () => {} };
    cancel() {
      this.token.isCancellationRequested = true;
      this.token.onCancelled();
    }
    dispose() {}
  },
  workspace: {
    async findFiles(include: string, exclude: string, most: number, token: { onCancelled: () => void }) {
      editor.searches.push({ include, exclude, most });
      if (editor.isEndless)
        await new Promise<void>((resolve) => {
          token.onCancelled = resolve;
        });
      return editor.found.slice(0, most).map((uri) => ({ toString: () => uri }));
    },
    fs: {
      stat: async () => ({ size: editor.size }),
      async readFile() {
        editor.reads++;
        return new TextEncoder().encode("craft");
      },
    },
  },
}));

beforeEach(() => Object.assign(editor, { found: [], searches: [], size: 5, reads: 0, isEndless: false }));

test("scripts and own words are looked for, not in hidden folders and not without end", async () => {
  editor.found = ["file:///shed/jug.fettle"];
  expect(await listForServer()).toEqual({ uris: ["file:///shed/jug.fettle"], cut: false });
  expect(editor.searches).toEqual([
    { include: "**/*.{fettle,catalogue.json,aliases.json}", exclude: "**/{.*,node_modules}/**", most: 10_001 },
  ]);
});

test("where there are more, it says so", async () => {
  editor.found = Array.from({ length: 20_000 }, (_, i) => `file:///shed/${i}.fettle`);
  const { uris, cut } = await listForServer();
  expect([uris.length, cut]).toEqual([10_000, true]);
});

test("a search that goes on and on is ended, and what it found counts", async () => {
  vi.useFakeTimers();
  editor.isEndless = true;
  editor.found = ["file:///shed/jug.fettle"];
  const listed = listForServer();
  await vi.advanceTimersByTimeAsync(2000);
  vi.useRealTimers();
  expect(await listed).toEqual({ uris: ["file:///shed/jug.fettle"], cut: true });
});

test("a file that is too large for a script is not read", async () => {
  const uri = asUri("file:///shed/jug.fettle");
  expect(await readForServer({ uri })).toEqual({ kind: "bytes", base64: btoa("craft") });
  editor.size = 5 * 1024 * 1024;
  expect(await readForServer({ uri })).toMatchObject({ kind: "unreadable", why: expect.stringContaining("5.0 MB") });
  expect(editor.reads).toBe(1);
});
