/** Renders a drawing in the page, with what the page adds to its nodes. */
import { type ComponentChild, h } from "preact";
import type { SceneNode } from "../../shared/draw/scene.ts";

/** What the page adds to a node: roles, labels, gestures. */
export type Enrich = (node: SceneNode) => Readonly<Record<string, unknown>> | undefined;

/**
 * The virtual nodes of a drawing. They are keyed by element, so that one keeps the focus when others are added or
 * removed.
 */
export function sceneView(node: SceneNode | string, enrich: Enrich, key?: string | number): ComponentChild {
  if (typeof node === "string") return node;
  const children = node.children.map((child, index) => sceneView(child, enrich, keyOf(child) ?? index));
  return h(node.tag, { ...node.attributes, ...enrich(node), key }, children);
}

function keyOf(node: SceneNode | string): string | number | undefined {
  if (typeof node === "string") return undefined;
  return node.attributes["data-element"] ?? motorKey(node, "data-motor") ?? motorKey(node, "data-art");
}

/** A motor has several nodes: what lies on top has the focus, what lies below is drawn in another order. */
function motorKey({ attributes }: SceneNode, of: string): string | undefined {
  return attributes[of] === undefined ? undefined : `${of} ${attributes[of]}`;
}

/** The properties of a node that acts as a button: Enter and the space bar do what a click does. */
export function pressable(press: () => void): Readonly<Record<string, unknown>> {
  return {
    role: "button",
    tabindex: 0,
    onClick: press,
    onKeyDown: (event: KeyboardEvent) => {
      if (event.key !== "Enter" && event.key !== " ") return;
      event.preventDefault();
      press();
    },
  };
}
