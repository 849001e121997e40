/** The OSD of a new craft: what a pilot needs in flight, placed at the edges. */
import type { Craft } from "../../model/craft.ts";
import type { Answers } from "../../protocol/new-craft.ts";
import type { EntryWriter } from "./entry-writer.ts";
import { entry, type ScriptLine, type ScriptSection } from "./script-text.ts";

/** The section of the first page; without lines where the pilot chose no OSD. */
export function osdSection(answers: Answers, below: Craft, { answered, usual }: EntryWriter): ScriptSection {
  const grid = answers.grid as string;
  const note = "Places count from the edges; the middle stays free for what one flies around.";
  if (grid === "none") return { name: "osd", note: null, lines: [] };
  const lines = [
    ...answered("grid", grid.replace("x", " x ")),
    ...(answers.video === "digital" ? usual("picture", "16:9") : []),
    ...usual(
      "alert-on",
      "low-pack, weak-link, cannot-arm",
      "What flashes: a few things, for where everything flashes nothing is read.",
    ),
    // Where a layer places elements, it lays out the whole page.
    ...(below.osd.size > 0 ? [] : elements(answers)),
  ];
  return { name: "osd", note, lines };
}

function elements({ gps, pack }: Answers): ScriptLine[] {
  const isLiIon = (pack as string).endsWith("li-ion");
  return [
    entry("mode", "at left+2, top+1"),
    entry("link-quality", "at right-2, top+1"),
    ...(gps === "yes"
      ? [
          entry("home-arrow", "at centre, top+1"),
          entry("home-distance", "at right-2, top+2"),
          entry("satellites", "at left+2, top+2"),
        ]
      : []),
    entry("alerts", "at centre, bottom-4"),
    ...(isLiIon
      ? [
          entry(
            "used-capacity",
            "at left+2, bottom-2",
            "Volts of li-ion stay flat and then fall: the charge used is the better gauge.",
          ),
        ]
      : []),
    entry("cell-volts", "at left+2, bottom-1"),
    entry("flight-time", "at right-2, bottom-1"),
  ];
}
