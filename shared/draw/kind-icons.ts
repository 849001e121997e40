/** Small pictures that tell craft, layer, handset and dialect apart by their shape, and mark what is wrong with one. */
import type { ScriptKind } from "../protocol/workspace-tree.ts";

/** In a square of 24, as strokes. */
const SHAPES: Readonly<Record<ScriptKind, string>> = {
  // Two arms that cross, with a turning propeller at each end.
  craft:
    '<path d="M7.4 7.4 16.6 16.600M16.6 7.4 7.4 16.6"/><circle cx="5.2" cy="5.2" r="3"/><circle cx="18.8" cy="5.2" r="3"/><circle cx="5.2" cy="18.8" r="3"/><circle cx="18.8" cy="18.8" r="3"/>',
  // Three sheets, one over another.
  layer: '<path d="M12 3.5 21 8.2 12 13 3 8.200Z"/><path d="M3 12.2 12 17 21 12.200M3 16.2 12 21 21 16.2"/>',
  // A box with two sticks, and an aerial.
  handset:
    '<rect x="3" y="8.5" width="18" height="11.5" rx="2.5"/><circle cx="8.3" cy="14.2" r="2.3"/><circle cx="15.7" cy="14.2" r="2.3"/><path d="M17 8.500V3"/>',
  // Two sheets of text that answer one another.
  dialect: '<path d="M3 4h11v7H8l-3 2.600V11H3ZM21 10.500v7h-2V20l-3-2.500H9.5"/><path d="M6 7.500h5"/>',
};

/** What is wrong, by its shape: a filled square for an error, a filled triangle for a warning. */
const MARKS = {
  error: '<rect x="14.5" y="14.5" width="9" height="9" rx="1"/>',
  warning: '<path d="M18.5 13.5 24 23.500H13Z"/>',
} as const;

/** On what the picture stands. */
export type Ground = "light" | "dark";

const COLOURS: Readonly<Record<Ground, Readonly<Record<"stroke" | "error" | "warning" | "ground", string>>>> = {
  light: { stroke: "#7a3a14", error: "#b01011", warning: "#8a5a00", ground: "#ffffff" },
  dark: { stroke: "#e9a876", error: "#ff8d85", warning: "#f2c84b", ground: "#1f1f1f" },
};

/** The picture of a kind as SVG, with a mark in its corner where something is wrong. */
export function kindIcon(kind: ScriptKind, mark: "error" | "warning" | null, ground: Ground): string {
  const { stroke, ground: behind, ...marks } = COLOURS[ground];
  const corner =
    mark === null
      ? ""
      : `<g fill="${marks[mark]}" stroke="${behind}" stroke-width="1.6" paint-order="stroke">${MARKS[mark]}</g>`;
  const drawing = `<g fill="none" stroke="${stroke}" stroke-width="1.9" stroke-linecap="round" stroke-linejoin="round">${SHAPES[kind]}</g>`;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="16" height="16" viewBox="0 0 24 24">${drawing}${corner}</svg>`;
}
