/** The reference page of a name, as Markdown. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { ElementSpec, ModeRelations, ModeSpec, SectionSpec } from "../../catalogue/specs.ts";
import { convert, unitFamily } from "../../catalogue/units.ts";
import { capital } from "../../draw/words.ts";
import { rules } from "../../rules/engine/registry.generated.ts";
import type { ExampleFiles, Rule } from "../../rules/engine/rule.ts";
import { severityOfNeed } from "../../rules/lib/needs-in-use.ts";
import { visibleText } from "../../text/visible-text.ts";
import { widestSize } from "../context/describe.ts";
import { list, paragraphs, warning } from "../context/markdown.ts";
import { sourcedNeedLine } from "../context/relation-lines.ts";
import { exampleOfElement, exampleOfMode } from "./example-line.ts";
import { languageTopic } from "./language-page.ts";
import { hasOwnPage } from "./language-words.ts";
import { listNames, type NamedPage, type PageName, parseAddress } from "./page-names.ts";
import { code, fenced, headed, neededBy, rulesText, seeAlso } from "./page-parts.ts";
import { settingPage } from "./page-setting.ts";
import { lookedAtInWords } from "./rules-of.ts";
import { GUESS, GUESS_OF_NAME, SURE, searchNames } from "./search.ts";
import { settingNamed } from "./search-texts.ts";

/**
 * The pages of everything with this name, including words of the language, also of what is found
 * by these plain words; null if there is none. A setting is named alone or as SECTION.NAME.
 */
export function referencePage(catalogue: Catalogue, name: string): string | null {
  const { named, topic } = exactly(catalogue, name);
  const found = named.length > 0 || topic !== null ? named : byWords(catalogue, name.trim());
  const pages = [...found.map((each) => pageOfNamed(catalogue, each)), ...(topic === null ? [] : [topic])];
  return pages.length > 0 ? `${pages.join("\n\n---\n\n")}\n` : null;
}

/** What has exactly this name, or this KIND/NAME: names of the catalogue and of rules, and a part of the language's own page. */
export function exactly(
  catalogue: Catalogue,
  asked: string,
): { readonly named: readonly NamedPage[]; readonly topic: string | null } {
  const { kind, name } = parseAddress(asked.trim());
  const all = listNames(catalogue).filter((each) => kind === null || each.kind === kind);
  const spelled = (spelling: string) => all.filter((each) => isCalled(each, spelling));
  const asWritten = spelled(name);
  const named = asWritten.length > 0 ? asWritten : spelled(name.toLowerCase().replaceAll(/[ _]/g, "-"));
  return { named, topic: kind === null || kind === "word" ? languageTopic(name) : null };
}

function isCalled({ name, kind }: NamedPage, asked: string): boolean {
  return name === asked || (kind === "setting" && name.endsWith(`.${asked}`));
}

/** Names similar to the one asked for, best first: by their spelling, and by plain words. */
export function namesLike(catalogue: Catalogue, name: string): NamedPage[] {
  return searchNames(catalogue, name, MOST_BY_WORDS).map(({ page }) => page);
}

const MOST_BY_WORDS = 5;

/** Of a description only the names that fit it nearly as well as the best. */
const NEARLY = 0.75;

function byWords(catalogue: Catalogue, asked: string): NamedPage[] {
  // That something is a mode says nothing more than its name.
  const plain = asked.replace(/ mode$/i, "");
  // Of the language's words only one that is asked for by its plain words: others would crowd out what can be set.
  const found = searchNames(catalogue, plain, MOST_BY_WORDS + 1).filter(
    ({ page, cost }) => page.kind !== "word" || (cost < SURE && hasOwnPage(page.name)),
  );
  const best = found[0]?.cost ?? 0;
  // What is written as a name is one, and no description.
  if (best >= (/^\S+-\S+$/.test(plain) ? GUESS_OF_NAME : GUESS)) return [];
  return found
    .filter(({ cost }) => cost <= best + NEARLY)
    .map(({ page }) => page)
    .slice(0, MOST_BY_WORDS);
}

