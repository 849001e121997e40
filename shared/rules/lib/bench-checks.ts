/** The checks on the bench that have a day, and what each of them covers: what was seen to be right, and is so no longer once it changes. */

import type { Catalogue } from "../../catalogue/catalogue.ts";
import { baseOf, type Craft, type Setting } from "../../model/craft.ts";
import type { CoveredValue } from "../../model/past.ts";
import { readSetting } from "../../model/read-value.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import { units } from "../../model/units.ts";
import { printCondition } from "../../syntax/print-value.ts";
import type { SettingName } from "../engine/rule.ts";
import { conditionMeaning } from "./condition-meaning.ts";
import { meaningOf } from "./meaning.ts";

/** What a check covers. */
interface BenchCheck {
  readonly name: SettingName;
  /** The board's software may change its result. */
  readonly restsOnSoftware: boolean;
  readonly settings?: readonly SettingName[];
  /** Everything in a section, except for some of it. */
  readonly sections?: readonly { readonly section: string; readonly except: readonly string[] }[];
  /** Of each motor these fields. */
  readonly motorFields?: readonly string[];
  /** Ports that are used so. */
  readonly portsFor?: readonly string[];
  readonly modes?: readonly string[];
  /** The channel of each control, or its pulses as well. */
  readonly controls?: "channels" | "pulses";
}

const RECEIVER: readonly SettingName[] = ["link.receiver", "link.band", "board.model"];
const MOTOR_NAMES = Array.from({ length: 8 }, (_, i) => `motor${i + 1}`);

export const BENCH_CHECKS: readonly BenchCheck[] = [
  {
    name: "bench.order-checked",
    restsOnSoftware: true,
    settings: ["link.order", "transmitter.stick-mode", "transmitter.module", ...RECEIVER],
    controls: "channels",
  },
  {
    name: "bench.direction-checked",
    restsOnSoftware: true,
    settings: ["link.order", "link.reversed", "transmitter.stick-mode", "transmitter.module", ...RECEIVER],
    controls: "pulses",
  },
  {
    name: "bench.motors-checked",
    restsOnSoftware: true,
    settings: [
      "frame.motors",
      "board.model",
      "motors.spin",
      "motors.reversible",
      "motors.esc-signal",
      "motors.esc-rating",
      "motors.kv",
      "motors.poles",
      "motors.yaw-servo-output",
      "motors.yaw-servo-reversed",
    ],
    motorFields: ["place", "direction", "output"],
    portsFor: ["esc-data"],
  },
  {
    name: "bench.mount-checked",
    restsOnSoftware: true,
    settings: ["sensors.mount-roll", "sensors.mount-pitch", "sensors.mount-yaw", "board.model"],
  },
  {
    name: "bench.failsafe-checked",
    restsOnSoftware: true,
    settings: ["link.on-loss", "link.lost-after", "link.preset-channels", ...RECEIVER],
    sections: [{ section: "failsafe", except: [] }],
  },
  {
    name: "bench.range-checked",
    restsOnSoftware: false,
    settings: [
      "link.antennas",
      "link.packet-rate",
      "link.receiver",
      "link.band",
      "link.receiver-power",
      "transmitter.band",
      "transmitter.module",
      "transmitter.power",
    ],
  },
  {
    name: "bench.hover-checked",
    restsOnSoftware: true,
    settings: [
      "frame.motors",
      "frame.propeller-diameter",
      "frame.propeller-pitch",
      "frame.propeller-blades",
      "frame.ducts",
      "frame.wheelbase",
      "frame.arm-layout",
      "frame.arm-thickness",
      "frame.mass",
      "pack.chemistry",
      "pack.cells",
      "board.model",
      "board.soft-mount",
      "sensors.gyro-rate",
      "sensors.loop-rate",
    ],
    sections: [
      { section: "gains", except: [] },
      { section: "gains-second", except: [] },
      { section: "filters", except: [] },
      { section: "motors", except: ["esc-heat-limit", "rpm-feedback", "reversible", "reverse-band", ...MOTOR_NAMES] },
    ],
  },
  {
    name: "bench.finder-checked",
    restsOnSoftware: true,
    settings: ["board.model"],
    sections: [{ section: "finder", except: [] }],
    modes: ["finder"],
  },
];

/** The catalogue says so of what is true of one craft only: saying it later is no change of the craft. */
const HARDWARE = "hardware";

/**
 * What a check covers on a craft, by SECTION.NAME, as far as it is said or has a default. Hardware that nobody says is
 * not here: whoever writes down what was there all along changes nothing.
 */
export function coveredBy(check: BenchCheck, craft: Craft, catalogue: Catalogue): Map<string, CoveredValue> {
  const found = new Map<string, CoveredValue>();
  const add = (name: string, setting: Setting | undefined) => {
    if (setting) found.set(name, { text: setting.text, meaning: meaningOfSaid(setting) });
  };
  for (const name of namesIn(check, craft, catalogue)) add(name, settingOf(craft, name) ?? defaultOf(name, catalogue));
  for (const name of MOTOR_NAMES) addMotor(check, craft, name, found);
  for (const use of check.portsFor ?? []) addPorts(use, craft, found);
  for (const name of check.modes ?? []) {
    const mode = craft.modes.get(name);
    const text = mode?.condition ? printCondition(mode.condition) : (mode?.text ?? "off");
    const meaning = mode ? mode.condition && conditionMeaning(mode.condition, craft) : "off";
    found.set(`modes.${name}`, { text, meaning });
  }
  if (check.controls) addControls(check.controls, craft, found);
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

function meaningOfSaid({ value, text, items }: Setting): string | null {
  if (!items) return value && meaningOf(value, text);
  if (items.some((item) => item.value === null)) return null;
  return items.map((item) => meaningOf(item.value, text)).join("; ");
}

const defaults = new WeakMap<Catalogue, Map<string, Setting | undefined>>();

/** The default as if it were said; nothing for hardware. */
function defaultOf(name: string, catalogue: Catalogue): Setting | undefined {
  const known = defaults.get(catalogue) ?? new Map<string, Setting | undefined>();
  defaults.set(catalogue, known);
  if (!known.has(name)) known.set(name, readDefault(name, catalogue));
  return known.get(name);
}

function readDefault(name: string, catalogue: Catalogue): Setting | undefined {
  const [section = "", own = ""] = name.split(".");
  const spec = catalogue.setting(section, own);
  if (!spec || spec.kind === HARDWARE || catalogue.section(section)?.like !== undefined) return undefined;
  const text = spec.default ?? "not said";
  const value =
    spec.default === undefined ? null : readSetting(text, { start: 0, end: text.length }, spec, units).value;
  if (spec.default !== undefined && !value) return undefined;
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

function addControls(covers: "channels" | "pulses", craft: Craft, found: Map<string, CoveredValue>): void {
  for (const [name, { value, text }] of craft.controls) {
    const pulses = value?.positions.map(({ pulseUs }) => pulseUs).sort((a, b) => a - b) ?? [];
    const range = value?.fromUs == null ? pulses : [value.fromUs, value.toUs];
    const meaning = value && `ch${value.channel}${covers === "pulses" ? ` ${range.join(" ")}` : ""}`;
    found.set(`controls.${name}`, { text, meaning });
  }
}
