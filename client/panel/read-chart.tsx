/** A chart with a reading line, moved by arrow keys or the pointer; the values there are shown in words. */
import type { ComponentChildren } from "preact";
import { useMemo, useState } from "preact/hooks";
import { drawChart } from "../../shared/draw/chart.ts";
import { chartTable, nearestStop, readingInWords, stopsOf } from "../../shared/draw/chart-reading.ts";
import { type Chart, plotIn } from "../../shared/draw/plot.ts";
import { node } from "../../shared/draw/scene.ts";
import { sceneView } from "./scene-view.tsx";
import { TextTable } from "./text-table.tsx";
import { drawnWidth } from "./use-width.ts";

/** Below this width, in CSS pixels, the reading of a chart with two curves takes two lines of text. */
const TWO_LINES = 330;

interface Props {
  readonly chart: Chart;
  readonly name: string;
  readonly width: number;
  readonly height: number;
  /** Further content, shown above the table. */
  readonly children?: ComponentChildren;
}

/** A chart with its reading, and the same values as a table. */
export function ReadChart({ chart, name, width: room, height, children }: Props) {
  const width = drawnWidth(room);
  const [share, setShare] = useState(0.5);
  const [shown, setShown] = useState(false);
  const stops = useMemo(() => stopsOf(chart), [chart]);
  // The chart may change while it is read: what is kept is the position on the scale.
  const at = nearestStop(chart, share);
  const words = readingInWords(chart, at);
  const box = { x: 0, y: 0, width, height };
  const bare = { ...chart, title: "" };
  const plot = plotIn(box, bare);
  const scene = useMemo(() => {
    const reading = shown ? [{ kind: "reading" as const, x: at }] : [];
    return node("svg", { viewBox: `0 0 ${width} ${height}`, class: "read-chart" }, [
      drawChart(box, { ...bare, marks: [...(chart.marks ?? []), ...reading] }),
    ]);
  }, [chart, width, height, at, shown]);
  const go = (index: number) => {
    const stop = stops[Math.min(stops.length - 1, Math.max(0, index))];
    if (stop !== undefined) setShare(chart.x.share(stop));
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const current = stops.indexOf(at);
    const largeStep = Math.ceil(stops.length / 8);
    const to: Readonly<Record<string, number>> = {
      ArrowRight: current + 1,
      ArrowUp: current + 1,
      ArrowLeft: current - 1,
      ArrowDown: current - 1,
      PageUp: current + largeStep,
      PageDown: current - largeStep,
      Home: 0,
      End: stops.length - 1,
    };
    const index = to[event.key];
    if (index === undefined || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    go(index);
  };
  const follow = (event: PointerEvent & { currentTarget: SVGElement }) => {
    const shape = event.currentTarget.getBoundingClientRect();
    const x = ((event.clientX - shape.left) * width) / shape.width;
    setShown(true);
    setShare(Math.min(1, Math.max(0, (x - plot.x) / plot.width)));
  };
  // As a slider it gets the arrow keys from a screen reader, which also announces its value when it changes.
  const slider = {
    role: "slider",
    tabindex: 0,
    "aria-label": `${name}. ${chart.words}`,
    "aria-valuemin": Math.round(chart.x.from),
    "aria-valuemax": Math.round(chart.x.to),
    "aria-valuenow": Math.round(at),
    "aria-valuetext": words,
    onKeyDown,
    onFocus: () => setShown(true),
    onBlur: () => setShown(false),
    onPointerMove: follow,
    onPointerDown: follow,
    onPointerLeave: ({ currentTarget }: PointerEvent & { currentTarget: SVGElement }) =>
      setShown(currentTarget === document.activeElement),
  };
  const table = useMemo(() => chartTable(chart), [chart]);
  return (
    <>
      {sceneView(scene, ({ tag, attributes }) => {
        if (tag === "svg") return slider;
        return attributes.class === "chart" ? { role: "presentation", "aria-label": undefined } : undefined;
      })}
      <p class={`read-out ${chart.lines.length > 1 && room < TWO_LINES ? "of-two" : ""}`}>
        {words.replaceAll(/(\d) /g, "$1\u00a0")}
      </p>
      {children}
      <TextTable name={name} head={table.head} rows={table.rows} />
    </>
  );
}
