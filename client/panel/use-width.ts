/** The current width of an element of the page. */
import { useEffect, useState } from "preact/hooks";

/** The width in whole CSS pixels, kept current; 0 until the element is measured. */
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
