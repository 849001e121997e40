/** New Handset… and New Craft… as a pilot answers them: with the real server behind a fake editor, key by key. */
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { filesInMemory, type Session, startSession } from "../server/session.ts";

/** What a pilot does with an input: takes what is marked, leaves, goes back, types an answer, or picks one by its words. */
type Key = "enter" | "escape" | "back" | { readonly type: string } | { readonly pick: string };

const editor = vi.hoisted(() => ({
  folder: true,
  writable: true,
  texts: {} as Record<string, string>,
  /** Answers a question by its words; what is marked is taken where it gives nothing. */
  answer: (_question: string): unknown => undefined,
  questions: [] as string[],
  /** What was opened, by its path; without one by its text. */
  opened: [] as { path?: string; text: string }[],
  messages: [] as { message: string; items: string[] }[],
  contexts: {} as Record<string, unknown>,
  tell: async (_path: string, _text: string) => {},
}));

vi.mock("vscode", () => {
  class Address {
    constructor(readonly path: string) {}
    static joinPath = (base: Address, ...parts: string[]) => new Address([base.path, ...parts].join("/"));
    toString = () => `file://${this.path}`;
  }
  type Item = { label: string; word?: string; alwaysShow?: boolean };
  class Input {
    title = "";
    prompt = "";
    placeholder = "";
    validationMessage: string | undefined;
    private now = "";
    buttons: object[] = [];
    busy = false;
    items: Item[] = [];
    activeItems: Item[] = [];
    selectedItems: Item[] = [];
    canSelectMany = false;
    private on: Record<string, (value?: unknown) => void> = {};
    get value() {
      return this.now;
    }
    set value(text: string) {
      this.now = text;
      this.on.change?.(text);
    }
    onDidAccept = this.listen("accept");
    onDidTriggerButton = this.listen("button");
    onDidHide = this.listen("hide");
    onDidChangeValue = this.listen("change");
    private listen(name: string) {
      return (run: (value?: unknown) => void) => {
        this.on[name] = run;
      };
    }
    dispose() {}
    show() {
      const question = this.prompt || this.placeholder;
      editor.questions.push(question);
      const key = (editor.answer(question) ?? "enter") as Key;
      queueMicrotask(() => {
        if (key === "escape") return this.on.hide!();
        if (key === "back") return this.on.button!();
        if (typeof key === "object" && "type" in key) this.value = key.type;
        if (!this.canSelectMany) {
          const typed = this.items.find(({ alwaysShow }) => alwaysShow);
          const picked = typeof key === "object" && "pick" in key ? find(this.items, key.pick, question) : undefined;
          this.selectedItems = [picked ?? typed ?? this.activeItems[0] ?? this.items[0]!].filter(Boolean);
        }
        this.on.accept!();
      });
    }
  }
  const find = (items: Item[], words: string, question: string) => {
    const found = items.find(({ label }) => label.includes(words));
    if (!found) throw new Error(`“${words}” is not offered for ${question}`);
    return found;
  };
  const message = async (text: string, ...items: string[]) => {
    editor.messages.push({ message: text, items });
    return undefined;
  };
  return {
    Uri: Address,
    QuickInputButtons: { Back: {} },
    commands: {
      async executeCommand(command: string, name: string, value: unknown) {
        if (command === "setContext") editor.contexts[name] = value;
      },
    },
    window: {
      createInputBox: () => new Input(),
      createQuickPick: () => new Input(),
      async showQuickPick(items: Item[], { placeHolder }: { placeHolder: string }) {
        editor.questions.push(placeHolder);
        const key = (editor.answer(placeHolder) ?? "enter") as Key;
        if (key === "escape") return undefined;
        return typeof key === "object" && "pick" in key ? find(items, key.pick, placeHolder) : items[0];
      },
      showInformationMessage: message,
      showWarningMessage: message,
      showErrorMessage: message,
      async showTextDocument(shown: Address | { text: string }) {
        const path = shown instanceof Address ? shown.path.replace("/shed/", "") : undefined;
        if (shown instanceof Address) {
          const text = editor.texts[shown.path]!;
          editor.opened.push({ path: path!, text });
          await editor.tell(shown.path, text);
        } else editor.opened.push({ text: shown.text });
      },
    },
    workspace: {
      get workspaceFolders() {
        return editor.folder ? [{ uri: new Address("/shed") }] : undefined;
      },
      async openTextDocument(what: Address | { content: string }) {
        if (!(what instanceof Address)) return { text: what.content };
        await editor.tell(what.path, editor.texts[what.path]!);
        return { text: editor.texts[what.path]! };
      },
      fs: {
        async stat({ path }: Address) {
          if (editor.texts[path] === undefined) throw new Error("not there");
        },
        async writeFile({ path }: Address, bytes: Uint8Array) {
          if (!editor.writable) throw new Error("the folder is read-only");
          editor.texts[path] = new TextDecoder().decode(bytes);
        },
      },
    },
  };
});

