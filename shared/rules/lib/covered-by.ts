/** What a check on the bench covers on a craft, as values that can be held against those of another day. */

import type { Catalogue } from "../../catalogue/catalogue.ts";
import { baseOf, type Craft, type Mode, type Setting } from "../../model/craft.ts";
import type { CoveredValue } from "../../model/past.ts";
import { readSetting } from "../../model/read-value.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import { units } from "../../model/units.ts";
import { printCondition } from "../../syntax/print-value.ts";
import { type BenchCheck, MOTOR_NAMES } from "./bench-checks.ts";
import { conditionMeaning } from "./condition-meaning.ts";
import { meaningOf } from "./meaning.ts";

/** The catalogue says so of what is true of one craft only: without a default, saying it later is no change of the craft. */
const HARDWARE = "hardware";

/** Hardware that has no default, and that the bench takes so all the same for as long as nobody says it. */
const UNSAID: Readonly<Record<string, string>> = { "link.reversed": "none" };

/**
 * What a check covers on a craft, by SECTION.NAME, as far as it is said or has a default. Other hardware that nobody
 * says is not here: whoever writes down what was there all along changes nothing.
 */
export function coveredBy(check: BenchCheck, craft: Craft, catalogue: Catalogue): Map<string, CoveredValue> {
  const found = new Map<string, CoveredValue>();
  const add = (name: string, setting: Setting | undefined) => {
    if (setting) found.set(name, { text: setting.text, meaning: meaningOfSaid(setting) });
  };
  for (const name of namesIn(check, craft, catalogue)) add(name, settingOf(craft, name) ?? defaultOf(name, catalogue));
  for (const name of MOTOR_NAMES) addMotor(check, craft, name, found);
  for (const use of check.portsFor ?? []) addPorts(use, craft, found);
  for (const name of modesIn(check, catalogue)) found.set(`modes.${name}`, modeValue(craft.modes.get(name), craft));
  for (const what of check.together ?? []) addTogether(what, craft, found);
  for (const page of check.pages ?? []) addPage(page, craft, catalogue, found);
  return found;
}

/** The settings that a check covers by their names: those that it lists, and those of its sections. */
function namesIn(check: BenchCheck, craft: Craft, catalogue: Catalogue): Set<string> {
  const names = new Set<string>(check.settings);
  for (const { section, except } of check.sections ?? []) {
    const known = catalogue.settingsOf(baseOf(section)).map(({ name }) => name);
    for (const name of [...known, ...(craft.settings.get(section)?.keys() ?? [])])
      if (!except.includes(name)) names.add(`${section}.${name}`);
  }
  return names;
}

function modesIn({ modes = [] }: BenchCheck, catalogue: Catalogue): readonly string[] {
  return modes === "all" ? catalogue.modes.map(({ name }) => name) : modes;
}

/** A mode that nobody set up is off. */
function modeValue(mode: Mode | undefined, craft: Craft): CoveredValue {
  if (!mode) return { text: "off", meaning: "off" };
  const text = mode.condition ? printCondition(mode.condition) : mode.text;
  return { text, meaning: mode.condition && conditionMeaning(mode.condition, craft) };
}

/** All outputs, or all settings that follow a dial, as one value: one that is new, or gone, counts as a change. */
function addTogether(what: "outputs" | "adjust", craft: Craft, found: Map<string, CoveredValue>): void {
  const parts = what === "outputs" ? outputParts(craft) : adjustParts(craft);
  const sorted = [...parts].sort((a, b) => (a.text < b.text ? -1 : 1));
  const meanings = sorted.map(({ meaning }) => meaning);
  const text = sorted.length === 0 ? "nothing" : sorted.map((each) => each.text).join(", ");
  found.set(what, { text, meaning: meanings.includes(null) ? null : meanings.sort().join("; ") });
}

function outputParts(craft: Craft): CoveredValue[] {
  return [...craft.outputs.values()].map((output) => {
    const { text, meaning } = modeValue(output, craft);
    return { text: `${output.name} when ${text}`, meaning: meaning && `${output.name} ${meaning}` };
  });
}

