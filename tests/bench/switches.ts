/** How long it takes from a key to the painted switches, in the real editor: typed in the script, and pressed on a control. */
import { editsPainted, inEditor, pressesPainted, spread } from "./in-editor.ts";

const PRESSES = 60;

const WHEEL = `handset "Wheel"

controls
  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us
  SL switch ch7 up 1000 us mid 1500 us down 2000 us
  SR switch ch8 up 1000 us mid 1500 us down 2000 us
  PB button ch9 rest 1000 us held 2000 us
  PC button ch10 rest 1000 us held 2000 us
  KN dial ch11 1000 us to 2000 us
  SX selector ch12 one 1000 us two 1200 us three 1400 us four 1600 us five 1800 us six 2000 us
`;

/** The usual craft of the logic's benchmark: eight controls and fourteen modes. */
const JUG = `craft "Jug"
use "wheel.fettle"

modes
  arm when TL is down
  arm-permit when not ch3 above 1900 us or PC is held
  level when TR is up
  level-blend when TR is mid and not turtle
  level-now when PB is held and arm
  turtle when SL is down and TR is down
  finder when SR is up and not arm
  lights when SX is two or SX is three
  lights-off when SX is six
  video-low when KN below 1300 us
  video-high when KN above 1700 us and arm
  recorder when arm and SR is down
  osd-hide when SL is mid and not finder
  rates-second when SX is five or KN in 1400 us to 1600 us
`;

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
