/** What the editor asks, and does, when files are renamed, moved or deleted. */
import { beforeEach, describe, expect, test, vi } from "vitest";
import { followUseLines } from "../../client/src/use-lines.ts";
import { asUri } from "../../shared/protocol/addresses.ts";
import type { UseLinesResult } from "../../shared/protocol/use-lines.ts";

type Asked = { message: string; detail: string; answers: string[] };

const editor = vi.hoisted(() => ({
  way: "ask",
  answer: null as string | null,
  asked: [] as { message: string; detail: string; answers: string[] }[],
  warnings: [] as string[],
  edits: [] as { file: string; text: string }[],
  /** Texts of documents that are open, by their addresses. */
  open: {} as Record<string, string>,
  takes: true,
}));

vi.mock("vscode", () => ({
  ConfigurationTarget: { Global: 1 },
  Uri: { parse: (text: string) => ({ toString: () => text }) },
  Range: class {},
  WorkspaceEdit: class {
    made: { file: string; text: string }[] = [];
    replace(uri: object, _: unknown, text: string) {
      this.made.push({ file: String(uri), text });
    }
  },
  window: {
    async showInformationMessage(message: string, { detail }: { detail: string }, ...items: { title: string }[]) {
      editor.asked.push({ message, detail, answers: items.map(({ title }) => title) });
      return items.find(({ title }) => title === editor.answer);
    },
    showWarningMessage: (message: string) => void editor.warnings.push(message),
  },
  workspace: {
    get textDocuments() {
      return Object.entries(editor.open).map(([uri, text]) => ({ uri: { toString: () => uri }, getText: () => text }));
    },
    getConfiguration: () => ({
      get: () => editor.way,
      update: async (_: string, value: string) => {
        editor.way = value;
      },
    }),
    async applyEdit({ made }: { made: typeof editor.edits }, { isRefactoring }: { isRefactoring: boolean }) {
      expect(isRefactoring).toBe(true);
      if (editor.takes) editor.edits.push(...made);
      return editor.takes;
    },
  },
}));

beforeEach(() =>
  Object.assign(editor, { way: "ask", answer: null, asked: [], warnings: [], edits: [], open: {}, takes: true }),
);

const jug = asUri("file:///shed/jug.fettle");
const range = { start: { line: 2, character: 4 }, end: { line: 2, character: 9 } };
const result = (more: Partial<UseLinesResult> = {}): UseLinesResult => ({
  files: [{ file: jug, edits: [{ range, was: '"old"', text: '"new"' }] }],
  lines: 1,
  uses: more.lines ?? 1,
  craft: [],
  left: [],
  ...more,
});
const uri = (text: string) => ({ toString: () => text }) as never;
const rename = { files: [{ oldUri: uri("file:///shed/old.fettle"), newUri: uri("file:///shed/new.fettle") }] };
const deletion = { files: [uri("file:///shed/my%20base.fettle")] };
const next = async () => {};

/** Runs an operation with this answer of the server; gives what the client warned of in its log. */
async function perform(kind: "move" | "delete", answered: UseLinesResult | null | Error): Promise<string[]> {
  const log: string[] = [];
  const asks: unknown[] = [];
  const lines = followUseLines(
    (async (_: string, params: unknown) => {
      asks.push(params);
      if (answered instanceof Error) throw answered;
      return answered;
    }) as never,
    (message) => log.push(message),
  );
  const given = kind === "move" ? await lines.willRenameFiles(rename) : await lines.willDeleteFiles(deletion);
  // The editor is given no edits of its own to ask about.
  expect(given).toBeNull();
  expect(editor.edits).toEqual([]);
  if (kind === "move") await lines.didRenameFiles(rename, next);
  else await lines.didDeleteFiles(deletion, next);
  await new Promise((resolve) => setTimeout(resolve, 0));
  expect(asks).toHaveLength(editor.way === "never" ? 0 : 1);
  return log;
}

const made = [{ file: jug, text: '"new"' }];

test.each([
  ["Change the Line", made, "ask"],
  ["Always", made, "always"],
  ["Leave Them", [], "ask"],
  [null, [], "ask"],
])("to the question, “%s”", async (answer, edits, way) => {
  editor.answer = answer;
  await perform("move", result());
  expect([editor.edits, editor.way]).toEqual([edits, way]);
  expect(editor.asked.map(({ message, answers }) => [message, answers])).toEqual([
    ["Let 1 “use” line in 1 script lead to the new place?", ["Change the Line", "Always", "Leave Them"]],
  ]);
});

test.each([
  ["always", made],
  ["never", []],
])("set to %s, nothing is asked", async (way, edits) => {
  editor.way = way;
  await perform("move", result());
  expect([editor.edits, editor.asked]).toEqual([edits, []]);
});

describe("before lines are removed it is said who used what is deleted", () => {
  const question = async (more: Partial<UseLinesResult>): Promise<Asked> => {
    await perform("delete", result(more));
    return editor.asked[0]!;
  };

  test("two craft", async () => {
    const { message, detail, answers } = await question({ lines: 2, craft: ["Jug", "Mug"] });
    expect(message).toBe("Remove 2 “use” lines in 1 script that name what is deleted?");
    expect(detail).toContain("2 craft used “my base.fettle”: “Jug” and “Mug”.");
    expect(answers[0]).toBe("Remove the Lines");
  });

  test("of a board too", async () => {
    const { message, detail } = await question({ lines: 3, uses: 2, craft: ["Jug"] });
    expect(message).toBe("Remove 3 lines in 1 script that name what is deleted?");
    expect(detail).toContain("1 craft used “my base.fettle”: “Jug”.");
  });

  test("many craft", async () => {
    const { detail } = await question({ craft: Array.from({ length: 40 }, (_, i) => `Pot ${i}`) });
    expect(detail).toContain(
      "40 craft used “my base.fettle”: “Pot 0”, “Pot 1”, “Pot 2”, “Pot 3”, “Pot 4” and 35 more.",
    );
  });

  test("none, but a layer", async () => expect((await question({})).detail).toMatch(/^What it said/));
});

test("what names nothing asks nothing", async () => {
  await perform("delete", result({ files: [], lines: 0 }));
  await perform("move", null);
  expect(editor.asked).toEqual([]);
});

test("what was typed over while the question stood stays, and it is said", async () => {
  editor.answer = "Change the Line";
  editor.open = { [jug]: '"other"' };
  await perform("move", result());
  expect([editor.edits, editor.warnings]).toEqual([
    [],
    ["Some lines were changed meanwhile and are left as they are: jug.fettle."],
  ]);
});

test("a document with other line ends is the same document", async () => {
  editor.way = "always";
  editor.open = { [jug]: "use\r\n" };
  await perform("delete", result({ files: [{ file: jug, edits: [{ range, was: "use\n", text: "" }] }] }));
  expect(editor.edits).toHaveLength(1);
});

test("lines that cannot follow, an editor that takes no edits, and a server that fails are told of", async () => {
  editor.way = "always";
  editor.takes = false;
  await perform("move", result({ left: ["Line 3 keeps its “use”."] }));
  expect(editor.warnings).toEqual([
    "Line 3 keeps its “use”.",
    "The editor did not take the change of the lines: is a script read-only?",
  ]);
  expect(await perform("move", new Error("gone"))).toEqual(["The lines that name files could not be looked at: gone"]);
});
