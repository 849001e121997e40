/** Needs that are not met, as sentences. */
import { havingInWords } from "../../catalogue/relations/needs-words.ts";
import type { Having, Need } from "../../catalogue/specs.ts";
import type { Craft, Setting } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import { joinWithAnd } from "../../text/list.ts";
import { hasIt } from "./met-needs.ts";
import { lineInWords } from "./words-of-place.ts";

/**
 * “turtle needs motors that can run backwards, and motors.reversible is no, line 93. REASON” The need is one that
 * the craft does not meet; `what` has it.
 */
export function unmetInWords(what: string, need: Need, craft: Craft): string {
  const asked = [need, ...(need.or ?? [])];
  const reasons = [...new Set(asked.map((having) => whyNot(having, craft)))];
  const [only] = asked.length === 1 ? [saidOf(need, craft)] : [];
  const because = only
    ? `, and ${pathOf(only)} is ${only.text}, ${lineInWords(only.source, craft)}`
    : `${reasons.length > 1 ? ";" : ", and"} ${joinWithAnd(reasons)}`;
  const given = (need.while ?? []).flatMap((having) => saidOf(having, craft) ?? []);
  const held = given.map((each) => `${pathOf(each)} ${each.text} (${lineInWords(each.source, craft)})`);
  return `${held.length > 0 ? `With ${joinWithAnd(held)}, ` : ""}${what} needs ${asked.map(havingInWords).join(" or ")}${because}. ${need.reason}`;
}

/** The settings by which a need is not met, or for which it holds. */
export function settingsBehind(craft: Craft, need: Need): Setting[] {
  return [need, ...(need.or ?? []), ...(need.while ?? [])].flatMap((having) => saidOf(having, craft) ?? []);
}

function whyNot(having: Having, craft: Craft): string {
  const { mode, section, element, port, setting } = having;
  if (mode !== undefined) return "no line sets that mode up";
  if (section !== undefined) return "there is none";
  if (element !== undefined) return "no page shows it";
  if (port !== undefined) return hasIt(craft, having) === null ? "no port is said" : `no port is said to serve ${port}`;
  const said = saidOf(having, craft);
  return said ? `${pathOf(said)} is ${said.text} (${lineInWords(said.source, craft)})` : `nothing says ${setting}`;
}

function saidOf({ setting }: Having, craft: Craft): Setting | undefined {
  const said = setting === undefined ? undefined : settingOf(craft, setting);
  return said?.value ? said : undefined;
}

function pathOf({ section, name }: Setting): string {
  return `${section}.${name}`;
}
