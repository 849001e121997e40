/** What the user has set, read from whatever an editor sends: what makes no sense is left out, and said. */
import type { RuleLevel, RuleLevels } from "../../../shared/model/rule-levels.ts";
import {
  MOST_NAMED_TOGETHER,
  SERVER_SETTINGS,
  SETTINGS_SECTION,
  USE_LINE_WAYS,
  type UseLineWay,
} from "../../../shared/protocol/settings.ts";
import { readLevel } from "../../../shared/rules/engine/levels.ts";

/** The settings that count. */
export interface Settings {
  readonly findsInClosed: boolean;
  readonly levels: RuleLevels;
  /** Whether hints of this kind are shown. */
  showsHint(kind: string): boolean;
  readonly showsLenses: boolean;
  readonly useLines: UseLineWay;
  /** Craft that are flown at the same time, as the user names them. */
  readonly together: readonly string[];
}

export interface SettingsRead {
  readonly settings: Settings;
  /** What was left out, a sentence each. */
  readonly refused: readonly string[];
  /** Equal for equal settings. */
  readonly key: string;
}

/** The settings of a section as an editor sends it: nested, or with names that have dots in them. Never throws. */
export function readSettings(section: unknown): SettingsRead {
  const refused: string[] = [];
  const refuse = (name: string, why: string) =>
    void refused.push(`The setting ${SETTINGS_SECTION}.${name} ${why}${why.endsWith("?") ? "" : "."}`);
  const yesNo = (name: "findings.ofClosedScripts" | "lenses"): boolean => {
    const said = valueAt(section, name);
    if (typeof said === "boolean") return said;
    if (said !== undefined) refuse(name, "is true or false, so it counts as not set");
    return SERVER_SETTINGS[name];
  };
  const table = (name: "rules" | "hints"): [string, unknown][] => {
    const said = valueAt(section, name);
    if (isObject(said)) return Object.entries(said);
    if (said !== undefined) refuse(name, "is a list of names with a value each, so it counts as not set");
    return [];
  };
  const levels = new Map<string, RuleLevel>();
  for (const [code, said] of table("rules")) {
    const read = readLevel(code, said);
    if (read.kind === "level") levels.set(code, read.level);
    else refuse("rules", `has a line that is left out: ${read.why}`);
  }
  const hints = new Map<string, boolean>();
  for (const [kind, said] of table("hints")) {
    if (!Object.hasOwn(SERVER_SETTINGS.hints, kind))
      refuse("hints", `has a line that is left out: there is no kind “${kind}”`);
    else if (typeof said === "boolean") hints.set(kind, said);
    else refuse("hints", `has a line that is left out: ${kind} is true or false`);
  }
  const settings: Settings = {
    findsInClosed: yesNo("findings.ofClosedScripts"),
    levels,
    showsHint: (kind) => hints.get(kind) ?? SERVER_SETTINGS.hints[kind] ?? true,
    showsLenses: yesNo("lenses"),
    useLines: wayAt(section, (why) => refuse("useLines", why)),
    together: togetherAt(section, (why) => refuse("together", why)),
  };
  const { findsInClosed, showsLenses, useLines, together } = settings;
  const key = JSON.stringify([findsInClosed, [...levels], [...hints], showsLenses, useLines, together]);
  return { settings, refused, key };
}

function wayAt(section: unknown, refuse: (why: string) => void): UseLineWay {
  const said = valueAt(section, "useLines");
  const way = USE_LINE_WAYS.find((each) => each === said);
  if (way === undefined && said !== undefined) refuse(`is ${USE_LINE_WAYS.join(", ")}, so it counts as not set`);
  return way ?? SERVER_SETTINGS.useLines;
}

function togetherAt(section: unknown, refuse: (why: string) => void): readonly string[] {
  const said = valueAt(section, "together");
  if (said !== undefined && !Array.isArray(said)) refuse("is a list of craft, so it counts as not set");
  if (!Array.isArray(said)) return SERVER_SETTINGS.together;
  const named = said.filter((each): each is string => typeof each === "string" && each.trim() !== "");
  if (named.length < said.length) refuse("has a line that is left out: each is the file of a craft, or its name");
  if (named.length > MOST_NAMED_TOGETHER)
    refuse(`names more craft than fly at once: the first ${MOST_NAMED_TOGETHER} count`);
  return [...new Set(named.map((each) => each.trim()))].slice(0, MOST_NAMED_TOGETHER);
}

/** What stands under a name: `a.b` as such, or b in a. Null, by which some editors say that nothing is set, is nothing. */
function valueAt(section: unknown, name: string): unknown {
  if (!isObject(section)) return undefined;
  if (Object.hasOwn(section, name)) return section[name] ?? undefined;
  const dot = name.indexOf(".");
  return dot < 0 || !Object.hasOwn(section, name.slice(0, dot))
    ? undefined
    : valueAt(section[name.slice(0, dot)], name.slice(dot + 1));
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
