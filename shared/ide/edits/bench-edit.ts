/**
 * What a pilot writes down on the bench, as edits of the craft: the day of a check, a reading, or a check that no longer
 * holds. All of it is true of one craft, so it is written into the craft's own file, over what a layer says.
 */
import type { SettingSpec } from "../../catalogue/specs.ts";
import { baseOf, type Craft } from "../../model/craft.ts";
import { settingOf } from "../../model/setting-lookup.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { BenchGesture, BenchTrial } from "../../protocol/bench-edit.ts";
import type { Finding } from "../../protocol/findings.ts";
import { findingsOf } from "../../rules/engine/engine.ts";
import type { Value } from "../../syntax/value.ts";
import { meaningOf } from "../compare/meaning.ts";
import { pickedCraft } from "../context/picked-craft.ts";
import { textWith, withFile } from "../context/trial.ts";
import { notWritable, scopeOf } from "./adopt.ts";
import { entryChanges } from "./adopt-entries.ts";
import { readBenchText } from "./bench-text.ts";
import type { FileEdits } from "./osd-write.ts";
import { editsOf } from "./script-changes.ts";
import { newerEdition } from "./script-edits.ts";
import { type Stated, saysTheSame, statedIn } from "./stated.ts";

/** `told`: in a sentence what is written, and where. Without any edit the craft says so already. */
export type BenchEdit =
  | { readonly kind: "edits"; readonly files: readonly FileEdits[]; readonly told: string }
  | { readonly kind: "refused"; readonly message: string };

export interface BenchEditQuery {
  /** Of several craft that use the file, the one that was shown. */
  readonly craft?: string | undefined;
  readonly gesture: BenchGesture;
}

/** The edits of the craft's own file for a gesture, tried out before; or in a sentence why there are none. */
export function benchEditOf(workspace: Workspace, file: string, { craft: picked, gesture }: BenchEditQuery): BenchEdit {
  const craft = pickedCraft(workspace, file, picked);
  if (!craft) return refused("No craft of this workspace has this bench list, so nothing is written.");
  if (craft.script.tree.newer) return refused(newerEdition(craft.script));
  const name = nameIn(workspace, craft, gesture.kind === "reading" ? gesture.name : gesture.check);
  if (!name) return refused("The script has no line for this, so there is nowhere to write it.");
  if (gesture.kind !== "reading" && !name.spec.types.some((type) => type.is === "date"))
    return refused(`“${name.setting}” is no check that has a day, so nothing is written: type it as a reading.`);
  if (gesture.kind === "void" || (gesture.kind === "reading" && gesture.text.trim() === ""))
    return takenOut(workspace, craft, name);
  const read = readBenchText(name.spec, name.field, gesture.kind === "day" ? gesture.day : gesture.text);
  if (read.kind === "unclear") return refused(read.message);
  return written(workspace, craft, name, read);
}

/** What a text that is being typed as a reading would be read as, and what the rules would find in it. */
export function benchTrialOf(
  workspace: Workspace,
  file: string,
  { name: whole, text, craft: picked }: { readonly name: string; readonly text: string; readonly craft?: string },
): BenchTrial {
  const craft = pickedCraft(workspace, file, picked);
  const name = craft && nameIn(workspace, craft, whole);
  if (!craft || !name) return { kind: "unclear", message: "The script has no line for this." };
  const read = readBenchText(name.spec, name.field, text);
  if (read.kind === "unclear") return read;
  return { kind: "reads", text: read.text, found: foundIn(workspace, craft, name, read) };
}

/** A setting, or one field of it. */
interface Name {
  readonly section: string;
  readonly setting: string;
  readonly field: string | null;
  readonly spec: SettingSpec;
}

function nameIn({ catalogue }: Workspace, craft: Craft, whole: string): Name | null {
  const [, section = "", setting = "", field] = /^([^.]+)\.(\S+?)(?: (\S+))?$/.exec(whole) ?? [];
  const spec = catalogue.setting(baseOf(section), setting);
  const isThere = section === baseOf(section) || craft.settings.has(section);
  if (!spec || spec.repeatable || !isThere) return null;
  const hasFields = spec.types.some((type) => type.is === "fields");
  return hasFields === (field !== undefined) ? { section, setting, field: field ?? null, spec } : null;
}

type Read = Extract<ReturnType<typeof readBenchText>, { kind: "value" }>;

function written(workspace: Workspace, craft: Craft, name: Name, { value, text }: Read): BenchEdit {
  const before = statedIn(craft, name.section, name.setting);
  const wanted = wantedOf(before, name, value, text);
  const line = `${lineName(name)} ${text}`;
  if (!wanted) return refused(unreadable(craft, name));
  if (saysTheSame(before, wanted)) return { kind: "edits", files: [], told: `The script says “${line}” already.` };
  return made(workspace, craft, name, wanted, `Written: “${line}”${overWhat(craft, name)}.`);
}

/** What is to be said: of fields the others too, as they are; null where they cannot be known. */
function wantedOf(before: Stated | null, { field }: Name, value: Value, text: string): Stated | null {
  if (field === null) return { kind: "line", rest: text, meaning: meaningOf(value, text) };
  if (before && before.kind !== "fields") return null;
  const others = (before?.fields ?? []).filter((each) => each.name !== field);
  return { kind: "fields", fields: [...others, ...(value.kind === "fields" ? value.fields : [])] };
}

