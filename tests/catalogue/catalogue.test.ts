/** The catalogue against its schema, against the names that are fixed, and against itself. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import {
  elementSchema,
  modeRelationsSchema,
  modeSchema,
  readingSchema,
  sectionSchema,
  unitFamilySchema,
} from "../../shared/catalogue/schema.ts";
import type { Having, Need, SettingSpec, SimpleType, ValueType } from "../../shared/catalogue/specs.ts";
import { beyondLimits, beyondUsual } from "../../shared/model/limits.ts";
import { readSetting } from "../../shared/model/read-value.ts";
import { units } from "../../shared/model/units.ts";
import { RESERVED } from "../../shared/syntax/read-context.ts";
import { fixedChoices, fixedElements, fixedFields, fixedModes, fixedSettings } from "./fixed-names.ts";

const catalogue = makeCatalogue();
const { sections, modes, elements, modeRelations, readings, unitFamilies } = catalogue;
/** Every setting once, with its full name; what a second set takes over is not counted again. */
const settings = sections.flatMap((section) =>
  section.settings.map((setting) => ({ path: `${section.name}.${setting.name}`, setting })),
);

test.each(sections)("section $name has the shape of a section", (section) => {
  expect(sectionSchema.parse(section)).toEqual(section);
});

test("modes, elements, modeRelations, readings and units have their shape", () => {
  for (const mode of modes) expect(modeSchema.safeParse(mode).error, mode.name).toBeUndefined();
  for (const element of elements) expect(elementSchema.safeParse(element).error, element.name).toBeUndefined();
  for (const reading of readings) expect(readingSchema.safeParse(reading).error, reading.name).toBeUndefined();
  for (const family of unitFamilies) expect(unitFamilySchema.safeParse(family).error, family.name).toBeUndefined();
  expect(modeRelationsSchema.safeParse(modeRelations).error).toBeUndefined();
});

test("it has the settings that a small multirotor's script needs", () => {
  expect(settings.length).toBeGreaterThanOrEqual(220);
  expect(modes.length).toBeGreaterThanOrEqual(25);
  expect(elements.length).toBeGreaterThanOrEqual(45);
});

test("no two names of a kind are alike", () => {
  expect(repeated(settings.map(({ path }) => path))).toEqual([]);
  expect(repeated(sections.map(({ name }) => name))).toEqual([]);
  expect(repeated(modes.map(({ name }) => name))).toEqual([]);
  expect(repeated(elements.map(({ name }) => name))).toEqual([]);
  expect(repeated(readings.map(({ name }) => name))).toEqual([]);
  for (const [path, names] of namedParts()) expect(repeated(names), path).toEqual([]);
});

test("the fixed names exist", () => {
  for (const [section, names] of Object.entries(fixedSettings)) {
    expect(catalogue.section(section)?.name).toBe(section);
    expect(lacking(names, catalogue.settingsOf(section)), section).toEqual([]);
  }
  for (const [path, names] of Object.entries(fixedFields)) {
    const type = settingAt(path).types.find((each) => each.is === "fields");
    expect(lacking(names, type?.fields ?? []), path).toEqual([]);
  }
  for (const [path, words] of Object.entries(fixedChoices)) {
    expect(
      lacking(
        words,
        choicesOf(settingAt(path).types).map((word) => ({ name: word })),
      ),
      path,
    ).toEqual([]);
  }
  expect(lacking(fixedModes, modes)).toEqual([]);
  expect(lacking(fixedElements, elements)).toEqual([]);
});

test("a second layout shares everything with the first but the grid and the picture", () => {
  expect(catalogue.setting("osd-second", "grid")).toBeUndefined();
  expect(catalogue.setting("osd-second", "picture")).toBeUndefined();
});

test("no paragraph occurs twice", () => {
  const all = [...sections, ...settings.map(({ setting }) => setting), ...modes, ...elements];
  expect(repeated(all.map(({ what }) => what))).toEqual([]);
  expect(repeated(all.map(({ why }) => why))).toEqual([]);
  expect(repeated(readings.map(({ what }) => what))).toEqual([]);
});

test("a number has both hard limits, in order, and its usual bands are within them", () => {
  for (const { path, setting } of settings) {
    for (const type of numbersOf(setting.types)) {
      const { min, max } = type;
      expect(min && max && min.at < max.at, path).toBe(true);
      for (const band of type.usual ?? []) {
        expect(band.from !== undefined || band.to !== undefined, path).toBe(true);
        expect(band.from ?? min!.at, path).toBeGreaterThanOrEqual(min!.at);
        expect(band.to ?? max!.at, path).toBeLessThanOrEqual(max!.at);
        expect((band.from ?? min!.at) < (band.to ?? max!.at), path).toBe(true);
      }
    }
  }
});

