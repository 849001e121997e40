/** A dialect in the editor: the walk from an empty file to a line that is offered, told and followed; its looks. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Editor, goTo, openFile, startEditor, type, visibleLines, waitForLine } from "../editor.ts";
import { complete, completions, hover } from "../language.ts";
import { screenshot, showPanel, type Theme, themes, useTheme, webview } from "../looks.ts";

const MILL = `dialect "Mill"

text
  known-by  "mill log"
  comment   "~"

codes
  sluice  number 0 to 90 each 0.05 V/cell
  gate    words - unset, A arm, B level
  spot    bits base 16 digits 4  0-4 row, 6-11 column, 14 is 1 or unset

pack
  "grain {c:0 to 9999}"                 capacity {c} mAh  # as on the label
  "sluice {w:sluice} shuts {l:sluice}"  warn-at {w}
  "sluice {w} shuts {l}"                land-at {l}

motors
  'idle # {i}'  idle {i} %

osd
  "flag volts {p:spot=0000}"  pack-volts at {p.column}, {p.row}

rates
  under "firing 2"
  "turns {a} {s:0 to 1999} {e:0 to 1999}"  {a} slope {s} deg/s end {e} deg/s
`;

let editor: Editor;
beforeAll(async () => {
  editor = await startEditor({ files: { "boards/mill.fettle": MILL }, open: ["boards/mill.fettle"] });
});
afterAll(() => editor?.close());

test("a line is offered what fits, and its hover shows what it reads", async () => {
  const { page } = editor;
  await goTo(page, 15, 99);
  await type(page, '\n"stones {n:1 to 12}"  ');
  expect((await completions(page)).slice(0, 2)).toEqual([
    expect.stringContaining("chemistry"),
    expect.stringContaining("cells"),
  ]);
  await complete(page, "cells");
  await waitForLine(page, /cells\s\{n\}/);
  await page.keyboard.press("Escape");
  expect(await hover(page, 14, 6)).toContain("pack warn-at 3.5 V/cell");
});

test("it draws no craft, and says so", async () => {
  const { page } = editor;
  await showPanel(page);
  await webview(page).getByText("A dialect is no craft").waitFor();
  await page.locator(".statusbar-item", { hasText: "Mill: 1 hint" }).waitFor();
});

test.each(Object.keys(themes) as Theme[])("its words have colours in the %s theme", async (theme) => {
  const { page } = editor;
  await openFile(page, "boards/mill.fettle");
  await useTheme(page, theme);
  // The server's words for it have come once the name of a field is a piece by itself.
  await page.locator(".view-line > span > span").getByText("slope", { exact: true }).waitFor();
  await screenshot(page, `dialect-${theme}`);
  expect((await visibleLines(page)).length).toBeGreaterThan(20);
});
