/**
 * One craft told twice, line by line: as a script, and as JSON with a schema. Every line but the headings is a setting
 * of the catalogue with a value that both sides check against the same type and the same limits.
 */
import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import { settingExamples } from "../../../shared/catalogue/examples/index.ts";
import type { SettingSpec, ValueType } from "../../../shared/catalogue/specs.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";

/** A setting with its value, and the one of its types that the value has. */
export interface Told {
  readonly section: string;
  readonly spec: SettingSpec;
  readonly type: CheckedType;
  /** As JSON has it: of a quantity the number alone, in the unit of its type. */
  readonly value: number | string | boolean;
}

export type CheckedType = Extract<ValueType, { is: "quantity" | "integer" | "choice" | "yes-no" }>;

/** A heading with what stands below it; `pack` is the name of a pack, null for a plain section. */
export interface Block {
  readonly section: string;
  readonly pack: string | null;
  readonly settings: readonly Told[];
}

export interface Twins {
  readonly script: string;
  readonly json: string;
  /** How many lines of each are settings. */
  readonly settings: number;
  readonly blocks: readonly Block[];
}

const FILE = "/craft.fettle";
/** Packs differ by so little that whatever holds between the values of one holds in all. */
const PACK_STEPS = 4001;

/** The value of an example as JSON has it, with the type that it fits; null where JSON Schema could not check it alike. */
export function told(section: string, spec: SettingSpec): Told | null {
  const text = settingExamples[section]?.[spec.name];
  if (text === undefined) return null;
  for (const type of spec.types) {
    const value = valueFor(text, type);
    if (value !== null) return { section, spec, type: type as CheckedType, value };
  }
  return null;
}

function valueFor(text: string, type: ValueType): Told["value"] | null {
  if (type.is === "yes-no") return text === "yes" ? true : text === "no" ? false : null;
  if (type.is === "choice") return type.choices.some(({ word }) => word === text) ? text : null;
  if (type.is === "integer") return /^-?\d+$/.test(text) ? Number(text) : null;
  if (type.is !== "quantity" || type.min === undefined || type.max === undefined) return null;
  const parts = /^(-?\d+(?:\.\d+)?)(?: (\S+))?$/.exec(text);
  return parts !== null && (parts[2] ?? "") === type.unit ? Number(parts[1]) : null;
}

/** All that the catalogue shows an example of, without the settings of which something is found beside the others. */
function plainBlocks(catalogue: Catalogue, mostLines: number): Block[] {
  const core = makeCore(catalogue);
  let blocks = shortened(
    catalogue.sections
      .filter((section) => section.in.includes("craft"))
      .map(({ name, settings }) => ({
        section: name,
        pack: null,
        settings: settings.flatMap((spec) => told(name, spec) ?? []),
      }))
      .filter(({ settings }) => settings.length > 0),
    mostLines,
  );
  for (;;) {
    const script = scriptOf(blocks);
    const found = findingsOf(core.at(memoryFiles({ [FILE]: script.text })), FILE);
    if (found.length === 0) return blocks;
    const leftOut = new Set(found.map(({ range }) => script.byLine.get(range.start.line)));
    const kept = blocks
      .map((block) => ({ ...block, settings: block.settings.filter((each) => !leftOut.has(each)) }))
      .filter(({ settings }) => settings.length > 0);
    if (settingsIn(kept) === settingsIn(blocks)) throw new Error(`of the craft: ${found[0]!.message}`);
    blocks = kept;
  }
}

/** The first blocks that fit into so many lines, the last of them cut off. */
function shortened(blocks: readonly Block[], mostLines: number): Block[] {
  const fitting: Block[] = [];
  let left = mostLines - 1;
  for (const block of blocks) {
    const settings = block.settings.slice(0, left - 2);
    if (left < 3) break;
    fitting.push({ ...block, settings });
    left -= settings.length + 2;
  }
  return fitting;
}

const settingsIn = (blocks: readonly Block[]) => blocks.reduce((sum, { settings }) => sum + settings.length, 0);

/** A pack like the plain one, with figures of its own, so that no two lines of a script are alike. */
function packAt(plain: Block, i: number): Block {
  const factor = 1 - ((i * 37) % PACK_STEPS) / 100_000;
  const settings = plain.settings.map((each) =>
    each.type.is === "quantity" && typeof each.value === "number"
      ? { ...each, value: Number((each.value * factor).toPrecision(7)) }
      : each,
  );
  return { section: "pack", pack: `Shelf ${i}`, settings };
}

/** The craft of about so many lines: every section once, then named packs with all that a pack can have. */
export function twinsOf(lines: number, catalogue: Catalogue): Twins {
  const blocks = plainBlocks(catalogue, lines);
  const plainPack = blocks.find(({ section }) => section === "pack")!;
  let left = lines - 1 - settingsIn(blocks) - 2 * blocks.length;
  for (let i = 0; left >= 3; i++) {
    const pack = packAt(plainPack, i);
    const settings = pack.settings.slice(0, left - 2);
    blocks.push({ ...pack, settings });
    left -= settings.length + 2;
  }
  return { script: scriptOf(blocks).text, json: jsonOf(blocks), settings: settingsIn(blocks), blocks };
}

function scriptOf(blocks: readonly Block[]): { readonly text: string; readonly byLine: ReadonlyMap<number, Told> } {
  const lines = ['craft "Tankard"'];
  const byLine = new Map<number, Told>();
  for (const { section, pack, settings } of blocks) {
    lines.push("", pack === null ? section : `${section} "${pack}"`);
    const width = Math.max(...settings.map(({ spec }) => spec.name.length));
    for (const each of settings) {
      byLine.set(lines.length, each);
      lines.push(`  ${each.spec.name.padEnd(width)}  ${wordsOf(each)}`);
    }
  }
  return { text: `${lines.join("\n")}\n`, byLine };
}

function wordsOf({ type, value }: Told): string {
  if (typeof value === "boolean") return value ? "yes" : "no";
  return type.is === "quantity" && type.unit !== "" ? `${value} ${type.unit}` : String(value);
}

const objectOf = (settings: readonly Told[]) =>
  Object.fromEntries(settings.map(({ spec, value }) => [spec.name, value]));

function jsonOf(blocks: readonly Block[]): string {
  const plain = blocks.filter(({ pack }) => pack === null);
  const named = blocks.filter(({ pack }) => pack !== null);
  const craft = {
    ...Object.fromEntries(plain.map(({ section, settings }) => [section, objectOf(settings)])),
    ...(named.length > 0 && { packs: Object.fromEntries(named.map((each) => [each.pack, objectOf(each.settings)])) }),
  };
  return `${JSON.stringify(craft, null, 2)}\n`;
}
