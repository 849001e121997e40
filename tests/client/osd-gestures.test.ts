/** How a gesture comes into the documents, with an editor of which only these few calls are there. */
import { beforeEach, expect, test, vi } from "vitest";
import { asUri } from "../../shared/protocol/addresses.ts";
import type { OsdEditParams, OsdEditResult } from "../../shared/protocol/osd-edit.ts";

interface FakeDocument {
  readonly uri: { toString(): string };
  version: number;
  readonly isClosed: boolean;
}

const editor = vi.hoisted(() => ({
  documents: new Map<string, FakeDocument>(),
  applied: [] as unknown[],
  takesEdits: true,
  pick: undefined as string | undefined,
  asked: [] as string[],
  warnings: [] as string[],
  /** The document in sight, and what was done with it there. */
  shown: "jug",
  steps: [] as string[],
  /** Called as a document is opened. */
  opening: (_: string): void => undefined,
}));

vi.mock("vscode", () => ({
  Uri: { parse: (text: string) => ({ toString: () => text }) },
  Range: class {
    readonly at: number[];
    constructor(...at: number[]) {
      this.at = at;
    }
  },
  TextEdit: class {
    constructor(
      readonly range: unknown,
      readonly text: string,
    ) {}
  },
  WorkspaceEdit: class {
    readonly files: [string, unknown[]][] = [];
    set(uri: { toString(): string }, edits: unknown[]) {
      this.files.push([uri.toString(), edits]);
    }
  },
  QuickPickItemKind: { Separator: -1 },
  TabInputText: class {},
  TabInputWebview: class {},
  window: {
    get visibleTextEditors() {
      return [{ document: documentOf(editor.shown), viewColumn: 2 }];
    },
    tabGroups: { all: [], activeTabGroup: { viewColumn: 2 } },
    async showTextDocument(document: FakeDocument, options: unknown) {
      expect(options).toMatchObject({ viewColumn: 2, preserveFocus: true });
      editor.shown = document.uri.toString();
    },
    async showQuickPick(items: { label: string; description?: string }[]) {
      editor.asked.push(...items.map(({ label, description }) => `${label}: ${description ?? ""}`));
      const expected = editor.pick;
      return expected && items.find((item) => `${item.label} ${item.description}`.includes(expected));
    },
    async showWarningMessage(message: string) {
      editor.warnings.push(message);
    },
  },
  workspace: {
    async openTextDocument(uri: { toString(): string }): Promise<FakeDocument> {
      editor.opening(uri.toString());
      return documentOf(uri.toString());
    },
    async applyEdit(edit: { files: unknown[] }) {
      if (editor.takesEdits) editor.applied.push(edit.files);
      return editor.takesEdits;
    },
  },
}));

/** The same document at each time that it is asked for, in the editor's way. */
function documentOf(name: string): FakeDocument {
  const known = editor.documents.get(name) ?? { uri: { toString: () => name }, isClosed: false, version: 1 };
  editor.documents.set(name, known);
  return known;
}

const { osdGestures } = await import("../../client/src/osd-gestures.ts");
const { repair } = await import("../../client/src/insertions.ts");

beforeEach(() => {
  Object.assign(editor, { applied: [], asked: [], warnings: [], takesEdits: true, pick: undefined });
  Object.assign(editor, { shown: "jug", steps: [], documents: new Map(), opening: () => undefined });
  documentOf("jug").version = 3;
});

const made = {
  uri: asUri("jug"),
  craft: undefined,
  craftName: "Jug",
  page: "osd" as const,
  gesture: { kind: "move" as const, element: "amps", column: 1, row: 1 },
  keyboard: {
    async giveBack(after: readonly string[] = []) {
      editor.steps.push([editor.shown, ...after, "panel"].join(", "));
    },
    answered: () => undefined,
  },
};
const at = (line: number) => ({ start: { line, character: 0 }, end: { line, character: 1 } });
const edits = (file: string, version: number | null, line = 4): OsdEditResult => ({
  kind: "edits",
  files: [{ file: asUri(file), version, edits: [{ range: at(line), text: "x" }] }],
});
const choose: OsdEditResult = { kind: "choose", layer: "Wide", sharedWith: ["Mug", "Vase"] };

