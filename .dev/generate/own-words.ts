/**
 * Generates the JSON Schemas by which an editor completes a pilot's own catalogue and aliases, and says what each part
 * is for. They check nothing: what is wrong in such a file Fettle itself says, in every editor and once.
 */
import { toJSONSchema } from "zod";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { aliasesFileSchema, catalogueFileSchema } from "../../shared/catalogue/schema.ts";

const catalogue = makeCatalogue();

interface Schema {
  [keyword: string]: unknown;
  properties?: Record<string, Schema>;
  description?: string;
}

/** The description of each member, by its name, or by the type of value that it belongs to and its name. */
const DESCRIPTIONS: Readonly<Record<string, string>> = {
  $schema: "The schema that an editor completes by; Fettle's own editor needs none.",
  catalogue: "What this is a catalogue of, for whoever opens it.",
  settings: "The settings that it adds, each to a section that there is.",
  section: "The section that the setting stands in.",
  name: "As it is written in a script: small letters, digits and hyphens.",
  types: "What a value of it looks like. Of several types the first that fits a value counts.",
  default: "As a pilot would write it. Stands in for numbers and pictures only: no rule fires on it.",
  kind: "hardware: true of this craft only; taste: the pilot's own; safety: what keeps people whole.",
  example: "A value as a pilot would write it; its page shows it.",
  adjustable: "True where a dial may move it in flight: a quantity, and a matter of taste.",
  what: "One sentence, with its full stop, on what it is.",
  why: "Why one would change it, and what goes wrong at each end: 80 letters or more.",
  hazard: "What can hurt somebody, in a whole sentence.",
  needs: "What must be so for it to work.",
  excludes: "Settings that cannot be said together with it.",
  related: "Further names to look at: SECTION.NAME, or a mode or an element.",
  words: "Plain words by which a pilot may search for it.",
  repeatable: "True where several lines form a list, in order.",
  is: "The type of value.",
  "quantity.unit": 'The unit of the limits; a script may use any of its family. "" for a bare number.',
  min: "The lower hard limit: less is an error.",
  max: "The upper hard limit: more is an error.",
  at: "The limit itself, in the unit of the setting.",
  source: "Where it comes from: a published source, “common practice, no source” or “from memory: …”.",
  usual: "What is usual: outside of it one hint. Of several bands the first that fits the craft counts.",
  from: "The lower end, itself inside.",
  to: "The upper end, itself inside.",
  when: "The craft that the band is for; without it, every craft.",
  propellerIn: "Diameter of the propeller in inches.",
  cells: "Cells of the pack in series.",
  motors: "Number of motors.",
  throttle: "Where the throttle stick rests.",
  notches: "Whether a filter of the craft takes out a narrow band.",
  off: "The number that switches it off, which is usual wherever the bands begin.",
  scale: "What its numbers are counted by, in a whole sentence: said with a number that does not fit.",
  multiple: "A number of which every value is a multiple.",
  "multiple.of": "That number.",
  "choice.choices": "The words that it admits.",
  word: "The word as it is written in a script; or a ratio such as 16:9.",
  "text.longest": "The most characters that the text may have.",
  "order.words": "The words, each of which is to be said once.",
  "range.of": "What either end of the range is.",
  "size.mostColumns": "The most columns.",
  "size.mostRows": "The most rows.",
  "list.of": "What each item is.",
  "list.fewest": "The fewest items.",
  "list.most": "The most items.",
  "fields.fields": "The named parts of the value, in the order in which they are written.",
  required: "True where the value makes no sense without this part.",
  setting: "A setting, as SECTION.NAME.",
  mode: "A mode that must be set up.",
  port: "A use that some port must have.",
  "needs.is": "The value that the setting must have.",
  "needs.not": "A value that the setting must not have.",
  "needs.section": "A section that must be written.",
  has: "A word that the setting's list must have.",
  element: "An element that must be placed.",
  unsaid: "missing: if nobody sets the setting, it counts as missing; wanted: nobody may set it.",
  "needs.word": "The word of the value that has the need; without it every value has.",
  "or.is": "The value that the setting must have.",
  "or.not": "A value that the setting must not have.",
  "or.section": "A section that must be written.",
  "while.is": "The value that the setting must have.",
  "while.not": "A value that the setting must not have.",
  "while.section": "A section that must be written.",
  while: "The need exists only in a craft that has all of these.",
  or: "Other needs, each of which serves as well.",
  misleads: "True where the setting promises what then does not happen, so that a layer too is warned of it.",
  severity: "How serious it is, if not as usual.",
  reason: "Why that is so, in a whole sentence.",
  private: "Said where it leads to one person, or is a secret: it is taken out of a script before that is shared.",
  "private.kind": "What it gives away: a secret, a place, a person, or an identity such as a mark.",
  aliases: "Your words, each with the name of ours that it means.",
};

/** Sections to which a pilot's own settings may be added. */
const homes = catalogue.sections.filter(({ holds, like }) => !like && (holds === "settings" || holds === "places"));
const unitsOfAll = catalogue.unitFamilies.flatMap(({ units }) => units);

/** All names that an alias may stand for. */
const names = new Set([
  ...catalogue.sections.map(({ name }) => name),
  ...homes.flatMap((section) => section.settings.map(({ name }) => `${section.name}.${name}`)),
  ...catalogue.modes.map(({ name }) => name),
  ...catalogue.elements.map(({ name }) => name),
]);

