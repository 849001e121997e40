/** What a craft says of each of its motors. */
import type { Craft, Setting } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Value } from "../../syntax/value.ts";
import type { Location, NameGroup } from "../engine/rule.ts";
import { locationAt } from "./locations.ts";

/** One fact of a motor, and where it is said. */
export interface MotorFact<T> {
  readonly is: T;
  readonly at: Location;
}

export interface SaidMotor {
  readonly name: string;
  readonly number: number;
  readonly setting: Setting;
  readonly place: MotorFact<string> | null;
  readonly direction: MotorFact<string> | null;
  readonly output: MotorFact<number> | null;
  readonly limitPercent: MotorFact<number> | null;
}

const NUMBERED = /^motor(\d+)$/;

/** The number of a motor by the name of its setting; null for any other name. */
export function motorNumber(name: string): number | null {
  const number = NUMBERED.exec(name)?.[1];
  return number === undefined ? null : Number(number);
}

/** `motors.motor1` and the other motors. */
export const MOTORS: NameGroup = {
  words: "every motor",
  names: (catalogue) =>
    catalogue.settingsOf("motors").flatMap(({ name }) => (motorNumber(name) === null ? [] : `motors.${name}`)),
};

/** The motors that a craft says something of, by their number. One whose line has a fault is left out. */
export function saidMotors(craft: Craft): readonly SaidMotor[] {
  const motors = [...(craft.settings.get("motors")?.keys() ?? [])].flatMap((name) => {
    const number = motorNumber(name);
    return number === null ? [] : (saidMotor(craft, name, number) ?? []);
  });
  return motors.sort((a, b) => a.number - b.number);
}

function saidMotor(craft: Craft, name: string, number: number): SaidMotor | null {
  const setting = settingOf(craft, `motors.${name}`);
  if (setting?.value?.kind !== "fields") return null;
  const { fields } = setting.value;
  const fact = <T>(field: string, read: (value: Value) => T | undefined): MotorFact<T> | null => {
    const value = fields.find((each) => each.name === field)?.value;
    const is = value && read(value);
    if (!value || is === undefined) return null;
    return { is, at: locationAt(setting.fieldSources.get(field) ?? setting.source, value) };
  };
  const word = (value: Value) => (value.kind === "choice" ? value.word : undefined);
  return {
    name,
    number,
    setting,
    place: fact("place", word),
    direction: fact("direction", word),
    output: fact("output", (value) => (value.kind === "integer" ? value.number : undefined)),
    limitPercent: fact("limit", (value) => (value.kind === "quantity" ? value.number : undefined)),
  };
}
