/** Colours and styles of a drawing in a file of its own, where no editor provides them. */
import { FLASH_FRAMES, FLASHING } from "./flash.ts";
import { PEN } from "./glyphs.ts";
import { BOLD } from "./lettering.ts";

/** `paper`: black on white, for a printer that has no colours and little toner. */
export type Theme = "light" | "dark" | "paper";

export interface Palette {
  readonly page: string;
  readonly text: string;
  readonly quiet: string;
  readonly line: string;
  readonly plate: string;
  readonly accent: string;
  readonly onAccent: string;
  readonly sky: string;
  readonly ground: string;
  /** What the display writes, and the edge round it. */
  readonly ink: string;
  readonly edge: string;
  readonly clash: string;
  /** Lines of one chart, in order: Okabe–Ito colours with a contrast of 3:1 to the page, and the text's own colour. */
  readonly series: readonly string[];
}

export const palettes: Readonly<Record<Theme, Palette>> = {
  light: {
    page: "#ffffff",
    text: "#26292e",
    quiet: "#5b626c",
    line: "#b9bfc8",
    plate: "#eef0f3",
    accent: "#8a4416",
    onAccent: "#ffffff",
    sky: "#44607c",
    ground: "#4d5540",
    ink: "#fff",
    edge: "#000",
    clash: "#ffb347",
    series: ["#26292e", "#0072b2", "#d55e00", "#009e73"],
  },
  dark: {
    page: "#1d2024",
    text: "#e4e6ea",
    quiet: "#a6adb8",
    line: "#4a515c",
    plate: "#2a2e34",
    accent: "#e39a63",
    onAccent: "#1d2024",
    sky: "#2c4058",
    ground: "#38402f",
    ink: "#fff",
    edge: "#000",
    clash: "#ffb347",
    series: ["#e4e6ea", "#56b4e9", "#e69f00", "#cc79a7"],
  },
  paper: {
    page: "#ffffff",
    text: "#000000",
    quiet: "#333333",
    line: "#777777",
    plate: "#ffffff",
    accent: "#222222",
    onAccent: "#ffffff",
    sky: "#ffffff",
    ground: "#e4e4e4",
    ink: "#000",
    edge: "#fff",
    clash: "#777777",
    series: ["#000000", "#000000", "#000000", "#000000"],
  },
};

/** For a name that only marks a place: dimmer than any reading, with a contrast of at least 3:1 to sky and ground. */
export const BLANK_OPACITY = 0.7;

/** The style sheet of a drawing in a file. */
export function styleSheet(theme: Theme): string {
  const c = palettes[theme];
  const rules: readonly (readonly [selector: string, declarations: string])[] = [
    [".page", `fill:${c.page}`],
    ["text", "font-family:system-ui,sans-serif"],
    ["text,.letters", `fill:${c.text}`],
    [".sky", `fill:${c.sky}`],
    [".ground", `fill:${c.ground}`],
    [".rim", `fill:none;stroke:${c.line};stroke-width:2`],
    [".safe", `fill:none;stroke:${c.ink};stroke-opacity:.55;stroke-dasharray:2 6;stroke-width:1.5`],
    [".plate,.reach", "fill:none"],
    [".blank .plate", `stroke:${c.ink};stroke-opacity:.6;stroke-width:1.5`],
    [".blank .glyphs", `opacity:${BLANK_OPACITY}`],
    [".marked .plate", `fill:${c.edge};fill-opacity:.35;stroke:${c.ink};stroke-width:2`],
    [".glyphs", `fill:${c.ink};stroke:${c.edge};stroke-width:${2 * PEN.edge};stroke-linejoin:round;paint-order:stroke`],
    [".line,.faint,.shade", `fill:none;stroke:${c.ink};stroke-linecap:round;stroke-linejoin:round`],
    [".line", "stroke-width:2.5"],
    [".faint", "stroke-width:1.5"],
    [".shade", `stroke:${c.edge}`],
    [".line-shade", "stroke-width:5.5"],
    [".faint-shade", "stroke-width:4"],
    [".solid", `fill:${c.ink};stroke:${c.edge};stroke-width:3;stroke-linejoin:round;paint-order:stroke`],
    [".hatch-ground", `fill:${c.edge};fill-opacity:.35`],
    [".hatch-line", `fill:${c.clash};fill-opacity:.85`],
    [".hatched", "fill:url(#hatch)"],
    [".amiss-edge", `fill:none;stroke:${c.clash};stroke-width:2`],
    [".card", `fill:none;stroke:${c.line}`],
    [".place-line", `fill:none;stroke:${c.line}`],
    [".rocker", `fill:${c.plate};stroke:${c.line}`],
    [".key", `fill:${c.page};stroke:${c.line}`],
    [".set .key", `fill:${c.accent};stroke:${c.accent}`],
    [".grip", `fill:none;stroke:${c.onAccent};stroke-width:1.5;stroke-linecap:round`],
    [BOLD.join(","), "font-weight:600"],
    [".small,.modes", `fill:${c.quiet}`],
    [".on-name,.open-name", `fill:${c.text}`],
    [".on-band", `fill:${c.accent};fill-opacity:.16`],
    [".on-bar", `fill:${c.accent}`],
    [".open-bar", `fill:none;stroke:${c.accent};stroke-width:1.5`],
    [".can-line", `fill:none;stroke:${c.quiet};stroke-width:2;stroke-dasharray:1 4;stroke-linecap:round`],
    [".gives .reach", `fill:none;stroke:${c.accent};stroke-width:2;stroke-dasharray:5 3`],
    [".arc", `fill:none;stroke:${c.quiet};stroke-width:6`],
    [".arc.idle", `stroke:${c.line}`],
    [".arc.set", `stroke:${c.accent}`],
    [".needle", `stroke:${c.accent};stroke-width:3;stroke-linecap:round`],
    [".unset .needle", `stroke:${c.quiet};stroke-dasharray:1 5`],
  ];
  return [...rules, ...againstRules(c), ...chartRules(c)]
    .map(([selector, declarations]) => `${selector}{${declarations}}`)
    .join("");
}

