/** What had the focus has it again when the editor gives the keyboard back: after a question, or a step undone. */
import { postToHost } from "./host.ts";

/** Watches the page; gives the way to stop. */
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
