/**
 * A table of the fleet: craft below one another, with their names and the headings always in sight. Only the rows and
 * columns in sight stand in the page; arrow keys go from cell to cell, Enter to the line that says it.
 */
import type { VNode } from "preact";
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import type { LinePlace } from "../../shared/protocol/findings.ts";
import {
  cellAt,
  cellText,
  craftOfRow,
  type PackedFleet,
  type PackedTable,
} from "../../shared/protocol/fleet-messages.ts";
import { FleetCellView } from "./fleet-cell.tsx";
import { type At, movedBy } from "./grid-keys.ts";
import { type Part, partsOf, startsOf, windowIn, windowOf } from "./grid-window.ts";

interface Props {
  readonly fleet: PackedFleet;
  readonly table: PackedTable;
  /** Those that are shown, in their order. */
  readonly rows: PackedTable["rows"];
  /** Indices of the columns that are shown. */
  readonly columns: readonly number[];
  readonly open: (at: LinePlace) => void;
}

/** Whole steps in which the window moves. */
const ROW_STEP = 6;
const COLUMN_STEP = 2;
/** Columns are as wide as their longest text, within bounds; in letters. */
const LEAST_LETTERS = 5;
const MOST_LETTERS = 24;
/** What a cell has on both sides of its text, and the mark before it, in letters. */
const AROUND_LETTERS = 4;
/** The room that a table is drawn for until it is measured. */
const UNMEASURED: Room = { widthPx: 600, heightPx: 400, letterPx: 8, rowPx: 26 };

interface Room {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly letterPx: number;
  readonly rowPx: number;
}

