/** Fleets as text: scripts in, the tables out, a line for each craft. */
import { fleetOf, scriptsOf } from "../../../shared/ide/fleet/fleet.ts";
import type { Fleet, FleetTable } from "../../../shared/protocol/fleet.ts";
import { finish } from "../../../shared/text/steps.ts";
import { workspaceOf } from "../../rules/check.ts";

/** The handset of these fleets. */
export const WHEEL = `handset "Wheel"
controls
  TL switch ch5 up 1000 us down 2000 us lies left shoulder
  TR switch ch6 up 1000 us mid 1500 us down 2000 us
  PB button ch7 rest 1000 us held 2000 us
  KN dial ch9 1000 us to 2000 us
`;

export function fleetIn(files: Readonly<Record<string, string>>): Fleet {
  return finish(fleetOf(scriptsOf(workspaceOf(files))));
}

/** `NAME | COLUMN: cell (most: what most have) | …`, cells in which nothing stands left out. */
export function lines(fleet: Fleet, { columns, rows }: FleetTable): string[] {
  return rows.map(({ craft, cells }) => {
    const shown = cells.flatMap(({ text, most }, i) =>
      text === "" ? [] : `${columns[i]!.name}: ${text}${most === null ? "" : ` (most: ${most})`}`,
    );
    return [fleet.craft[craft]!.name, ...shown].join(" | ");
  });
}
