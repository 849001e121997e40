/** The reference page of a name, as Markdown. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import { unitFamily } from "../catalogue/units.ts";
import { nearest } from "../model/nearest.ts";
import { rules } from "../rules/registry.generated.ts";
import type { ExampleFiles, Rule } from "../rules/types.ts";
import {
  describeElement,
  describeMode,
  describeSection,
  describeSetting,
  describeUnit,
  list,
  paragraphs,
} from "./describe.ts";
import { listNames, type Named } from "./names.ts";

/**
 * The page of everything that has this name, also of what is known by these plain words; null
 * where nothing is. A setting is named alone or as SECTION.NAME.
 */
export function pageOf(catalogue: Catalogue, name: string): string | null {
  const wanted = name.trim();
  const all = listNames(catalogue);
  const exact = all.filter(
    (each) => each.name === wanted || (each.kind === "setting" && each.name.endsWith(`.${wanted}`)),
  );
  const found = exact.length > 0 ? exact : byWords(catalogue, wanted, all);
  if (found.length === 0) return null;
  return `${found.map((each) => onePage(catalogue, each)).join("\n\n---\n\n")}\n`;
}

/** Names near to what was asked for, best first. */
export function namesLike(catalogue: Catalogue, name: string): string[] {
  const worded = withWords(catalogue, listNames(catalogue)).map((each) => {
    // A setting is asked for without its section, too.
    const bare = each.name.slice(each.name.indexOf(".") + 1).replaceAll("-", " ");
    return { ...each, words: [...each.words, bare] };
  });
  return nearest(name, worded, 5);
}

const MOST_BY_WORDS = 5;

function byWords(catalogue: Catalogue, wanted: string, all: readonly Named[]): Named[] {
  const plain = wanted.toLowerCase().replaceAll("-", " ");
  if (plain === "") return [];
  const worded = withWords(catalogue, all);
  const said = worded.filter((each) => each.words.some((word) => word.toLowerCase() === plain));
  const holding =
    said.length > 0 || plain.length < 4
      ? said
      : worded.filter((each) => each.words.some((word) => word.toLowerCase().includes(plain)));
  const names = holding.length > 0 ? holding.map((each) => each.name) : nearest(wanted, worded, 1);
  return all.filter((each) => names.includes(each.name)).slice(0, MOST_BY_WORDS);
}

function withWords(catalogue: Catalogue, all: readonly Named[]): { name: string; words: readonly string[] }[] {
  return all.map(({ name, kind }) => ({ name, words: wordsOf(catalogue, name, kind) }));
}

function wordsOf(catalogue: Catalogue, name: string, kind: Named["kind"]): readonly string[] {
  switch (kind) {
    case "setting":
      return settingOf(catalogue, name)?.words ?? [];
    case "mode":
      return catalogue.mode(name)?.words ?? [];
    case "element":
      return catalogue.element(name)?.words ?? [];
    case "section":
      return catalogue.section(name)?.words ?? [];
    case "unit":
      return [unitFamily(name)?.units.find((unit) => unit.symbol === name)?.name ?? name];
    case "rule":
      return [];
  }
}

function settingOf(catalogue: Catalogue, name: string) {
  const dot = name.indexOf(".");
  return catalogue.setting(name.slice(0, dot), name.slice(dot + 1));
}

function onePage(catalogue: Catalogue, { name, kind }: Named): string {
  const head = `# ${name}\n\n*${kind}*`;
  switch (kind) {
    case "setting": {
      const setting = settingOf(catalogue, name)!;
      const choices = setting.types.flatMap((type) => (type.is === "choice" ? type.choices : []));
      return paragraphs(
        head,
        describeSetting(setting, name.slice(0, name.indexOf("."))),
        choices.length > 0 ? `## Words\n\n${list(choices.map((choice) => `\`${choice.word}\`: ${choice.what}`))}` : "",
        seeAlso(setting.related, setting.words),
      );
    }
    case "mode": {
      const mode = catalogue.mode(name)!;
      return paragraphs(head, describeMode(mode), relationsText(catalogue, name), seeAlso(mode.related, mode.words));
    }
    case "element": {
      const element = catalogue.element(name)!;
      return paragraphs(head, describeElement(element), seeAlso(element.related, element.words));
    }
    case "section": {
      const settings = catalogue.settingsOf(name).map((setting) => `\`${setting.name}\`: ${setting.what}`);
      return paragraphs(
        head,
        describeSection(catalogue.section(name)!),
        settings.length > 0 ? `## Settings\n\n${list(settings)}` : "",
      );
    }
    case "unit":
      return paragraphs(head, describeUnit(name, unitFamily(name)!));
    case "rule":
      return rulePage(rules.find((rule) => rule.code === name)!);
  }
}

/** A rule: when it fires, why that matters, and an example of each. */
export function rulePage(rule: Rule): string {
  return paragraphs(
    `# ${rule.code}\n\n*rule, ${rule.severity}*`,
    `**${rule.summary}**`,
    rule.prose,
    `## It fires here\n\n${exampleText(rule.examples.bad)}`,
    `## It is silent here\n\n${exampleText(rule.examples.good)}`,
  );
}

function exampleText(files: ExampleFiles): string {
  return Object.entries(files)
    .map(([file, text]) => `\`${file}\`\n\n\`\`\`fettle\n${text.trimEnd()}\n\`\`\``)
    .join("\n\n");
}

function relationsText(catalogue: Catalogue, mode: string): string {
  const { clashes, precedence } = catalogue.relations;
  const lines = [
    ...clashes
      .filter(({ modes }) => modes.includes(mode))
      .map(({ modes, reason }) => `Never with \`${modes.find((each) => each !== mode)}\`: ${reason}`),
    ...precedence
      .filter(({ over }) => over === mode)
      .map(
        ({ under, reason }) =>
          `Goes before ${under
            .filter((each) => each !== mode)
            .map((each) => `\`${each}\``)
            .join(", ")}: ${reason}`,
      ),
    ...precedence
      .filter(({ over, under }) => over !== mode && under.includes(mode))
      .map(({ over, reason }) => `Does nothing while \`${over}\` is on: ${reason}`),
  ];
  return lines.length > 0 ? `## With other modes\n\n${list(lines)}` : "";
}

function seeAlso(related: readonly string[] | undefined, words: readonly string[]): string {
  return paragraphs(
    related && related.length > 0 ? `See also: ${related.map((name) => `\`${name}\``).join(", ")}.` : "",
    `Also found as: ${words.join("; ")}.`,
  );
}
