/**
 * Calibration from the readings of the section `bench`: edits that correct the scale of a meter.
 *
 * - `pack-volts-read` against `pack-volts-shown`: a new `pack.divider-top`, the lower resistor kept
 * - `charge-put-back` against `charge-counted`: a new `pack.shunt`
 *
 * The readings belong to the old scale: if they stayed, the correction could be made twice. So they are
 * commented out where they stand, which keeps what was measured, and every title asks to take them again.
 */

import type { Catalogue } from "../../catalogue/catalogue.ts";
import { convert } from "../../catalogue/units.ts";
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { AGREED_SHARE, MOST_RATIO } from "../../numbers/sensing.ts";
import { calibrationOf } from "../../numbers/sensing-of.ts";
import { numberIn, settingIn } from "../../numbers/values.ts";
import { type Range, rangeOf, spanAt, type TextEdit } from "../../syntax/span.ts";
import { craftFor } from "../context/cursor-context.ts";
import { lineCounts } from "../context/effective-entry.ts";
import { formatNumber } from "../context/format.ts";
import { appendEntries, lineForEntry, whyNotWritable } from "./script-edits.ts";

export interface CalibrationAction {
  readonly title: string;
  readonly files: readonly { readonly file: string; readonly edits: readonly TextEdit[] }[];
}

/** The significant digits of a corrected scale: a trusted meter is no better. */
const DIGITS = 4;

interface CorrectedScale {
  /** The setting of `pack` that is corrected. */
  readonly name: "divider-top" | "shunt";
  readonly unit: "kohm" | "mohm";
  readonly number: number;
  /** Old and new reading, in words. */
  readonly aim: string;
  readonly ratio: number;
  /** The settings of `bench` that it was computed from. */
  readonly readings: readonly [string, string];
}

const VOLTS = ["pack-volts-read", "pack-volts-shown"] as const;
const CHARGES = ["charge-put-back", "charge-counted"] as const;

/**
 * The corrections that follow from readings on the lines of a range, for the craft of the file, or the first that
 * uses it. None where one of the two readings is missing, the meter is not given or of another kind, the two
 * differ by more than a factor of two, or they agree to less than a thousandth; and none where a reading
 * stands in a layer that other craft use, since it is not known on which of them it was taken.
 */
export function calibrationsAt(workspace: Workspace, file: string, range: Range): CalibrationAction[] {
  const script = workspace.script(file);
  const benchEntries = script?.entries.filter(
    ({ section, line }) => section === "bench" && line >= range.start.line && line <= range.end.line,
  );
  if (!benchEntries?.length) return [];
  const craft = craftFor(workspace, file);
  if (!craft) return [];
  const names = new Set(benchEntries.filter((entry) => lineCounts(craft, file, entry)).map(({ name }) => name));
  const hasAny = (readings: readonly string[]) => readings.some((name) => names.has(name));
  const scales = [
    hasAny(VOLTS) ? voltsScale(workspace, craft) : null,
    hasAny(CHARGES) ? currentScale(workspace, craft) : null,
  ];
  return scales.flatMap((scale) => (scale ? actionsFor(workspace, craft, scale) : []));
}

function voltsScale({ catalogue }: Workspace, craft: Craft): CorrectedScale | null {
  const found = calibrationOf(craft, catalogue).volts;
  const [readV, shownV] = readingsIn(craft, catalogue, VOLTS, "V");
  if (!found || readV === null || shownV === null) return null;
  const aim = `${formatNumber(shownV, 5)} V shown becomes ${formatNumber(readV, 5)} V`;
  const ratio = readV / shownV;
  return { name: "divider-top", unit: "kohm", number: found.topKohm, aim, ratio, readings: VOLTS };
}

function currentScale({ catalogue }: Workspace, craft: Craft): CorrectedScale | null {
  const found = calibrationOf(craft, catalogue).current;
  const [backMah, countedMah] = readingsIn(craft, catalogue, CHARGES, "mAh");
  if (!found || backMah === null || countedMah === null) return null;
  const aim = `${formatNumber(countedMah, 6)} mAh counted becomes ${formatNumber(backMah, 6)} mAh`;
  const ratio = backMah / countedMah;
  return { name: "shunt", unit: "mohm", number: found.shuntMohm, aim, ratio, readings: CHARGES };
}