let session: Session;
let scripts: { askNewHandset(): Promise<void>; askNewCraft(): Promise<void> };

beforeEach(async () => {
  Object.assign(editor, { folder: true, writable: true, texts: {}, answer: () => undefined });
  await begin();
});
afterEach(() => session.end());

/** A new session with the texts as they are: nothing is remembered of the one before. */
async function begin(): Promise<void> {
  Object.assign(editor, { questions: [], opened: [], messages: [], contexts: {} });
  session?.end();
  session = await startSession(filesInMemory(editor.texts));
  const open = new Set<string>();
  editor.tell = async (path, text) => {
    if (!open.has(path)) await session.open(`file://${path}`, text);
    open.add(path);
  };
  vi.resetModules();
  const [handset, craft] = await Promise.all([
    import("../../client/src/new-handset.ts"),
    import("../../client/src/new-craft.ts"),
  ]);
  const ask = <T>(method: string, params: unknown) => session.client.sendRequest(method, params) as Promise<T>;
  scripts = {
    askNewHandset: () => handset.askNewHandset(ask, (made) => craft.askNewCraft(ask, made)),
    askNewCraft: () => craft.askNewCraft(ask),
  };
}

const files = () => Object.keys(editor.texts).map((path) => path.replace("/shed/", ""));
const shown = () => editor.opened.map(({ path }) => path ?? "no file");
const findingsIn = (path: string) => session.pull(`file:///shed/${path}`);

/** Three controls, then no more; everything else as it is offered. */
function answers(more: (question: string, place: number) => Key | undefined = () => undefined) {
  let place = 0;
  return (question: string): Key | undefined => {
    const key = more(question, place++);
    if (key !== undefined) return key;
    const control = /^Control (\d+): what is it/.exec(question);
    if (control) return { pick: Number(control[1]) > 3 ? "No more" : "Switch" };
    return undefined;
  };
}

const onward = (question: string): Key | undefined =>
  question === "Where does it go?" && editor.opened.length === 0 ? { pick: "make a craft with it" } : undefined;

test("a handset, and at once a craft with it: both are saved, with nothing found in either", async () => {
  editor.answer = answers((question) => {
    if (/handset called/.test(question)) return { type: "Kiln" };
    if (/which order/.test(question)) return { pick: "throttle roll pitch yaw" };
    if (/^What is it called/.test(question)) return { type: "Jug" };
    return onward(question);
  });
  await scripts.askNewHandset();
  expect(shown()).toEqual(["handsets/kiln.fettle", "craft/jug.fettle"]);
  expect(editor.opened[1]!.text).toContain('use "../handsets/kiln.fettle"');
  expect(editor.opened[1]!.text).toMatch(/order +throttle roll pitch yaw/);
  expect([...(await findingsIn("handsets/kiln.fettle")), ...(await findingsIn("craft/jug.fettle"))]).toEqual([]);
  expect(editor.contexts).toEqual({ "fettle.made.handset": true, "fettle.made.craft": true });
  expect(editor.messages).toEqual([]);
});

test("a handset by itself says what is next, and offers the craft", async () => {
  editor.answer = answers();
  await scripts.askNewHandset();
  expect(shown()).toEqual(["handsets/my-handset.fettle"]);
  expect(editor.messages).toEqual([expect.objectContaining({ items: ["New Craft…"] })]);
});