/** Numbers of which none is more usual than another: what is read off a meter, counted, or turned any way. */
const UNUSUAL_BY_NATURE =
  /^(board\.text-edition|link\.band|transmitter\.(band|stick-mode)|osd\.nudge-(right|down)|sensors\.(mount-(roll|pitch|yaw)|compass-yaw)|bench\.(pack-volts-(read|shown)|charge-(put-back|counted)))$/;

test("a number has a usual band, unless no value is more usual than another", () => {
  const silent = settings.filter(({ setting }) => {
    const numbers = setting.types.filter((type) => type.is === "quantity" || type.is === "integer");
    return numbers.length > 0 && numbers.every(({ usual }) => !usual);
  });
  expect(silent.filter(({ path }) => !UNUSUAL_BY_NATURE.test(path)).map(({ path }) => path)).toEqual([]);
  for (const { path } of silent) expect(path).toMatch(UNUSUAL_BY_NATURE);
});

test("a usual band is narrower than the limits", () => {
  for (const { path, setting } of settings)
    for (const { min, max, usual } of numbersOf(setting.types))
      for (const { from, to, when } of usual ?? [])
        if (!when) expect((from ?? min!.at) > min!.at || (to ?? max!.at) < max!.at, path).toBe(true);
});

test("every setting, mode and element has related names, and a `why` of several sentences", () => {
  for (const { path, setting } of settings) {
    expect(setting.related?.length ?? 0, path).toBeGreaterThan(0);
    expect(setting.why.match(/[.;:!?](\s|$)/g)?.length ?? 0, path).toBeGreaterThan(1);
  }
  for (const { name, related } of [...modes, ...elements]) expect(related?.length ?? 0, name).toBeGreaterThan(0);
});

test("no search word is the name of something else", () => {
  const names = new Set([...sections, ...modes, ...elements].map(({ name }) => name));
  const things = [
    ...settings.map(({ path, setting }) => ({ name: path, words: setting.words })),
    ...modes,
    ...elements,
  ];
  expect(
    things.flatMap(({ name, words }) => words.filter((word) => names.has(word)).map((word) => `${name}: ${word}`)),
  ).toEqual([]);
});

test("every unit is a unit", () => {
  for (const { path, setting } of settings)
    for (const type of numbersOf(setting.types))
      if (type.is === "quantity" && type.unit !== "") expect(units.symbol(type.unit), path).toBe(type.unit);
  for (const { name, unit } of readings) if (unit !== "") expect(units.all, name).toContain(unit);
});

test("every related name exists", () => {
  const dangling = [
    ...settings.map(({ path, setting }) => ({ name: path, related: setting.related })),
    ...modes,
    ...elements,
  ]
    .flatMap(({ name, related = [] }) => related.map((to) => [name, to] as const))
    .filter(([, to]) => !exists(to));
  expect(dangling).toEqual([]);
});

test("nothing is related to itself, or twice to the same thing", () => {
  for (const { path, setting } of settings) {
    expect(setting.related ?? [], path).not.toContain(path);
    expect(repeated(setting.related ?? []), path).toEqual([]);
  }
});

test("every need can be met: what it names exists, with the value it asks for", () => {
  const needing: { name: string; needs?: Need[] | undefined }[] = [
    ...settings.map(({ path, setting }) => ({ name: path, needs: setting.needs })),
    ...modes,
    ...elements,
  ];
  for (const { name, needs = [] } of needing) {
    for (const need of needs) {
      const named = [need.setting, need.mode, need.section, need.element, need.port].filter(
        (each) => each !== undefined,
      );
      expect(named, name).toHaveLength(1);
      expectMeetable(name, need);
      for (const each of [...(need.or ?? []), ...(need.while ?? [])]) expectMeetable(name, each);
    }
  }
  for (const { path, setting } of settings)
    for (const { setting: other } of setting.excludes ?? []) expect(settingAt(other), path).toBeDefined();
});

test("relations name modes that exist, and none both ways", () => {
  const named = [
    ...modeRelations.clashes.flatMap(({ modes: pair }) => pair),
    ...modeRelations.precedence.flatMap(({ over, under }) => [over, ...under]),
  ];
  expect(named.filter((name) => !catalogue.mode(name))).toEqual([]);
  const order = modeRelations.precedence.flatMap(({ over, under }) => under.map((name) => `${over} > ${name}`));
  expect(repeated(order)).toEqual([]);
  for (const { over, under } of modeRelations.precedence)
    for (const name of under) expect(order).not.toContain(`${name} > ${over}`);
});

// Turtle is selected before arming and acts on arming, so the two must be able to be on together.
test("which modes exclude each other, and which go first, is exactly this", () => {
  expect(modeRelations.clashes.map(({ modes: pair }) => pair.join(" / "))).toEqual([
    "video-low / video-high",
    "lights / lights-off",
    "osd-hide / osd-second",
  ]);
  expect(modeRelations.precedence.map(({ over, under }) => `${over} over ${under.join(", ")}`)).toEqual([
    "level over level-blend, lean-limit",
    "level-blend over lean-limit",
    "loss-trial over level, level-blend, lean-limit, return-home, level-now, hold-height, hold-place",
    "return-home over level, level-blend, lean-limit",
    "level-now over level, level-blend, lean-limit",
    "hold-place over hold-height",
    "arm over finder",
  ]);
});

