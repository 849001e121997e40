/** A craft as the bench list asks for it: what its files surely say, and what they do not. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { boardOf } from "../../logic/from-craft.ts";
import type { Craft, Mode, Placed, Setting, Source } from "../../model/craft.ts";
import { knownPart } from "../../model/known-part.ts";
import { amountIn } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import { settingIn } from "../../numbers/values.ts";
import type { BenchReading } from "../../protocol/bench.ts";

export interface BenchView {
  /** What is certain of the craft, where a file of it is missing. */
  readonly craft: Craft;
  /** The craft as its files have it, for what takes care of missing ones by itself. */
  readonly whole: Craft;
  readonly workspace: Workspace;
  readonly catalogue: Catalogue;
  /** The setting, by SECTION.NAME, if a line says it without a fault. */
  said(path: string): Setting | null;
  /** Its value in canonical spelling. */
  text(path: string): string | null;
  /** The word of a choice, `yes` or `no`. */
  word(path: string): string | null;
  amount(path: string, unit: string): number | null;
  integer(path: string): number | null;
  /** The lines of those that are said. */
  from(...paths: readonly string[]): readonly Source[];
  /** Whether a line that could be read says anything in a section. */
  says(section: string): boolean;
  /** A mode that a line sets up, be it with a fault. */
  mode(name: string): Mode | null;
  /** The same, unless no position of the controls ever turns it on. */
  reached(name: string): Mode | null;
  modeLines(name: string): readonly Source[];
  /** The elements that lines place on a page. */
  placed(page: "osd" | "osd-second"): readonly Placed[];
  /** Whether a used file that could not be read may say it, or its line has a fault. */
  isUnclear(path: string): boolean;
  /** Notes a sentence for what the list cannot know; each once. */
  unknown(sentence: string): void;
  /** As `said`; where it is not, notes that `what` is not known, and which line would say it. */
  asked(path: string, what: string): Setting | null;
  /** A reading of section `bench`; a `field` is one of a setting that has several. */
  reading(name: string, parts: Pick<BenchReading, "what" | "form" | "expected">, field?: string): BenchReading;
  readonly unknowns: readonly string[];
}

/** The view of a craft. */
export function benchView(whole: Craft, workspace: Workspace): BenchView {
  const { catalogue } = workspace;
  const craft = knownPart(whole, catalogue);
  const unknowns: string[] = [];
  const find = (path: string): Setting | null => {
    // The name of a pack may hold a point.
    const dot = path.lastIndexOf(".");
    return settingIn(craft, path.slice(0, dot), path.slice(dot + 1));
  };
  const said = (path: string): Setting | null => {
    const setting = find(path);
    return setting && (setting.value !== null || setting.items?.some(({ value }) => value)) ? setting : null;
  };
  const view: BenchView = {
    craft,
    whole,
    workspace,
    catalogue,
    said,
    text: (path) => said(path)?.text ?? null,
    word(path) {
      const value = said(path)?.value;
      if (value?.kind === "yes-no") return value.yes ? "yes" : "no";
      return value?.kind === "choice" ? value.word : null;
    },
    amount: (path, unit) => amountIn(said(path) ?? undefined, unit) ?? null,
    integer(path) {
      const value = said(path)?.value;
      return value?.kind === "integer" ? value.number : null;
    },
    from: (...paths) => paths.flatMap((path) => said(path)?.source ?? []),
    says: (section) => [...(craft.settings.get(section)?.values() ?? [])].some(isRead),
    mode(name) {
      const mode = craft.modes.get(name);
      return mode && isRead(mode) ? mode : null;
    },
    reached(name) {
      const board = boardOf(craft, workspace);
      return board.selected(name) === board.sets.none ? null : view.mode(name);
    },
    modeLines: (name) => view.mode(name)?.lines.map(({ source }) => source) ?? [],
    placed: (page) => [...(page === "osd" ? craft.osd : craft.osdSecond).values()].filter(isRead),
    isUnclear: (path) => find(path) !== null && said(path) === null,
    unknown(sentence) {
      if (!unknowns.includes(sentence)) unknowns.push(sentence);
    },
    asked(path, what) {
      const setting = said(path);
      if (!setting) view.unknown(unknownInWords(path, what, find(path)));
      return setting;
    },
    reading(name, parts, field) {
      const setting = find(`bench.${name}`);
      const value = setting?.value?.kind === "fields" ? setting.value.fields.find((each) => each.name === field) : null;
      const isSaid = setting !== null && setting.text !== "" && (field === undefined || value != null);
      const source = field === undefined ? setting?.source : setting?.fieldSources.get(field);
      return {
        name: `bench.${name}${field === undefined ? "" : ` ${field}`}`,
        ...parts,
        text: isSaid ? (field === undefined ? setting.text : fieldText(value?.value)) : null,
        at: isSaid && source ? { file: source.file, line: source.line } : null,
      };
    },
    unknowns,
  };
  return view;
}

/** What a file that could not be read may say has no text. */
function isRead({ text }: { readonly text: string }): boolean {
  return text !== "";
}

function fieldText(value: Setting["value"] | undefined): string | null {
  return value?.kind === "quantity" ? `${value.number} ${value.unit}`.trim() : null;
}

function unknownInWords(path: string, what: string, setting: Setting | null): string {
  const [section, name] = path.split(".");
  if (!setting) return `The script does not say ${what}: write “${name}” in section “${section}”.`;
  return setting.text === ""
    ? `A used file that could not be read may say ${what} (${path}), so it is not known.`
    : `The line of ${path} has a fault, so it is not known ${what}: mend the line.`;
}