export function FleetGrid({ fleet, table, rows, columns, open }: Props) {
  const scroller = useRef<HTMLDivElement>(null);
  const probe = useRef<HTMLSpanElement>(null);
  const room = useRoom(scroller, probe);
  const [scrolled, setScrolled] = useState({ topPx: 0, leftPx: 0 });
  const [chosen, setActive] = useState<At>({ row: 0, column: 0 });
  const active: At = { row: Math.min(chosen.row, rows.length), column: Math.min(chosen.column, columns.length) };
  /** The cell that takes the keyboard once it is drawn. */
  const awaited = useRef<At | null>(null);

  const letters = useMemo(() => lettersOf(fleet, table, rows, columns), [fleet, table, rows, columns]);
  const { letterPx, rowPx } = room;
  // In a narrow room the names leave more than half of it to what they are about.
  const headPx = Math.round(Math.min(letters.head * letterPx, room.widthPx * 0.45));
  const starts = useMemo(
    () => startsOf(letters.columns.map((each) => Math.round(each * letterPx))),
    [letters, letterPx],
  );
  const rowWindow = windowOf(scrolled.topPx, room.heightPx, rowPx, ROW_STEP);
  const columnWindow = windowIn(scrolled.leftPx, room.widthPx - headPx, starts, COLUMN_STEP);
  const rowParts = partsOf(rowWindow.first, rowWindow.end, active.row - 1, rows.length);
  const columnParts = partsOf(columnWindow.first, columnWindow.end, active.column - 1, columns.length);

  const show = ({ row, column }: At) => {
    const box = scroller.current;
    if (!box) return;
    if (row > 0) {
      const topPx = (row - 1) * rowPx;
      const inRoomPx = box.clientHeight - rowPx;
      if (topPx < box.scrollTop) box.scrollTop = topPx;
      else if (topPx + rowPx > box.scrollTop + inRoomPx) box.scrollTop = topPx + rowPx - inRoomPx;
    }
    if (column > 0) {
      const [fromPx, toPx] = [starts[column - 1]!, starts[column]!];
      const inRoomPx = box.clientWidth - headPx;
      if (fromPx < box.scrollLeft || toPx - fromPx > inRoomPx) box.scrollLeft = fromPx;
      else if (toPx > box.scrollLeft + inRoomPx) box.scrollLeft = toPx - inRoomPx;
    }
  };
  useLayoutEffect(() => {
    const at = awaited.current;
    if (!at) return;
    const cell = scroller.current?.querySelector<HTMLElement>(`[data-at="${at.row},${at.column}"]`);
    awaited.current = null;
    cell?.focus({ preventScroll: true });
    show(at);
  });
  // Another table, or other rows of it, begin where one begins to read.
  useLayoutEffect(() => {
    if (scroller.current) scroller.current.scrollTop = 0;
    setScrolled((before) => ({ ...before, topPx: 0 }));
  }, [table.title, rows.length]);

  const act = ({ row, column }: At) => {
    const packed = rows[row - 1];
    if (!packed) return;
    const cell = column === 0 ? null : cellAt(fleet, packed, columns[column - 1]!);
    const at = cell ? cell.at : { file: fleet.craft[craftOfRow(packed)]!.file, line: 0 };
    if (at) open(at);
  };
  const onKeyDown = (event: KeyboardEvent) => {
    const at = placeOf(event.target);
    if (!at || event.altKey) return;
    if (event.key === "Enter" || event.key === " ") {
      event.preventDefault();
      return act(at);
    }
    const pageRows = Math.max(1, Math.floor(room.heightPx / rowPx) - 2);
    const next = movedBy(event, at, { rows: rows.length, columns: columns.length, pageRows });
    if (!next) return;
    event.preventDefault();
    awaited.current = next;
    setActive(next);
  };
  const onScroll = () => {
    const { scrollTop: topPx, scrollLeft: leftPx } = scroller.current!;
    const here = windowOf(topPx, room.heightPx, rowPx, ROW_STEP);
    const across = windowIn(leftPx, room.widthPx - headPx, starts, COLUMN_STEP);
    if (here.first !== rowWindow.first || across.first !== columnWindow.first || across.end !== columnWindow.end)
      setScrolled({ topPx, leftPx });
  };

  const sizePx = (part: Part) =>
    part.kind === "one" ? starts[part.index + 1]! - starts[part.index]! : starts[part.to]! - starts[part.from]!;
  const cells = (row: number, draw: (column: number) => VNode) =>
    columnParts.map((part) =>
      part.kind === "one" ? (
        draw(part.index + 1)
      ) : (
        <td key={`${row},room${part.from}`} aria-hidden="true" class="room" />
      ),
    );
  const reach = (row: number, column: number) => (active.row === row && active.column === column ? 0 : -1);
  return (
    <div class="fleet-grid" ref={scroller} onScroll={onScroll}>
      <span class="letters" ref={probe} aria-hidden="true">
        0000000000
      </span>
      <table
        // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: its cells are gone through by arrow keys.
        role="grid"
        aria-label={table.title}
        aria-readonly="true"
        aria-rowcount={rows.length + 1}
        aria-colcount={columns.length + 1}
        style={{ width: `${headPx + starts.at(-1)!}px` }}
        onKeyDown={onKeyDown}
        onClick={({ target }) => {
          const at = placeOf(target);
          if (at) act(at);
        }}
        onFocusIn={({ target }) => {
          const at = placeOf(target);
          if (at) setActive(at);
        }}
      >
        <colgroup>
          <col style={{ width: `${headPx}px` }} />
          {columnParts.map((part) => (
            <col key={part.kind === "one" ? part.index : `room${part.from}`} style={{ width: `${sizePx(part)}px` }} />
          ))}
        </colgroup>
        <thead>
          <tr aria-rowindex={1} style={{ height: `${rowPx}px` }}>
            <th scope="col" data-at="0,0" tabIndex={reach(0, 0)} aria-colindex={1}>
              Craft
            </th>
            {cells(0, (column) => {
              const { name, what } = table.columns[columns[column - 1]!]!;
              return (
                <th
                  key={column}
                  scope="col"
                  data-at={`0,${column}`}
                  tabIndex={reach(0, column)}
                  aria-colindex={column + 1}
                  title={what === null ? name : `${name}: ${what}`}
                >
                  {name}
                  {what !== null && <span class="unseen">, {what}</span>}
                </th>
              );
            })}
          </tr>
        </thead>
        <tbody>
          {rowParts.map((part) => {
            if (part.kind === "room")
              return (
                <tr key={`room${part.from}`} class="room" style={{ height: `${(part.to - part.from) * rowPx}px` }} />
              );
            const [row, packed] = [part.index + 1, rows[part.index]!];
            const craft = fleet.craft[craftOfRow(packed)]!;
            return (
              <tr key={craft.file} aria-rowindex={row + 1} style={{ height: `${rowPx}px` }}>
                <th
                  scope="row"
                  data-at={`${row},0`}
                  tabIndex={reach(row, 0)}
                  aria-colindex={1}
                  title={
                    craft.handset
                      ? `${craft.name}, on the handset “${craft.handset.name}”`
                      : `${craft.name}, without a handset`
                  }
                >
                  {craft.name}
                </th>
                {cells(row, (column) => (
                  <FleetCellView
                    key={column}
                    cell={cellAt(fleet, packed, columns[column - 1]!)}
                    at={`${row},${column}`}
                    column={column}
                    reach={reach(row, column)}
                  />
                ))}
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}

/** The cell that an event is about. */
function placeOf(target: EventTarget | null): At | null {
  const at = target instanceof Element ? target.closest<HTMLElement>("[data-at]")?.dataset.at : undefined;
  if (at === undefined) return null;
  const [row, column] = at.split(",").map(Number);
  return { row: row!, column: column! };
}

/** How many letters the names and each column take. */
function lettersOf(
  fleet: PackedFleet,
  { columns: all }: PackedTable,
  rows: PackedTable["rows"],
  columns: readonly number[],
) {
  const bounded = (letters: number) => Math.min(Math.max(letters, LEAST_LETTERS), MOST_LETTERS) + AROUND_LETTERS;
  let head = "Craft".length;
  for (const row of rows) head = Math.max(head, fleet.craft[craftOfRow(row)]!.name.length);
  return {
    head: bounded(head),
    columns: columns.map((column) => {
      let most = all[column]!.name.length;
      for (const row of rows) most = Math.max(most, cellText(fleet, row, column).length);
      return bounded(most);
    }),
  };
}

/** The room of the table and the size of its letters, kept current as the window, the zoom or the font changes. */
function useRoom(scroller: { current: HTMLDivElement | null }, probe: { current: HTMLSpanElement | null }): Room {
  const [room, setRoom] = useState<Room>(UNMEASURED);
  useEffect(() => {
    const [box, letters] = [scroller.current, probe.current];
    if (!box || !letters) return;
    const observer = new ResizeObserver(() => {
      const { width, height } = letters.getBoundingClientRect();
      const next = {
        widthPx: box.clientWidth,
        heightPx: box.clientHeight,
        letterPx: width / 10,
        rowPx: Math.ceil(height),
      };
      setRoom((before) => (isSame(before, next) ? before : next));
    });
    observer.observe(box);
    observer.observe(letters);
    return () => observer.disconnect();
  }, []);
  return room;
}

function isSame(a: Room, b: Room): boolean {
  return a.widthPx === b.widthPx && a.heightPx === b.heightPx && a.letterPx === b.letterPx && a.rowPx === b.rowPx;
}