/** Gestures on a server that gives these answers, in turn, and what it was asked. */
function answering(...answers: (OsdEditResult | ((params: OsdEditParams) => OsdEditResult))[]) {
  const asked: OsdEditParams[] = [];
  const ask = async (_: string, params: unknown) => {
    asked.push(params as OsdEditParams);
    const answer = answers.length > 1 ? answers.shift()! : answers[0]!;
    return typeof answer === "function" ? answer(params as OsdEditParams) : answer;
  };
  return { asked, gestures: osdGestures(ask as Parameters<typeof osdGestures>[0]) };
}

test("edits made for the document as it is are applied once, as one edit", async () => {
  const { asked, gestures } = answering(edits("jug", 3));
  expect(await gestures.perform(made)).toBe(true);
  expect(asked).toHaveLength(1);
  expect(editor.applied).toEqual([[["jug", [{ range: { at: [4, 0, 4, 1] }, text: "x" }]]]]);
});

test("edits made for another version are never applied: they are asked for again", async () => {
  const { asked, gestures } = answering(edits("jug", 2, 4), edits("jug", 3, 5));
  expect(await gestures.perform(made)).toBe(true);
  expect(asked).toHaveLength(2);
  expect(JSON.stringify(editor.applied)).toContain("[5,0,5,1]");
  expect(editor.applied).toHaveLength(1);
});

test("a document that changes while another is being opened has its edits asked for again", async () => {
  const both = (jug: number): OsdEditResult => ({
    kind: "edits",
    files: ["jug", "wide"].map((file) => ({
      file: asUri(file),
      version: file === "jug" ? jug : 1,
      edits: [{ range: at(4), text: "x" }],
    })),
  });
  documentOf("wide");
  editor.opening = (name) => {
    if (name === "wide") documentOf("jug").version = 4;
  };
  const { asked, gestures } = answering(both(3), both(4));
  expect(await gestures.perform(made)).toBe(true);
  expect(asked).toHaveLength(2);
  expect(editor.applied).toHaveLength(1);
});

test("a script that never stands still is left alone, and the pilot is told", async () => {
  const { asked, gestures } = answering(edits("jug", 2));
  expect(await gestures.perform(made)).toBe(false);
  expect(asked).toHaveLength(3);
  expect(editor.applied).toEqual([]);
  expect(editor.warnings).toEqual([expect.stringContaining("nothing was written")]);
});

test("a file that is not open is opened first, so that its version is known", async () => {
  const { asked, gestures } = answering(() => edits("wide", editor.documents.has("wide") ? 1 : null));
  expect(await gestures.perform(made)).toBe(true);
  expect(asked).toHaveLength(2);
  expect(editor.applied).toHaveLength(1);
});

test("a layer is asked about, and dismissing the question writes nothing", async () => {
  const { asked, gestures } = answering(choose);
  expect(await gestures.perform(made)).toBe(false);
  expect(asked.map(({ where }) => where)).toEqual([null]);
  // What changes least stands first, where Enter takes it.
  expect(editor.asked[0]).toBe("Only on Jug: in its own file; the layer stays as it is");
  expect(editor.asked[1]).toBe("In the layer “Wide”: also moves it on Mug and Vase: 3 craft");
  expect(editor.applied).toEqual([]);
  expect(editor.warnings).toEqual([]);
});

test("a motor has a request of its own, and what was chosen for good for the OSD is asked anew for it", async () => {
  const { asked, gestures } = answering(({ where }) => (where ? edits("jug", 3) : choose));
  const { page: _, gesture: __, ...rest } = made;
  editor.pick = "Only on Jug always";
  expect(await gestures.perform(made)).toBe(true);
  editor.asked = [];
  const gesture = { kind: "place", motor: 1, place: "front-left" } as const;
  expect(await gestures.perform({ ...rest, page: "motors", gesture })).toBe(true);
  expect(asked.slice(2)).toEqual([
    { uri: "jug", craft: undefined, gesture, where: null },
    { uri: "jug", craft: undefined, gesture, where: "override" },
  ]);
  expect(editor.asked[1]).toBe("In the layer “Wide”: also puts it there on Mug and Vase: 3 craft");
  expect(editor.applied).toHaveLength(2);
});

