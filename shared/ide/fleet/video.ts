/** What each craft sends of its picture, and on which frequency. */
import type { Craft } from "../../model/craft.ts";
import type { FleetVideo } from "../../protocol/fleet.ts";
import { type DraftRow, tableOf } from "./cells.ts";
import { settingDraft } from "./setting-cells.ts";

const COLUMNS = ["video.signal", "video.frequency", "video.signal-width", "video.power", "video.channel-label"].map(
  (name) => ({ key: name, name: name.slice(name.indexOf(".") + 1), what: null }),
);

/** What stands in the row of a craft. */
export function videoCells(craft: Craft): DraftRow["cells"] {
  return new Map(COLUMNS.map(({ key }) => [key, settingDraft(craft, key)]));
}

export function videoOf(cells: readonly DraftRow["cells"][], nameOf: (file: string) => string): FleetVideo {
  const rows = cells.map((each, craft) => ({ craft, cells: each }));
  const table = tableOf("Video", COLUMNS, rows, nameOf);
  return { table, together: [], conflicts: [], plan: null };
}
