/**
 * The shape of everything the language knows, checked by zod. The catalogue's own files are held
 * to it by a test; the running program imports only the types, so zod is loaded just where a
 * pilot's own catalogue file is read.
 */
import * as z from "zod/mini";

const name = z.string().check(z.regex(/^[a-z][a-z0-9-]*$/));
/** A sentence or more that a pilot reads: it ends as a sentence does. */
const prose = z.string().check(z.minLength(20), z.regex(/[.!?]$/));
/** Prose of at least so many letters: what it must say takes them. */
const longProse = (letters: number) => z.string().check(z.minLength(letters), z.regex(/[.!?]$/));
/** Where a limit comes from: a published source, "common practice, no source" or "from memory: …". */
const source = z.string().check(z.minLength(8));
/** Plain words by which a pilot may search. */
const words = z.array(z.string().check(z.minLength(2))).check(z.minLength(1));

const limit = z.strictObject({ at: z.number(), source });
const span = z.strictObject({ from: z.optional(z.number()), to: z.optional(z.number()) });

/**
 * What is usual: outside it one hint. Of several bands the first whose `when` fits the craft
 * counts; a band without `when` fits every craft. A band bounded by size is silent while the
 * craft does not say that size.
 */
const band = z.strictObject({
  from: z.optional(z.number()),
  to: z.optional(z.number()),
  source,
  when: z.optional(z.strictObject({ propellerIn: z.optional(span), cells: z.optional(span) })),
});

const numeric = { min: z.optional(limit), max: z.optional(limit), usual: z.optional(z.array(band)) };

/** `unit` is the one in which limits are given and values are reported; "" for a bare number. */
const quantity = z.strictObject({ is: z.literal("quantity"), unit: z.string(), ...numeric });
const integer = z.strictObject({ is: z.literal("integer"), ...numeric });
const choice = z.strictObject({
  is: z.literal("choice"),
  choices: z
    .array(z.strictObject({ word: z.string().check(z.regex(/^([a-z][a-z0-9-]*|\d+:\d+)$/)), what: prose }))
    .check(z.minLength(1)),
});
const simple = z.discriminatedUnion("is", [
  quantity,
  integer,
  choice,
  z.strictObject({ is: z.literal("yes-no") }),
  z.strictObject({ is: z.literal("text"), longest: z.int().check(z.positive()) }),
  z.strictObject({ is: z.literal("date") }),
  z.strictObject({ is: z.literal("order"), words: z.array(z.string()).check(z.minLength(2)) }),
  /** Both ends are held to the quantity's limits. */
  z.strictObject({ is: z.literal("range"), of: quantity }),
  z.strictObject({ is: z.literal("size"), mostColumns: z.int(), mostRows: z.int() }),
  z.strictObject({ is: z.literal("cell") }),
  z.strictObject({ is: z.literal("colour") }),
  /** Every item is of one type; `most` and `fewest` bound their number. */
  z.strictObject({
    is: z.literal("list"),
    of: z.discriminatedUnion("is", [
      quantity,
      integer,
      choice,
      z.strictObject({ is: z.literal("order"), words: z.array(z.string()) }),
    ]),
    fewest: z.int(),
    most: z.int(),
  }),
]);
const field = z.strictObject({
  name,
  types: z.array(simple).check(z.minLength(1)),
  what: prose,
  /** A field that must be there for the value to make sense. */
  required: z.optional(z.boolean()),
  default: z.optional(z.string()),
});
const type = z.discriminatedUnion("is", [
  simple,
  z.strictObject({ is: z.literal("fields"), fields: z.array(field).check(z.minLength(1)) }),
]);

/** Something that must be so for a setting or a mode to work; exactly one of the first four. */
const need = z.strictObject({
  setting: z.optional(z.string().check(z.regex(/^[a-z0-9-]+\.[a-z0-9-]+$/))),
  mode: z.optional(name),
  section: z.optional(name),
  /** A use that some port must have. */
  port: z.optional(name),
  /** With `setting`: the text its value must have; or, with `not`, must not have. */
  is: z.optional(z.string()),
  not: z.optional(z.string()),
  /** Another need that serves as well. */
  or: z.optional(
    z.strictObject({ setting: z.optional(z.string()), is: z.optional(z.string()), port: z.optional(name) }),
  ),
  reason: prose,
});