test("what was chosen is asked of the server; what was chosen for good is not asked again", async () => {
  const answer = ({ where }: OsdEditParams) => (where ? edits("jug", 3) : choose);
  const { asked, gestures } = answering(answer);
  editor.pick = "Only on Jug in its own file";
  await gestures.perform(made);
  expect(asked.map(({ where }) => where)).toEqual([null, "override"]);
  editor.pick = "In the layer “Wide” always";
  await gestures.perform(made);
  const questions = editor.asked.length;
  await gestures.perform(made);
  expect(asked.map(({ where }) => where).slice(2)).toEqual([null, "there", null, "there"]);
  expect(editor.asked).toHaveLength(questions);
  // But a grid is, and for this once.
  await gestures.perform({ ...made, gesture: { kind: "fit", columns: 30, rows: 16 } });
  expect(editor.asked.slice(questions)).toEqual([
    "Only on Jug: in its own file; the layer stays as it is",
    "In the layer “Wide”: also changes the layout of Mug and Vase: 3 craft",
  ]);
});

test("gestures are done one after the other, also after one that failed", async () => {
  const order: string[] = [];
  const { gestures } = answering((params) => {
    order.push(JSON.stringify(params.gesture));
    if (order.length === 1) throw new Error("lost");
    return edits("jug", 3);
  });
  const first = gestures.perform(made);
  const second = gestures.perform({ ...made, gesture: { kind: "remove", element: "amps" } });
  await expect(first).rejects.toThrow("lost");
  expect(await second).toBe(true);
  expect(order).toHaveLength(2);
});

test("what is refused, by the script or by the editor, is said", async () => {
  expect(await answering({ kind: "refused", message: "It is newer." }).gestures.perform(made)).toBe(false);
  editor.takesEdits = false;
  expect(await answering(edits("jug", 3)).gestures.perform(made)).toBe(false);
  expect(editor.warnings).toEqual(["It is newer.", expect.stringContaining("read-only")]);
});

test("a step is taken in the script in sight, and the page has the keyboard again", async () => {
  const { gestures } = answering(edits("jug", 3));
  await gestures.perform(made);
  await gestures.step("undo", undefined, made.keyboard);
  await gestures.step("redo", undefined, made.keyboard);
  const group = "workbench.action.focusSecondEditorGroup";
  expect(editor.steps).toEqual([`jug, ${group}, undo, panel`, `jug, ${group}, redo, panel`]);
  expect(gestures.isStepping()).toBe(false);
});

test("a step in a layer out of sight shows it for that long, and then what was there", async () => {
  documentOf("wide");
  const { gestures } = answering(edits("wide", 1));
  await gestures.perform(made);
  await gestures.step("undo", undefined, made.keyboard);
  expect(editor.steps).toEqual(["wide, workbench.action.focusSecondEditorGroup, undo, panel"]);
  expect(editor.shown).toBe("jug");
});

test("what a button of the panel wrote is what a step takes back, and not an older gesture on another script", async () => {
  documentOf("mug").version = 8;
  const { gestures } = answering(edits("jug", 3));
  await gestures.perform(made);
  const ask = async () => ({ ...edits("mug", 8), select: null }) as never;
  await repair({ ask, write: gestures.write }, "mug", { at: { file: "mug", line: 4 }, code: "E1", title: "Mend it" });
  await gestures.step("undo", undefined, made.keyboard);
  expect(editor.steps).toEqual(["mug, workbench.action.focusSecondEditorGroup, undo, panel"]);
});

test("where nothing was edited from the panel, a step belongs to the script that is drawn; without one it is nothing", async () => {
  const { gestures } = answering(edits("jug", 3));
  await gestures.step("undo", undefined, made.keyboard);
  expect(editor.steps).toEqual([]);
  const drawn = documentOf("jug") as unknown as Parameters<typeof gestures.step>[1];
  await gestures.step("undo", drawn, made.keyboard);
  expect(editor.steps).toHaveLength(1);
});
