/** What somebody else wrote, and a craft of one's own, held against a craft: looked at, adopted from, undone. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { type Editor, narrowListOf, openFile, runCommand, startEditor, visibleLines } from "../editor.ts";
import { screenshot, violations, webview } from "../looks.ts";

/** Five lines differ from Tankard, two of them dangerous; one is the same, and one is no line of a script. */
const FROM_BRAM = `pack
  cells     6
  capacity  1300 mAh
  warn-at   3.6 V/cell

failsafe
  hold-for  2 s

camera
  uptilt  38 deg

osd
  height  at right-3, middle

motors
  idle  7 %
lamp glows at dusk
`;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({
    folder: inProject("examples"),
    files: { "from-bram.txt": FROM_BRAM },
    open: ["craft/tankard.fettle", "from-bram.txt"],
  });
  await editor.page.context().grantPermissions(["clipboard-read", "clipboard-write"]);
});
afterAll(() => editor?.close());

const review = () => webview(editor.page, "tab");
const box = (name: string) => review().getByRole("checkbox", { name });
const button = (name: string | RegExp) => review().getByRole("button", { name, exact: true });
const line = (text: RegExp) => editor.page.locator(".view-line", { hasText: text }).first();
const tab = (name: string) => editor.page.locator(".tab", { hasText: name });

test("a friend's text is pasted, looked at, two lines of it are adopted, and that is undone", async () => {
  const { page } = editor;
  await page.locator(".tab.active", { hasText: "from-bram.txt" }).waitFor();
  await page.locator(".view-line").first().click();
  await page.keyboard.press("Control+a");
  await page.keyboard.press("Control+c");
  await openFile(page, "craft/tankard.fettle");
  const before = await visibleLines(page);
  await runCommand(page, "Fettle: Review a Paste…");
  await tab("Review: Tankard").waitFor();
  await review()
    .getByRole("heading", { name: /^Dangerous: / })
    .waitFor();
  await review().getByText("lamp glows at dusk").waitFor();
  // Taste is chosen, hardware and what is dangerous are not.
  expect(await box("warn-at").isChecked()).toBe(true);
  for (const name of ["capacity", "hold-for", "idle"]) expect(await box(name).isChecked(), name).toBe(false);
  await screenshot(page, "review-paste");
  expect(await violations(page, "tab")).toEqual([]);
  await button("Differs: choose none").click();
  await box("warn-at").check();
  await box("uptilt").press("Space");
  await button("Adopt 2 lines").click();
  await review().getByText("Adopted into Tankard: 2 lines.").waitFor();
  await line(/warn-at\s+3\.6\sV/).waitFor();
  await expect.poll(() => box("warn-at").count()).toBe(0);
  await screenshot(page, "review-adopted");
  await button("Undo").click();
  await box("warn-at").waitFor();
  // How many are in view changes as words stand above a line, or do not.
  const top = (lines: readonly string[]) => lines.slice(0, 36);
  const now = async () => {
    await tab("tankard.fettle").click();
    return top(await visibleLines(page));
  };
  await expect.poll(now).toEqual(top(before));
});

test("a text that is dropped on the panel is reviewed for the craft that it draws; what is no script is told", async () => {
  const { page } = editor;
  await runCommand(page, "Fettle: Show Panel");
  const panel = webview(page, "side");
  await panel.getByRole("heading", { name: "Tankard" }).waitFor();
  const dropped = async () => {
    // As the page gets it: the editor itself keeps what is dragged over a page, unless Shift is held.
    await panel.locator("body").evaluate((body) => {
      const dataTransfer = new DataTransfer();
      dataTransfer.setData("text/plain", '{ "name": "Jug", "cells": 6 }');
      body.dispatchEvent(new DragEvent("drop", { dataTransfer, bubbles: true, cancelable: true }));
    });
    return review().getByRole("heading", { name: "This is no script" }).count();
  };
  // A page that is drawn listens only a moment later.
  await expect.poll(dropped, { interval: 1000 }).toBe(1);
  await screenshot(page, "review-no-script");
});

test("a craft is carried over to another one: what has to be measured there leads to its line", async () => {
  const { page } = editor;
  await tab("tankard.fettle").click();
  await narrowListOf(page, "Fettle: Carry Over to Another Craft…", "Gravy");
  await page.keyboard.press("Enter");
  await tab("Tankard to Gravy boat").waitFor();
  await review().getByRole("heading", { name: "To measure on Gravy boat" }).waitFor();
  await screenshot(page, "review-carry");
  // Taste goes along; what the craft is made of, and its tune, stay.
  expect(await review().locator("[data-row^='frame.'] input:checked, [data-row^='gains.'] input:checked").count()).toBe(
    0,
  );
  const adopt = button(/^Adopt .* lines?$/);
  const lines = (await adopt.textContent())!.replace("Adopt ", "");
  await adopt.press("Enter");
  await review().getByText(`Adopted into Gravy boat: ${lines}`).waitFor();
  await review()
    .getByRole("button", { name: /^(Its line|Where it goes): / })
    .first()
    .click();
  await page.locator(".tab.active", { hasText: "gravy-boat.fettle" }).waitFor();
  await screenshot(page, "review-carried");
});