/** What differs on the other side of a comparison. */
function againstRules(c: Palette): (readonly [selector: string, declarations: string])[] {
  return [
    [".there-ground", `fill:${c.edge};fill-opacity:.25`],
    [".there-stripe", `fill:${c.ink};fill-opacity:.4`],
    [".there-fill", "fill:url(#there-stripes)"],
    [".there-shade,.join-shade", `fill:none;stroke:${c.edge};stroke-width:5`],
    [".there-edge", `fill:none;stroke:${c.ink};stroke-width:2.5;stroke-dasharray:9 6`],
    [".here-edge", `fill:none;stroke:${c.ink};stroke-width:3;stroke-dasharray:.1 7;stroke-linecap:round`],
    [".there-plate", `fill:${c.edge};fill-opacity:.8`],
    [".there-name", `fill:${c.ink}`],
    [".join", `fill:none;stroke:${c.ink};stroke-width:2`],
    [".join-end", `fill:${c.ink};stroke:${c.edge};stroke-width:2;paint-order:stroke`],
    [".elsewhere .card", "stroke-dasharray:6 4"],
    [".change-mark", `fill:${c.text}`],
    [".change-words,.change-name", `fill:${c.text}`],
    [".sign-frame,.sign-stroke", `fill:none;stroke:${c.text}`],
    [".sign-stroke", "stroke-width:1.6"],
  ];
}

/** Dashes of the lines of one chart, in order. */
export const DASHES = ["none", "9 4", "2 4", "9 3 2 3"] as const;

function chartRules(c: Palette): (readonly [selector: string, declarations: string])[] {
  const series = c.series.flatMap((colour, index): [string, string][] => [
    [`.chart-line.series-${index}`, `stroke:${colour};stroke-dasharray:${DASHES[index]}`],
    [`.chart-marker.series-${index},.chart-name.series-${index}`, `fill:${colour}`],
  ]);
  return [
    [".chart-grid,.chart-axis,.chart-line,.chart-drop,.chart-level,.chart-band-edge", "fill:none;stroke-width:1"],
    [".chart-grid", `stroke:${c.line};stroke-opacity:.45`],
    [".chart-axis", `stroke:${c.quiet}`],
    [".chart-line", "stroke-width:2.2;stroke-linejoin:round;stroke-linecap:round"],
    ...series,
    [".chart-drop,.chart-level", `stroke:${c.quiet};stroke-dasharray:3 3`],
    [".chart-point,.delay-bar", `fill:${c.accent}`],
    [".whole .delay-bar", `fill:${c.quiet}`],
    [".pack-scale", `fill:none;stroke:${c.quiet}`],
    [".pack-bears", `fill:${c.accent};fill-opacity:.35`],
    [".pack-usual,.pack-leader", `fill:none;stroke:${c.quiet}`],
    [".pack-leader", "stroke-opacity:.5"],
    [".pack-dot", `fill:${c.accent}`],
    [".loop-round", `fill:none;stroke:${c.quiet}`],
    [".loop-sample", `fill:${c.quiet};fill-opacity:.55`],
    [".loop-answer", `fill:${c.accent};fill-opacity:.35;stroke:${c.accent}`],
    [".loop-pause", `fill:none;stroke:${c.accent};stroke-dasharray:2 2`],
    [".chart-place", `fill:${c.quiet}`],
    [".chart-reading", `stroke:${c.text}`],
    [".chart-ring", `fill:${c.page};stroke:${c.text};stroke-width:1.8`],
    [".over", "fill:url(#over)"],
    [".chart-band", `fill:${c.text};fill-opacity:.09`],
    // A line that crosses a label is interrupted by it.
    [".label-plate", `fill:${c.page}`],
    [".chart-label", `stroke:${c.page};stroke-width:4;stroke-linejoin:round;paint-order:stroke`],
    [".chart-band-edge", `stroke:${c.line};stroke-dasharray:4 4`],
  ];
}

/** Where nothing can flash, a dashed frame marks what would. */
export function steady(theme: Theme): string {
  return `.flashes .plate{stroke:${palettes[theme].ink};stroke-dasharray:12 5;stroke-width:3}`;
}

/** The flashing of a drawing; a steady mark for readers who prefer reduced motion. */
export function motion(theme: Theme): string {
  return (
    `@media (prefers-reduced-motion:no-preference){.flashes>:not(.plate,.hatched,.amiss-edge){animation:${FLASHING}}}` +
    `@media (prefers-reduced-motion:reduce){${steady(theme)}}${FLASH_FRAMES}`
  );
}
