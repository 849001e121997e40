/** How wide an element of the page is, while that changes. */
import { useEffect, useState } from "preact/hooks";

/** Whole pixels; 0 until the element is measured. */
export function useWidth(frame: { current: HTMLDivElement | null }): number {
  const [width, setWidth] = useState(0);
  useEffect(() => {
    if (!frame.current) return;
    const observer = new ResizeObserver(([entry]) => setWidth(Math.floor(entry?.contentRect.width ?? 0)));
    observer.observe(frame.current);
    return () => observer.disconnect();
  }, [frame]);
  return width;
}
