// node .dev/pictures.mjs: takes the README's pictures of the panel and of a review in the real editor, and of a printed
// bench list, into client/media/. “sheet” behind it takes that of the list alone.
import { mkdirSync, rmSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { launchBrowser } from "./browser.mjs";
import { build } from "./build.mjs";
import { pictureStyle } from "./picture-style.mjs";
import { inProject, runProgram, say } from "./say.mjs";
import { setUp } from "./setup.mjs";
import { serveEditor } from "./web-host.mjs";

const craft = "craft/tankard.fettle";
const friendsText = `pack
  cells    6
  warn-at  3.6 V/cell

failsafe
  hold-for  2 s

modes
  arm  when TR is up

osd
  height  at right-3, middle
`;

await setUp();
await build("plain");
mkdirSync(inProject("client/media"), { recursive: true });
await takeSheet();
const themes = [
  ["light", "Default Light Modern"],
  ["dark", "Default Dark Modern"],
];
for (const [name, theme] of process.argv[2] === "sheet" ? [] : themes) await takePictures(`${name}`, `${theme}`);

/** Takes a picture of the beginning of a bench list as a printer has it, on A4. */
async function takeSheet() {
  const file = inProject(".cache/sheet.html");
  const status = await runProgram(process.execPath, [
    inProject("dist/fettle.js"),
    "bench",
    inProject("examples", craft),
    "--out",
    file,
  ]);
  if (status !== 0) throw new Error("The bench list was not written: see the message above.");
  // ISO 216, at the 96 pixels an inch of a browser.
  const { page, close } = await launchBrowser({ width: 794, height: 1123 });
  try {
    await page.emulateMedia({ media: "print" });
    await page.goto(pathToFileURL(file).href);
    await page.addStyleTag({ content: "body { padding: 13mm 14mm !important; }" });
    // As on paper, no step is broken: what is not whole on the first page is not on it.
    await page.evaluate(`for (const part of document.querySelectorAll(".steps > li, section > :not(ol)"))
      if (part.getBoundingClientRect().bottom > 1060) part.style.visibility = "hidden";`);
    const path = inProject("client/media/sheet.png");
    await page.screenshot({ path });
    say(`Made ${path}.`);
  } finally {
    await close();
    rmSync(file);
  }
}

/** Takes pictures of all views of the demo's craft, beside its script. */
async function takePictures(/** @type {string} */ name, /** @type {string} */ theme) {
  const settings = {
    "workbench.colorTheme": theme,
    "editor.minimap.enabled": false,
    "window.commandCenter": false,
    "workbench.layoutControl.enabled": false,
    "fettle.panel.reveal": true,
  };
  const host = await serveEditor({ folder: inProject("examples"), open: [craft], views: ["fettle.panel"], settings });
  const { page, close } = await launchBrowser({ width: 1180, height: 720 });
  try {
    await page.goto(host.url);
    const panel = page.frameLocator("iframe.webview.ready").frameLocator("#active-frame");
    await panel.locator("[data-element]").first().waitFor({ timeout: 60_000 });
    await widenSideBar(page, 460);
    for (const view of ["Goggles", "Switches", "Numbers"]) {
      await panel.getByRole("tab", { name: view }).click();
      if (view === "Switches") await panel.getByRole("radio").nth(1).click({ force: true });
      await page.mouse.move(760, 16);
      await page.waitForTimeout(700);
      const path = inProject("client/media", `${view.toLowerCase()}-${name}.png`);
      await page.screenshot({ path, style: pictureStyle });
      say(`Made ${path}.`);
    }
    await takeReview(page, name);
  } finally {
    await close();
    await host.close();
  }
}

/** Takes the picture of a friend's text beside the craft for which it is reviewed. */
async function takeReview(/** @type {import("playwright-core").Page} */ page, /** @type {string} */ name) {
  const dropped = { kind: "text", text: friendsText, name: "a friend's text" };
  const workbench = "/static/build/out/vs/workbench/workbench.web.main.internal.js";
  await page.evaluate(
    `import("${workbench}").then(async ({ commands }) => {
      await commands.executeCommand("workbench.action.closeSidebar");
      await commands.executeCommand("fettle.review", ${JSON.stringify({ dropped })});
    })`,
  );
  const review = page.frameLocator("iframe.webview.ready >> nth=-1").frameLocator("#active-frame");
  await review.getByRole("heading", { name: /^Differs/ }).waitFor();
  await page.mouse.move(320, 600);
  await page.waitForTimeout(700);
  const path = inProject("client/media", `review-${name}.png`);
  await page.screenshot({ path, style: pictureStyle });
  say(`Made ${path}.`);
}

/** Drags the edge of the side bar until it is that many pixels wide. */
async function widenSideBar(/** @type {import("playwright-core").Page} */ page, /** @type {number} */ width) {
  const box = await page.locator(".part.sidebar").boundingBox();
  if (!box) throw new Error("The side bar is not there.");
  await page.mouse.move(box.x + box.width, box.y + box.height / 2);
  await page.mouse.down();
  await page.mouse.move(box.x + width, box.y + box.height / 2, { steps: 8 });
  await page.mouse.up();
}
