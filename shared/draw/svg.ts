/** A drawing as the text of an SVG file, in colours of its own. */
import { escapeHtml } from "../text/html.ts";
import { lettered } from "./lettering.ts";
import { motorsStyle } from "./motors-style.ts";
import { motion, steady, styleSheet, type Theme } from "./palette.ts";
import { type Box, node, rect, rounded, type SceneNode } from "./scene.ts";

/** The title and description of a drawing in a file, and how it is written. */
export interface FileDetails {
  readonly title: string;
  /** What the drawing shows, in sentences. */
  readonly description?: string;
  /** Width in pixels; without it, the width in the drawing's own units. */
  readonly widthPx?: number | undefined;
  /** Margin around the drawing, in its own units. */
  readonly margin?: number | undefined;
  /**
   * `fonts`: text stays text, and flashing elements flash. `still`: text stays text, and nothing moves. `outlines`: no
   * font is needed, and nothing moves.
   */
  readonly letters?: "fonts" | "still" | "outlines";
}

/** The whole file. */
export function toSvg(scene: SceneNode, theme: Theme, details: FileDetails): string {
  const { title, description, widthPx, letters = "fonts" } = details;
  const { x, y, width, height } = boundsWithMargin(scene, details);
  const scale = widthPx === undefined ? 1 : widthPx / width;
  const size = { width: width * scale, height: height * scale, viewBox: [x, y, width, height].map(rounded).join(" ") };
  const drawn = letters === "outlines" ? lettered(scene) : scene;
  const own = scene.attributes.class === "motors" ? motorsStyle(theme) : "";
  const style = styleSheet(theme) + own + (letters === "fonts" ? motion(theme) : steady(theme));
  return `${svgText(
    node("svg", { xmlns: "http://www.w3.org/2000/svg", role: "img", ...size, class: drawn.attributes.class ?? null }, [
      node("title", {}, [title]),
      ...(description === undefined ? [] : [node("desc", {}, [description])]),
      node("style", {}, [style]),
      rect("page", { x, y, width, height }),
      ...drawn.children,
    ]),
  )}\n`;
}

/** The part of the plane that a file shows: the drawing with its margin. */
export function boundsWithMargin(scene: SceneNode, { margin = 0 }: Pick<FileDetails, "margin">): Box {
  const [x = 0, y = 0, width = 1, height = 1] = String(scene.attributes.viewBox).split(" ").map(Number);
  return { x: x - margin, y: y - margin, width: width + 2 * margin, height: height + 2 * margin };
}

/** A drawing, or a part of one, as text that may stand in a page: its classes are styled by whoever shows it. */
export function svgText(node: SceneNode | string): string {
  if (typeof node === "string") return escapeHtml(node);
  const head = `<${node.tag}${attributesOf(node.attributes)}`;
  return node.children.length === 0 ? `${head}/>` : `${head}>${node.children.map(svgText).join("")}</${node.tag}>`;
}

function attributesOf(attributes: Readonly<Record<string, string | number>>): string {
  return Object.entries(attributes)
    .map(([name, value]) => ` ${name}="${escapeHtml(String(value))}"`)
    .join("");
}
