/** Ways to look into a drawing. */
import type { SceneNode } from "../../shared/draw/scene.ts";

/** Every node that has the class, in order. */
export function all(node: SceneNode, className: string): SceneNode[] {
  const own = String(node.attributes.class ?? "").split(" ");
  const below = node.children.flatMap((child) => (typeof child === "string" ? [] : all(child, className)));
  return own.includes(className) ? [node, ...below] : below;
}

/** All text of a drawing, a string for each piece. */
export function texts(node: SceneNode): string[] {
  return node.children.flatMap((child) => (typeof child === "string" ? [child] : texts(child)));
}

/** The numbers of an attribute such as a viewBox. */
export function numbers(attribute: string | number | undefined): number[] {
  return String(attribute).split(" ").map(Number);
}
