/** What the page shows of a script: its own signs, and none that turns the text around it or hides in it. */
import { options, type VNode } from "preact";
import { visibleText } from "../../shared/text/visible-text.ts";

/** Attributes that are read, by the eye or aloud. */
const READ = ["title", "aria-label", "aria-description", "aria-valuetext", "alt", "placeholder"];

/** From now on each text of the page is as it can be seen. What stands in a field to be edited stays as it is. */
export function showOnlyVisible(): void {
  const before = options.vnode;
  options.vnode = (vnode) => {
    makeVisible(vnode);
    before?.(vnode);
  };
}

function makeVisible(vnode: VNode): void {
  const { type, props } = vnode as { type: unknown; props: unknown };
  // The library makes a node without a type of each text.
  if (typeof props === "string") (vnode as { props: unknown }).props = visibleText(props);
  if (typeof type !== "string") return;
  const attributes = props as Record<string, unknown>;
  for (const name of READ) {
    const text = attributes[name];
    if (typeof text === "string") attributes[name] = visibleText(text);
  }
}
