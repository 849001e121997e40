/** The colours of the motors from above in a file of their own. */
import { palettes, type Theme } from "./palette.ts";

/** The style sheet of their drawing, besides that of all drawings. */
export function motorsStyle(theme: Theme): string {
  const c = palettes[theme];
  const rules: readonly (readonly [selector: string, declarations: string])[] = [
    [".motor-arm", `fill:none;stroke:${c.quiet};stroke-width:4;stroke-linecap:round`],
    [".motor-handle", `fill:none;stroke:${c.quiet};stroke-width:3`],
    [".motor-body", `fill:${c.plate};stroke:${c.quiet};stroke-width:1.5;stroke-linejoin:round`],
    [".motor-mouth", `fill:${c.page};stroke:${c.quiet}`],
    [".motor-ahead", `fill:none;stroke:${c.quiet};stroke-dasharray:1 4;stroke-linecap:round`],
    [".motor-disc", `fill:${c.page};stroke:${c.line}`],
    [".under .motor-disc", "stroke-dasharray:2 3"],
    [".motor-free", `fill:none;stroke:${c.quiet};stroke-dasharray:3 4`],
    [".motor-blade", `stroke:${c.quiet};stroke-linejoin:round`],
    [".motor-blade.filled", `fill:${c.quiet};fill-opacity:.6`],
    [".motor-blade.open", `fill:${c.page}`],
    [".motor-blade.follows", "stroke-dasharray:3 3;fill-opacity:.3"],
    [".motor-edge", `fill:none;stroke:${c.text};stroke-width:3;stroke-linecap:round`],
    [".motor-turn", `fill:${c.accent}`],
    [".motor-turn.follows", `fill:none;stroke:${c.accent};stroke-width:1.3;stroke-dasharray:3 2`],
    [".motor-plate", `fill:${c.page};stroke:${c.text};stroke-width:1.5`],
    [".under .motor-plate", "stroke-dasharray:2 3"],
    [".motor-clash", `fill:url(#motor-hatch);stroke:${c.text}`],
    [".motor-hatch-ground", `fill:${c.clash};fill-opacity:.35`],
    [".motor-hatch-line", `fill:${c.text};fill-opacity:.6`],
  ];
  return rules.map(([selector, declarations]) => `${selector}{${declarations}}`).join("");
}
