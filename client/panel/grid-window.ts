/** Which rows and columns of a large table stand in the page: those in sight, some beyond them, and the one with the keyboard. */

/** What is drawn of a row of things one behind the other: things by their index, and the room of those left out. */
export type Part =
  | { readonly kind: "one"; readonly index: number }
  | { readonly kind: "room"; readonly from: number; readonly to: number };

/** From `first` up to, without, `end`, and `kept` besides, of `count` things. */
export function partsOf(first: number, end: number, kept: number, count: number): Part[] {
  const parts: Part[] = [];
  const room = (from: number, to: number) => {
    if (from < to) parts.push({ kind: "room", from, to });
  };
  let at = 0;
  const show = (index: number) => {
    room(at, index);
    parts.push({ kind: "one", index });
    at = index + 1;
  };
  if (kept >= 0 && kept < first && kept < count) show(kept);
  for (let index = first; index < Math.min(end, count); index++) show(index);
  if (kept >= Math.max(end, at) && kept < count) show(kept);
  room(at, count);
  return parts;
}

/** The window of things of one size: whole steps, so that most scrolling changes nothing. */
export function windowOf(
  scrolledPx: number,
  roomPx: number,
  sizePx: number,
  step: number,
): { first: number; end: number } {
  const from = Math.floor(scrolledPx / sizePx / step) * step;
  return { first: Math.max(0, from - step), end: from + Math.ceil(roomPx / sizePx / step) * step + 2 * step };
}

/** Where each thing begins, and behind the last of them the end of all. */
export function startsOf(sizes: readonly number[]): number[] {
  const starts = [0];
  for (const size of sizes) starts.push(starts.at(-1)! + size);
  return starts;
}

/** The same window for things of several sizes. */
export function windowIn(
  scrolledPx: number,
  roomPx: number,
  starts: readonly number[],
  step: number,
): { first: number; end: number } {
  const count = starts.length - 1;
  let from = 0;
  while (from < count - 1 && starts[from + 1]! <= scrolledPx) from++;
  let to = from;
  while (to < count && starts[to]! < scrolledPx + roomPx) to++;
  return { first: Math.max(0, Math.floor(from / step) * step - step), end: Math.ceil(to / step) * step + step };
}
