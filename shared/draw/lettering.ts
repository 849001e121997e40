/** Turns the text of a drawing into paths of our own letters, for pictures that must not depend on a font. */
import { CAPITALS, PEN, printedLine } from "./glyphs.ts";
import { node, type SceneNode } from "./scene.ts";

/** Half the stroke width of plain and of bold letters, in the units of a letter's cell. */
const REACH = { plain: 0.72, bold: PEN.ink } as const;
/** Height of capitals as a share of the font size, and the factor of letter widths, as in common sans-serif fonts. */
const CAPITAL_SHARE = 0.72;
const NARROWED = 0.92;

/** Selectors of bold text; of two classes, the second counts only inside the first. */
export const BOLD = [
  ".control-name",
  ".state-words",
  ".set .way-name",
  ".on-name",
  ".chart-title",
  ".motor-number",
] as const;

/** The same drawing without text nodes: each becomes a path with the class `letters` besides its own. */
export function lettered(scene: SceneNode, around: readonly string[] = []): SceneNode {
  const classes = String(scene.attributes.class ?? "").split(" ");
  if (scene.tag === "text") return letters(scene, isBold(classes, around) ? "bold" : "plain");
  const within = [...around, ...classes];
  return {
    ...scene,
    children: scene.children.map((child) => (typeof child === "string" ? child : lettered(child, within))),
  };
}

function isBold(own: readonly string[], around: readonly string[]): boolean {
  return BOLD.some((selector) => {
    const names = selector.split(" ").map((name) => name.slice(1));
    const last = names.at(-1)!;
    return own.includes(last) && names.slice(0, -1).every((name) => around.includes(name));
  });
}

function letters({ attributes, children }: SceneNode, weight: keyof typeof REACH): SceneNode {
  const content = children.filter((child) => typeof child === "string").join("");
  const size = Number(attributes["font-size"] ?? 12);
  const { path, width } = printedLine(content, REACH[weight]);
  const scale = scaleOf(size);
  const share = { start: 0, middle: 0.5, end: 1 }[String(attributes["text-anchor"] ?? "start")] ?? 0;
  const x = Number(attributes.x ?? 0) - width * scale.x * share;
  const y = Number(attributes.y ?? 0) - CAPITALS.baseline * scale.y;
  const transform = `translate(${fine(x)} ${fine(y)}) scale(${fine(scale.x)} ${fine(scale.y)})`;
  const className = ["letters", attributes.class ?? ""].join(" ").trim();
  return node("path", { class: className, d: path, transform, "data-text": content });
}

function scaleOf(size: number): { x: number; y: number } {
  const y = (size * CAPITAL_SHARE) / (CAPITALS.baseline - CAPITALS.top);
  return { x: y * NARROWED, y };
}

function fine(value: number): number {
  return Math.round(value * 1000) / 1000;
}

/** The width of a text in plain letters of our own, in the units of its font size. */
export function letteredWidth(text: string, size: number): number {
  return printedLine(text, REACH.plain).width * scaleOf(size).x;
}
