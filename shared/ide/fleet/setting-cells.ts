/** Settings that tell a pilot something across craft, as cells. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SettingSpec } from "../../catalogue/specs.ts";
import type { Craft, Setting } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { SettingName } from "../../rules/engine/rule.ts";
import { meaningOf } from "../../rules/lib/meaning.ts";
import { canonicalText } from "../context/canonical-text.ts";
import { type Draft, type DraftColumn, NOT_KNOWN, NOTHING } from "./cells.ts";

/** First what a hand must rely on with whichever craft, then what the bag for the field is packed by, then what tells craft apart. */
export const KEY_SETTINGS: readonly SettingName[] = [
  "failsafe.then",
  "failsafe.hold-for",
  "failsafe.descend-for",
  "link.band",
  "link.packet-rate",
  "link.lost-after",
  "link.on-loss",
  "link.order",
  "safety.arm-tilt-limit",
  "safety.arm-throttle-limit",
  "safety.arm-hold",
  "safety.idle-disarm-after",
  "navigation.return-height",
  "pack.chemistry",
  "pack.cells",
  "pack.capacity",
  "pack.plug",
  "pack.warn-at",
  "pack.land-at",
  "video.signal",
  "video.frequency",
  "video.power",
  "osd.grid",
  "frame.propeller-diameter",
  "frame.propeller-pitch",
  "frame.propeller-blades",
  "frame.mass",
  "motors.spin",
  "motors.kv",
  "rates.roll",
  "board.model",
  "board.flashed-on",
];

export const SETTING_COLUMNS: readonly DraftColumn[] = KEY_SETTINGS.map((name) => ({ key: name, name, what: null }));

/** The key settings of a craft, by SECTION.NAME; what only named packs say is told with their names. */
export function settingCells(craft: Craft, catalogue: Catalogue): ReadonlyMap<string, Draft> {
  const cells = new Map<string, Draft>();
  for (const name of KEY_SETTINGS) cells.set(name, settingDraft(craft, catalogue, name));
  return cells;
}

/** What a craft says of a setting, as SECTION.NAME. */
export function settingDraft(craft: Craft, catalogue: Catalogue, path: string): Draft {
  const setting = settingOf(craft, path);
  const [section = "", name = ""] = path.split(".");
  const spec = catalogue.setting(section, name);
  if (setting) return draftOf(setting, spec);
  const named = [...craft.settings].flatMap(([each, settings]) => {
    const own = each.startsWith(`${section}/`) ? settings.get(name) : undefined;
    return own ? { title: each.slice(section.length + 1), own } : [];
  });
  if (named.length === 0) return NOTHING;
  const meanings = named.map(({ own }) => draftOf(own, spec).meaning);
  return {
    text: named.map(({ title, own }) => `${title}: ${draftOf(own, spec).text}`).join("; "),
    meaning: meanings.includes(null) ? null : [...new Set(meanings)].sort().join("; "),
    at: named[0]!.own.source,
  };
}

/** A value with a fault has no say; one that a missing file may have said is not known. */
function draftOf(setting: Setting, spec: SettingSpec | undefined): Draft {
  const { value, text, source } = setting;
  if (value === null) return { text: text === "" ? NOT_KNOWN : text, meaning: null, at: source };
  return { text: canonicalText(setting, spec), meaning: meaningOf(value, text), at: source };
}
