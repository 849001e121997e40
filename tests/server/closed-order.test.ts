/** Whatever happens in a workspace, in whatever order: the findings of scripts that are not open stay true. */
import fc from "fast-check";
import { afterEach, expect, test } from "vitest";
import type { Diagnostic } from "vscode-languageserver/node";
import { base, craft, following, nameOf, pack, type Report, shed, twice, uriOf } from "./closed-shed.ts";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

let session: Session;
afterEach(() => session?.end());

const watched = (...changes: { uri: string; type: 1 | 2 | 3 }[]) =>
  session.client.sendNotification("workspace/didChangeWatchedFiles", { changes });
const typed = (name: string, version: number, text: string) =>
  session.client.sendNotification("textDocument/didChange", {
    textDocument: { uri: uriOf(name), version },
    contentChanges: [{ text }],
  });
const closed = (name: string) =>
  session.client.sendNotification("textDocument/didClose", { textDocument: { uri: uriOf(name) } });
const settings = (fettle: unknown) =>
  session.client.sendNotification("workspace/didChangeConfiguration", { settings: { fettle } });
async function pullAll(): Promise<Report[]> {
  const { items } = await session.client.sendRequest<{ items: Report[] }>("workspace/diagnostic", {
    previousResultIds: [],
  });
  return items;
}

/** What may happen in a workspace, one thing after another. */
const TEXTS = [
  base(),
  base("30"),
  '# allow duplicate-entry: two packs\nlayer "Base"\n',
  craft("Jug", ["base.fettle"], twice),
  craft("Jug", ["urn.fettle", "far/mug.fettle"], pack),
  craft("Mug", ["../base.fettle"], pack),
  craft("Urn", [], twice),
  "kettle\n",
];
const NAMES = ["base", "jug", "far/mug", "urn"] as const;
const step = fc.record({
  what: fc.constantFrom("disk", "delete", "open", "type", "close", "level", "off"),
  name: fc.constantFrom(...NAMES),
  text: fc.nat(TEXTS.length - 1),
});

test("whatever happens, a client that follows knows in the end what one knows that asks afterwards", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 8 }), async (steps) => {
      const texts: Record<string, string> = shed();
      session = await startSession(filesInMemory(texts));
      const stream = following(session);
      const answer = stream.begin();
      const opened = new Map<string, string>();
      let [version, level, isOff] = [1, "warning", false];
      for (const { what, name, text } of steps) {
        const uri = uriOf(name);
        const path = `/shed/${name}.fettle`;
        if (what === "disk") {
          texts[path] = TEXTS[text]!;
          await watched({ uri, type: 1 }, { uri, type: 2 });
        } else if (what === "delete") {
          delete texts[path];
          await watched({ uri, type: 3 });
        } else if (what === "open" && !opened.has(name)) {
          opened.set(name, TEXTS[text]!);
          await session.open(uri, TEXTS[text]!);
        } else if (what === "type" && opened.has(name)) {
          opened.set(name, TEXTS[text]!);
          await typed(name, ++version, TEXTS[text]!);
        } else if (what === "close" && opened.delete(name)) await closed(name);
        else if (what === "level" || what === "off") {
          if (what === "off") isOff = !isOff;
          else level = level === "hint" ? "warning" : "hint";
          await settings({ rules: { "duplicate-entry": level }, findings: { ofClosedScripts: !isOff } });
        }
        if (text % 3 === 0) await new Promise((resolve) => setTimeout(resolve, 25));
      }
      await expect
        .poll(
          async () => {
            const known = [...stream.shown].filter(([uri]) => !opened.has(nameOf(uri)));
            const wanted = await askedAfterwards(texts, opened, level, isOff);
            return [known, wanted].map((all) => JSON.stringify(all.filter(([, items]) => items.length > 0).sort()));
          },
          { timeout: 5000 },
        )
        .toSatisfy(([known, wanted]: string[]) => known === wanted);
      void answer.catch(() => undefined);
      session.end();
    }),
    { numRuns: 12 },
  );

  /** What a server says that begins with everything as it is. */
  async function askedAfterwards(
    texts: Record<string, string>,
    opened: ReadonlyMap<string, string>,
    level: string,
    isOff: boolean,
  ): Promise<[string, Diagnostic[]][]> {
    const first = session;
    try {
      session = await startSession(filesInMemory(texts), PULLING, {
        settings: { rules: { "duplicate-entry": level }, findings: { ofClosedScripts: !isOff } },
      });
      for (const [name, text] of opened) await session.open(uriOf(name), text);
      const reports = await pullAll();
      session.end();
      return reports.map(({ uri, items }) => [uri, items]);
    } finally {
      session = first;
    }
  }
});

test("a folder that is added while a file of another one is being read counts for all findings", async () => {
  const texts: Record<string, string> = { ...shed(), "/other/gone.fettle": base() };
  let folders = ["/shed"];
  let release = () => {};
  let [isSlow, isAsked] = [false, false];
  const files = filesInMemory(texts);
  session = await startSession(
    {
      ...files,
      list: async (asked) => ({
        paths: Object.keys(texts).filter((path) => asked.some((folder) => path.startsWith(`${folder}/`))),
        cut: false,
      }),
      async read(path) {
        if (isSlow && path === "/shed/urn.fettle") {
          isSlow = false;
          await new Promise<void>((resolve) => {
            release = resolve;
          });
        }
        return files.read(path);
      },
    },
    { ...PULLING, workspace: { workspaceFolders: true } },
    undefined,
    undefined,
    (client) =>
      client.onRequest("workspace/workspaceFolders", () => {
        isAsked = true;
        return folders.map((path) => ({ uri: `file://${path}`, name: path }));
      }),
  );
  const { shown, begin } = following(session);
  begin();
  const bowl = () => JSON.stringify(shown.get(uriOf("bowl")));
  await expect.poll(bowl).toContain("there is no such file.");
  await expect.poll(() => shown.size).toBe(5);
  isSlow = true;
  await watched({ uri: uriOf("urn"), type: 2 });
  await expect.poll(() => isSlow).toBe(false);
  folders = ["/shed", "/other"];
  await session.client.sendNotification("workspace/didChangeWorkspaceFolders", {
    event: { added: [{ uri: "file:///other", name: "other" }], removed: [] },
  });
  await expect.poll(() => isAsked).toBe(true);
  await session.client.sendRequest("fettle/page", { name: "pack" });
  // By now all of both is read, the slow one for a second time.
  await session.client.sendRequest("fettle/workspaceTree", { findings: false });
  release();
  await expect.poll(bowl, { timeout: 5000 }).toContain("Did you mean");
});
