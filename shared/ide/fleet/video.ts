/** What each craft sends of its picture, and on which frequency; and what those that fly together do to one another. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { FlownCraft } from "../../model/flown.ts";
import { type FlightMove, flightOf, type Patience } from "../../numbers/flight.ts";
import type { FleetMove, FleetVideo, FleetVideoConflict } from "../../protocol/fleet.ts";
import { disturbanceInWords, noPlanInWords } from "../../rules/lib/flight-words.ts";
import { type DraftRow, tableOf } from "./cells.ts";
import { settingDraft } from "./setting-cells.ts";

const COLUMNS = ["video.signal", "video.frequency", "video.signal-width", "video.power", "video.channel-label"].map(
  (name) => ({ key: name, name: name.slice(name.indexOf(".") + 1), what: null }),
);

/** What stands in the row of a craft. */
export function videoCells(craft: Craft, catalogue: Catalogue): DraftRow["cells"] {
  return new Map(COLUMNS.map(({ key }) => [key, settingDraft(craft, catalogue, key)]));
}

/** One craft of a fleet. */
export interface VideoRow {
  readonly file: FilePath;
  readonly video: DraftRow["cells"];
}

/** The table of all craft, and of those that are flown together what is in the way of which, with a plan. */
export function videoOf(
  read: readonly VideoRow[],
  flown: readonly FlownCraft[],
  nameOf: (file: string) => string,
  patience: Patience,
): FleetVideo {
  const rows = read.map(({ video }, craft) => ({ craft, cells: video }));
  const table = tableOf("Video", COLUMNS, rows, nameOf);
  const indexOf = new Map(read.map(({ file }, i) => [file, i]));
  const known = (indices: readonly number[]) => indices.flatMap((i) => indexOf.get(flown[i]!.file) ?? []);
  const together = known([...flown.keys()]);
  if (together.length === 0) return { table, together, conflicts: [], plan: null, noPlan: null };
  const flight = flightOf(flown, patience);
  const conflicts = flight.disturbances.flatMap((found, i): FleetVideoConflict[] => {
    const [first] = found;
    if (!first || !indexOf.has(flown[i]!.file)) return [];
    const others =
      first.kind === "product" ? first.from : found.flatMap((each) => (each.kind === "overlap" ? each.of : []));
    const message = `${nameFor(flown[i]!)}: ${disturbanceInWords(i, flight, flown)}`;
    return [{ kind: first.kind, message, craft: known([i, ...others]) }];
  });
  const plan = flight.plan?.flatMap((move) => known([move.craft]).map((craft) => moveOf(move, craft))) ?? null;
  return { table, together, conflicts, plan, noPlan: flight.noPlan && noPlanInWords(flight.noPlan) };
}

function nameFor({ name, file }: FlownCraft): string {
  return name === "" ? file : name;
}

function moveOf({ fromMhz, toMhz, rank }: FlightMove, craft: number): FleetMove {
  return { craft, fromMhz, toMhz, note: NOTES[rank] };
}

const NOTES: Readonly<Record<FlightMove["rank"], string | null>> = {
  spare: "its spare frequency",
  named: null,
  any: "see first that viewer and transmitter have it",
};
