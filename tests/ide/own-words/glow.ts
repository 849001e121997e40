/** A setting of a pilot's own, as a catalogue file says it. */
import type { OwnSetting } from "../../../shared/catalogue/specs.ts";

export const glow: OwnSetting = {
  section: "lights",
  name: "glow-delay",
  types: [
    {
      is: "quantity",
      unit: "s",
      min: { at: 0, source: "the maker's leaflet, p. 2" },
      max: { at: 30, source: "the maker's leaflet, p. 2" },
      usual: [{ from: 1, to: 5, source: "common practice, no source" }],
    },
  ],
  default: "2 s",
  kind: "taste",
  what: "How long the lamp under the belly waits before it glows.",
  why: "With none it flickers at every touch of the switch; with a long one the craft is down before anybody sees it.",
  words: ["belly lamp delay"],
  related: ["lights.count"],
};
