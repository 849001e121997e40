/** Offers for the name of an entry; names that the script does not have yet come first. */
import type { SettingSpec, SimpleType, ValueType } from "../../catalogue/specs.ts";
import { baseOf } from "../../model/craft.ts";
import { adjustable } from "../../model/read-entry.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { CursorContext } from "../context/cursor-context.ts";
import { knownControls } from "../context/known-controls.ts";
import { type GapBehind, gapsAt } from "./columns.ts";
import { inSnippet, type Offer } from "./completion-item.ts";
import { allowOffer, controlTemplates } from "./templates.ts";

/** What a line of a section can begin with: its names, `drop`, and the comment that accepts a finding. */
export function offerHeads(workspace: Workspace, cursor: CursorContext): Offer[] {
  const names = offerNames(workspace, cursor);
  return names.length > 0 ? [...names, allowOffer] : [];
}

/** The names that a section can hold, each with a snippet of its value; those already written come last. */
function offerNames(workspace: Workspace, cursor: CursorContext): Offer[] {
  const { spec, section, script, line, text, column } = cursor;
  if (!spec || section === null) return [];
  const { catalogue } = workspace;
  const gapBehind = gapsAt(cursor);
  const writtenNames = new Set(
    script.entries.filter((each) => each.section === section && each.line !== line).map((each) => each.name),
  );
  // Where a value follows already, only the name is replaced.
  const isValueMissing = /^[A-Za-z0-9-]*\s*(#|$)/.test(text.slice(column));
  const offer = (
    { name, what, words }: { name: string; what: string; words?: readonly string[] },
    kind: Offer["kind"],
    valueText: string,
    isRepeatable = false,
  ): Offer => ({
    label: name,
    kind,
    detail: what,
    words: words ?? [],
    text: isValueMissing ? name + gapBehind(name) + valueText : name,
    snippet: isValueMissing,
    group: writtenNames.has(name) && !isRepeatable ? 6 : 1,
    doc: { of: "name", section: baseOf(section), name },
    retrigger: isValueMissing && (valueText === "" || /^(when|at|follows) \$\{?1|^\$1/.test(valueText)),
  });
  const settings = () =>
    catalogue.settingsOf(spec.name).map((each) => offer(each, "setting", valueSnippet(each), each.repeatable));
  switch (spec.holds) {
    case "settings":
      return [...settings(), dropOffer];
    case "places":
      return [
        ...catalogue.elements.map((each) => offer(each, "element", `at \${1:left+1}, \${2:top+1}`)),
        ...settings(),
        dropOffer,
      ];
    case "modes":
      return [...catalogue.modes.map((each) => offer(each, "mode", "when $1")), dropOffer];
    case "outputs":
      return [
        {
          ...offer({ name: "output", what: "a switched output, under a name of your own" }, "output", ""),
          text: `\${1:nose-light}${gapBehind("nose-light")}when $2`,
          snippet: true,
          doc: null,
        },
        dropOffer,
      ];
    case "follows":
      return [
        ...catalogue.sections
          .flatMap((each) => each.settings)
          .filter((each) => adjustable(each.name, catalogue) === each)
          .map((each) => ({
            ...offer(each, "setting", "follows $1"),
            doc: { of: "text", text: each.why } as const,
          })),
        dropOffer,
      ];
    case "controls":
      return [...offerControls(workspace, cursor, gapBehind, writtenNames), dropOffer];
    case "kept":
      return [];
  }
}

const dropOffer: Offer = {
  label: "drop",
  kind: "keyword",
  detail: "remove what earlier files say",
  text: "drop ",
  group: 8,
  doc: {
    of: "text",
    text: "`drop NAME` is for one name, or several; `drop all` for the whole section.",
  },
  retrigger: true,
};

/** A template for each kind of control, and the known controls, which a handset may override. */
function offerControls(
  workspace: Workspace,
  cursor: CursorContext,
  gapBehind: GapBehind,
  writtenNames: ReadonlySet<string>,
): Offer[] {
  const known = [...knownControls(workspace, cursor.script.file).keys()].filter((name) => !writtenNames.has(name));
  return [
    ...controlTemplates(cursor, gapBehind),
    ...known.map(
      (label): Offer => ({
        label,
        kind: "control",
        detail: "restate this control",
        text: label + gapBehind(label),
        group: 3,
        retrigger: true,
      }),
    ),
  ];
}

/** The value of a setting as a snippet, with its default in the tab stops. */
function valueSnippet(setting: SettingSpec): string {
  return typeSnippet(setting.types[0]!, setting.default);
}

function typeSnippet(type: ValueType, defaultText: string | undefined): string {
  if (type.is === "fields") {
    return type.fields
      .filter((field) => field.required || type.fields.length <= 4)
      .map((field, i) => `${field.name} ${tabStop(field.types[0]!, field.default, i + 1)}`)
      .join("  ");
  }
  return tabStop(type, defaultText, 1);
}

function tabStop(type: SimpleType, defaultText: string | undefined, n: number): string {
  switch (type.is) {
    case "quantity": {
      const number = defaultText !== undefined ? /^-?[\d.]+/.exec(defaultText)?.[0] : undefined;
      const unit = defaultText?.slice(number?.length ?? 0).trim() || type.unit;
      return `\${${n}${number ? `:${number}` : ""}}${unit === "" ? "" : ` ${unit}`}`;
    }
    case "choice":
      return `\${${n}|${type.choices.map((choice) => choice.word).join(",")}|}`;
    case "yes-no":
      return `\${${n}|${defaultText === "no" ? "no,yes" : "yes,no"}|}`;
    case "text":
      return `"\${${n}}"`;
    case "order":
      return `\${${n}:${defaultText ?? type.words.join(" ")}}`;
    case "range":
      return `\${${n}:${defaultText ?? `${type.of.min?.at ?? 0} ${type.of.unit} to ${type.of.max?.at ?? 1} ${type.of.unit}`}}`;
    case "cell":
      return `\${${n}:left+1, top+1}`;
    default:
      return defaultText === undefined ? `$${n}` : `\${${n}:${inSnippet(defaultText)}}`;
  }
}
