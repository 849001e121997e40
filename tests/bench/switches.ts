/** How long it takes from a key to the painted switches, in the real editor: typed in the script, and pressed on a control. */
import { editsPainted, inEditor, pressesPainted, spread } from "./in-editor.ts";
import { USUAL_CONTROLS, USUAL_MODES } from "./scripts.ts";

const PRESSES = 60;

/** The usual craft of the logic's benchmark: eight controls and fourteen modes. */
const JUG = `craft "Jug"\nuse "wheel.fettle"\n\nmodes\n${USUAL_MODES}`;
const WHEEL = `handset "Wheel"\n\ncontrols\n${USUAL_CONTROLS}`;
const files = { "jug.fettle": JUG, "wheel.fettle": WHEEL };
// The picture of the controls and the sentence above it are all within the view.
const presses = { watched: "#view", edits: PRESSES };

export async function run(): Promise<string> {
  return inEditor("jug.fettle", files, "[role=tab]", async (page, panel) => {
    await panel.getByRole("tab", { name: "Switches" }).click();
    await panel.locator("[data-set]").first().waitFor();
    const typed = await editsPainted(page, panel, { line: "lights-off", nth: 0, key: "x", ...presses });
    await panel.locator('[data-ways="TL"] [tabindex="0"]').focus();
    const pressed = await pressesPainted(page, panel, panel, ["ArrowDown", "ArrowUp"], presses);
    return [
      "8 controls, 14 modes, in Chromium",
      `key press in the script to painted switches:  ${spread(typed)}  (${typed.length} edits)`,
      `key press on a control to painted switches:   ${spread(pressed)}  (${pressed.length} moves)`,
    ].join("\n");
  });
}