test("every default is read without an error, and is usual on a craft of any size", () => {
  const given = settings.filter(({ setting }) => setting.default !== undefined);
  expect(given.length).toBeGreaterThan(10);
  for (const { path, setting } of given) expectSane(path, setting.default!, setting);
});

test("every field's default is read without an error, and is usual", () => {
  for (const { path, setting } of settings)
    for (const type of setting.types)
      if (type.is === "fields")
        for (const field of type.fields)
          if (field.default !== undefined)
            expectSane(`${path} ${field.name}`, field.default, { ...setting, name: field.name, types: field.types });
});

test("no field is a unit's symbol or a word of the grammar, which would end the value early", () => {
  const forbidden = new Set([...RESERVED, ...units.all]);
  // A notch's `at` is a fixed name: nothing in that setting's other values could read as one.
  forbidden.delete("at");
  for (const { path, setting } of settings)
    for (const type of setting.types)
      if (type.is === "fields")
        expect(
          type.fields.filter(({ name }) => forbidden.has(name)),
          path,
        ).toEqual([]);
});

test("no choice inside a field reads as the next field", () => {
  for (const { path, setting } of settings)
    for (const type of setting.types)
      if (type.is === "fields") {
        const names = new Set(type.fields.map(({ name }) => name));
        const choices = type.fields.flatMap((field) => choicesOf(field.types));
        expect(
          choices.filter((word) => names.has(word)),
          path,
        ).toEqual([]);
      }
});

// "drop" at the head of an entry removes; a mode's name stands among the words of a condition.
test("no entry begins with drop, and no mode or element is named by a word of the grammar", () => {
  expect(settings.filter(({ setting }) => setting.name === "drop")).toEqual([]);
  expect([...modes, ...elements].filter(({ name }) => RESERVED.has(name))).toEqual([]);
});

function expectSane(path: string, text: string, setting: SettingSpec): void {
  const { value, fault } = readSetting(text, { start: 0, end: text.length }, setting, units);
  expect(fault, path).toBeNull();
  expect(beyondLimits(value!, setting), path).toEqual([]);
  for (const size of [{}, { propellerIn: 1.2, cells: 1 }, { propellerIn: 5, cells: 6 }, { propellerIn: 10, cells: 6 }])
    expect(beyondUsual(value!, setting, size), path).toEqual([]);
}

function expectMeetable(name: string, need: Having): void {
  if (need.mode) expect(catalogue.mode(need.mode)?.name, name).toBe(need.mode);
  if (need.section) expect(catalogue.section(need.section)?.name, name).toBe(need.section);
  if (need.port) expect(choicesOf(settingAt("ports.port1").types), name).toContain(need.port);
  if (!need.setting) return;
  const setting = settingAt(need.setting);
  for (const text of [need.is, need.not, need.has])
    if (text !== undefined)
      expect(readSetting(text, { start: 0, end: text.length }, setting, units).fault, name).toBeNull();
}

function settingAt(path: string): SettingSpec {
  const [section = "", name = ""] = path.split(".");
  const setting = catalogue.setting(section, name);
  if (!setting) throw new Error(`The catalogue has no setting ${path}.`);
  return setting;
}

function exists(name: string): boolean {
  const [section = "", setting] = name.split(".");
  if (setting !== undefined) return catalogue.setting(section, setting) !== undefined;
  return [catalogue.mode(name), catalogue.element(name)].some((each) => each !== undefined);
}

function repeated(texts: readonly string[]): string[] {
  return texts.filter((text, i) => texts.indexOf(text) !== i);
}

function lacking(names: readonly string[], there: readonly { name: string }[]): string[] {
  return names.filter((name) => !there.some((each) => each.name === name));
}

/** Fields of each setting that has them, and words of each that has choices. */
function namedParts(): [string, string[]][] {
  return settings.flatMap(({ path, setting }) =>
    setting.types.map((type): [string, string[]] => [
      path,
      type.is === "fields" ? type.fields.map(({ name }) => name) : choicesOf([type]),
    ]),
  );
}

function choicesOf(types: readonly ValueType[]): string[] {
  return types.flatMap((type) => {
    if (type.is === "choice") return type.choices.map(({ word }) => word);
    if (type.is === "list") return choicesOf([type.of]);
    return [];
  });
}

type Numeric = Extract<SimpleType, { is: "quantity" | "integer" }>;

function numbersOf(types: readonly ValueType[]): Numeric[] {
  return types.flatMap((type): Numeric[] => {
    if (type.is === "quantity" || type.is === "integer") return [type];
    if (type.is === "range" || type.is === "list") return numbersOf([type.of]);
    if (type.is === "fields") return type.fields.flatMap((field) => numbersOf(field.types));
    return [];
  });
}
