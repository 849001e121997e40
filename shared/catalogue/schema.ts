/**
 * The zod schema of the catalogue. A test validates the built-in catalogue against it; the running
 * program imports only the types, so zod is loaded only if a pilot's own catalogue file is read.
 */
import * as z from "zod/mini";

const name = z.string().check(z.regex(/^[a-z][a-z0-9-]*$/));
/** One or more sentences for a pilot, with the full stop of the last. */
const prose = z.string().check(z.minLength(20), z.regex(/[.!?]$/));
/** Prose of at least so many letters. */
const longProse = (letters: number) => z.string().check(z.minLength(letters), z.regex(/[.!?]$/));
/** Where a limit comes from: a published source, "common practice, no source" or "from memory: …". */
const source = z.string().check(z.minLength(8));
/** Plain words by which a pilot may search. */
const words = z.array(z.string().check(z.minLength(2))).check(z.minLength(1));

const limit = z.strictObject({ at: z.number(), source });
const span = z.strictObject({ from: z.optional(z.number()), to: z.optional(z.number()) });

/**
 * A usual band: a value outside gives one hint. Of several bands the first whose `when` fits the craft
 * applies; a band without `when` fits every craft. A band that depends on something, such as a size, does
 * not apply while that is not known of the craft.
 */
const band = z.strictObject({
  from: z.optional(z.number()),
  to: z.optional(z.number()),
  source,
  when: z.optional(
    z.strictObject({
      propellerIn: z.optional(span),
      cells: z.optional(span),
      motors: z.optional(span),
      throttle: z.optional(z.enum(["low", "middle"])),
      notches: z.optional(z.enum(["some", "none"])),
    }),
  ),
});

const numeric = {
  min: z.optional(limit),
  max: z.optional(limit),
  usual: z.optional(z.array(band)),
  /** The number that switches it off, which is usual wherever the bands begin. */
  off: z.optional(z.number()),
  /** What its numbers are counted by, where pilots know another scale: said with a number that does not fit. */
  scale: z.optional(prose),
};

/** `unit` is the one in which limits are given and values are reported; "" for a bare number. */
const quantity = z.strictObject({ is: z.literal("quantity"), unit: z.string(), ...numeric });
const integer = z.strictObject({
  is: z.literal("integer"),
  ...numeric,
  /** Any other number is an error. */
  multiple: z.optional(z.strictObject({ of: z.int().check(z.minimum(2)), source })),
});
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
  /** The limits of the quantity apply to both ends. */
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
  /** A field without which the value is incomplete. */
  required: z.optional(z.boolean()),
  default: z.optional(z.string()),
});
const type = z.discriminatedUnion("is", [
  simple,
  z.strictObject({ is: z.literal("fields"), fields: z.array(field).check(z.minLength(1)) }),
]);

const path = z.string().check(z.regex(/^[a-z0-9-]+\.[a-z0-9-]+$/));

/** Something that a craft may have. Exactly one of the first five members is set. */
const having = {
  setting: z.optional(path),
  mode: z.optional(name),
  section: z.optional(name),
  element: z.optional(name),
  /** A use that one of the ports must have. */
  port: z.optional(name),
  /** With `setting`: the text its value must have; must not have; or, for a list, one of its words. */
  is: z.optional(z.string()),
  not: z.optional(z.string()),
  has: z.optional(z.string()),
  /** With `setting`, where no file sets it: it counts as missing, or that is what is wanted; else nothing is claimed. */
  unsaid: z.optional(z.enum(["missing", "wanted"])),
};

const severity = z.enum(["hint", "warning", "error"]);

/** A condition for a setting, a mode or an element to work. */
const need = z.strictObject({
  ...having,
  /** The word of the value, or of a list, that has the need; without it every value but an idle one has. */
  word: z.optional(z.string()),
  /** The need exists only in a craft that has all of these. */
  while: z.optional(z.array(z.strictObject(having))),
  /** Each of these satisfies the need as well. */
  or: z.optional(z.array(z.strictObject(having))),
  /**
   * Without what it needs the setting promises something that does not happen. The others merely lie idle: then
   * they are worth a hint in the craft's own file, and none in a layer, where they may serve another craft.
   */
  misleads: z.optional(z.literal(true)),
  /** If it differs from that of the rule that reports it. */
  severity: z.optional(severity),
  reason: prose,
  /** If there is none, the need follows from what the words mean. */
  source: z.optional(source),
});

/**
 * SECTION.NAME, with a field of it or an end of its range; `=NAME`, a figure worked out of several settings; or an
 * amount, as `30 s`.
 */
const operand = z.string().check(z.regex(/^([a-z0-9-]+\.[a-z0-9-]+(\.[a-z]+)?|=[a-z-]+|[0-9.]+ \S+)$/));

