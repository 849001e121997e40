/**
 * Which modes must not be on together, and which of two has precedence. Pairs that are not listed do not
 * affect each other.
 */
import { modes } from "../modes.ts";
import type { ModeRelations } from "../specs.ts";

const attitudes = modes.filter((mode) => mode.attitude).map((mode) => mode.name);

export const modeRelations: ModeRelations = {
  clashes: [
    {
      modes: ["video-low", "video-high"],
      reason:
        "One transmitter cannot send at its lowest and at its highest power at once, and nothing says which wins.",
    },
    {
      modes: ["lights", "lights-off"],
      reason: "One asks for light and the other for darkness, and which of them the board obeys is left to chance.",
    },
    {
      modes: ["osd-hide", "osd-second"],
      reason:
        "One clears the picture and the other puts a page on it, and boards differ in which of the two is then seen.",
    },
  ],
  precedence: [
    {
      over: "level",
      under: ["level-blend", "lean-limit"],
      reason: "A craft that levels over the whole way of the stick leaves nothing to blend or to limit.",
    },
    {
      over: "level-blend",
      under: ["lean-limit"],
      reason: "A craft that levels near the middle and flips at the ends has its own way to lean.",
    },
    {
      over: "loss-trial",
      under: [...attitudes, "return-home", "level-now", "hold-height", "hold-place"],
      kind: "takes-over",
      reason: "As if the link were lost, the craft does what the failsafe says, whatever else the pilot chose.",
    },
    {
      over: "return-home",
      under: attitudes,
      kind: "takes-over",
      reason: "On its way home the craft chooses its own attitude, and what the pilot chose before does nothing.",
    },
    {
      over: "level-now",
      under: attitudes,
      kind: "takes-over",
      reason: "Righting the craft at once goes before every other way to decide how it leans.",
    },
    {
      over: "hold-place",
      under: ["hold-height"],
      kind: "includes",
      reason: "Holding the place holds the height as well, so holding the height alone has nothing left to do.",
    },
    {
      over: "arm",
      under: ["finder"],
      reason: "Armed, the motors fly the craft and cannot sound as well: the finder waits until it is disarmed.",
      // A sounder is a part of its own, and calls at any time.
      unless: { setting: "finder.sounder", not: "none" },
    },
  ],
};
