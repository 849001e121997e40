/** How long it takes from a key in the script to the painted bench list, in the real editor, with the tour of the switches in it. */
import { editsPainted, inEditor, spread } from "./in-editor.ts";
import { USUAL_CONTROLS, USUAL_MODES } from "./scripts.ts";

/** The usual craft of the logic's benchmark: eight controls and fourteen modes. */
const JUG = `craft "Jug"\nuse "wheel.fettle"\n\nmodes\n${USUAL_MODES}\nbench\n  order-checked  2026-04-18\n  roll  998 us to 2003 us\n`;
const WHEEL = `handset "Wheel"\n\ncontrols\n${USUAL_CONTROLS}`;
const presses = { watched: "#view", edits: 60 };

export async function run(): Promise<string> {
  return inEditor("jug.fettle", { "jug.fettle": JUG, "wheel.fettle": WHEEL }, "[role=tab]", async (page, panel) => {
    await panel.getByRole("tab", { name: "Bench" }).click();
    await panel.locator(".step").first().waitFor();
    const mode = await editsPainted(page, panel, { line: "lights-off", nth: 0, key: "x", ...presses });
    const reading = await editsPainted(page, panel, { line: "998 us", nth: 0, key: "x", ...presses });
    const steps = await panel.locator(".step").count();
    return [
      `8 controls, 14 modes, ${steps} steps, in Chromium`,
      `key press in a mode to painted bench list:     ${spread(mode)}  (${mode.length} edits)`,
      `key press in a reading to painted bench list:  ${spread(reading)}  (${reading.length} edits)`,
    ].join("\n");
  });
}
