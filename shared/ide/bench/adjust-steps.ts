/** Dials that move settings: what each comes to at both ends. */
import { adjustmentsOf } from "../../numbers/adjustments.ts";
import type { BenchStep } from "../../protocol/bench.ts";
import { formatNumber } from "../context/format.ts";
import { benchStep } from "./bench-step.ts";
import type { BenchView } from "./bench-view.ts";

/** A step for each dial that moves something. */
export function adjustSteps(view: BenchView): BenchStep[] {
  const { moving, faulty } = adjustmentsOf(view.craft, view.catalogue);
  for (const name of faulty)
    view.unknown(
      `The line of “${name}” in section “adjust” has a fault, so it is not known which dial moves it: mend the line.`,
    );
  return [...new Set(moving.map(({ dial }) => dial))].map((dial) => {
    const moved = moving.filter((each) => each.dial === dial);
    const ends = moved.map(({ section, name, from, to, unit }) => {
      const at = (end: typeof from) =>
        `${formatNumber(end.number, 5)}${unit === "" ? "" : ` ${unit}`} at ${end.pulseUs} us`;
      return `${section}.${name}: ${at(from)}, ${at(to)}.`;
    });
    return benchStep({
      id: `switches.adjust-${dial}`,
      what: `Turn ${dial} from one stop to the other, and look at what it moves; leave it in the middle.`,
      expect: ends.join(" "),
      risk: "powered",
      check: "bench.switches-checked",
      from: moved.map(({ source }) => source),
    });
  });
}
