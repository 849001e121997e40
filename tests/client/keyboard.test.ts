/** How a page of the panel gets the keyboard back, from an editor that now and then forgets to pass it on. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";

const editor = vi.hoisted(() => ({
  ran: [] as string[][],
  passesOn: (_try: number): boolean => true,
  takesMs: 0,
  /** Null for a page that is closed. */
  answers: true as boolean | null,
}));
vi.mock("vscode", () => ({
  commands: {
    async executeCommand(name: string, { commands }: { commands: string[] }) {
      expect(name).toBe("runCommands");
      editor.ran.push(commands);
      if (editor.takesMs > 0) await new Promise((done) => setTimeout(done, editor.takesMs));
      if (editor.passesOn(editor.ran.length)) setTimeout(() => keyboard.answered(true), 50);
    },
  },
}));
const { keyboardOf } = await import("../../client/src/keyboard.ts");
const ask = () => {
  if (editor.answers !== null) setTimeout(() => keyboard.answered(editor.answers === true), 10);
};
const keyboard = keyboardOf(() => "panel", ask);

beforeEach(() => {
  vi.useFakeTimers();
  Object.assign(editor, { ran: [], passesOn: () => true, takesMs: 0, answers: false });
});
afterEach(() => {
  vi.useRealTimers();
});

/** How long it took, in ms. */
async function givenBack(after?: readonly string[]): Promise<number> {
  const startMs = Date.now();
  let endMs = Number.NaN;
  void keyboard.giveBack(after).then(() => {
    endMs = Date.now();
  });
  await vi.advanceTimersByTimeAsync(10_000);
  return endMs - startMs;
}

test("it comes after the other commands, and in one go with them", async () => {
  expect(await givenBack(["group", "undo"])).toBe(50);
  expect(editor.ran).toEqual([["group", "undo", "panel"]]);
});

test("a slow editor is not asked for it again while it is at work", async () => {
  editor.takesMs = 400;
  expect(await givenBack(["group", "undo"])).toBe(450);
  expect(editor.ran).toEqual([["group", "undo", "panel"]]);
});

test("what the editor forgets is asked for again, and nothing else is done twice", async () => {
  editor.passesOn = (tries) => tries === 3;
  expect(await givenBack(["group", "undo"])).toBe(160 + 160 + 50);
  expect(editor.ran).toEqual([["group", "undo", "panel"], ["panel"], ["panel"]]);
});

test("a page that has it, and had it all the time, is not given it again", async () => {
  editor.passesOn = () => false;
  editor.answers = true;
  expect(await givenBack()).toBe(160);
  expect(editor.ran).toEqual([["panel"]]);
});

test("a page that never gets it, or is closed, keeps nobody waiting for ever", async () => {
  editor.passesOn = () => false;
  expect(await givenBack()).toBe(4 * 160);
  editor.answers = null;
  expect(await givenBack()).toBe(2_000);
});
