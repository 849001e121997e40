/** A pilot's own catalogues and aliases: what counts, and what is reported. */
import fc from "fast-check";
import { expect, test } from "vitest";
import type { OwnSetting } from "../../../shared/catalogue/specs.ts";
import { completionsAt } from "../../../shared/ide/completion/complete.ts";
import { hoverAt } from "../../../shared/ide/hover/hover.ts";
import { type OwnWords, readOwnWords } from "../../../shared/ide/own-words/own-words.ts";
import { referencePage } from "../../../shared/ide/reference/page.ts";
import { isWordsFile } from "../../../shared/model/file-names.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { glow } from "./glow.ts";

/** What the files of these names add, given as values or as texts. */
function read(files: Record<string, unknown>): Promise<OwnWords> {
  const given = Object.entries(files).map(([file, content]) => {
    const text = typeof content === "string" ? content : JSON.stringify(content, null, 2);
    return { file, answer: { kind: "text", text, validUtf8: true } as const };
  });
  return readOwnWords(given);
}

const own = (...settings: unknown[]) => ({ "lamp.catalogue.json": { catalogue: "The lamp", settings } });
const problemLines = ({ problems }: OwnWords) => problems.map(({ where, message }) => `${where}: ${message}`);

test("which files hold a pilot's own words", () => {
  expect(["a/lamp.catalogue.json", "my.aliases.json", "aliases.json", "a.fettle"].map(isWordsFile)).toEqual([
    true,
    true,
    false,
    false,
  ]);
});

test("without such files the catalogue is the one that ships", async () => {
  const { catalogue, problems } = await readOwnWords([]);
  expect(problems).toEqual([]);
  expect(catalogue.setting("lights", "glow-delay")).toBeUndefined();
});

test("an own setting is checked, completed, hovered and explained as one that ships", async () => {
  const words = await read(own(glow));
  expect(problemLines(words)).toEqual([]);
  const script = (value: string) => `craft "Jug"\nlights\n  glow-delay ${value}\n  \n`;
  const found = (value: string) => {
    const workspace = makeCore(words.catalogue).at(memoryFiles({ "jug.fettle": script(value) }));
    return findingsOf(workspace, "jug.fettle").map(({ code }) => code);
  };
  expect(found("2 s")).toEqual([]);
  expect(found("31 s")).toEqual(["out-of-range"]);
  expect(found("9 s")).toEqual(["unusual-value"]);
  expect(found("3 V")).toEqual(["wrong-unit"]);
  const workspace = makeCore(words.catalogue).at(memoryFiles({ "jug.fettle": script("2 s") }));
  const offers = completionsAt(workspace, "jug.fettle", { line: 3, character: 2 });
  expect(offers.map(({ label }) => label)).toContain("glow-delay");
  expect(hoverAt(workspace, "jug.fettle", { line: 2, character: 4 })?.markdown).toContain("the maker's leaflet, p. 2");
  for (const name of ["glow-delay", "lights.glow-delay", "belly lamp delay"])
    expect(referencePage(words.catalogue, name), name).toContain("# lights.glow-delay");
});

test("an invalid setting is reported at its place, and the others count", async () => {
  const words = await read(own({ ...glow, name: "Glow", kind: "nice" }, glow));
  expect(problemLines(words)).toEqual([
    "settings[0].name: This is not written as it should be. A name has small letters, digits and hyphens, and begins with a letter.",
    "settings[0].kind: This should be “hardware” or “taste” or “safety”.",
  ]);
  expect(words.problems.map(({ severity }) => severity)).toEqual(["error", "error"]);
  expect(words.problems[1]!.range.start).toEqual({ line: 28, character: 14 });
  expect(words.catalogue.setting("lights", "glow-delay")?.what).toBe(glow.what);
});

const { why: _, ...unexplained } = glow;

