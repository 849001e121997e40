/**
 * Calibration from the readings of the section `bench`: edits that set a meter right.
 *
 * - `pack-volts-read` against `pack-volts-shown`: a new `pack.divider-top`, the lower resistor kept
 * - `charge-put-back` against `charge-counted`: a new `pack.shunt`
 *
 * The readings are left as they are, for they tell what was measured. They belong to the old scale, so
 * the same correction must not be made twice: every title asks to read both again.
 */

import { convert } from "../catalogue/units.ts";
import type { Craft } from "../model/craft.ts";
import type { Workspace } from "../model/workspace.ts";
import { numberIn, saidIn } from "../numbers/read.ts";
import { calibrationOf } from "../numbers/sensing-of.ts";
import type { Range, TextEdit } from "../syntax/span.ts";
import { AGREED_SHARE, MOST_RATIO } from "./consequences-meters.ts";
import { figure } from "./consequences-words.ts";
import { counts } from "./hover-consequences.ts";
import { appendEntries, lineForEntry, whyNotWritable } from "./script-edits.ts";
import { craftFor } from "./standing.ts";

export interface CalibrationAction {
  readonly title: string;
  readonly file: string;
  readonly edits: readonly TextEdit[];
}

/** What a trusted meter is good for, in significant digits. */
const DIGITS = 4;

interface Scale {
  /** The setting of `pack` that is to change. */
  readonly name: "divider-top" | "shunt";
  readonly unit: "kohm" | "mohm";
  readonly number: number;
  /** What is to become of what, in words. */
  readonly aim: string;
  readonly ratio: number;
}

/**
 * What the readings on the lines of a range offer, for the craft that the file is, or the first that uses it.
 * Nothing where one of the two readings is missing, the meter is not said or works otherwise, the two are
 * further apart than a factor of two, or they agree to less than a thousandth.
 */
export function calibrationsAt(workspace: Workspace, file: string, range: Range): CalibrationAction[] {
  const script = workspace.script(file);
  const asked = script?.entries.filter(
    ({ section, line }) => section === "bench" && line >= range.start.line && line <= range.end.line,
  );
  if (!asked?.length) return [];
  const craft = craftFor(workspace, file);
  if (!craft) return [];
  const names = new Set(asked.filter((entry) => counts(craft, file, entry)).map(({ name }) => name));
  const scales = [
    names.has("pack-volts-read") || names.has("pack-volts-shown") ? voltsScale(workspace, craft) : null,
    names.has("charge-put-back") || names.has("charge-counted") ? currentScale(workspace, craft) : null,
  ];
  return scales.flatMap((scale) => (scale ? actionsFor(workspace, craft, scale) : []));
}

function voltsScale({ catalogue }: Workspace, craft: Craft): Scale | null {
  const found = calibrationOf(craft, catalogue).volts;
  const readV = numberIn(craft, catalogue, "bench", "pack-volts-read", "V");
  const shownV = numberIn(craft, catalogue, "bench", "pack-volts-shown", "V");
  if (!found || readV === null || shownV === null) return null;
  const aim = `Set the divider so that ${figure(shownV, 5)} V shown becomes ${figure(readV, 5)} V`;
  return { name: "divider-top", unit: "kohm", number: found.topKohm, aim, ratio: readV / shownV };
}

function currentScale({ catalogue }: Workspace, craft: Craft): Scale | null {
  const found = calibrationOf(craft, catalogue).current;
  const backMah = numberIn(craft, catalogue, "bench", "charge-put-back", "mAh");
  const countedMah = numberIn(craft, catalogue, "bench", "charge-counted", "mAh");
  if (!found || backMah === null || countedMah === null) return null;
  const aim = `Set the shunt so that ${figure(countedMah, 6)} mAh counted becomes ${figure(backMah, 6)} mAh`;
  return { name: "shunt", unit: "mohm", number: found.shuntMohm, aim, ratio: backMah / countedMah };
}

/**
 * The edit of the line that counts. A measured scale is true of one board only: where that line stands in
 * a layer that other craft use, the craft says it over the layer instead.
 */
function actionsFor(workspace: Workspace, craft: Craft, scale: Scale): CalibrationAction[] {
  const { name, ratio, aim } = scale;
  const said = saidIn(craft, "pack", name);
  if (said?.value?.kind !== "quantity" || ratio > MOST_RATIO || ratio < 1 / MOST_RATIO) return [];
  if (Math.abs(1 / ratio - 1) < AGREED_SHARE) return [];
  const { value, source } = said;
  const number = convert(scale.number, scale.unit, value.unit);
  if (number === undefined) return [];
  const text = `${figure(number, DIGITS)} ${value.unit}`;
  if (Number(figure(number, DIGITS)) === value.number || !isAllowed(workspace, name, scale)) return [];
  const others = workspace.craftsWith(source.file).filter((each) => each.file !== craft.file);
  const script = others.length > 0 ? craft.script : workspace.script(source.file);
  if (!script) return [];
  const line = others.length > 0 ? lineForEntry(script, "pack") : source.line;
  if (whyNotWritable(workspace, script, line) !== null) return [];
  const where =
    others.length > 0
      ? `, over that of “${workspace.script(source.file)?.name ?? source.file}”`
      : whereElse(craft, script.file, script.name);
  return [
    {
      title: `${aim}: ${name} ${text} instead of ${said.text}${where}; then read both again`,
      file: script.file,
      edits:
        others.length > 0
          ? appendEntries(script, new Map([["pack", [{ name, rest: text }]]]))
          : [
              {
                range: { start: { line, character: value.start }, end: { line, character: value.end } },
                text,
              },
            ],
    },
  ];
}

function whereElse(craft: Craft, file: string, name: string): string {
  return file === craft.file ? "" : `, in “${name}”`;
}

/** Whether the setting may have the value at all. */
function isAllowed({ catalogue }: Workspace, name: string, { number, unit }: Scale): boolean {
  return (catalogue.setting("pack", name)?.types ?? []).some((type) => {
    if (type.is !== "quantity") return false;
    const inOwn = convert(number, unit, type.unit);
    return inOwn !== undefined && inOwn >= (type.min?.at ?? inOwn) && inOwn <= (type.max?.at ?? inOwn);
  });
}