export const settingSchema = z.strictObject({
  name,
  /** Of several types the first that fits a value counts. */
  types: z.array(type).check(z.minLength(1)),
  /** As a pilot would write it. Stands in for rules, numbers and pictures only. */
  default: z.optional(z.string()),
  /** hardware: true of this craft only; taste: the pilot's; safety: what keeps people whole. */
  kind: z.enum(["hardware", "taste", "safety"]),
  what: prose,
  /** Why one would change it, and what goes wrong at each end. */
  why: longProse(80),
  hazard: z.optional(prose),
  needs: z.optional(z.array(need)),
  excludes: z.optional(z.array(z.strictObject({ setting: z.string(), reason: prose }))),
  /** As SECTION.NAME, or the name of a mode or an element. */
  related: z.optional(z.array(z.string())),
  words,
  /** Several lines form a list, in order. */
  repeatable: z.optional(z.boolean()),
});

export const sectionSchema = z.strictObject({
  name,
  what: prose,
  why: longProse(60),
  words,
  /** What its entries are. `settings` may stand beside places in an OSD section. */
  holds: z.enum(["settings", "modes", "outputs", "places", "controls", "follows", "kept"]),
  /** Files in which it may stand. */
  in: z.array(z.enum(["craft", "layer", "handset"])).check(z.minLength(1)),
  /** `optional`: as in `pack "NAME"`; `required`: as in `verbatim "DIALECT"`. */
  title: z.optional(z.enum(["optional", "required"])),
  /** A second set: takes the entries of that section, except `without`. */
  like: z.optional(name),
  without: z.optional(z.array(name)),
  settings: z.array(settingSchema),
});

export const modeSchema = z.strictObject({
  name,
  what: prose,
  why: longProse(80),
  hazard: z.optional(prose),
  needs: z.optional(z.array(need)),
  related: z.optional(z.array(z.string())),
  words,
  /** True of modes that decide which way up the craft is held. */
  attitude: z.optional(z.boolean()),
});

export const relationsSchema = z.strictObject({
  /** Pairs that must never be on together, because nothing decides between them. */
  clashes: z.array(z.strictObject({ modes: z.tuple([name, name]), reason: prose })),
  /** While `over` is on, each of `under` does nothing. */
  precedence: z.array(z.strictObject({ over: name, under: z.array(name).check(z.minLength(1)), reason: prose })),
});

export const elementSchema = z.strictObject({
  name,
  what: prose,
  why: longProse(60),
  /** How it is drawn: rows of text, or one of the figures. */
  drawn: z.enum(["text", "bar", "sight", "horizon", "arrow", "trace", "tape"]),
  /**
   * The rows of its text, with readings in braces: `{pack-volts.1}V` is the reading with one
   * decimal. Empty for a figure.
   */
  shows: z.array(z.string()),
  /** The widest that each row can be, spelled out; for a figure, its cells filled with `#`. */
  widest: z.array(z.string().check(z.minLength(1))).check(z.minLength(1)),
  /** The setting whose text it shows, whose own length is then its width. */
  textOf: z.optional(z.string()),
  /** Drawn over or under the others: shares cells without harm. */
  overlapsNothing: z.optional(z.boolean()),
  /** May stand in the middle of the picture. */
  centre: z.optional(z.boolean()),
  /** What a layout should not be without. */
  role: z.optional(z.enum(["voltage", "link", "alerts", "flight-time"])),
  needs: z.optional(z.array(need)),
  related: z.optional(z.array(z.string())),
  words,
});

/** A quantity that the craft knows in flight, for the sample texts of the OSD. */
export const readingSchema = z.strictObject({ name, unit: z.string(), what: prose });

export const unitFamilySchema = z.strictObject({
  name,
  what: prose,
  /** The size of each unit in the family's first; a power in dBm converts by a logarithm. */
  units: z
    .array(
      z.strictObject({
        symbol: z.string(),
        name: z.string(),
        size: z.number().check(z.positive()),
        logarithm: z.optional(z.boolean()),
        also: z.optional(z.array(z.string())),
      }),
    )
    .check(z.minLength(1)),
});

/** A pilot's own catalogue: further settings for sections that there are. */
export const catalogueFileSchema = z.strictObject({
  /** The schema that an editor completes by. */
  $schema: z.optional(z.string()),
  /** What it is a catalogue of, for whoever opens it. */
  catalogue: z.string(),
  settings: z.array(z.extend(settingSchema, { section: name })),
});

/** A pilot's own words: each with the name of ours that it means, alone or as SECTION.NAME. */
export const aliasesFileSchema = z.strictObject({
  $schema: z.optional(z.string()),
  aliases: z.record(
    z.string().check(z.minLength(2), z.maxLength(60)),
    z.string().check(z.regex(/^[a-z][a-z0-9-]*(\.[a-z][a-z0-9-]*)?$/)),
  ),
});
