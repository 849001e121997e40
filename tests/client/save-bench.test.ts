/** Saving the bench list, with an editor of which only these few calls are there. */
import { beforeEach, expect, test, vi } from "vitest";
import type { BenchFileParams, BenchFileResult } from "../../shared/protocol/bench-file.ts";

const editor = vi.hoisted(() => ({
  chosen: undefined as string | undefined,
  proposed: "",
  answer: undefined as string | undefined,
  told: [] as string[],
  written: [] as [string, string][],
  opened: [] as string[],
  fails: false,
}));

vi.mock("vscode", () => {
  class Uri {
    constructor(readonly text: string) {}
    static parse = (text: string) => new Uri(text);
    get scheme() {
      return this.text.split(":")[0];
    }
    get path() {
      return this.text.replace(/^[^:]+:\/\//, "");
    }
    toString() {
      return this.text;
    }
  }
  return {
    Uri,
    commands: { executeCommand: async (name: string, uri: Uri) => editor.opened.push(`${name} ${uri}`) },
    env: { openExternal: async (uri: Uri) => editor.opened.push(`outside ${uri}`) },
    window: {
      async showSaveDialog({ defaultUri }: { defaultUri: Uri }) {
        editor.proposed = defaultUri.toString();
        return editor.chosen === undefined ? undefined : new Uri(editor.chosen);
      },
      async showInformationMessage(message: string) {
        editor.told.push(message);
        return editor.answer;
      },
    },
    workspace: {
      fs: {
        async writeFile(uri: Uri, bytes: Uint8Array) {
          if (editor.fails) throw new Error("the disk is full");
          editor.written.push([uri.toString(), new TextDecoder().decode(bytes)]);
        },
      },
    },
  };
});
vi.mock("../../client/src/script-editors.ts", () => ({ activeScript: () => undefined }));
vi.mock("../../client/src/pick-craft.ts", () => ({ pickCraft: async () => undefined }));

const { Uri } = await import("vscode");
const { saveBench } = await import("../../client/src/save-bench.ts");

const JUG = "file:///shed/jug.fettle";
beforeEach(() => {
  Object.assign(editor, { chosen: undefined, answer: undefined, told: [], written: [], opened: [], fails: false });
});

async function save(refusal?: string, from: unknown = Uri.parse(JUG)): Promise<BenchFileParams[]> {
  const asked: BenchFileParams[] = [];
  const ask = async (_: string, params: unknown): Promise<BenchFileResult> => {
    const { form } = params as BenchFileParams;
    asked.push(params as BenchFileParams);
    if (refusal !== undefined) return { kind: "refused", message: refusal };
    return { kind: "text", text: `the ${form}`, name: "Jug", proposed: "file:///shed/jug-bench.html" as never };
  };
  const panel = { drawnCraft: () => undefined, benchShown: () => "due" as const };
  await saveBench({ ask: ask as never, scripts: { list: async () => null }, panel }, from);
  return asked;
}

test("as a page, beside the craft: as much as the panel shows", async () => {
  editor.chosen = "file:///shed/jug-bench.html";
  expect(await save()).toEqual([{ uri: JUG, craft: undefined, form: "page", shown: "due" }]);
  expect(editor.proposed).toBe("file:///shed/jug-bench.html");
  expect(editor.written).toEqual([["file:///shed/jug-bench.html", "the page"]]);
  expect(editor.told).toEqual(["The bench list of “Jug” is saved."]);
});

test("as Markdown where the name says so", async () => {
  editor.chosen = "file:///shed/jug.MD";
  await save();
  expect(editor.written).toEqual([["file:///shed/jug.MD", "the markdown"]]);
});

test.each([
  ["file:///shed/jug.html", "outside file:///shed/jug.html"],
  ["file:///shed/jug.md", "vscode.open file:///shed/jug.md"],
  ["vscode-vfs:///shed/jug.html", "vscode.open vscode-vfs:///shed/jug.html"],
])("%s is opened as %s", async (chosen, opened) => {
  Object.assign(editor, { chosen, answer: "Open" });
  await save();
  expect(editor.opened).toEqual([opened]);
});

test("nothing is written where it is dismissed, refused or has no craft, and a failure is told", async () => {
  await save();
  await save("No craft uses this file.");
  expect(await save(undefined, null)).toEqual([]);
  expect([editor.written, editor.told]).toEqual([[], ["No craft uses this file."]]);
  Object.assign(editor, { chosen: "file:///shed/jug.html", fails: true, told: [] });
  await save();
  expect(editor.told).toEqual(["The bench list could not be saved: the disk is full"]);
});
