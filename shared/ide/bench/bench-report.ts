/** The bench list with each file under the name by which it is reported. */
import type { BenchList, BenchReading, BenchStep } from "../../protocol/bench.ts";
import type { LinePlace } from "../../protocol/findings.ts";

/** The same list; `nameOf` gives the name under which a file is reported. */
export function benchReport(list: BenchList, nameOf: (file: string) => string): BenchList {
  const placed = <T extends LinePlace>(place: T): T => ({ ...place, file: nameOf(place.file) });
  const reading = (each: BenchReading) => ({ ...each, at: each.at && placed(each.at) });
  const step = (each: BenchStep) => ({ ...each, readings: each.readings.map(reading), from: each.from.map(placed) });
  return {
    ...list,
    file: nameOf(list.file),
    phases: list.phases.map((phase) => ({ ...phase, steps: phase.steps.map(step) })),
    checks: list.checks.map((check) => ({ ...check, at: check.at && placed(check.at) })),
  };
}
