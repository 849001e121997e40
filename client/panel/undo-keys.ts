/** Undo and redo act on the script and are passed to the host, except in a text field. */
import { useEffect } from "preact/hooks";
import { postToHost } from "./host.ts";

/** `cancel` is tried before an undo: true where it took back something that is still under way. */
export function useUndoKeys(cancel: () => boolean = () => false): void {
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent) => {
      const key = event.key.toLowerCase();
      const redo = (key === "z" && event.shiftKey) || (key === "y" && !event.metaKey);
      if (!(event.ctrlKey || event.metaKey) || event.altKey || !(redo || key === "z") || isTyped(event)) return;
      event.preventDefault();
      // The editor also receives the keys of the page and must not undo a second time.
      event.stopPropagation();
      if (redo || !cancel()) postToHost({ kind: redo ? "redo" : "undo" });
    };
    document.addEventListener("keydown", onKeyDown);
    return () => document.removeEventListener("keydown", onKeyDown);
  }, []);
}

const NOT_TYPED: ReadonlySet<string> = new Set(["range", "checkbox", "radio"]);

function isTyped({ target }: Event): boolean {
  // Where nothing was typed since it was written, nothing of the field's own could be taken back.
  return target instanceof HTMLInputElement && !NOT_TYPED.has(target.type) && target.dataset.untouched === undefined;
}
