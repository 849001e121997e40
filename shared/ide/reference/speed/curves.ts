/** A curve of growth as a drawing, and in words. */
import { drawChart } from "../../../draw/chart.ts";
import type { Chart } from "../../../draw/plot.ts";
import { ratioScale } from "../../../draw/scale.ts";
import { node, type SceneNode } from "../../../draw/scene.ts";
import type { GrowthCurve, GrowthSubject } from "./figures.ts";

/** There is little room behind the end of a line. */
const SHORT: Readonly<Record<string, string>> = {
  "first findings": "first",
  "findings after an edit": "edit",
  memory: "held",
};

/** Small enough that its letters can be read in a narrow window, into which all of it is scaled. */
const [WIDTH, HEIGHT, GAP] = [340, 200, 14];

/** Times in one chart, memory in another below it: two scales in one would suggest a crossing that means nothing. */
export function curveDrawing(subject: GrowthSubject): SceneNode {
  const charts = (["ms", "MB"] as const)
    .map((unit) => subject.curves.filter((curve) => curve.unit === unit))
    .filter((curves) => curves.length > 0)
    .map((curves) => chartOf(subject, curves));
  const drawn = charts.map((chart, i) =>
    drawChart({ x: 0, y: i * (HEIGHT + GAP), width: WIDTH, height: HEIGHT }, chart),
  );
  const height = charts.length * (HEIGHT + GAP) - GAP;
  return node("svg", { viewBox: `0 0 ${WIDTH} ${height}`, class: "growth" }, drawn);
}

function chartOf({ name, sizes, curves: all }: GrowthSubject, curves: readonly GrowthCurve[]): Chart {
  const unit = curves[0]!.unit;
  const values = curves.flatMap((curve) => curve.values.map(([median]) => median));
  // Whole decades: where a straight line rises by one, it is seen.
  const decade = (value: number, round: (exponent: number) => number) => 10 ** round(Math.log10(value));
  const [least, most] = [decade(Math.min(...values), Math.floor), decade(Math.max(...values), Math.ceil)];
  const y = ratioScale({ name: unit === "ms" ? "time" : "memory", unit }, least, most > least ? most : least * 10);
  const powers = y.ticks.filter((tick) => Number.isInteger(Math.round(Math.log10(tick) * 1e9) / 1e9));
  return {
    title: "",
    words: curveWords({ name, what: "", sizes, curves: all.filter((curve) => curve.unit === unit) }),
    x: ratioScale({ name, unit: "" }, sizes[0]!, sizes.at(-1)!),
    y: { ...y, ticks: powers },
    lines: curves.map((curve) => ({
      name: SHORT[curve.figure] ?? curve.figure,
      points: sizes.map((size, i) => [size, curve.values[i]![0]] as const),
    })),
  };
}

/** What the curves show, in sentences. */
export function curveWords({ name, sizes, curves }: GrowthSubject): string {
  const [first, last] = [sizes[0]!, sizes.at(-1)!];
  return curves
    .map(({ figure, unit, values, exponent }) => {
      const how = exponent <= 1.1 ? "no faster than a straight line" : "faster than a straight line";
      return `${figure[0]!.toUpperCase()}${figure.slice(1)}: ${values[0]![0]} to ${values.at(-1)![0]} ${unit} from ${first} to ${last} ${name}, ${how} (exponent ${exponent.toFixed(2)}).`;
    })
    .join(" ");
}