function adjustParts(craft: Craft): CoveredValue[] {
  return [...craft.adjust.values()].map(({ name, value, text }) => {
    const dial = value?.kind === "follows" ? craft.controls.get(value.dial)?.value : undefined;
    const ends = value?.kind === "follows" && [meaningOf(value.from, text), meaningOf(value.to, text)].join(" to ");
    const meaning = dial && ends ? `${name} ch${dial.channel} ${dial.fromUs} ${dial.toUs} ${ends}` : null;
    return { text: `${name} ${text}`, meaning };
  });
}

/** Every element of the catalogue; one that no line places is not shown. */
function addPage(page: "osd" | "osd-second", craft: Craft, catalogue: Catalogue, found: Map<string, CoveredValue>) {
  const placed = page === "osd" ? craft.osd : craft.osdSecond;
  for (const { name } of catalogue.elements) {
    const element = placed.get(name);
    const value = element
      ? { text: element.text, meaning: element.value && meaningOf(element.value, element.text) }
      : { text: "not shown", meaning: "not shown" };
    found.set(`${page}.${name}`, value);
  }
}

function meaningOfSaid({ value, text, items }: Setting): string | null {
  if (!items) return value && meaningOf(value, text);
  if (items.some((item) => item.value === null)) return null;
  return items.map((item) => meaningOf(item.value, text)).join("; ");
}

const defaults = new WeakMap<Catalogue, Map<string, Setting | undefined>>();

/** The default as if it were said: what the check was made by. */
function defaultOf(name: string, catalogue: Catalogue): Setting | undefined {
  const known = defaults.get(catalogue) ?? new Map<string, Setting | undefined>();
  defaults.set(catalogue, known);
  if (!known.has(name)) known.set(name, readDefault(name, catalogue));
  return known.get(name);
}

function readDefault(name: string, catalogue: Catalogue): Setting | undefined {
  const [section = "", own = ""] = name.split(".");
  const spec = catalogue.setting(section, own);
  if (!spec || catalogue.section(section)?.like !== undefined) return undefined;
  const taken = spec.default ?? UNSAID[name];
  if (spec.kind === HARDWARE && taken === undefined) return undefined;
  const text = taken ?? "not said";
  const value = taken === undefined ? null : readSetting(text, { start: 0, end: text.length }, spec, units).value;
  if (taken !== undefined && !value) return undefined;
  return {
    section,
    name: own,
    // What nobody says, and has no default, is known to be unsaid.
    value: value ?? { kind: "choice", word: text, start: 0, end: 0 },
    text,
    source: { file: "", line: 0 },
    fieldSources: new Map(),
    items: null,
    before: null,
  };
}

function addMotor({ motorFields }: BenchCheck, craft: Craft, name: string, found: Map<string, CoveredValue>): void {
  const motor = motorFields && craft.settings.get("motors")?.get(name);
  if (!motor) return;
  if (motor.value?.kind !== "fields") {
    found.set(`motors.${name}`, { text: motor.text, meaning: null });
    return;
  }
  for (const field of motor.value.fields) {
    if (!motorFields.includes(field.name)) continue;
    const meaning = meaningOf(field.value, motor.text);
    found.set(`motors.${name} ${field.name}`, { text: meaning, meaning });
  }
}

/** On which ports something is, as one value: that it is on another one is what counts. */
function addPorts(use: string, craft: Craft, found: Map<string, CoveredValue>): void {
  const ports = [...(craft.settings.get("ports") ?? [])];
  const names = ports.flatMap(([name, { value }]) => (value?.kind === "choice" && value.word === use ? name : []));
  const isFaulty = ports.some(([name, { value }]) => value === null && /^port\d+$/.test(name));
  const text = names.sort().join(" ");
  if (text !== "") found.set(`ports for ${use}`, { text, meaning: isFaulty ? null : text });
}
