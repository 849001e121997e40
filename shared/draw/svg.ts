/** A drawing as the text of an SVG file, in colours of its own. */
import { styleSheet, type Theme } from "./palette.ts";
import type { SceneNode } from "./scene.ts";

/** The whole file; `title` is what a reader that shows no pictures says instead. */
export function toSvg(scene: SceneNode, theme: Theme, title: string): string {
  const [, , width, height] = String(scene.attributes.viewBox ?? "").split(" ");
  const size: Record<string, string> = width && height ? { width, height } : {};
  const attributes = { xmlns: "http://www.w3.org/2000/svg", role: "img", ...size, ...scene.attributes };
  const inner = `<title>${escaped(title)}</title><style>${styleSheet(theme)}</style>${scene.children.map(written).join("")}`;
  return `<svg${attributesOf(attributes)}>${inner}</svg>\n`;
}

function written(node: SceneNode | string): string {
  if (typeof node === "string") return escaped(node);
  const head = `<${node.tag}${attributesOf(node.attributes)}`;
  return node.children.length === 0 ? `${head}/>` : `${head}>${node.children.map(written).join("")}</${node.tag}>`;
}

function attributesOf(attributes: Readonly<Record<string, string | number>>): string {
  return Object.entries(attributes)
    .map(([name, value]) => ` ${name}="${escaped(String(value))}"`)
    .join("");
}

/** Safe in text and in attributes; characters that XML forbids are replaced. */
function escaped(text: string): string {
  return text
    .replaceAll(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, "\ufffd")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}
