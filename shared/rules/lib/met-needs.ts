/** Checks whether a craft has what a mode needs. */
import type { Need } from "../../catalogue/specs.ts";
import type { Craft } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";

/**
 * A needed setting that is not set, or whose line has an error, is not reported; a needed
 * mode or section that is missing is. A missing port is reported only if the craft sets any port.
 */
export function meetsNeed(craft: Craft, need: Need): boolean {
  if (need.mode !== undefined) return craft.modes.has(need.mode);
  if (need.section !== undefined) return craft.sections.has(need.section);
  const own = need.port !== undefined ? hasPort(craft, need.port) : suits(craft, need.setting, need.is, need.not);
  const other =
    need.or &&
    (need.or.port !== undefined ? hasPort(craft, need.or.port) : suits(craft, need.or.setting, need.or.is, undefined));
  return own !== false || (other !== undefined && other !== false);
}

/** Null if the craft does not say. */
function suits(
  craft: Craft,
  path: string | undefined,
  is: string | undefined,
  not: string | undefined,
): boolean | null {
  const setting = path === undefined ? undefined : settingOf(craft, path);
  if (!setting?.value) return null;
  if (is !== undefined) return setting.text === is;
  return not === undefined || setting.text !== not;
}

function hasPort(craft: Craft, use: string): boolean | null {
  const ports = [...(craft.settings.get("ports")?.values() ?? [])].filter(({ name }) => /^port\d+$/.test(name));
  if (ports.length === 0 || ports.some(({ value }) => value === null)) return null;
  return ports.some(({ value }) => value?.kind === "choice" && value.word === use);
}
