/**
 * The shape of everything the language knows, checked by zod. The catalogue's own files are held
 * to it by a test; the running program imports only the types, so zod is loaded just where a
 * pilot's own catalogue file is read.
 */
import { z } from "zod";

const name = z.string().regex(/^[a-z][a-z0-9-]*$/);
/** A sentence or more that a pilot reads: it ends as a sentence does. */
const prose = z
  .string()
  .min(20)
  .regex(/[.!?]$/);
/** Where a limit comes from: a published source, "common practice, no source" or "from memory: …". */
const source = z.string().min(8);
/** Plain words by which a pilot may search. */
const words = z.array(z.string().min(2)).min(1);

const limit = z.strictObject({ at: z.number(), source });
const span = z.strictObject({ from: z.number().optional(), to: z.number().optional() });

/**
 * What is usual: outside it one hint. Of several bands the first whose `when` fits the craft
 * counts; a band without `when` fits every craft. A band bounded by size is silent while the
 * craft does not say that size.
 */
const band = z.strictObject({
  from: z.number().optional(),
  to: z.number().optional(),
  source,
  when: z.strictObject({ propellerIn: span.optional(), cells: span.optional() }).optional(),
});

const numeric = { min: limit.optional(), max: limit.optional(), usual: z.array(band).optional() };

/** `unit` is the one in which limits are given and values are reported; "" for a bare number. */
const quantity = z.strictObject({ is: z.literal("quantity"), unit: z.string(), ...numeric });
const integer = z.strictObject({ is: z.literal("integer"), ...numeric });
const choice = z.strictObject({
  is: z.literal("choice"),
  choices: z.array(z.strictObject({ word: z.string().regex(/^([a-z][a-z0-9-]*|\d+:\d+)$/), what: prose })).min(1),
});
const simple = z.discriminatedUnion("is", [
  quantity,
  integer,
  choice,
  z.strictObject({ is: z.literal("yes-no") }),
  z.strictObject({ is: z.literal("text"), longest: z.number().int().positive() }),
  z.strictObject({ is: z.literal("date") }),
  z.strictObject({ is: z.literal("order"), words: z.array(z.string()).min(2) }),
  /** Both ends are held to the quantity's limits. */
  z.strictObject({ is: z.literal("range"), of: quantity }),
  z.strictObject({ is: z.literal("size"), mostColumns: z.number().int(), mostRows: z.number().int() }),
  z.strictObject({ is: z.literal("cell") }),
  z.strictObject({ is: z.literal("colour") }),
  /** Every item is of one type; `most` and `fewest` bound their number. */
  z.strictObject({
    is: z.literal("list"),
    of: z.union([quantity, integer, choice, z.strictObject({ is: z.literal("order"), words: z.array(z.string()) })]),
    fewest: z.number().int(),
    most: z.number().int(),
  }),
]);
const field = z.strictObject({
  name,
  types: z.array(simple).min(1),
  what: prose,
  /** A field that must be there for the value to make sense. */
  required: z.boolean().optional(),
  default: z.string().optional(),
});
const type = z.union([simple, z.strictObject({ is: z.literal("fields"), fields: z.array(field).min(1) })]);

/** Something that must be so for a setting or a mode to work; exactly one of the first four. */
const need = z.strictObject({
  setting: z
    .string()
    .regex(/^[a-z0-9-]+\.[a-z0-9-]+$/)
    .optional(),
  mode: name.optional(),
  section: name.optional(),
  /** A use that some port must have. */
  port: name.optional(),
  /** With `setting`: the text its value must have; or, with `not`, must not have. */
  is: z.string().optional(),
  not: z.string().optional(),
  /** Another need that serves as well. */
  or: z.strictObject({ setting: z.string().optional(), is: z.string().optional(), port: name.optional() }).optional(),
  reason: prose,
});

export const settingSchema = z.strictObject({
  name,
  /** Of several types the first that fits a value counts. */
  types: z.array(type).min(1),
  /** As a pilot would write it. Stands in for rules, numbers and pictures only. */
  default: z.string().optional(),
  /** hardware: true of this craft only; taste: the pilot's; safety: what keeps people whole. */
  kind: z.enum(["hardware", "taste", "safety"]),
  what: prose,
  /** Why one would change it, and what goes wrong at each end. */
  why: prose.min(80),
  hazard: prose.optional(),
  needs: z.array(need).optional(),
  excludes: z.array(z.strictObject({ setting: z.string(), reason: prose })).optional(),
  /** As SECTION.NAME, or the name of a mode or an element. */
  related: z.array(z.string()).optional(),
  words,
  /** Several lines form a list, in order. */
  repeatable: z.boolean().optional(),
});

export const sectionSchema = z.strictObject({
  name,
  what: prose,
  why: prose.min(60),
  words,
  /** What its entries are. `settings` may stand beside places in an OSD section. */
  holds: z.enum(["settings", "modes", "outputs", "places", "controls", "follows", "kept"]),
  /** Files in which it may stand. */
  in: z.array(z.enum(["craft", "layer", "handset"])).min(1),
  /** `optional`: as in `pack "NAME"`; `required`: as in `verbatim "DIALECT"`. */
  title: z.enum(["optional", "required"]).optional(),
  /** A second set: takes the entries of that section, except `without`. */
  like: name.optional(),
  without: z.array(name).optional(),
  settings: z.array(settingSchema),
});

export const modeSchema = z.strictObject({
  name,
  what: prose,
  why: prose.min(80),
  hazard: prose.optional(),
  needs: z.array(need).optional(),
  related: z.array(z.string()).optional(),
  words,
  /** True of modes that decide which way up the craft is held. */
  attitude: z.boolean().optional(),
});

export const relationsSchema = z.strictObject({
  /** Pairs that must never be on together, because nothing decides between them. */
  clashes: z.array(z.strictObject({ modes: z.tuple([name, name]), reason: prose })),
  /** While `over` is on, each of `under` does nothing. */
  precedence: z.array(z.strictObject({ over: name, under: z.array(name).min(1), reason: prose })),
});

export const elementSchema = z.strictObject({
  name,
  what: prose,
  why: prose.min(60),
  /** How it is drawn: rows of text, or one of the figures. */
  drawn: z.enum(["text", "bar", "sight", "horizon", "arrow", "trace", "tape"]),
  /**
   * The rows of its text, with readings in braces: `{pack-volts.1}V` is the reading with one
   * decimal. Empty for a figure.
   */
  shows: z.array(z.string()),
  /** The widest that each row can be, spelled out; for a figure, its cells filled with `#`. */
  widest: z.array(z.string().min(1)).min(1),
  /** The setting whose text it shows, whose own length is then its width. */
  textOf: z.string().optional(),
  /** Drawn over or under the others: shares cells without harm. */
  overlapsNothing: z.boolean().optional(),
  /** May stand in the middle of the picture. */
  centre: z.boolean().optional(),
  /** What a layout should not be without. */
  role: z.enum(["voltage", "link", "alerts", "flight-time"]).optional(),
  needs: z.array(need).optional(),
  related: z.array(z.string()).optional(),
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
        size: z.number().positive(),
        logarithm: z.boolean().optional(),
        also: z.array(z.string()).optional(),
      }),
    )
    .min(1),
});

/** A pilot's own catalogue: further settings for sections that there are. */
export const catalogueFileSchema = z.strictObject({
  catalogue: z.string(),
  settings: z.array(settingSchema.extend({ section: name })),
});
