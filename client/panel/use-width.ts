/** The current width of an element of the page. */
import { useEffect, useState } from "preact/hooks";

/** In less room, as at a large zoom, drawings with words are made this wide and scaled down, so that no word is cut off. */
const LEAST_DRAWN = 224;

/** The width for which a drawing is made in this much room, in CSS pixels. */
export function drawnWidth(width: number): number {
  return Math.max(LEAST_DRAWN, width);
}

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