/** The page of one name of one kind. */
export function pageOfNamed(catalogue: Catalogue, { name, kind }: PageName): string {
  switch (kind) {
    case "word":
      return languageTopic(name)!;
    case "setting":
      return settingPage(catalogue, catalogue.section(name.split(".")[0]!)!, settingNamed(catalogue, name)!);
    case "mode":
      return modePage(catalogue, catalogue.mode(name)!);
    case "element":
      return elementPage(catalogue, catalogue.element(name)!);
    case "section":
      return sectionPage(catalogue, catalogue.section(name)!);
    case "unit":
      return unitPage(catalogue, name);
    case "rule":
      return rulePage(rules.find((rule) => rule.code === name)!);
  }
}

function modePage(catalogue: Catalogue, mode: ModeSpec): string {
  const { name } = mode;
  return paragraphs(
    `# ${name}\n\n*mode*`,
    `**${mode.what}**`,
    mode.why,
    warning(mode.hazard),
    headed("How it is written", fenced(exampleOfMode(mode))),
    headed("What it needs", list((mode.needs ?? []).map((need) => sourcedNeedLine(need, "error")))),
    relationsText(catalogue, name),
    neededBy(catalogue, (need) => [need, ...(need.or ?? [])].some(({ mode: other }) => other === name)),
    rulesText(catalogue, "modes", name),
    seeAlso(mode.related, mode.words),
  );
}

function elementPage(catalogue: Catalogue, element: ElementSpec): string {
  const { name, widest, drawn } = element;
  const cells = widestSize(element);
  const manners = [
    element.textOf
      ? `As wide as the text of \`${element.textOf}\`, at most ${cells}`
      : drawn === "text"
        ? `${cells}, for its widest text: \`${widest.join(" / ")}\``
        : `${cells}, drawn as a figure: ${drawn}`,
    ...(element.overlapsNothing ? ["Made to lie over or under others: it may share their cells"] : []),
    ...(element.centre ? ["May stand in the middle of the picture"] : []),
  ];
  return paragraphs(
    `# ${name}\n\n*element of the OSD*`,
    `**${element.what}**`,
    element.why,
    headed("How it is written", fenced(exampleOfElement(element))),
    headed("How it is shown", list(manners)),
    headed("What it needs", list((element.needs ?? []).map((need) => sourcedNeedLine(need, severityOfNeed(need))))),
    rulesText(catalogue, "elements", name),
    seeAlso(element.related, element.words),
  );
}

/** Example entries of sections whose entries have no pages of their own. */
const EXAMPLES: Partial<Record<SectionSpec["holds"], string>> = {
  controls: [
    "  TL  switch    ch5  up 1000 us  down 2000 us  lies left shoulder",
    "  TR  switch    ch6  up 1000 us  mid 1500 us  down 2000 us  lies right shoulder",
    "  PB  button    ch7  rest 1000 us  held 2000 us  lies right face",
    "  SX  selector  ch8  one 1000 us  two 1500 us  three 2000 us  rests two",
    "  KN  dial      ch9  1000 us to 2000 us  lies middle",
  ].join("\n"),
  outputs: "  # the lamp at the nose: its power, by the board's own switch\n  nose-light  when TL is down",
  follows: "  overall  follows KN from 0.8 to 1.2",
};

function sectionPage(catalogue: Catalogue, section: SectionSpec): string {
  const { name, holds, like } = section;
  const lines = (things: readonly { readonly name: string; readonly what: string }[]) =>
    list(things.map((each) => `\`${each.name}\`: ${each.what}`));
  return paragraphs(
    `# ${name}\n\n*section*`,
    `**${section.what}**`,
    section.why,
    list([
      `Stands in a ${section.in.join(" or a ")}`,
      ...(section.title === "optional" ? [`May bear a name: \`${name} "…"\``] : []),
      ...(section.title === "required" ? [`Bears a name: \`${name} "…"\``] : []),
      ...(like ? [`A second set of \`${like}\`: what it leaves out is taken from there`] : []),
    ]),
    headed("How it is written", EXAMPLES[holds] ? fenced(`${name}\n${EXAMPLES[holds]}`) : ""),
    headed("Settings", lines(catalogue.settingsOf(name))),
    headed("Modes", holds === "modes" ? lines(catalogue.modes) : ""),
    headed("Elements", holds === "places" ? lines(catalogue.elements) : ""),
    neededBy(catalogue, (need) => need.section === name),
    seeAlso(undefined, section.words),
  );
}