test.each<[string, unknown, string]>([
  ["a part that is missing", unexplained, "settings[0].why: “why” is missing here: Say in 80 letters"],
  ["a part that is none", { ...glow, colour: "red" }, "settings[0].colour: Nothing here is called “colour”"],
  ["prose that is no sentence", { ...glow, what: "glows" }, "settings[0].what: This is shorter than 20 letters."],
  ["no words", { ...glow, words: [] }, "settings[0].words: This list should hold at least 1."],
  [
    "an unknown type",
    { ...glow, types: [{ is: "speed" }] },
    "settings[0].types[0].is: There is no type of value called so",
  ],
  [
    "text for a number",
    withType({ min: { at: "0", source: "the leaflet" } }),
    "settings[0].types[0].min.at: This should be a number.",
  ],
  [
    "a limit without source",
    withType({ min: { at: 0 } }),
    "settings[0].types[0].min.source: “source” is missing here: Say where the limit comes from",
  ],
  [
    "limits the wrong way round",
    withType({ max: { at: -1, source: "the leaflet" } }),
    "settings[0].types[0].max: The upper limit, -1,",
  ],
  [
    "a band outside the limits",
    withType({ usual: [{ to: 99, source: "the leaflet" }] }),
    "settings[0].types[0].usual[0]: What is usual should rise and lie inside the limits",
  ],
  ["an unknown unit", withType({ unit: "sec" }), "settings[0].types[0].unit: “sec” is no unit."],
  [
    "a section that there is not",
    { ...glow, section: "ligths" },
    "settings[0].section: There is no section “ligths”. Did you mean “lights”?",
  ],
  ["a section of modes", { ...glow, section: "modes" }, "settings[0].section: “modes” holds no settings"],
  [
    "a second set",
    { ...glow, section: "rates-second" },
    "settings[0].section: “rates-second” takes its settings from “rates”",
  ],
  ["a name that ships", { ...glow, name: "count" }, "settings[0].name: “lights.count” is in the catalogue already"],
  [
    "an element's name",
    { ...glow, section: "osd", name: "amps" },
    "settings[0].name: “osd.amps” is in the catalogue already",
  ],
  ["a unit's name", { ...glow, name: "mph" }, "settings[0].name: “mph” is a word of the language or a unit"],
  [
    "a default of another kind",
    { ...glow, default: "yes" },
    "settings[0].default: The default does not fit its own setting",
  ],
  ["a default out of limits", { ...glow, default: "40 s" }, "settings[0].default: The default lies outside the limits"],
])("%s leaves the setting out and is reported", async (_, setting, expected) => {
  const words = await read(own(setting));
  expect(problemLines(words).map((each) => each.slice(0, expected.length))).toContain(expected);
  const { section, name } = setting as OwnSetting;
  expect(words.catalogue.setting(section, name)?.what).not.toBe(glow.what);
});

function withType(change: object): unknown {
  return { ...glow, types: [{ ...glow.types[0], ...change }] };
}

test("fields and choices are held to the language: no name twice, none that ends a line early", async () => {
  const yes = { is: "yes-no" } as const;
  const field = (name: string) => ({ name, types: [yes], what: "Says whether that lamp is lit." });
  const fields = {
    ...glow,
    default: undefined,
    types: [{ is: "fields", fields: [field("a"), field("a"), field("when")] }],
  };
  expect(problemLines(await read(own(fields)))).toEqual([
    expect.stringContaining("settings[0].types[0].fields[1].name: “a” is a field already"),
    expect.stringContaining("settings[0].types[0].fields[2].name: “when” is a word of the language"),
  ]);
});

test("links to unknown names are reported, and the setting counts", async () => {
  const setting = {
    ...glow,
    related: ["lights.cuont"],
    excludes: [{ setting: "lights.none", reason: "They share one wire." }],
    needs: [{ mode: "lihgts", reason: "Somebody must switch it on." }, { reason: "Nothing at all is named here." }],
  };
  const words = await read(own(setting));
  expect(words.problems.map(({ where, severity }) => `${severity} ${where}`)).toEqual(
    [
      "warning settings[0].excludes[0].setting",
      "warning settings[0].needs[0].mode",
      "warning settings[0].needs[1]",
      "warning settings[0].related[0]",
    ].sort((a, b) => order(words, a) - order(words, b)),
  );
  expect(problemLines(words).join("\n")).toContain("Did you mean “lights.count”");
  expect(words.catalogue.setting("lights", "glow-delay")).toBeDefined();
});

