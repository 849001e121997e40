/**
 * Validates a pilot's own files against their schema, with messages for the pilot. This module imports
 * zod: load it only if there is such a file.
 */
import type * as z from "zod/mini";
import { safeParse } from "zod/mini";
import { aliasesFileSchema, catalogueFileSchema } from "./schema.ts";
import type { OwnSetting } from "./specs.ts";

/** Something wrong in a file; `path` leads to it from the root of the JSON. */
export interface ShapeProblem {
  readonly path: readonly (string | number)[];
  /** True if the name of the member is wrong, not its value. */
  readonly ofName: boolean;
  readonly message: string;
}

type ZodIssue = z.core.$ZodIssue;

/**
 * The valid settings of a catalogue file, each with its index in the list, and what is wrong with the
 * others.
 */
export function readCatalogueFile(json: unknown): {
  readonly settings: readonly { readonly at: number; readonly setting: OwnSetting }[];
  readonly problems: readonly ShapeProblem[];
} {
  const whole = parsed(catalogueFileSchema, json);
  if (whole === null) return { settings: [], problems: [TOO_FAULTY] };
  if (whole.success) return { settings: whole.data.settings.map((setting, at) => ({ at, setting })), problems: [] };
  const { issues } = whole.error;
  const faulty = new Set(issues.map(({ path: [top, at] }) => (top === "settings" ? at : undefined)));
  const listed: unknown = (json as { settings?: unknown } | null)?.settings;
  const settings = Array.isArray(listed) && !issues.some(({ path }) => path.length === 1 && path[0] === "settings");
  return {
    // An invalid setting does not affect the others.
    settings: settings
      ? (listed as OwnSetting[]).map((setting, at) => ({ at, setting })).filter(({ at }) => !faulty.has(at))
      : [],
    problems: issues.flatMap((issue) => problemsOf(issue, json)),
  };
}

/** The valid words of an aliases file, and what is wrong with the others. */
export function readAliasesFile(json: unknown): {
  readonly aliases: readonly { readonly word: string; readonly name: string }[];
  readonly problems: readonly ShapeProblem[];
} {
  const whole = parsed(aliasesFileSchema, json);
  if (whole === null) return { aliases: [], problems: [TOO_FAULTY] };
  const listed: unknown = (json as { aliases?: unknown } | null)?.aliases;
  const issues = whole.success ? [] : whole.error.issues;
  const faulty = new Set(issues.map(({ path }) => path[1]));
  const entries = typeof listed === "object" && listed !== null && !Array.isArray(listed) ? Object.entries(listed) : [];
  return {
    // The schema does not check a key “__proto__”, whatever its value.
    aliases: entries.flatMap(([word, name]) => (typeof name === "string" && !faulty.has(word) ? [{ word, name }] : [])),
    problems: issues.flatMap((issue) => problemsOf(issue, json)),
  };
}

const TOO_FAULTY: ShapeProblem = {
  path: [],
  ofName: false,
  message: "This has more faults than can be told, so nothing of the file counts: is it such a file at all?",
};

/** What a schema says of some JSON; null where there are so many faults that zod, which hands them on all at once, overflows the stack. */
function parsed<Schema extends z.core.$ZodType>(
  schema: Schema,
  json: unknown,
): z.core.util.SafeParseResult<z.output<Schema>> | null {
  try {
    return safeParse(schema, json);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

function problemsOf(issue: ZodIssue, json: unknown): ShapeProblem[] {
  const path = issue.path.filter((step) => typeof step !== "symbol");
  if (issue.code === "unrecognized_keys")
    return issue.keys.map((key) => ({
      path: [...path, key],
      ofName: true,
      message: `Nothing here is called “${key}”: look at its spelling, or remove it.`,
    }));
  const there = path.reduce<unknown>(
    (part, step) => (part as Record<string | number, unknown> | undefined)?.[step],
    json,
  );
  const message = messageOf(
    issue,
    String(path.findLast((step) => typeof step === "string") ?? ""),
    there === undefined,
  );
  return [{ path, ofName: issue.code === "invalid_key", message }];
}

/** The message for an issue. `missing`: the member is absent. */
function messageOf(issue: ZodIssue, key: string, missing: boolean): string {
  switch (issue.code) {
    case "invalid_type":
      return missing
        ? `“${key}” is missing here: ${instructionFor(key, issue.expected)}`
        : `This should be ${JSON_TYPES_IN_WORDS[issue.expected] ?? issue.expected}. ${instructionFor(key, issue.expected)}`.trimEnd();
    case "invalid_value":
      return `This should be ${issue.values.map((value) => `“${String(value)}”`).join(" or ")}.`;
    case "invalid_union":
      return "note" in issue && issue.note === "No matching discriminator"
        ? `There is no type of value called so: write one of ${optionsOf(issue)}.`
        : "This has none of the shapes that can stand here.";
    case "too_small":
      return issue.origin === "array"
        ? `This list should hold at least ${issue.minimum}. ${instructionFor(key, "array")}`
        : issue.origin === "string"
          ? `This is shorter than ${issue.minimum} letters. ${instructionFor(key, "string")}`
          : `This should be ${issue.inclusive ? "at least" : "more than"} ${issue.minimum}.`;
    case "too_big":
      return `This should be at most ${issue.maximum}${issue.origin === "string" ? " letters" : ""}.`;
    case "invalid_format":
      return `This is not written as it should be. ${instructionFor(key, "string")}`;
    case "invalid_key":
      return "A word of yours has 2 to 60 letters.";
    default:
      return "This cannot stand here.";
  }
}

function optionsOf(issue: ZodIssue & { code: "invalid_union" }): string {
  const options = "options" in issue ? (issue.options as readonly unknown[]) : [];
  return options.map(String).join(", ");
}

const JSON_TYPES_IN_WORDS: Readonly<Record<string, string>> = {
  string: "a text in double quotes",
  number: "a number",
  int: "a whole number",
  boolean: "true or false",
  array: "a list in [ ]",
  object: "an object in { }",
  record: "an object in { }",
};

const INSTRUCTIONS: Readonly<Record<string, string>> = {
  section: "name the section that the setting stands in, such as “lights”.",
  name: "a name has small letters, digits and hyphens, and begins with a letter.",
  word: "a choice has small letters, digits and hyphens, and begins with a letter.",
  types: 'say what a value of it looks like, such as [{ "is": "yes-no" }].',
  kind: "say “hardware” (true of this craft only), “taste” (the pilot's) or “safety”.",
  what: "say in one sentence, with its full stop, what it is.",
  why: "say in 80 letters or more, in whole sentences, why one would change it and what goes wrong at each end.",
  words: "list at least one plain word by which a pilot may search for it.",
  source: "say where the limit comes from: a published source, “common practice, no source” or “from memory: …”.",
  reason: "give the reason in a whole sentence.",
  hazard: "say in a whole sentence what can go wrong.",
  settings: "list the settings in [ ].",
  catalogue: "say what this is a catalogue of.",
  aliases: 'write your words and our names, as in { "aliases": { "self level": "level" } }.',
  is: 'say which type of value it is, such as "quantity".',
  setting: "write it as SECTION.NAME.",
  unit: 'give the unit of the limits, or "" for a bare number.',
};

function instructionFor(key: string, expected: string): string {
  // An item of a list is not the list itself.
  if (expected === "object") return "";
  const instruction = Object.hasOwn(INSTRUCTIONS, key)
    ? INSTRUCTIONS[key]!
    : expected === "string"
      ? "write one of our names."
      : "";
  return instruction.charAt(0).toUpperCase() + instruction.slice(1);
}
