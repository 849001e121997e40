/** What the client tells and asks: a script's words in it are words. */
import { readdirSync, readFileSync } from "node:fs";
import { expect, test, vi } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { ICON_IN_LABEL, LINK_IN_NOTICE, unseenIn } from "../fire/outputs/inspect.ts";
import { attacks } from "../hostile-texts.ts";
import * as editor from "./fake-editor.ts";

vi.mock("vscode", () => editor);
const shown = await import("../../client/src/shown-window.ts");

test("a message is text, and so is what stands below it", async () => {
  editor.asked.told.length = 0;
  for (const text of attacks)
    await shown.tellInformation(`“${text}” is not there.`, { modal: true, detail: text }, "Open");
  expect(editor.asked.told).toHaveLength(attacks.length);
  for (const told of editor.asked.told) {
    expect(unseenIn(told)).toBeNull();
    expect(told).not.toMatch(LINK_IN_NOTICE);
  }
});

test("an item of a list is text without icons, and what is chosen is the item itself", async () => {
  const items = attacks.map((text, index) => ({ label: `${index} ${text}`, description: text, detail: text, index }));
  editor.asked.answer = items[3]!.label;
  const chosen = await shown.pickOne(items, { title: attacks[0]! });
  expect(chosen).toBe(items[3]);
  for (const { label, description, detail } of editor.asked.items)
    for (const text of [label, description, detail]) {
      expect(unseenIn(text!)).toBeNull();
      expect(text).not.toMatch(ICON_IN_LABEL);
    }
});

test("so is the title of a dialog, and of a comparison of two texts", async () => {
  editor.asked.told.length = 0;
  editor.asked.ran.length = 0;
  const [left, right] = [editor.Uri.parse("file:///shed/a.fettle"), editor.Uri.parse("file:///shed/b.fettle")];
  for (const text of attacks) {
    await shown.askFile({ title: `Compare ${text} with` });
    await shown.askPlace({ title: `Save “${text}”` });
    await shown.showDiff(left as never, right as never, `${text} ↔ jug.fettle`, {});
  }
  const diffs = editor.asked.ran.map(([, , , title]) => title as string);
  expect([editor.asked.told.length, diffs.length]).toEqual([2 * attacks.length, attacks.length]);
  for (const title of [...editor.asked.told, ...diffs]) expect(unseenIn(title)).toBeNull();
});

test("nothing else of the client tells or asks", () => {
  const files = readdirSync(inProject("client/src")).filter((name) => name !== "shown-window.ts");
  expect(files.length).toBeGreaterThan(60);
  const own =
    /\b(?:show(?:Information|Warning|Error)Message|showQuickPick|createQuickPick|showInputBox|createInputBox|setStatusBarMessage|showOpenDialog|showSaveDialog|vscode\.diff)\b/;
  expect(files.filter((name) => own.test(readFileSync(inProject(`client/src/${name}`), "utf8")))).toEqual([]);
});
