/** Restores the focus within the page when the editor returns the keyboard, as after a question or an undo. */
import { postToHost } from "./host.ts";

/** Starts to follow the focus; returns a function that stops this. */
export function keepFocus(): () => void {
  let last: HTMLElement | SVGElement | null = null;
  const onFocusIn = ({ target }: FocusEvent) => {
    if (target instanceof HTMLElement || target instanceof SVGElement) last = target;
  };
  const onFocus = () => {
    postToHost({ kind: "keyboard", has: true });
    if (document.activeElement === document.body && last?.isConnected) last.focus({ preventScroll: true });
  };
  document.addEventListener("focusin", onFocusIn);
  window.addEventListener("focus", onFocus);
  return () => {
    document.removeEventListener("focusin", onFocusIn);
    window.removeEventListener("focus", onFocus);
  };
}
