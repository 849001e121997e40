/** Generates the TextMate grammar: its rules are written here, its lists of words come from the catalogue. */
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";

interface Rule {
  readonly name?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly include?: string;
  readonly captures?: Readonly<Record<string, Rule>>;
  readonly beginCaptures?: Readonly<Record<string, Rule>>;
  readonly patterns?: readonly Rule[];
}

const catalogue = makeCatalogue();
/** A section ends before the next line that begins in its first column and is not a comment. */
const sectionEnd = "^(?=[^\\s#])";
const control = "[A-Z][A-Za-z0-9]*";
const word = "[a-z][a-z0-9-]*";
/** A word ends where no letter, digit or hyphen follows. */
const wordEnd = "(?![A-Za-z0-9-])";
const wordStart = "(?<![A-Za-z0-9-])";

/** A pattern for any of the words, longest first, as an engine takes the first alternative that matches. */
function oneOf(words: Iterable<string>): string {
  const sorted = [...new Set(words)].sort((a, b) => b.length - a.length || (a < b ? -1 : 1));
  return `(?:${sorted.map((text) => text.replaceAll(/[.*+?^${}()|[\]\\/]/g, "\\$&")).join("|")})`;
}

function scoped(name: string): Rule {
  return { name: `${name}.fettle` };
}

/** The rules of a section whose entries begin with one of `words`; other names stay plain. */
function section(holds: string, title: string, entries: readonly Rule[]): Rule {
  const names = catalogue.sections.filter((spec) => spec.holds === holds).map(({ name }) => name);
  return {
    name: `meta.section.${title}.fettle`,
    begin: `^(${oneOf(names)})${wordEnd}(?:[ \\t]+("(?:[^"\\\\]|\\\\.)*"))?`,
    beginCaptures: { 1: scoped("entity.name.section"), 2: scoped("string.quoted.double.title") },
    end: sectionEnd,
    patterns: [{ include: "#fact" }, { include: "#drop" }, ...entries, { include: "#entry" }, { include: "#values" }],
  };
}

function entry(words: Iterable<string>, scope: string): Rule {
  return { match: `^[ \\t]+(${oneOf(words)})${wordEnd}`, captures: { 1: scoped(scope) } };
}

function namesOf(list: readonly { readonly name: string }[]): string[] {
  return list.map(({ name }) => name);
}

function settingNames(holds: string): string[] {
  const specs = catalogue.sections.filter((spec) => spec.holds === holds);
  return specs.flatMap((spec) => namesOf(catalogue.settingsOf(spec.name)));
}

function unitSymbols(): string[] {
  return catalogue.unitFamilies.flatMap(({ units }) => units.flatMap(({ symbol, also }) => [symbol, ...(also ?? [])]));
}

function choiceWords(): string[] {
  const found = new Set<string>();
  JSON.stringify(catalogue.sections, (key, value) => {
    if (key === "choices") for (const choice of value) found.add(choice.word);
    return value;
  });
  return [...found].filter((choice) => /^[a-z]/.test(choice));
}

const setting = "variable.other.property";
const mode = "entity.name.function.mode";
const modes = oneOf(namesOf(catalogue.modes));

