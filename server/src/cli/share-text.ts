/** What was taken out of a shared script, as a person reads it. */

import { isOfHandset } from "../../../shared/ide/share/share.ts";
import type { ReportedPart, ShareReport } from "../../../shared/ide/share/share-report.ts";
import { oneLine } from "./io.ts";

/** Lines for standard error: the script itself goes to standard output. */
export function shareText({ taken, kept }: ShareReport): string {
  const ofHandset = taken.filter(isOfHandset);
  const out = taken.filter((each) => !ofHandset.includes(each));
  const said = ofHandset.map(({ what }) => what).filter((what) => what !== "handset.name");
  return [
    partsText(out, "Taken out:") || "Nothing private was found to take out.\n",
    ofHandset.length > 0 && "The handset stays at home: its controls are restated in the script.\n",
    said.length > 0 && `Said in comments, as only a handset can say it: ${said.join(", ")}\n`,
    partsText(kept, "Left in, to be looked at before you give it away:"),
    "Names in plain sentences are not found: read the script once before you share it.\n",
  ]
    .filter((part) => part !== false)
    .join("");
}

function partsText(parts: readonly ReportedPart[], heading: string): string {
  if (parts.length === 0) return "";
  const places = parts.map(({ file, line }) => `${file}:${line + 1}`);
  const width = Math.max(...places.map((place) => place.length));
  const rows = parts.map(({ what, why }, at) => `  ${places[at]!.padEnd(width)}  ${oneLine(`${what}: ${why}`)}\n`);
  return `${heading}\n${[...new Set(rows)].join("")}`;
}