/** The most settings that the page of a unit lists. */
const MOST_TAKERS = 12;

function unitPage(catalogue: Catalogue, symbol: string): string {
  const family = unitFamily(symbol)!;
  const unit = family.units.find((each) => each.symbol === symbol)!;
  const takers = catalogue.sections.flatMap((section) =>
    section.settings
      .filter(({ types }) => types.some((type) => JSON.stringify(type).includes(`"unit":${JSON.stringify(symbol)}`)))
      .map(({ name }) => `${section.name}.${name}`),
  );
  const others = family.units.filter((each) => each !== unit);
  const more = takers.length > MOST_TAKERS ? `, and ${takers.length - MOST_TAKERS} more` : "";
  return paragraphs(
    `# ${symbol}\n\n*unit of ${family.name.replaceAll("-", " ")}*`,
    `**${capital(unit.name)}.** ${family.what}`,
    others.length > 0
      ? list(others.map((each) => `1 ${symbol} is ${convert(1, symbol, each.symbol)} ${each.symbol} (${each.name})`))
      : "No other unit is of its kind, and none is converted into it.",
    unit.also ? `Read as well as: ${code(unit.also)}.` : "",
    takers.length > 0 ? `Limits are given in it for: ${code(takers.slice(0, MOST_TAKERS))}${more}.` : "",
  );
}

/** The page of a rule: when it fires, why that matters, what it looks at, and an example of each case. */
function rulePage(rule: Rule): string {
  const lookedAt = lookedAtInWords(rule);
  return paragraphs(
    `# ${rule.code}\n\n*rule, ${rule.severity}*`,
    `**${rule.summary}**`,
    rule.prose,
    lookedAt === "" ? "" : `It looks at ${lookedAt}.`,
    rule.acceptable === false
      ? "Silenced, it would hide other faults: no note can accept it, and it can be shown at another severity but not be turned off."
      : `Where it is right as it is, a note accepts it: \`# allow ${rule.code}: why\`. Who never wants it turns it off with the setting \`fettle.rules\`, or \`fettle check --rule ${rule.code}=off\`.`,
    headed("It fires here", exampleText(rule, rule.examples.bad)),
    headed("It is silent here", exampleText(rule, rule.examples.good)),
  );
}

function exampleText({ examples: { together } }: Rule, files: ExampleFiles): string {
  return paragraphs(
    together ? `With \`fettle check --together ${together.join(" ")}\`:` : "",
    // What a rule tells of may be what does not show, or turns the text of the page.
    ...Object.entries(files).map(([file, text]) => `\`${file}\`\n\n${fenced(visibleText(text.trimEnd()))}`),
  );
}

function unlessInWords(unless: ModeRelations["precedence"][number]["unless"]): string {
  return unless ? `, unless \`${unless.setting}\` is said to be other than \`${unless.not}\`` : "";
}

function relationsText(catalogue: Catalogue, mode: string): string {
  const { clashes, precedence } = catalogue.modeRelations;
  const lines = [
    ...clashes
      .filter(({ modes }) => modes.includes(mode))
      .map(({ modes, reason }) => `Never with \`${modes.find((each) => each !== mode)}\`: ${reason}`),
    ...precedence
      .filter(({ over }) => over === mode)
      .map(
        ({ under, unless, reason }) =>
          `Goes before ${under
            .filter((each) => each !== mode)
            .map((each) => `\`${each}\``)
            .join(", ")}${unlessInWords(unless)}: ${reason}`,
      ),
    ...precedence
      .filter(({ over, under }) => over !== mode && under.includes(mode))
      .map(({ over, unless, reason }) => `Does nothing while \`${over}\` is on${unlessInWords(unless)}: ${reason}`),
  ];
  return headed("With other modes", list(lines));
}