const repository: Readonly<Record<string, Rule>> = {
  comment: {
    name: "comment.line.number-sign.fettle",
    begin: "#",
    end: "$",
    patterns: [
      {
        match:
          "\\G[ \\t]*(allow)[ \\t]+([A-Za-z][A-Za-z0-9-]*(?=[ \\t]*:)|[A-Za-z][A-Za-z0-9]*-[A-Za-z0-9-]+(?=[ \\t]*$))",
        captures: { 1: scoped("keyword.control.allow"), 2: scoped("entity.name.tag.code") },
      },
    ],
  },
  string: {
    name: "string.quoted.double.fettle",
    begin: '"',
    end: '"|$',
    patterns: [{ name: "constant.character.escape.fettle", match: '\\\\["\\\\]' }],
  },
  header: {
    match: `^(craft|layer|handset|dialect)${wordEnd}(?:[ \\t]+("(?:[^"\\\\]|\\\\.)*"))?(?:[ \\t]+(edition)[ \\t]+(\\d+))?`,
    captures: {
      1: scoped("keyword.control.header"),
      2: scoped("string.quoted.double.title"),
      3: scoped("keyword.control.edition"),
      4: scoped("constant.numeric"),
    },
  },
  use: {
    match: `^(use)${wordEnd}(?:[ \\t]+("(?:[^"\\\\]|\\\\.)*"))?`,
    captures: { 1: scoped("keyword.control.use"), 2: scoped("string.quoted.double.path") },
  },
  drop: {
    match: `^[ \\t]+(drop)${wordEnd}(?:[ \\t]+(all)${wordEnd})?`,
    captures: { 1: scoped("keyword.control.drop"), 2: scoped("keyword.control.drop") },
  },
  entry: { match: `^[ \\t]+(${word})${wordEnd}`, captures: { 1: scoped("variable.other.name") } },
  number: {
    match: `${wordStart}(-?\\d+(?:\\.\\d+)?)[ \\t]?(${oneOf(unitSymbols())})?(?![A-Za-z0-9/%])`,
    captures: { 1: scoped("constant.numeric"), 2: scoped("keyword.other.unit") },
  },
  place: {
    match: `${wordStart}(left|centre|right|top|middle|bottom)(?!-?[A-Za-z])[ \\t]*(?:([+-])[ \\t]*(\\d+))?`,
    captures: {
      1: scoped("constant.language.anchor"),
      2: scoped("keyword.operator.arithmetic"),
      3: scoped("constant.numeric"),
    },
  },
  values: {
    patterns: [
      { include: "#comment" },
      { include: "#string" },
      { name: "constant.numeric.date.fettle", match: `${wordStart}\\d{4}-\\d{2}-\\d{2}${wordEnd}` },
      { name: "constant.numeric.size.fettle", match: `${wordStart}\\d+[ \\t]*x[ \\t]*\\d+${wordEnd}` },
      { name: "constant.language.choice.fettle", match: `${wordStart}\\d+:\\d+${wordEnd}` },
      { name: "variable.language.channel.fettle", match: `${wordStart}ch[ \\t]?\\d+${wordEnd}` },
      { include: "#place" },
      { include: "#number" },
      {
        name: "keyword.operator.word.fettle",
        match: `${wordStart}(?:when|is|in|above|below|and|or|not|always|at|to|rests|lies|follows|from)${wordEnd}`,
      },
      { name: "constant.language.boolean.fettle", match: `${wordStart}(?:yes|no)${wordEnd}` },
      { name: "variable.other.constant.control.fettle", match: `${wordStart}${control}${wordEnd}` },
      { name: "constant.language.choice.fettle", match: `${wordStart}${oneOf(choiceWords())}${wordEnd}` },
      { name: "punctuation.separator.fettle", match: "," },
    ],
  },
  condition: { name: "entity.name.function.mode.fettle", match: `${wordStart}${modes}${wordEnd}` },
  position: {
    match: `${wordStart}(is)[ \\t]+(?:(not)[ \\t]+)?(${word})${wordEnd}`,
    captures: {
      1: scoped("keyword.operator.word"),
      2: scoped("keyword.operator.word"),
      3: scoped("constant.language.position"),
    },
  },
};

const sections: readonly Rule[] = [
  section("settings", "settings", [entry(settingNames("settings"), setting)]),
  section("places", "places", [
    entry(namesOf(catalogue.elements), "variable.other.property.element"),
    entry(settingNames("places"), setting),
  ]),
  section("modes", "modes", [
    entry(namesOf(catalogue.modes), mode),
    { include: "#position" },
    { include: "#condition" },
  ]),
  section("outputs", "outputs", [{ include: "#position" }, { include: "#condition" }]),
  section("controls", "controls", [
    { match: `^[ \\t]+(${control})${wordEnd}`, captures: { 1: scoped("variable.other.constant.control") } },
    { name: "storage.type.control.fettle", match: `${wordStart}(?:switch|selector|button|dial)${wordEnd}` },
    { match: `${wordStart}(rests)[ \\t]+(${word})`, captures: positionAfterRests() },
    {
      match: `${wordStart}(lies)${wordEnd}(?:[ \\t]+(left|right|middle)${wordEnd})?(?:[ \\t]+(shoulder|face|back)${wordEnd})?`,
      captures: { 1: scoped("keyword.operator.word"), 2: placeOnHandset(), 3: placeOnHandset() },
    },
    { name: "constant.language.position.fettle", match: `${wordStart}(?!to${wordEnd})${word}(?=[ \\t]+\\d)` },
  ]),
  section("follows", "follows", []),
  {
    name: "meta.section.kept.fettle",
    begin: '^(verbatim)(?:[ \\t]+("(?:[^"\\\\]|\\\\.)*"))?',
    beginCaptures: { 1: scoped("entity.name.section"), 2: scoped("string.quoted.double.title") },
    end: sectionEnd,
    patterns: [
      {
        match: "^[ \\t]+(\\|)(.*)$",
        captures: { 1: scoped("punctuation.definition.string.begin"), 2: scoped("string.unquoted.kept") },
      },
      { include: "#drop" },
      { include: "#comment" },
    ],
  },
  {
    name: "meta.section.unknown.fettle",
    begin: `^(${word})${wordEnd}`,
    beginCaptures: { 1: scoped("entity.name.section.unknown") },
    end: sectionEnd,
    patterns: [{ include: "#drop" }, { include: "#entry" }, { include: "#values" }],
  },
];

