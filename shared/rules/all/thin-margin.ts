import { boardOf, linkOf } from "../../logic/from-craft.ts";
import { END_TOLERANCE_US } from "../../numbers/sticks.ts";
import type { CraftRule } from "../engine/rule.ts";
import { WHEEL } from "../lib/example-files.ts";
import { locationAt } from "../lib/locations.ts";

const THIN_US = 2 * END_TOLERANCE_US;

export const rule: CraftRule = {
  code: "thin-margin",
  severity: "warning",
  scope: "craft",
  summary: "A position lies within 20 us of the bound of a test on its channel.",
  prose:
    "A pulse arrives off by what the end points are off, some 10 us in common practice (no source), and by what the link rounds away (its “resolution”). Nearer to a bound than 20 us, or than 10 us and one step of a coarser link, the mode may flicker or change sides from one flight to the next. Move the bound half-way between two positions, or test the position by its name.",
  examples: {
    bad: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  level when ch6 above 1490 us\n',
      ...WHEEL,
    },
    good: {
      "jug.fettle":
        'craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm when TL is down\n  level when ch6 above 1250 us\n',
      ...WHEEL,
    },
  },
  looksAt: { settings: ["link.resolution", "link.endpoints"] },
  check(craft, workspace) {
    const { resolutionUs } = linkOf(craft);
    // A coarse link may round a pulse by up to one of its steps, in addition to the tolerance.
    const coarse = resolutionUs !== null && END_TOLERANCE_US + resolutionUs > THIN_US;
    const thinUs = coarse ? END_TOLERANCE_US + resolutionUs : THIN_US;
    const why = coarse ? `on a link that sends steps of ${resolutionUs} us, too near` : "too near";
    return boardOf(craft, workspace)
      .margins(thinUs)
      .map((margin) => ({
        at: locationAt(margin.source, margin),
        message: `${margin.control.name} at “${margin.position}” sends ${margin.pulseUs} us, ${margin.marginUs} us from the bound of ${margin.boundUs} us: ${why} to be sure of.`,
      }));
  },
};