function order({ problems }: OwnWords, line: string): number {
  return problems.findIndex(({ where }) => line.endsWith(where));
}

test("a setting in two files counts once, and is reported in the later file", async () => {
  const words = await read({
    "a.catalogue.json": own(glow)["lamp.catalogue.json"],
    "b.catalogue.json": own(glow)["lamp.catalogue.json"],
  });
  expect(words.problems.map(({ file, where }) => [file, where])).toEqual([["b.catalogue.json", "settings[0].name"]]);
});

test.each<[string, string]>([
  ["{", "The name of a member should stand here, in double quotes. Until this is JSON, nothing of the file counts."],
  ["[]", "This should be an object in { }."],
  ['{ "catalogue": "x" }', "“settings” is missing here: List the settings in [ ]."],
  ['{ "catalogue": "x", "settings": {} }', "This should be a list in [ ]. List the settings in [ ]."],
  ['{ "catalogue": "x", "settings": [null] }', "This should be an object in { }."],
])("a file that is no catalogue, as %s, is reported", async (text, message) => {
  const { problems } = await read({ "x.catalogue.json": text });
  expect(problems.map((each) => each.message)).toContain(message);
});

test("a file that cannot be read, or is not UTF-8, is reported", async () => {
  const { problems } = await readOwnWords([
    { file: "a.catalogue.json", answer: { kind: "unreadable", why: "this user may not read it" } },
    { file: "b.aliases.json", answer: { kind: "text", text: "{}", validUtf8: false } },
    { file: "c.aliases.json", answer: { kind: "missing" } },
  ]);
  expect(problems.map(({ file, message }) => `${file} ${message}`)).toEqual([
    "a.catalogue.json This file cannot be read, so nothing of it counts: this user may not read it.",
    "b.aliases.json This file is no valid UTF-8, so nothing of it counts: save it as UTF-8.",
  ]);
});

const aliases = (said: Record<string, unknown>) => ({ "mine.aliases.json": { aliases: said } });

