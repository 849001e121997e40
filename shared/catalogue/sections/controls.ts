import type { SectionSpec } from "../specs.ts";

export const controls: SectionSpec = {
  name: "controls",
  what: "The switches, selectors, buttons and dials of a handset: their channels, positions and pulses.",
  why: "Conditions speak of `TL is down` and mean a pulse on a channel; this is where the one becomes the other. The first position listed is where the control rests when the handset is switched on, which is what the check at rest goes by. Positions bear the pilot's own names. What `lies` says of a control is where the hand finds it, and the panel lays the controls out by it. In a craft or a layer, a control set again replaces the handset's for that craft.",
  words: [
    "switches on the handset",
    "channel of a switch",
    "three-position switch",
    "knobs and buttons",
    "where a switch is on the handset",
  ],
  holds: "controls",
  in: ["handset", "craft", "layer"],
  settings: [],
};