function readingsIn(craft: Craft, catalogue: Catalogue, [one, other]: CorrectedScale["readings"], unit: string) {
  const reading = (name: string) => numberIn(craft, catalogue, "bench", name, unit);
  return [reading(one), reading(other)] as const;
}

/**
 * The edits that set the scale and comment out its readings. A measured scale is valid for one board only:
 * where the effective line stands in a layer that other craft use, the craft overrides it instead.
 */
function actionsFor(workspace: Workspace, craft: Craft, scale: CorrectedScale): CalibrationAction[] {
  const { name, ratio, aim } = scale;
  const setting = settingIn(craft, "pack", name);
  if (setting?.value?.kind !== "quantity" || ratio > MOST_RATIO || ratio < 1 / MOST_RATIO) return [];
  if (Math.abs(1 / ratio - 1) < AGREED_SHARE) return [];
  const { value, source } = setting;
  const number = convert(scale.number, scale.unit, value.unit);
  if (number === undefined) return [];
  const text = `${formatNumber(number, DIGITS)} ${value.unit}`;
  if (Number(formatNumber(number, DIGITS)) === value.number || !isAllowed(workspace, name, scale)) return [];
  const isOverride = isShared(workspace, craft, source.file);
  const script = isOverride ? craft.script : workspace.script(source.file);
  if (!script) return [];
  const line = isOverride ? lineForEntry(script, "pack") : source.line;
  const commentEdits = commentOutReadings(workspace, craft, scale.readings);
  if (!commentEdits || whyNotWritable(workspace, script, line) !== null) return [];
  const where = isOverride
    ? `, over that of “${workspace.script(source.file)?.name ?? source.file}”`
    : fileSuffix(craft, script.file, script.name);
  const set = isOverride
    ? appendEntries(script, new Map([["pack", [{ name, rest: text }]]]))
    : [{ range: rangeOf(spanAt(line, value)), text }];
  const files = new Map(commentEdits).set(script.file, [...set, ...(commentEdits.get(script.file) ?? [])]);
  return [
    {
      title: `Set ${name} ${text} instead of ${setting.text}${where}: ${aim}; these readings become comments, so take both again`,
      files: [...files].map(([file, edits]) => ({ file, edits })),
    },
  ];
}

/**
 * The edits, by file, that comment out every line with one of the readings, so that no earlier line becomes
 * effective. Null where one of them cannot be written, or stands in a layer that other craft use.
 */
function commentOutReadings(
  workspace: Workspace,
  craft: Craft,
  readings: readonly string[],
): Map<string, TextEdit[]> | null {
  const edits = new Map<string, TextEdit[]>();
  for (const script of craft.scripts) {
    const lines = script.entries
      .filter(({ section, name }) => section === "bench" && readings.includes(name))
      .map(({ line }) => line);
    if (lines.length === 0) continue;
    if (isShared(workspace, craft, script.file)) return null;
    if (lines.some((line) => whyNotWritable(workspace, script, line) !== null)) return null;
    edits.set(
      script.file,
      lines.map((line) => {
        const { text } = script.tree.lines[line]!;
        const at = { line, character: text.length - text.trimStart().length };
        return { range: { start: at, end: at }, text: "# " };
      }),
    );
  }
  return edits;
}

function isShared(workspace: Workspace, craft: Craft, file: string): boolean {
  return workspace.craftFilesWith(file).some((each) => each !== craft.file);
}

function fileSuffix(craft: Craft, file: string, name: string): string {
  return file === craft.file ? "" : `, in “${name}”`;
}

/** Whether the value is within the limits of the setting. */
function isAllowed({ catalogue }: Workspace, name: string, { number, unit }: CorrectedScale): boolean {
  return (catalogue.setting("pack", name)?.types ?? []).some((type) => {
    if (type.is !== "quantity") return false;
    const inOwn = convert(number, unit, type.unit);
    return inOwn !== undefined && inOwn >= (type.min?.at ?? inOwn) && inOwn <= (type.max?.at ?? inOwn);
  });
}
