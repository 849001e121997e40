/** A cell of the fleet's table: what is said there, with a sign where most craft have something else. */
import { Component } from "preact";
import type { FleetCell } from "../../shared/protocol/fleet.ts";

interface Props {
  readonly cell: FleetCell;
  readonly at: string;
  readonly column: number;
  readonly reach: 0 | -1;
}

/** Drawn anew only where something of it is another: while a table is scrolled most of its cells stay. */
export class FleetCellView extends Component<Props> {
  override shouldComponentUpdate({ cell, at, column, reach }: Props): boolean {
    const now = this.props;
    if (at !== now.at || column !== now.column || reach !== now.reach) return true;
    const [a, b] = [cell, now.cell];
    return a.text !== b.text || a.most !== b.most || a.at?.file !== b.at?.file || a.at?.line !== b.at?.line;
  }

  override render({ cell: { text, most, at: line }, at, column, reach }: Props) {
    const said = text === "" ? NOTHING : text;
    const common = most === "" ? NOTHING : most;
    return (
      <td
        data-at={at}
        tabIndex={reach}
        aria-colindex={column + 1}
        class={`${most === null ? "" : "differs"} ${line ? "leads" : ""}`}
        title={common === null ? text : `${said}. Most have: ${common}.`}
      >
        {most !== null && <span aria-hidden="true">≠ </span>}
        {text === "" ? <span class="quiet">{NOTHING}</span> : text}
        {common !== null && <span class="unseen"> (most have: {common})</span>}
      </td>
    );
  }
}

const NOTHING = "not said";