describe("a pilot who leaves", () => {
  const whole = async (what: "askNewHandset" | "askNewCraft") => {
    editor.answer = answers();
    await scripts[what]();
    return { asked: editor.questions.length, text: editor.opened[0]!.text };
  };

  test.each(["askNewHandset", "askNewCraft"] as const)(
    "%s: at any question, gets nothing, and finds the answers again",
    async (what) => {
      const { asked, text } = await whole(what);
      expect(asked).toBeGreaterThan(what === "askNewHandset" ? 20 : 7);
      for (let place = 0; place < asked; place++) {
        editor.texts = {};
        await begin();
        const named = (question: string) => (/ called\?$/.test(question) ? { type: "Tea bowl" } : undefined);
        editor.answer = answers((question, at) => (at === place ? "escape" : place > 0 ? named(question) : undefined));
        await scripts[what]();
        expect({ place, files: files(), opened: shown(), messages: editor.messages }).toEqual({
          place,
          files: [],
          opened: [],
          messages: [],
        });
        expect(editor.contexts).toEqual({});
        // Begun again, every answer so far stands there: Enter takes it.
        editor.answer = answers();
        await scripts[what]();
        const name = what === "askNewHandset" ? "My handset" : "New craft";
        expect(editor.opened[0]!.text).toBe(place > 0 ? text.replaceAll(name, "Tea bowl") : text);
      }
    },
  );

  test.each(["askNewHandset", "askNewCraft"] as const)(
    "%s: back from any question and on again changes nothing",
    async (what) => {
      const { asked, text } = await whole(what);
      for (let place = 1; place < asked - 1; place++) {
        editor.texts = {};
        await begin();
        editor.answer = answers((_, at) => (at === place ? "back" : undefined));
        await scripts[what]();
        expect(editor.opened[0]!.text).toBe(text);
      }
    },
  );
});

test("a name that is taken gets a number, and the script that is there stays as it was", async () => {
  const there = 'craft "New craft"\n';
  editor.texts = { "/shed/craft/new-craft.fettle": there };
  await begin();
  await scripts.askNewCraft();
  expect(shown()).toEqual(["craft/new-craft-2.fettle"]);
  expect(editor.texts["/shed/craft/new-craft.fettle"]).toBe(there);
});

describe("where nothing can be saved", () => {
  test("a handset and a craft are open without a file, and say so", async () => {
    editor.writable = false;
    editor.answer = answers();
    await scripts.askNewHandset();
    editor.answer = () => undefined;
    await scripts.askNewCraft();
    expect(shown()).toEqual(["no file", "no file"]);
    expect(editor.messages[0]!.message).toContain("the folder is read-only");
    expect(editor.messages[1]!.message).toMatch(/^Save it in the folder of your craft/);
  });

  test("a handset on the way to a craft is not lost, and the craft goes on", async () => {
    editor.writable = false;
    let tries = 0;
    editor.answer = answers((question) =>
      /which handset/i.test(question) ? (tries++ === 0 ? { pick: "A new handset" } : { pick: "2.4 GHz" }) : undefined,
    );
    await scripts.askNewCraft();
    expect(editor.opened.map(({ text }) => /^(handset|craft) /m.exec(text)?.[1])).toEqual(["handset", "craft"]);
    expect(files()).toEqual([]);
  });

  test("without a folder nothing is asked of one", async () => {
    editor.folder = false;
    editor.answer = answers();
    await scripts.askNewHandset();
    editor.answer = () => undefined;
    await scripts.askNewCraft();
    expect(shown()).toEqual(["no file", "no file"]);
    expect(editor.questions).not.toContain("Where does it go?");
    expect(editor.messages[0]).toMatchObject({ items: [], message: expect.stringContaining("Save it in the folder") });
  });
});

test("a handset deep in a folder is found, also by a second craft", async () => {
  editor.texts = {
    "/shed/gear/radio/kiln.fettle":
      'handset "Kiln"\n\ntransmitter\n  band 2.4 GHz\n\ncontrols\n  TL  switch  ch5  up 1000 us  down 2000 us\n  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us\n',
  };
  await begin();
  for (const name of ["Jug", "Ladle"]) {
    editor.answer = (question) => (/^What is it called/.test(question) ? { type: name } : undefined);
    await scripts.askNewCraft();
    const path = `craft/${name.toLowerCase()}.fettle`;
    expect(shown()).toContain(path);
    expect(editor.opened.at(-1)!.text).toContain('use "../gear/radio/kiln.fettle"');
    expect(await findingsIn(path)).toEqual([]);
  }
});
