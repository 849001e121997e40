import type { SectionSpec } from "../specs.ts";

export const outputs: SectionSpec = {
  name: "outputs",
  what: "Free switched outputs of the board, under names of the pilot's own, and when each is on.",
  why: "A maker leaves a pin or a power switch that does something different on every craft: a lamp, the power of the video transmitter, a second camera. Only a note beside the line can say what, so each output in use should have one. One that feeds the video transmitter leaves the goggles dark in flight when its switch stands wrong: try every position on the bench first, propellers off.",
  words: ["free switch", "switchable power", "relay", "camera changer", "spare pin"],
  holds: "outputs",
  in: ["craft", "layer"],
  settings: [],
};
