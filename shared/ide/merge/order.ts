/** The order of statements where it counts: of layers, and of the lines of a list. */
import type { Match, Side } from "./match.ts";

/** So many are held to it pair by pair; of more, only one side may have changed the order or added something. */
const MOST_PAIRED = 120;

/**
 * Whether each of two stands before the other because a side says so: itself, or by one that stands between them.
 * Where both sides put them into other orders, neither does.
 */
export function isSaidOrder(order: readonly Match[]): boolean {
  if (order.length > MOST_PAIRED) return isAsIn(order, "ours", "theirs") || isAsIn(order, "theirs", "ours");
  if (
    isReordered(order, "ours", "base") &&
    isReordered(order, "theirs", "base") &&
    isReordered(order, "ours", "theirs")
  )
    return false;
  return order.every((second, j) =>
    order.slice(0, j).every((first, i) => {
      const isBefore = isSaidBefore(first, second);
      if (isBefore !== null) return isBefore;
      return order.slice(i + 1, j).some((each) => isSaidBefore(first, each) && isSaidBefore(each, second));
    }),
  );
}

/** The same statements in an order that the sides say; null where they say none, or more than one. */
export function saidOrder(matches: readonly Match[]): readonly Match[] | null {
  if (matches.length > MOST_PAIRED) return null;
  const left = [...matches];
  const order: Match[] = [];
  while (left.length > 0) {
    const first = left.findIndex((each) => left.every((other) => other === each || isSaidBefore(other, each) !== true));
    if (first < 0) return null;
    order.push(...left.splice(first, 1));
  }
  return isSaidOrder(order) ? order : null;
}

/** Whether an order is that of one side, while the other left its own as it was. */
function isAsIn(order: readonly Match[], side: "ours" | "theirs", other: "ours" | "theirs"): boolean {
  if (!order.every((match) => match[side])) return false;
  const isRising = order.every((match, i) => i === 0 || order[i - 1]![side]!.order < match[side]!.order);
  const kept = order.filter((match) => match[other]).sort((a, b) => a[other]!.order - b[other]!.order);
  return isRising && kept.every(({ base }, i) => base && (i === 0 || kept[i - 1]!.base!.order < base.order));
}

/** Whether what two texts both have stands in another order in one of them. */
function isReordered(matches: readonly Match[], side: Side, other: Side): boolean {
  const both = matches.filter((match) => match[side] && match[other]);
  both.sort((a, b) => a[other]!.order - b[other]!.order);
  return both.some((match, i) => i > 0 && both[i - 1]![side]!.order > match[side]!.order);
}

/** Whether the sides have one before the other, by the side that changed it; null where none has both. */
function isSaidBefore(first: Match, second: Match): boolean | null {
  const inSide = (side: Side) => (first[side] && second[side] ? first[side].order < second[side].order : null);
  const [base, ours, theirs] = [inSide("base"), inSide("ours"), inSide("theirs")];
  if (ours === null || theirs === null) return ours ?? theirs;
  if (ours === theirs) return ours;
  // Without a base they contradict each other, and neither order will do.
  if (base === null) return false;
  return ours === base ? theirs : ours;
}
