/** Putting a craft back after a wipe, with an editor of which only these few calls are there. */
import { beforeEach, expect, test, vi } from "vitest";

const editor = vi.hoisted(() => ({
  day: "2026-11-29" as string | undefined,
  invalid: [] as (string | undefined)[],
  chosen: undefined as string | undefined,
  labels: [] as string[],
  shown: [] as string[],
  told: [] as string[],
  asked: [] as { request: string; params: Record<string, unknown> }[],
}));

vi.mock("vscode", () => {
  class Uri {
    constructor(readonly text: string) {}
    static parse = (text: string) => new Uri(text);
    toString() {
      return this.text;
    }
  }
  return {
    Uri,
    ThemeIcon: class {},
    ViewColumn: { Beside: -2 },
    window: {
      async showInputBox({ validateInput }: { validateInput(text: string): string | undefined }) {
        editor.invalid = ["2026-02-30", "today", "2026-02-28"].map(validateInput);
        return editor.day;
      },
      async showQuickPick(items: { does: string; label: string }[]) {
        editor.labels = items.map(({ label }) => label);
        return items.find(({ does }) => does === editor.chosen);
      },
      showTextDocument: async ({ content }: { content: string }) => editor.shown.push(content),
      showInformationMessage: async (message: string) => void editor.told.push(message),
    },
    workspace: {
      openTextDocument: async (options: { content: string }) => options,
      fs: { readFile: async (uri: Uri) => new TextEncoder().encode(`the text of ${uri}`) },
    },
  };
});
vi.mock("../../client/src/script-editors.ts", () => ({ activeScript: () => undefined }));
vi.mock("../../client/src/pick-craft.ts", () => ({ pickCraft: async () => undefined }));
vi.mock("../../client/src/save-bench.ts", () => ({
  saveList: async (fetch: (form: string) => Promise<{ text: string }>, what: string) =>
    editor.told.push(`${what}: ${(await fetch("page")).text}`),
}));
vi.mock("../../client/src/versioned-edits.ts", () => ({
  makeEdits: async (ask: () => Promise<{ kind: string }>) => {
    const answer = await ask();
    return answer.kind === "refused" ? answer : { kind: "made", documents: [] };
  },
}));

const { Uri } = await import("vscode");
const { putBack } = await import("../../client/src/put-back.ts");

beforeEach(() => {
  Object.assign(editor, { day: "2026-11-29", chosen: undefined, shown: [], told: [], asked: [], labels: [] });
});

async function run(answers: Record<string, unknown> = {}): Promise<void> {
  const usual: Record<string, unknown> = {
    "fettle/boardOf": { kind: "board", base: "file:///shed/jug.txt" },
    "fettle/benchFile": { kind: "text", text: "what to do", name: "Jug", proposed: "file:///shed/jug-put-back.html" },
    "fettle/benchEdit": { kind: "edits", files: [], told: "Written: “flashed-on 2026-11-29”." },
  };
  const ask = async (request: string, params: unknown) => {
    editor.asked.push({ request, params: params as Record<string, unknown> });
    return answers[request] ?? usual[request];
  };
  await putBack(
    { ask: ask as never, scripts: { list: async () => null }, panel: { drawnCraft: () => undefined } },
    Uri.parse("file:///shed/jug.fettle"),
  );
}

const asked = (request: string) => editor.asked.filter((each) => each.request === request).map(({ params }) => params);

test("what to do is shown, by the text that was saved, and the day is written where the pilot says so", async () => {
  editor.chosen = "write";
  await run();
  expect(asked("fettle/benchFile")).toMatchObject([
    { form: "markdown", wiped: { day: "2026-11-29", saved: "the text of file:///shed/jug.txt" } },
    { form: "markdown", wiped: { day: "2026-11-29" } },
  ]);
  expect(asked("fettle/benchEdit")).toMatchObject([
    { gesture: { kind: "reading", name: "board.flashed-on", text: "2026-11-29" } },
  ]);
  expect([editor.shown, editor.told]).toEqual([["what to do"], ["Written: “flashed-on 2026-11-29”."]]);
});

test.each(["show", "save", undefined])("nothing is written with “%s”", async (chosen) => {
  editor.chosen = chosen;
  await run();
  expect(asked("fettle/benchEdit")).toEqual([]);
  expect(editor.shown).toEqual(chosen === "show" ? ["what to do"] : []);
  expect(editor.told).toEqual(chosen === "save" ? ["list for putting back: what to do"] : []);
});

test("a refusal is told, and what to do is shown all the same", async () => {
  editor.chosen = "write";
  await run({ "fettle/benchEdit": { kind: "refused", message: "The line cannot be read." } });
  expect([editor.shown, editor.told]).toEqual([["what to do"], ["The line cannot be read."]]);
});

test("without a craft that is told, without a day nothing is asked, and no day but one of the calendar is taken", async () => {
  await run({ "fettle/benchFile": { kind: "refused", message: "No craft uses this file." } });
  expect([editor.labels, editor.told]).toEqual([[], ["No craft uses this file."]]);
  Object.assign(editor, { day: undefined, asked: [] });
  await run();
  expect(editor.asked).toEqual([]);
  expect(editor.invalid).toEqual(["A day, such as 2026-03-15", "A day, such as 2026-03-15", undefined]);
});

test("without a dialect or a text that was saved there is none", async () => {
  editor.chosen = "show";
  await run({ "fettle/boardOf": { kind: "refused", message: "No dialect." } });
  expect(asked("fettle/benchFile")).toMatchObject([{ wiped: { saved: null } }]);
});
