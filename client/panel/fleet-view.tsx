/** The fleet: which of its tables is shown and which of its rows, and what can be done to many craft at once. */
import { useMemo, useState } from "preact/hooks";
import type { LinePlace } from "../../shared/protocol/findings.ts";
import type { FleetAction, PackedFleet, PackedTable } from "../../shared/protocol/fleet-messages.ts";
import { counted } from "./fact-words.ts";
import { columnsShown, rowsShown, tablesOf } from "./fleet-filter.ts";
import { FleetGrid } from "./fleet-grid.tsx";
import { FleetVideoNotes } from "./fleet-video.tsx";
import type { FleetLook } from "./host.ts";

interface Props {
  readonly fleet: PackedFleet;
  readonly look: FleetLook;
  readonly keep: (look: FleetLook) => void;
  readonly open: (at: LinePlace) => void;
  readonly run: (action: FleetAction) => void;
  /** Whether it can be opened wider than it is. */
  readonly canWiden: boolean;
}

export function FleetView({ fleet, look: kept, keep, open, run, canWiden }: Props) {
  const [look, setLook] = useState(kept);
  const change = (some: Partial<FleetLook>) => {
    const next = { ...look, ...some };
    setLook(next);
    keep(next);
  };
  const tables = useMemo(() => tablesOf(fleet), [fleet]);
  const chosen = tables.find(({ id }) => id === look.table) ?? tables[0]!;
  const { table } = chosen;
  const { search, onlyDiffering } = look;
  const rows = useMemo(() => rowsShown(fleet, table, search, onlyDiffering), [fleet, table, search, onlyDiffering]);
  const columns = useMemo(() => columnsShown(table, onlyDiffering), [table, onlyDiffering]);
  if (fleet.craft.length === 0)
    return (
      <>
        <p class="empty">No craft is in this workspace yet: a fleet is every file that begins with “craft”.</p>
        <Missing fleet={fleet} open={open} />
      </>
    );
  return (
    <>
      <div class="fleet-tools">
        <label>
          Table{" "}
          <select value={chosen.id} onChange={({ currentTarget }) => change({ table: currentTarget.value })}>
            {tables.map(({ id, title }) => (
              <option key={id} value={id}>
                {title}
              </option>
            ))}
          </select>
        </label>
        <label>
          Find a craft{" "}
          <input
            type="search"
            value={search}
            onInput={({ currentTarget }) => change({ search: currentTarget.value })}
          />
        </label>
        <label>
          <input
            type="checkbox"
            checked={onlyDiffering}
            onChange={({ currentTarget }) => change({ onlyDiffering: currentTarget.checked })}
          />{" "}
          Only what differs
        </label>
      </div>
      <p role="status" class="quiet">
        {shownInWords(table, rows.length, columns.length, onlyDiffering)}
      </p>
      {rows.length > 0 && columns.length > 0 && (
        <FleetGrid key={chosen.id} fleet={fleet} table={table} rows={rows} columns={columns} open={open} />
      )}
      {chosen.id === "video" && <FleetVideoNotes fleet={fleet} />}
      <p class="tools">
        <button type="button" onClick={() => run("change-habit")}>
          Change a habit everywhere…
        </button>
        <button type="button" onClick={() => run("make-alike")}>
          Make the others like one…
        </button>
        {canWiden && (
          <button type="button" onClick={() => run("open-wide")}>
            Open wide
          </button>
        )}
      </p>
      <Missing fleet={fleet} open={open} />
    </>
  );
}

/** How much of the table is shown, and why there is nothing where there is nothing. */
function shownInWords(table: PackedTable, rows: number, columns: number, onlyDiffering: boolean): string {
  const all = table.rows.length;
  if (all === 0) return `No craft says anything of this: “${table.title}” is empty.`;
  if (rows === 0 || columns === 0)
    return onlyDiffering ? "Nothing differs among these craft here." : "No craft has all of these words in its name.";
  const ofAll = rows === all ? craftInWords(all) : `${rows} of ${craftInWords(all)}`;
  return `${ofAll}, ${counted(columns, "column")}. “≠” marks what is other than on most.`;
}

/** “Craft” has no plural of its own. */
function craftInWords(count: number): string {
  return `${count === 1 ? "one" : count} craft`;
}

/** Files that are no readable craft. */
function Missing({ fleet, open }: Pick<Props, "fleet" | "open">) {
  const { missing } = fleet;
  if (missing.length === 0) return null;
  return (
    <details>
      <summary>Not in the tables: {counted(missing.length, "file")}</summary>
      <ul class="list">
        {missing.map(({ file, why }) => (
          <li key={file}>
            <button type="button" class="link" onClick={() => open({ file, line: 0 })}>
              {fileName(file)}
            </button>
            : {why}
          </li>
        ))}
      </ul>
    </details>
  );
}

/** The last part of an address, as a person writes it. */
function fileName(address: string): string {
  const last = address.slice(address.lastIndexOf("/") + 1);
  try {
    return decodeURIComponent(last);
  } catch {
    return last;
  }
}
