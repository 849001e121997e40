/** A pilot's own words and settings as JSON, sound and spoiled, and scripts that use them. */
import { expect, test } from "vitest";
import { readJson } from "../../../shared/ide/own-words/json-text.ts";
import { readOwnWords } from "../../../shared/ide/own-words/own-words.ts";
import { scriptReader } from "../../../shared/model/read-script.ts";
import { splitLines } from "../../../shared/syntax/split-lines.ts";
import type { Random } from "../random.ts";
import { tryCases } from "./cases.ts";
import { catalogue } from "./grammar.ts";
import { brokenScript, isInWords } from "./script-laws.ts";
import { spoiled } from "./spoil.ts";

const SETTINGS = catalogue.sections.flatMap(({ name, settings }) =>
  settings.map((each) => ({ ...each, section: name })),
);
const WORDS = ["lamp", "belly lamp", "x", "", "a".repeat(70), "constructor", "__proto__", "Ofen äöü", "\u202e"];

/** A setting of the catalogue under another name, so that every kind of type is there. */
function settingOf(random: Random) {
  const { default: _, ...like } = random.oneOf(SETTINGS);
  return {
    ...like,
    name: random.oneOf(["glow-delay", "x", like.name, "Big", "constructor", "kiln-lamp"]),
    section: random.onceIn(8) ? random.oneOf(["nowhere", "pack/Winter", "modes", ""]) : like.section,
    ...(random.onceIn(3) && { words: random.some(random.below(3), () => random.oneOf(WORDS)) }),
    ...(random.onceIn(4) && { default: random.oneOf(["2 s", "x", "", "9e9", 5]) }),
  };
}

function anyJson(random: Random, depth: number): unknown {
  const kind = random.below(depth > 0 ? 8 : 6);
  if (kind === 6) return random.some(random.below(4), () => anyJson(random, depth - 1));
  if (kind === 7)
    return Object.fromEntries(
      random.some(random.below(4), () => [
        random.oneOf([...WORDS, "name", "types", "is", "settings", "aliases"]),
        anyJson(random, depth - 1),
      ]),
    );
  return random.oneOf([null, true, false, 0, -1.5, 1e300, "x", "quantity", "pack.cells", ""]);
}

/** What stands in for a part of a value, somewhere in it. */
function withPart(random: Random, value: unknown): unknown {
  if (typeof value !== "object" || value === null || random.onceIn(4)) return anyJson(random, 2);
  const keys = Object.keys(value);
  if (keys.length === 0) return anyJson(random, 2);
  const key = random.oneOf(keys);
  const part = withPart(random, (value as Record<string, unknown>)[key]);
  if (Array.isArray(value)) return value.with(Number(key), part);
  if (random.onceIn(3)) return Object.fromEntries(Object.entries(value).filter(([each]) => each !== key));
  return { ...value, [key]: part };
}

function catalogueText(random: Random): string {
  const value: unknown = { catalogue: "made", settings: random.some(random.between(0, 2), () => settingOf(random)) };
  const said = random.onceIn(3) ? withPart(random, value) : value;
  return JSON.stringify(said, null, random.oneOf([0, 1, 2]));
}

function aliasesText(random: Random): string {
  const names = [
    ...SETTINGS.map(({ section, name }) => `${section}.${name}`),
    ...catalogue.modes.map(({ name }) => name),
    "nothing",
    "pack.nothing",
    "Pack.cells",
  ];
  const value: unknown = {
    aliases: Object.fromEntries(random.some(random.between(0, 4), () => [random.oneOf(WORDS), random.oneOf(names)])),
  };
  return JSON.stringify(random.onceIn(4) ? withPart(random, value) : value, null, random.oneOf([0, 2]));
}

const SCRIPT = 'craft "Jug"\nlights\n  glow-delay 2 s\n  x 4\npack\n  cells 4\n  lamp yes\n';

test("own words never stop the reading: what is wrong has its place and its words, and scripts are read by the rest", async () => {
  const tried = await tryCases(1, {
    make: (random) => ({
      catalogue: random.onceIn(4) ? catalogueText(random) : spoiled(random, catalogueText(random), aliasesText(random)),
      aliases: random.onceIn(4) ? aliasesText(random) : spoiled(random, aliasesText(random), ""),
    }),
    shown: ({ catalogue, aliases }) => `${JSON.stringify({ catalogue, aliases })}\n${catalogue}\n${aliases}`,
    fault: async (texts) => {
      const files = [
        { file: "a.catalogue.json", answer: { kind: "text", text: texts.catalogue, validUtf8: true } as const },
        { file: "b.aliases.json", answer: { kind: "text", text: texts.aliases, validUtf8: true } as const },
      ];
      const own = await readOwnWords(files);
      for (const { file, message, range } of own.problems) {
        const text = file.startsWith("a") ? texts.catalogue : texts.aliases;
        const { lines } = splitLines(text);
        if (!isInWords(message, text)) return `a message: ${message}`;
        for (const { line, character } of [range.start, range.end])
          if (line < 0 || line >= lines.length || character < 0 || character > lines[line]!.length)
            return `“${message}” at ${JSON.stringify(range)}`;
      }
      if ((await readOwnWords(files)).key !== own.key) return "another key the second time";
      return brokenScript(scriptReader(own.catalogue).read("/jug.fettle", SCRIPT, true), SCRIPT, own.catalogue);
    },
  });
  expect(tried).toBeGreaterThan(0);
});

test("JSON is read as the platform's own parser reads it, and a fault lies in the text", async () => {
  const tried = await tryCases(40, {
    make: (random) => spoiled(random, JSON.stringify(anyJson(random, 4), null, random.oneOf([0, 2])), '{["x":1e5,]}'),
    fault: (text) => {
      const read = readJson(text);
      let plain: unknown;
      let isJson = true;
      try {
        plain = JSON.parse(text.replace(/^\uFEFF/, ""));
      } catch {
        isJson = false;
      }
      if (isJson !== (read.kind === "value")) return `JSON: ${isJson}, read as ${JSON.stringify(read)}`;
      if (read.kind === "value") return JSON.stringify(read.value) === JSON.stringify(plain) ? null : "another value";
      const { lines } = splitLines(text);
      const { start, end } = read.range;
      const isIn = [start, end].every(
        ({ line, character }) => line < lines.length && character >= 0 && character <= lines[line]!.length,
      );
      return isIn && isInWords(read.message, text) ? null : `${read.message} at ${JSON.stringify(read.range)}`;
    },
  });
  expect(tried).toBeGreaterThan(0);
});
