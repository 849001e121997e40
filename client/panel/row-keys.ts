/**
 * Rows that are gone through by the arrow keys. In each list only one row's controls can be reached by Tab, so a long
 * list is left with a few keys. Where the row with the keyboard goes, the next one has it.
 */
import { useLayoutEffect, useRef, useState } from "preact/hooks";

const ROW = "[data-row]";
/** What a row is about first: whether it is chosen, else what can be done with it, else any control of it. */
const CONTROLS = ["input", ".fact-tools button", "button"];

export interface RowKeys {
  /** The row of a list whose controls Tab reaches: the one that had the keyboard last, else its first. */
  current(rows: readonly string[]): string | undefined;
  /** Properties of the element around all lists. */
  readonly within: {
    onKeyDown(event: KeyboardEvent): void;
    onFocusIn(event: FocusEvent): void;
  };
}

/** `shown` names all rows in their order; `root` is the element around all lists. */
export function useRowKeys(shown: readonly string[], root: { current: HTMLElement | null }): RowKeys {
  const [latest, setLatest] = useState<readonly string[]>([]);
  /** The row that has the keyboard, with the order that the rows had then. */
  const focused = useRef<{ readonly row: string; readonly order: readonly string[] } | null>(null);

  useLayoutEffect(() => {
    const was = focused.current;
    if (!was) return;
    if (shown.includes(was.row)) {
      focused.current = { row: was.row, order: shown };
      return;
    }
    focused.current = null;
    if (document.activeElement !== document.body) return;
    const at = was.order.indexOf(was.row);
    const left = (row: string) => shown.includes(row);
    const next = was.order.slice(at + 1).find(left) ?? was.order.slice(0, at).findLast(left);
    if (next !== undefined) focusRow(root.current, next);
    else root.current?.querySelector<HTMLElement>("h1")?.focus();
  }, [shown.join("\n")]);

  return {
    current: (rows) => latest.find((row) => rows.includes(row)) ?? rows[0],
    within: {
      onFocusIn({ target }) {
        const row = rowOf(target);
        focused.current = row === undefined ? null : { row, order: shown };
        if (row !== undefined) setLatest((before) => [row, ...before.filter((each) => each !== row)]);
      },
      onKeyDown(event) {
        const row = rowOf(event.target);
        if (row === undefined || !root.current || isTakenByField(event)) return;
        const rows = [...root.current.querySelectorAll<HTMLElement>(ROW)].filter((each) => each.offsetParent !== null);
        const at = rows.findIndex(({ dataset }) => dataset.row === row);
        const to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: rows.length - 1 }[event.key];
        const next = to === undefined ? undefined : rows[to];
        if (!next) return;
        event.preventDefault();
        focusIn(next);
        next.scrollIntoView({ block: "nearest" });
      },
    },
  };
}

function focusRow(root: HTMLElement | null, row: string): void {
  const found = [...(root?.querySelectorAll<HTMLElement>(ROW) ?? [])].find(({ dataset }) => dataset.row === row);
  if (found) focusIn(found);
}

function focusIn(row: HTMLElement): void {
  const [first] = CONTROLS.flatMap((each) => row.querySelector<HTMLElement>(each) ?? []);
  first?.focus();
}

function rowOf(target: EventTarget | null): string | undefined {
  return target instanceof Element ? target.closest<HTMLElement>(ROW)?.dataset.row : undefined;
}

/** A select and a text have arrow keys of their own. */
function isTakenByField({ target, altKey, ctrlKey, metaKey, shiftKey }: KeyboardEvent): boolean {
  if (altKey || ctrlKey || metaKey || shiftKey) return true;
  return target instanceof HTMLSelectElement || (target instanceof HTMLInputElement && target.type !== "checkbox");
}
