/** How long a frame of a drag takes, and how long it takes from a key press to the painted picture, in the real editor. */
import type { Frame, Page } from "playwright-core";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { freePlace } from "../../shared/draw/moving.ts";
import type { PanelElement } from "../../shared/protocol/panel.ts";
import { picture } from "../draw/samples.ts";
import { editsPainted, inEditor, spread } from "./in-editor.ts";

const GRID = { columns: 60, rows: 22 };
const ELEMENTS = 45;
const FRAMES = 300;
const EDITS = 60;

/** A craft that shows as many elements as that, each at a free place. */
function crowdedCraft(): string {
  const placed: PanelElement[] = [];
  for (const { name, widest } of makeCatalogue().elements) {
    if (placed.length === ELEMENTS) break;
    const size = { width: Math.max(1, ...widest.map((row) => [...row].length)), height: widest.length };
    const at = freePlace(picture(placed, { ...GRID, aspect: 16 / 9 }), size);
    placed.push({ name, ...at, ...size, overlapsNothing: false } as PanelElement);
  }
  if (placed.length < ELEMENTS) throw new Error(`The catalogue has only ${placed.length} elements.`);
  const lines = placed.map(({ name, column, row }) => `  ${name} at ${column}, ${row}`);
  return `craft "Crowded"\n\nosd\n  grid ${GRID.columns} x ${GRID.rows}\n  picture 16:9\n${lines.join("\n")}\n`;
}

export async function run(): Promise<string> {
  return inEditor("crowded.fettle", { "crowded.fettle": crowdedCraft() }, "[data-element]", async (page, panel) => {
    const shown = await panel.locator("[data-element]").count();
    const { work, gaps } = await dragFrames(page, panel);
    const painted = await editsPainted(page, panel, {
      line: "at",
      nth: 3,
      key: "0",
      watched: ".goggles",
      edits: EDITS,
    });
    return [
      `${shown} elements on ${GRID.columns} x ${GRID.rows}, in Chromium`,
      `drag, work of a frame from input to paint:  ${spread(work)}  (${work.length} frames)`,
      `drag, from one frame to the next:           ${spread(gaps)}`,
      `key press in the script to painted picture: ${spread(painted)}  (${painted.length} edits)`,
    ].join("\n");
  });
}

/** Holds an element by the mouse, and moves it by a cell with every frame, all over the grid. */
async function dragFrames(page: Page, panel: Frame): Promise<{ work: number[]; gaps: number[] }> {
  const box = await panel.locator("[data-element]").nth(20).locator(".plate").boundingBox();
  if (!box) throw new Error("The element is not drawn.");
  await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await page.mouse.down();
  const measured = await panel.evaluate(
    async ({ count, grid }) => {
      const frame = document.querySelector<HTMLElement>(".picture")!;
      const sky = frame.querySelector(".sky")!.getBoundingClientRect();
      // The mouse is the pointer of id 1.
      const event = (index: number) => {
        const column = index % grid.columns;
        const row = Math.floor(index / 7) % grid.rows;
        const clientX = sky.left + ((column + 0.5) * sky.width) / grid.columns;
        const clientY = sky.top + ((row + 0.5) * sky.height) / grid.rows;
        return new PointerEvent("pointermove", { pointerId: 1, isPrimary: true, bubbles: true, clientX, clientY });
      };
      const channel = new MessageChannel();
      const work: number[] = [];
      const starts: number[] = [];
      for (let index = 0; index < count; index++) {
        await new Promise<void>((resolve) => {
          let begun = 0;
          requestAnimationFrame((time) => {
            starts.push(time);
            begun = performance.now();
          });
          const sent = performance.now();
          frame.dispatchEvent(event(index));
          const handled = performance.now() - sent;
          // A message is a task of its own: it comes when the frame has been painted.
          requestAnimationFrame(() => channel.port2.postMessage(0));
          channel.port1.onmessage = () => {
            work.push(handled + performance.now() - begun);
            resolve();
          };
        });
      }
      if (!frame.querySelector("[data-element][data-moving]")) throw new Error("Nothing was dragged.");
      return { work, gaps: starts.slice(1).map((start, index) => start - starts[index]!) };
    },
    { count: FRAMES, grid: GRID },
  );
  await page.keyboard.press("Escape");
  await page.mouse.up();
  return measured;
}
