/** How a page of the panel gets the keyboard back, from an editor that now and then forgets to pass it on. */
import { afterEach, beforeEach, expect, test, vi } from "vitest";

const editor = vi.hoisted(() => ({ ran: [] as string[][], passesOn: (_try: number): boolean => true }));
vi.mock("vscode", () => ({
  commands: {
    async executeCommand(name: string, { commands }: { commands: string[] }) {
      expect(name).toBe("runCommands");
      editor.ran.push(commands);
      if (editor.passesOn(editor.ran.length)) setTimeout(() => keyboard.arrived(), 50);
    },
  },
}));
const { keyboardOf } = await import("../../client/src/keyboard.ts");
const keyboard = keyboardOf(() => "panel");

beforeEach(() => {
  vi.useFakeTimers();
  Object.assign(editor, { ran: [], passesOn: () => true });
});
afterEach(() => {
  vi.useRealTimers();
});

/** How long it took. */
async function givenBack(after?: readonly string[]): Promise<number> {
  const startMs = Date.now();
  let endMs = Number.NaN;
  void keyboard.giveBack(after).then(() => {
    endMs = Date.now();
  });
  await vi.advanceTimersByTimeAsync(5_000);
  return endMs - startMs;
}

test("it comes after the other commands, and in one go with them", async () => {
  expect(await givenBack(["group", "undo"])).toBe(50);
  expect(editor.ran).toEqual([["group", "undo", "panel"]]);
});

test("what the editor forgets is asked for again, and nothing else is done twice", async () => {
  editor.passesOn = (tries) => tries === 3;
  expect(await givenBack(["group", "undo"])).toBe(650);
  expect(editor.ran).toEqual([["group", "undo", "panel"], ["panel"], ["panel"]]);
});

test("a page that never gets it keeps nobody waiting for ever", async () => {
  editor.passesOn = () => false;
  expect(await givenBack()).toBe(1_200);
  expect(editor.ran).toHaveLength(4);
});