function placeOnHandset(): Rule {
  return scoped("constant.language.choice");
}

function positionAfterRests(): Readonly<Record<string, Rule>> {
  return { 1: scoped("keyword.operator.word"), 2: scoped("constant.language.position") };
}

/** Board text between quotes of either kind, with its slots. */
function boardText(): Rule[] {
  const slot: Rule = {
    match: "(\\{(?:#|[a-z][a-z0-9-]*))(?:(:)(?:(-?\\d[^}=]*)|([^}=]*)))?(?:(=)([^}]*))?(\\})",
    captures: {
      1: scoped("variable.parameter.slot"),
      2: scoped("keyword.operator.slot"),
      3: scoped("constant.numeric"),
      4: scoped("entity.name.type.code"),
      5: scoped("keyword.operator.slot"),
      6: scoped("string.quoted.double"),
      7: scoped("variable.parameter.slot"),
    },
  };
  const brace = scoped("constant.character.escape");
  const inside = [{ ...brace, match: "\\{\\{|\\{tab\\}" }, slot];
  return [
    {
      name: "string.quoted.double.board.fettle",
      begin: '"',
      end: '"|$',
      patterns: [{ ...brace, match: '\\\\["\\\\]' }, ...inside],
    },
    { name: "string.quoted.single.board.fettle", begin: "'", end: "'|$", patterns: inside },
  ];
}

/** From the board text that a line begins with to its end. */
function lineOfBoard(): Rule {
  return {
    begin: "^[ \\t]+(?=[\"'])",
    end: "$",
    patterns: [{ include: "#board" }, ...dialectLines.slice(1), ourName(), { include: "#values" }],
  };
}

/** Our name, straight behind the board text. */
function ourName(): Rule {
  return { match: `(?<=["'][ \\t]{1,40})(${word})${wordEnd}`, captures: { 1: scoped(setting) } };
}

const codeKinds = ["number", "words", "letters", "list", "bits", "set", "text"];
const codeWords = "to from each into places unset base digits by is or within escape longest".split(" ");
const textFacts = "known-by comment blanks ends opening closing heading repeats at-most longest".split(" ");

/** Sections of a dialect: what its lines hold is told from those of a script by the board text that they begin with. */
const dialectSections: readonly Rule[] = [
  {
    name: "meta.section.text.fettle",
    begin: `^(text)${wordEnd}`,
    beginCaptures: { 1: scoped("entity.name.section") },
    end: sectionEnd,
    patterns: [
      { include: "#comment" },
      entry(textFacts, "keyword.control.fact"),
      { include: "#board" },
      { include: "#number" },
    ],
  },
  {
    name: "meta.section.codes.fettle",
    begin: `^(codes)${wordEnd}`,
    beginCaptures: { 1: scoped("entity.name.section") },
    end: sectionEnd,
    patterns: [
      { include: "#comment" },
      {
        match: `^[ \\t]+(${word})[ \\t]+(${oneOf(codeKinds)})${wordEnd}`,
        captures: { 1: scoped("entity.name.type.code"), 2: scoped("keyword.control.code") },
      },
      { include: "#board" },
      { include: "#number" },
      { name: "keyword.operator.word.fettle", match: `${wordStart}${oneOf(codeWords)}${wordEnd}` },
      { name: "constant.language.choice.fettle", match: `${wordStart}${word}${wordEnd}` },
    ],
  },
];

/** A line of a dialect within a craft's section. */
const dialectLines: readonly Rule[] = [
  { match: `^[ \\t]+(under|cannot)${wordEnd}`, captures: { 1: scoped("keyword.control.fact") } },
  {
    match: `(\\{(?:#|[a-z][a-z0-9-]*)(?:\\.[a-z][a-z0-9-]*)?\\})(?:[ \\t]+(${oneOf(unitSymbols())})(?![A-Za-z0-9/%]))?`,
    captures: { 1: scoped("variable.parameter.slot"), 2: scoped("keyword.other.unit") },
  },
];

/** The grammar's file. */
export function generate(): { path: string; text: string }[] {
  const grammar = {
    name: "Fettle",
    scopeName: "source.fettle",
    patterns: [{ include: "#comment" }, { include: "#header" }, { include: "#use" }, ...dialectSections, ...sections],
    repository: {
      ...repository,
      board: { patterns: boardText() },
      fact: { patterns: [...dialectLines, lineOfBoard()] },
    },
  };
  return [{ path: "grammars/fettle.tmLanguage.json", text: `${JSON.stringify(grammar, null, 2)}\n` }];
}