export const comparisonSchema = z.strictObject({
  /** The rule that reports it. */
  rule: z.enum(["values-contradict", "beyond-rating"]),
  severity: z.optional(severity),
  /** The end at which it is reported. */
  of: operand,
  must: z.enum([
    "be at most",
    "be below",
    "be at least",
    "be above",
    "be a whole part of",
    "be one of",
    "agree with",
    "keep away from",
  ]),
  than: operand,
  /** The other end is first multiplied by this. */
  times: z.optional(z.number()),
  /** For “agree with” and “keep away from”: the most, or the least, by which the two may differ. */
  by: z.optional(z.number()),
  /** The unit in which both are compared; "" for bare numbers. */
  unit: z.string(),
  while: z.optional(z.array(z.strictObject(having))),
  reason: prose,
  source,
});

/** A quantity that follows from several settings. */
export const figureSchema = z.strictObject({
  name,
  /** As it continues “must be at most”. */
  what: z.string().check(z.minLength(8)),
  /** The settings it is worked out from. */
  from: z.array(path).check(z.minLength(1)),
  source,
});

export const settingSchema = z.strictObject({
  name,
  /** If there are several types, a value has the first that fits. */
  types: z.array(type).check(z.minLength(1)),
  /** As a pilot would write it. Used by rules, numbers and pictures only. */
  default: z.optional(z.string()),
  /** hardware: true of this craft only; taste: the pilot's; safety: what keeps people whole. */
  kind: z.enum(["hardware", "taste", "safety"]),
  /** A value as a pilot would write it, sound for a five-inch. Each built-in setting has one, in `examples`. */
  example: z.optional(z.string()),
  what: prose,
  /** Why one would change it, and what goes wrong at each end. */
  why: longProse(80),
  hazard: z.optional(prose),
  needs: z.optional(z.array(need)),
  excludes: z.optional(z.array(z.strictObject({ setting: z.string(), reason: prose }))),
  /** As SECTION.NAME, or the name of a mode or an element. */
  related: z.optional(z.array(z.string())),
  words,
  /** A dial may move it in flight: a quantity, a matter of taste, with which the craft flies well at any value. */
  adjustable: z.optional(z.literal(true)),
  /** It leads to one person, or is a secret: it is taken out of a script before that is shared. */
  private: z.optional(z.strictObject({ kind: z.enum(["secret", "place", "person", "identity"]), reason: prose })),
  /** Several lines form a list, in order. */
  repeatable: z.optional(z.boolean()),
});

export const sectionSchema = z.strictObject({
  name,
  what: prose,
  why: longProse(60),
  words,
  /** The kind of its entries. An OSD section (`places`) may have settings too. */
  holds: z.enum(["settings", "modes", "outputs", "places", "controls", "follows", "kept"]),
  /** The kinds of files that may have it. */
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
  /** A condition under which it makes sense. */
  example: z.optional(z.string()),
  /** True for modes that control the attitude of the craft. */
  attitude: z.optional(z.boolean()),
  /** True for modes that do something only while the craft is armed. */
  inFlight: z.optional(z.literal(true)),
});

export const modeRelationsSchema = z.strictObject({
  /** Pairs that must never be on together, because nothing decides between them. */
  clashes: z.array(z.strictObject({ modes: z.tuple([name, name]), reason: prose })),
  /** While `over` is on, each of `under` does nothing. */
  precedence: z.array(
    z.strictObject({
      over: name,
      under: z.array(name).check(z.minLength(1)),
      reason: prose,
      /**
       * Where going before the others is no accident: a mode that is there to take over from them for a while, or
       * one that does what they do and more.
       */
      kind: z.optional(z.enum(["takes-over", "includes"])),
      /** A choice that the craft may say: said and not this word, the precedence does not hold. */
      unless: z.optional(z.strictObject({ setting: z.string(), not: name })),
    }),
  ),
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
  /** An overlay: may share cells with other elements. */
  overlapsNothing: z.optional(z.boolean()),
  /** May be in the middle of the picture. */
  centre: z.optional(z.boolean()),
  /** A place where it is at home, on a grid of 53 x 20. */
  example: z.optional(z.string()),
  /** The role of an element that a layout should have. */
  role: z.optional(z.enum(["voltage", "link", "alerts", "flight-time"])),
  needs: z.optional(z.array(need)),
  related: z.optional(z.array(z.string())),
  words,
});

/** A quantity that the craft measures or computes in flight, for the sample texts of the OSD. */
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

/** A pilot's own catalogue: more settings for existing sections. */
export const catalogueFileSchema = z.strictObject({
  /** The JSON Schema by which an editor completes and validates. */
  $schema: z.optional(z.string()),
  /** A description, for readers of the file. */
  catalogue: z.string(),
  settings: z.array(z.extend(settingSchema, { section: name })),
});

/** A pilot's own words, each with the name of the catalogue that it means: a name alone or SECTION.NAME. */
export const aliasesFileSchema = z.strictObject({
  $schema: z.optional(z.string()),
  aliases: z.record(
    z.string().check(z.minLength(2), z.maxLength(60)),
    z.string().check(z.regex(/^[a-z][a-z0-9-]*(\.[a-z][a-z0-9-]*)?$/)),
  ),
});
