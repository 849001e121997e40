/** The reference page of a setting: everything in the catalogue and the rules about it. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { SectionSpec, SettingSpec, ValueType } from "../../catalogue/specs.ts";
import { adjustable } from "../../model/read-entry.ts";
import { severityOfNeed } from "../../rules/lib/needs-in-use.ts";
import { SETTING_KINDS_IN_WORDS, typeLines } from "../context/describe.ts";
import { list, paragraphs, warning } from "../context/markdown.ts";
import { asksFor, sourcedComparisonLines, sourcedNeedLine } from "../context/relation-lines.ts";
import { exampleOfSetting } from "./example-line.ts";
import { fenced, headed, neededBy, rulesText, seeAlso } from "./page-parts.ts";

/** The page of a setting; for a second set, needs and rules are those of the first. */
export function settingPage(catalogue: Catalogue, section: SectionSpec, setting: SettingSpec): string {
  const name = `${section.name}.${setting.name}`;
  const base = section.like && !section.settings.includes(setting) ? section.like : section.name;
  const firstSetName = `${base}.${setting.name}`;
  return paragraphs(
    `# ${name}\n\n*setting · ${SETTING_KINDS_IN_WORDS[setting.kind]}*`,
    `**${setting.what}**`,
    setting.why,
    warning(setting.hazard),
    headed("How it is written", written(section, setting)),
    headed("What it takes", list([...setting.types.flatMap(typeItems), ...manners(catalogue, section, setting)])),
    headed(
      "What it needs",
      list([
        ...(setting.needs ?? []).map((need) => sourcedNeedLine(need, severityOfNeed(need))),
        ...(setting.excludes ?? []).map((each) => `Not together with \`${each.setting}\`: ${each.reason}`),
        ...excludedBy(catalogue, firstSetName),
      ]),
    ),
    headed("How it stands to others", list(sourcedComparisonLines(catalogue, firstSetName))),
    neededBy(catalogue, asksFor(firstSetName)),
    rulesText(catalogue, "settings", firstSetName),
    seeAlso(setting.related, setting.words),
  );
}

function written(section: SectionSpec, setting: SettingSpec): string {
  const example = exampleOfSetting(section, setting);
  return example === "" ? "" : fenced(example);
}

/** What a type takes; a named part with what it takes below it, a choice with what each word means. */
function typeItems(type: ValueType): string[] {
  if (type.is === "fields")
    return type.fields.map((field) => {
      const must = field.required ? ", which must be there" : "";
      const usual = field.default === undefined ? [] : [`Default: \`${field.default}\``];
      return [
        `\`${field.name}\`${must}: ${field.what}`,
        ...[...field.types.flatMap(typeItems), ...usual].map(below),
      ].join("\n");
    });
  const words =
    type.is === "choice" ? type.choices : type.is === "list" && type.of.is === "choice" ? type.of.choices : null;
  if (!words) return typeLines(type);
  const items = words.map((choice) => below(`\`${choice.word}\`: ${choice.what}`));
  const head = type.is === "list" ? `${type.fewest} to ${type.most} of these, separated by commas` : "One of";
  return [[head, ...items].join("\n")];
}

function below(item: string): string {
  return `- ${item}`
    .split("\n")
    .map((line) => `  ${line}`)
    .join("\n");
}

function manners(catalogue: Catalogue, section: SectionSpec, setting: SettingSpec): string[] {
  const twins = catalogue.sections.filter(
    ({ like, without }) => like === section.name && !without?.includes(setting.name),
  );
  return [
    setting.default === undefined ? "No default: unsaid, nothing is assumed" : `Default: \`${setting.default}\``,
    ...(setting.repeatable ? ["May be said several times: the lines form a list, in order"] : []),
    ...(setting.private ? [`Taken out before a script is shared. ${setting.private.reason}`] : []),
    ...(adjustable(setting.name, catalogue) === setting ? ["A dial may move it in flight: see `adjust`"] : []),
    ...twins.map(({ name }) => `A second value may stand in \`${name}\``),
  ];
}

function excludedBy(catalogue: Catalogue, name: string): string[] {
  return catalogue.sections.flatMap((section) =>
    section.settings.flatMap((setting) =>
      (setting.excludes ?? [])
        .filter((each) => each.setting === name)
        .map((each) => `Not together with \`${section.name}.${setting.name}\`: ${each.reason}`),
    ),
  );
}