test("a pilot's word finds the name in a page, in a suggestion with its repair, and in completion", async () => {
  const { catalogue, problems } = await read(
    aliases({ "stay flat": "level", squealer: "finder", "juice left": "pack.reserve" }),
  );
  expect(problems).toEqual([]);
  expect(referencePage(catalogue, "stay flat")).toMatch(/^# level\n/);
  expect(referencePage(catalogue, "juice left")).toMatch(/^# pack\.reserve\n/);
  const text = 'craft "Jug"\nmodes\n  squealer when ch9 above 1500\n  sta\n';
  const workspace = makeCore(catalogue).at(memoryFiles({ "jug.fettle": text }));
  const unknown = findingsOf(workspace, "jug.fettle").find(({ code }) => code === "unknown-name");
  expect(unknown?.message).toContain("Did you mean “finder”");
  expect(unknown?.fixes[0]?.edits[0]?.text).toBe("finder");
  const level = completionsAt(workspace, "jug.fettle", { line: 3, character: 5 }).find(
    ({ label }) => label === "level",
  );
  expect(level?.filter).toContain("stay-flat");
});

test.each([
  ["  stay  flat when TR is mid", "stay flat", "  level when TR is mid"],
  ["  flip it over when TR is mid", "flip it over", "  turtle when TR is mid"],
  ["  arm when not squealer", "squealer", "  arm when not finder"],
])("plain words in a script are reported and repaired as one name: %s", async (line, said, repaired) => {
  const { catalogue } = await read(aliases({ "stay flat": "level", squealer: "finder" }));
  const workspace = makeCore(catalogue).at(memoryFiles({ "jug.fettle": `craft "Jug"\nmodes\n${line}\n` }));
  const unknown = findingsOf(workspace, "jug.fettle").find(
    ({ code, message }) => code === "unknown-name" && message.includes(`“${said}”`),
  );
  const { range, text } = unknown!.fixes[0]!.edits[0]!;
  expect(line.slice(0, range.start.character) + text + line.slice(range.end.character)).toBe(repaired);
});

test("the same word stands for what an own catalogue adds", async () => {
  const { catalogue, problems } = await read({ ...own(glow), ...aliases({ "belly wait": "lights.glow-delay" }) });
  expect(problems).toEqual([]);
  expect(referencePage(catalogue, "belly wait")).toContain("# lights.glow-delay");
});

test("a word for an unknown name is reported and the others count; a word that is itself a name is reported too", async () => {
  const words = await read(aliases({ flat: "levle", squealer: "finder", turtle: "finder", x: "arm", fast: 3 }));
  expect(words.problems.map(({ where, severity, message }) => `${severity} ${where}: ${message}`)).toEqual([
    "error aliases.flat: Nothing is called “levle”. Did you mean “level”?",
    expect.stringContaining("warning aliases.turtle: “turtle” is itself a name"),
    "error aliases.x: A word of yours has 2 to 60 letters.",
    "error aliases.fast: This should be a text in double quotes. Write one of our names.",
  ]);
  expect(words.catalogue.mode("finder")?.words).toContain("squealer");
});

test("one word for two names offers both, and a repeated member is reported", async () => {
  const words = await read({
    "a.aliases.json": { aliases: { "low bell": "pack.warn-at" } },
    "b.aliases.json": '{ "aliases": { "low bell": "alerts", "low bell": "alerts" } }',
  });
  expect(problemLines(words)).toEqual([
    expect.stringContaining("This name occurs twice here"),
    expect.stringContaining("“low bell” also stands for “pack.warn-at”"),
  ]);
  const page = referencePage(words.catalogue, "low bell");
  expect(page).toContain("# pack.warn-at");
  expect(page).toContain("# alerts");
});

test("any file, whatever its content, is only reported", async () => {
  const odd = fc.oneof(fc.jsonValue(), fc.constant(glow), fc.constantFrom("", "x", "lights.count", "2 s", "__proto__"));
  const key = fc.constantFrom(
    ...Object.keys(glow),
    "needs",
    "excludes",
    "related",
    "hazard",
    "repeatable",
    "__proto__",
  );
  const setting = fc.dictionary(key, odd).map((change) => ({ ...glow, ...change }));
  const files = fc.record({
    "a.catalogue.json": fc.oneof(
      odd,
      fc.record({ catalogue: odd, settings: fc.oneof(odd, fc.array(fc.oneof(odd, setting))) }),
    ),
    "b.aliases.json": fc.oneof(odd, fc.record({ aliases: fc.oneof(odd, fc.dictionary(fc.string(), odd)) })),
  });
  await fc.assert(
    fc.asyncProperty(files, async (given) => {
      const { catalogue, problems } = await read(given);
      const texts = Object.entries(given).map(([file, content]) => [
        file,
        JSON.stringify(content, null, 2)?.split("\n") ?? [""],
      ]);
      for (const { file, range } of problems) {
        const lines = texts.find(([name]) => name === file)![1] as string[];
        expect(range.end.character).toBeLessThanOrEqual(lines[range.end.line]!.length);
      }
      const workspace = makeCore(catalogue).at(
        memoryFiles({ "jug.fettle": 'craft "Jug"\nlights\n  glow-delay 2 s\n  none\n' }),
      );
      expect(findingsOf(workspace, "jug.fettle").length).toBeGreaterThan(0);
    }),
    { numRuns: 300 },
  );
});

test("a key such as __proto__ is a word like any other, or rejected", async () => {
  const { problems } = await read({ "mine.aliases.json": JSON.parse('{ "aliases": { "__proto__": { "a": 1 } } }') });
  expect(problems).toEqual([]);
});

test("more faults than can be told are told as one", async () => {
  const text = `{"catalogue": "x", "settings": [${Array(150_000).fill('{"name": 4}').join(",")}]}`.slice(0, 900_000);
  const whole = `${text.slice(0, text.lastIndexOf(","))}]}`;
  const { problems } = await readOwnWords([
    { file: "own.catalogue.json", answer: { kind: "text", text: whole, validUtf8: true } },
  ]);
  expect(problems.length).toBeGreaterThan(0);
  expect(problems.every(({ message, severity }) => message !== "" && severity === "error")).toBe(true);
});