function takenOut(workspace: Workspace, craft: Craft, name: Name): BenchEdit {
  const before = statedIn(craft, name.section, name.setting);
  const isSaid = name.field === null ? before : before?.kind !== "fields" || hasField(before, name.field);
  if (!before || !isSaid) return { kind: "edits", files: [], told: `The script says nothing of “${lineName(name)}”.` };
  if (name.field !== null && before.kind !== "fields") return refused(unreadable(craft, name));
  const own = settingOf(craft, `${name.section}.${name.setting}`);
  const was = own && name.field === null ? `${lineName(name)} ${own.text}` : lineName(name);
  return made(workspace, craft, name, withoutField(before, name), `Taken out: “${was}”${overWhat(craft, name)}.`);
}

/** What is said once a setting, or one field of it, is taken out. */
function withoutField(before: Stated | null, { field }: Name): Stated | null {
  if (before?.kind !== "fields" || field === null) return null;
  const fields = before.fields.filter((each) => each.name !== field);
  return fields.length > 0 ? { kind: "fields", fields } : null;
}

function hasField(stated: Stated | null, field: string): boolean {
  return stated?.kind === "fields" && stated.fields.some((each) => each.name === field);
}

/** The edits after which the craft says what is wanted, if it then does. */
function made(workspace: Workspace, craft: Craft, name: Name, wanted: Stated | null, told: string): BenchEdit {
  const { section, setting } = name;
  const scope = scopeOf(craft, craft.file, workspace);
  if (wanted?.kind === "faulty") return refused(unreadable(craft, name));
  const changes = entryChanges(scope, section, setting, wanted);
  if (typeof changes === "string") return refused(changes);
  const why = notWritable(workspace, scope.script, changes);
  if (why !== null) return refused(why);
  const edits = editsOf(scope.script, changes);
  const tried = withFile(workspace, craft.file, textWith(scope.script, edits)).craft(craft.file);
  if (!tried || !saysTheSame(statedIn(tried, section, setting), wanted))
    return refused(`“${craft.name}” would not say so even then: write “${lineName(name)}” in the script itself.`);
  return { kind: "edits", files: [{ file: craft.file, edits }], told };
}

function lineName({ setting, field }: Name): string {
  return field === null ? setting : `${setting} ${field}`;
}

/** Where another file says it, that stays as it is: other craft may use it. */
function overWhat(craft: Craft, { section, setting, field }: Name): string {
  const said = settingOf(craft, `${section}.${setting}`);
  const source = field === null ? said?.source : said?.fieldSources.get(field);
  if (!source || source.file === craft.file) return "";
  const script = craft.scripts.find(({ file }) => file === source.file);
  return `, in “${craft.name}” itself, over line ${source.line + 1} of “${script?.name ?? source.file}”, which stays`;
}

function unreadable(craft: Craft, { section, setting }: Name): string {
  const source = settingOf(craft, `${section}.${setting}`)?.source;
  const script = craft.scripts.find(({ file }) => file === source?.file);
  const where = source ? `Line ${source.line + 1} of “${script?.name ?? craft.name}”` : `The line of “${setting}”`;
  return `${where} cannot be read, and nothing of it is to be lost: mend it in the script first.`;
}

function refused(message: string): BenchEdit {
  return { kind: "refused", message };
}

const GRAVEST_FIRST = ["error", "warning", "info", "hint"] as const;
/** They speak of checks, which are steps of their own, whatever was read. */
const OF_CHECKS: ReadonlySet<string> = new Set(["direction-unchecked", "stale-check"]);

/** What the rules would say with a reading, and do not say of the craft without it. */
function foundIn(
  workspace: Workspace,
  craft: Craft,
  name: Name,
  { value, text }: Read,
): Extract<BenchTrial, { kind: "reads" }>["found"] {
  const before = statedIn(craft, name.section, name.setting);
  const wanted = wantedOf(before, name, value, text);
  if (!wanted) return [];
  const without = new Set(findingsWith(workspace, craft, name, withoutField(before, name)).map(keyOf));
  return findingsWith(workspace, craft, name, wanted)
    .filter((finding) => !OF_CHECKS.has(finding.code) && !without.has(keyOf(finding)))
    .map(({ severity, message }) => ({ severity, message }))
    .sort((a, b) => GRAVEST_FIRST.indexOf(a.severity) - GRAVEST_FIRST.indexOf(b.severity));
}

function findingsWith(workspace: Workspace, craft: Craft, name: Name, wanted: Stated | null): readonly Finding[] {
  const { script, ...scope } = scopeOf(craft, craft.file, workspace);
  const changes =
    wanted?.kind === "faulty" ? "" : entryChanges({ script, ...scope }, name.section, name.setting, wanted);
  if (typeof changes === "string") return [];
  const tried = withFile(workspace, craft.file, textWith(script, editsOf(script, changes)));
  return findingsOf(tried, craft.file).filter(({ file }) => file === craft.file);
}

/** Known again though its lines have moved. */
function keyOf({ code, message }: Finding): string {
  return `${code} ${message.replaceAll(/\blines? \d+(?: and \d+)?/g, "line")}`;
}