/** Adds a description to every member; `owner` is the type of value, or the member, that it belongs to. */
function describe(schema: unknown, owner: string): void {
  if (Array.isArray(schema)) for (const each of schema) describe(each, owner);
  if (typeof schema !== "object" || schema === null || Array.isArray(schema)) return;
  const { properties, ...rest } = schema as Schema;
  const type = typeof properties?.is?.const === "string" ? properties.is.const : owner;
  for (const [name, member] of Object.entries(properties ?? {})) {
    const description = DESCRIPTIONS[`${type}.${name}`] ?? DESCRIPTIONS[name];
    if (description === undefined)
      throw new Error(`Say in .dev/generate/own-words.ts what “${name}” of “${type}” is for.`);
    member.description = description;
    if (name === "section" && owner === "settings") Object.assign(member, oneOf(homes));
    if (name === "unit")
      Object.assign(
        member,
        oneOf([
          { name: "", what: "A bare number." },
          ...unitsOfAll.map(({ symbol, name: what }) => ({ name: symbol, what })),
        ]),
      );
    describe(member, name);
  }
  for (const inner of Object.values(rest)) describe(inner, owner);
}

/** An enumeration of words, each with its meaning. */
function oneOf(choices: readonly { readonly name: string; readonly what: string }[]): Schema {
  return { enum: choices.map(({ name }) => name), enumDescriptions: choices.map(({ what }) => what) };
}

const hole = (at: number, text: string) => `\${${at}:${text}}`;

/** A snippet for a whole setting, with placeholders. */
const newSetting = {
  label: "a setting",
  description: "A quantity with its limits and what is usual, to be overwritten.",
  body: {
    section: hole(1, "lights"),
    name: hole(2, "name"),
    types: [
      {
        is: "quantity",
        unit: hole(3, "s"),
        min: { at: `^${hole(4, "0")}`, source: hole(5, "common practice, no source") },
        max: { at: `^${hole(6, "10")}`, source: hole(5, "common practice, no source") },
      },
    ],
    kind: hole(7, "hardware"),
    what: hole(8, "What it is, in a sentence."),
    why: hole(9, "Why one would change it, and what goes wrong at each end."),
    words: [hole(10, "plain words")],
  },
};

function catalogueSchema(): Schema {
  const schema = toJSONSchema(catalogueFileSchema, { reused: "ref" }) as Schema;
  describe(schema, "");
  const settings = schema.properties?.settings as Schema;
  (settings.items as Schema).defaultSnippets = [newSetting];
  return titled(schema, "A pilot's own settings");
}

function aliasesSchema(): Schema {
  const schema = toJSONSchema(aliasesFileSchema) as Schema;
  describe(schema, "");
  const aliases = schema.properties?.aliases as Schema;
  const also = "A name of ours, alone or as SECTION.NAME; also one from a catalogue of your own.";
  aliases.additionalProperties = { description: also, anyOf: [{ enum: [...names] }, aliases.additionalProperties] };
  return titled(schema, "A pilot's own words");
}

/** Adds a title, takes out all that checks, and gives plainer names to the parts that are used several times. */
function titled({ $schema, ...rest }: Schema, title: string): Schema {
  const offering = { $schema, title, ...(unchecked(rest) as Schema) };
  return JSON.parse(JSON.stringify(offering).replaceAll("__schema", "part")) as Schema;
}

/** Keywords that only check. */
const CHECKS: ReadonlySet<string> = new Set(
  `required pattern format minLength maxLength minItems maxItems uniqueItems minimum maximum exclusiveMinimum
  exclusiveMaximum multipleOf minProperties maxProperties propertyNames`.split(/\s+/),
);

/** A schema that offers what another does and admits every value: beside each alternative stands one that asks nothing. */
function unchecked(schema: unknown): unknown {
  if (typeof schema !== "object" || schema === null || Array.isArray(schema)) return schema;
  const rest: Schema = {};
  const alternatives: unknown[] = [];
  for (const [keyword, value] of Object.entries(schema as Schema)) {
    if (CHECKS.has(keyword)) continue;
    if (keyword === "properties" || keyword === "$defs")
      rest[keyword] = Object.fromEntries(
        Object.entries(value as Record<string, unknown>).map(([name, each]) => [name, unchecked(each) as Schema]),
      );
    else if (keyword === "items" || keyword === "additionalProperties") {
      if (typeof value === "object") rest[keyword] = unchecked(value);
    } else if (keyword === "anyOf" || keyword === "oneOf") alternatives.push(...(value as unknown[]).map(unchecked));
    else if (keyword === "enum" || keyword === "const")
      alternatives.push({ [keyword]: value, ...descriptionsOf(schema as Schema) });
    else if (keyword === "type") {
      if (value === "boolean") alternatives.push({ type: value });
    } else if (keyword !== "enumDescriptions") rest[keyword] = value;
  }
  const { is } = (schema as Schema).properties ?? {};
  // By this member an editor tells which of several types of value is written.
  if (is?.const !== undefined && rest.properties) rest.properties.is = { ...is, description: is.description ?? "" };
  return alternatives.length === 0 ? rest : { ...rest, anyOf: [...alternatives, {}] };
}

/** What each word of an enumeration means, for the editor to say beside it. */
function descriptionsOf({ enumDescriptions }: Schema): Schema {
  return enumDescriptions === undefined ? {} : { enumDescriptions };
}

/** Both schemas, at the paths that the manifest names. */
export function generate(): { path: string; text: string }[] {
  const file = (name: string, schema: Schema) => ({
    path: `client/schemas/fettle-${name}.schema.json`,
    text: `${JSON.stringify(schema, null, 1)}\n`,
  });
  return [file("catalogue", catalogueSchema()), file("aliases", aliasesSchema())];
}
