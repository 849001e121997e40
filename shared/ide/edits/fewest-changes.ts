/** How one list becomes another with the fewest items changed, removed and added. */

export type Step =
  | { readonly kind: "keep"; readonly from: number; readonly to: number }
  | { readonly kind: "change"; readonly from: number; readonly to: number }
  | { readonly kind: "remove"; readonly from: number }
  /** Behind the item `after` of the old list; -1: before all of them. */
  | { readonly kind: "add"; readonly after: number; readonly to: number };

/** Cells of the table that is worth filling; beyond that, items are paired in their order. */
const MOST_CELLS = 1_000_000;

/** What a step costs: of two ways with as many steps, the one that keeps more items is the better one. */
const STEP = 10_000;
const CHANGE = STEP + 1;

/** The steps in order (Levenshtein's distance by Wagner and Fischer's table; from memory). Items that are equal are kept. */
export function fewestChanges(from: readonly string[], to: readonly string[]): Step[] {
  let head = 0;
  while (head < from.length && head < to.length && from[head] === to[head]) head++;
  let tail = 0;
  while (tail < Math.min(from.length, to.length) - head && from.at(-1 - tail) === to.at(-1 - tail)) tail++;
  const [rows, columns] = [from.length - head - tail, to.length - head - tail];
  const steps: Step[] = [];
  for (let i = 0; i < head; i++) steps.push({ kind: "keep", from: i, to: i });
  steps.push(...(rows * columns > MOST_CELLS ? inOrder(head, rows, columns) : byTable(from, to, head, rows, columns)));
  for (let i = tail; i > 0; i--) steps.push({ kind: "keep", from: from.length - i, to: to.length - i });
  return steps;
}

/** How many items are changed, removed or added. */
export function countChanges(steps: readonly Step[]): number {
  return steps.filter(({ kind }) => kind !== "keep").length;
}

function inOrder(head: number, rows: number, columns: number): Step[] {
  return Array.from({ length: Math.max(rows, columns) }, (_, i): Step => {
    if (i < rows && i < columns) return { kind: "change", from: head + i, to: head + i };
    return i < rows ? { kind: "remove", from: head + i } : { kind: "add", after: head + rows - 1, to: head + i };
  });
}

function byTable(from: readonly string[], to: readonly string[], head: number, rows: number, columns: number): Step[] {
  const width = columns + 1;
  const cost = new Int32Array((rows + 1) * width);
  for (let row = 0; row <= rows; row++) {
    for (let column = 0; column <= columns; column++) {
      const at = row * width + column;
      if (row === 0 || column === 0) cost[at] = (row + column) * STEP;
      else {
        const change = from[head + row - 1] === to[head + column - 1] ? 0 : CHANGE;
        cost[at] = Math.min(cost[at - width - 1]! + change, cost[at - width]! + STEP, cost[at - 1]! + STEP);
      }
    }
  }
  const steps: Step[] = [];
  for (let row = rows, column = columns; row > 0 || column > 0; ) {
    const at = row * width + column;
    const change = from[head + row - 1] === to[head + column - 1] ? 0 : CHANGE;
    if (row > 0 && column > 0 && cost[at] === cost[at - width - 1]! + change) {
      steps.push({ kind: change === 0 ? "keep" : "change", from: head + --row, to: head + --column });
    } else if (row > 0 && cost[at] === cost[at - width]! + STEP) steps.push({ kind: "remove", from: head + --row });
    else steps.push({ kind: "add", after: head + row - 1, to: head + --column });
  }
  return steps.reverse();
}
