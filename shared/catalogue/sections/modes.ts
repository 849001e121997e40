import type { SectionSpec } from "../specs.ts";

export const modesSection: SectionSpec = {
  name: "modes",
  what: "What each switch of the handset does: a mode, and the condition under which it is on.",
  why: "A mode is on while its condition holds, at every moment, also at power-on and after a dropout. Several lines of one mode join as `or`. Conditions name the handset's controls and positions, so a pilot's habits can live in one layer for every craft.",
  words: ["switches", "flight modes", "what does this switch do", "switch assignment"],
  holds: "modes",
  in: ["craft", "layer"],
  settings: [],
};
