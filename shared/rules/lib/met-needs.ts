/** Checks whether a craft has what something needs. */
import type { Having, Need } from "../../catalogue/specs.ts";
import type { Craft } from "../../model/craft.ts";
import { settingIn } from "../../numbers/values.ts";
import type { Value } from "../../syntax/value.ts";

/**
 * Whether a need is met. It is if one of its alternatives is there, and counts as met if of one of them nothing is
 * known: a setting that is not set, or whose line has an error; ports of which none is set.
 */
export function meetsNeed(craft: Craft, need: Need): boolean {
  if (need.while?.some((having) => hasIt(craft, having) !== true)) return true;
  return [need, ...(need.or ?? [])].some((having) => hasIt(craft, having) !== false);
}

/**
 * Whether a craft has something; null if it does not say. `sectionOf` gives, for a section of the catalogue, the one to
 * look at: a named pack, or a second set.
 */
export function hasIt(
  craft: Craft,
  having: Having,
  sectionOf: (section: string) => string = (section) => section,
): boolean | null {
  if (having.mode !== undefined) return craft.modes.has(having.mode);
  if (having.section !== undefined) return craft.sections.has(having.section);
  if (having.element !== undefined) return craft.osd.has(having.element) || craft.osdSecond.has(having.element);
  if (having.port !== undefined) return hasPort(craft, having.port);
  const [section = "", name = ""] = (having.setting ?? "").split(".");
  const setting = settingIn(craft, sectionOf(section), name);
  if (!setting) return having.unsaid === "missing" ? false : having.unsaid === "wanted" ? true : null;
  if (!setting.value) return null;
  if (having.unsaid === "wanted") return false;
  if (having.is !== undefined) return setting.text === having.is;
  if (having.has !== undefined) return wordsOf(setting.value).includes(having.has);
  return having.not === undefined || setting.text !== having.not;
}

/** The words of a choice, or of a list of them; `yes` or `no`. */
export function wordsOf(value: Value | null): string[] {
  if (value?.kind === "choice") return [value.word];
  if (value?.kind === "yes-no") return [value.yes ? "yes" : "no"];
  return value?.kind === "list" ? value.items.flatMap((item) => wordsOf(item)) : [];
}

/** Whether a value leaves what it is about unused, so that it needs nothing: no, none, never, zero. */
export function isIdle(value: Value): boolean {
  if (value.kind === "quantity" || value.kind === "integer") return value.number === 0;
  const [word, ...others] = wordsOf(value);
  return word !== undefined && others.length === 0 && IDLE.includes(word);
}

const IDLE = ["no", "none", "never", "off", "any", "same"];

function hasPort(craft: Craft, use: string): boolean | null {
  const ports = [...(craft.settings.get("ports")?.values() ?? [])].filter(({ name }) => /^port\d+$/.test(name));
  if (ports.length === 0 || ports.some(({ value }) => value === null)) return null;
  return ports.some(({ value }) => value?.kind === "choice" && value.word === use);
}
