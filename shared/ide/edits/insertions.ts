/** Lines written into a script for the pilot to fill in, and `use` lines. */
import { controlsUsed } from "../../logic/rename-controls.ts";
import type { Craft, Setting } from "../../model/craft.ts";
import type { Script } from "../../model/script.ts";
import { leadsBack, pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { PlaceRange } from "../../protocol/findings.ts";
import type { Fillable, Repair } from "../../protocol/ways.ts";
import { findingsOf } from "../../rules/engine/engine.ts";
import { mayUse } from "../../rules/lib/used-files.ts";
import { lineEnd } from "../../syntax/line-end.ts";
import { quote } from "../../syntax/scanner.ts";
import type { TextEdit } from "../../syntax/span.ts";
import { fileNameOf } from "../../text/file-name.ts";
import type { FileEdits } from "./osd-write.ts";
import { appendEntries, lineForEntry, type NewEntry, whyNotWritable } from "./script-edits.ts";
import { lineForUse, writeUse } from "./use-line.ts";

/** The edits, and what is to be selected once they are made; or why there are none, in a sentence. */
export type Inserted =
  | {
      readonly kind: "edits";
      readonly files: readonly FileEdits[];
      readonly select: { readonly file: string; readonly range: PlaceRange } | null;
    }
  | { readonly kind: "refused"; readonly message: string };

/** What is written: entries of one section, and the text in the first of them that the pilot is to look at. */
interface Filling {
  readonly script: Script;
  readonly section: string;
  readonly entries: readonly NewEntry[];
  /** Part of the first entry's text; its value where this is left out. */
  readonly selected?: string;
}

const PACK: readonly NewEntry[] = [
  { name: "chemistry", rest: "lipo" },
  { name: "cells", rest: "6" },
  { name: "capacity", rest: "1100 mAh" },
  { name: "warn-at", rest: "3.5 V/cell" },
  { name: "land-at", rest: "3.3 V/cell" },
];
const RATES: readonly NewEntry[] = ["roll", "pitch", "yaw"].map((name) => ({
  name,
  rest: "slope 200 deg/s  end 700 deg/s",
}));

/** Writes lines into a craft, or into its handset, with usual values; what the craft says already is left out. */
export function fillIn(workspace: Workspace, file: string, what: Fillable): Inserted {
  if (what === "header") return writeHeader(workspace, file);
  const craft = workspace.craft(file);
  if (!craft) return refused("That script is no craft (any more), so nothing was written.");
  const served = /^port ([a-z-]+)$/.exec(what)?.[1];
  if (served !== undefined && !isPortUse(workspace, served)) return refused(`No port can serve “${served}”.`);
  const spare = served === undefined ? null : sparePort(craft, served);
  if (spare) return spare;
  const filling = fillingOf(craft, what, served);
  if (typeof filling === "string") return refused(filling);
  const { script, section, entries, selected } = filling;
  const said = craft.settings.get(section);
  const missing = entries.filter(({ name }) => !said?.has(name));
  const [first] = missing;
  if (!first) return refused(`“${section}” says all of that already.`);
  const why = whyNotWritable(workspace, script, lineForEntry(script, section));
  if (why !== null) return refused(why);
  const edits = appendEntries(script, new Map([[section, missing]]));
  const range = whereWritten(edits, first, selected ?? first.rest);
  return { kind: "edits", files: [{ file: script.file, edits }], select: range && { file: script.file, range } };
}

/** Makes a file without a header a craft, by the name of the file. */
function writeHeader(workspace: Workspace, file: string): Inserted {
  const script = workspace.script(file);
  if (!script) return refused("That file cannot be read (any more), so nothing was written.");
  if (script.tree.header !== null) return refused(`“${script.name}” has a header already.`);
  const why = whyNotWritable(workspace, script, 0);
  if (why !== null) return refused(why);
  const word = fileNameOf(file).replace(/\.[^.]*$/, "");
  const name = word.charAt(0).toUpperCase() + word.slice(1);
  const eol = lineEnd(script.tree, 0);
  const isEmpty = script.tree.lines.every(({ text }) => text.trim() === "");
  const start = { line: 0, character: 0 };
  const quoted = quote(name);
  const from = "craft ".length + 1;
  return {
    kind: "edits",
    files: [{ file, edits: [{ range: { start, end: start }, text: `craft ${quoted}${isEmpty ? "" : eol + eol}` }] }],
    select: {
      file,
      range: { start: { line: 0, character: from }, end: { line: 0, character: from + quoted.length - 2 } },
    },
  };
}

function fillingOf(craft: Craft, what: Exclude<Fillable, "header">, served: string | undefined): Filling | string {
  const { script } = craft;
  if (served !== undefined) {
    const port = freePort(craft);
    return port
      ? { script, section: "ports", entries: [{ name: port.name, rest: served }], selected: port.name }
      : "Every port is said to serve something: see in “ports” which of them it is on.";
  }
  switch (what) {
    case "rates":
      return { script, section: "rates", entries: RATES };
    case "pack":
      return { script, section: "pack", entries: PACK };
    case "filters":
      return { script, section: "filters", entries: [{ name: "smooth-gyro", rest: "cut 200 Hz" }] };
    case "loop-rate":
      return { script, section: "sensors", entries: [{ name: "loop-rate", rest: "4 kHz" }] };
    case "esc-signal": {
      const entries = [
        { name: "esc-signal", rest: "digital" },
        { name: "esc-rate", rest: "300 kbit/s" },
      ];
      return { script, section: "motors", entries };
    }
    case "arm-layout": {
      const entries = [
        { name: "motors", rest: "4" },
        { name: "arm-layout", rest: "true-x" },
      ];
      return { script, section: "frame", entries };
    }
    case "arm": {
      const rest = armCondition(craft);
      if (rest === null) return "No switch is known that could arm: name the pilot's handset first.";
      return { script, section: "modes", entries: [{ name: "arm", rest }], selected: rest.replace("when ", "") };
    }
    case "controls": {
      const { handset } = craft;
      if (!handset) return "No handset is in use: name the pilot's first.";
      const rest = "switch  ch5  up 1000 us  down 2000 us";
      return { script: handset, section: "controls", entries: [{ name: "TL", rest }], selected: `TL  ${rest}` };
    }
    default:
      return `There are no lines for “${what}”.`;
  }
}

/** A condition by the first switch that nothing else asks for, away from its rest; by the first of all where none is free. */
function armCondition(craft: Craft): string | null {
  const asked = new Set(craft.scripts.flatMap((script) => controlsUsed(script).map(({ name }) => name)));
  const switches = [...craft.controls.values()].flatMap(({ name, value }) =>
    value?.kind === "control" && value.control === "switch" ? [{ name, value }] : [],
  );
  const chosen = switches.find(({ name }) => !asked.has(name)) ?? switches[0];
  const position = chosen?.value.positions.findLast(({ name }) => name !== chosen.value.rest);
  return chosen && position ? `when ${chosen.name} is ${position.name}` : null;
}

const PORTS = ["port1", "port2", "port3", "port4", "port5", "port6", "port7", "port8"];

/** A port that could serve something: one that is said to be spare in the craft's own file, else the first of which nothing is said. */
export function freePort(craft: Craft): { readonly name: string; readonly certain: boolean } | null {
  const spare = spareSetting(craft);
  if (spare) return { name: spare.name, certain: true };
  const name = PORTS.find((each) => !craft.settings.get("ports")?.has(each));
  return name === undefined ? null : { name, certain: false };
}

function spareSetting(craft: Craft): Setting | undefined {
  const ports = craft.settings.get("ports");
  return PORTS.map((name) => ports?.get(name)).find(
    (port) => port?.text === "spare" && port.value !== null && port.source.file === craft.file,
  );
}

/** A port that is said to be spare serves it from then on: nothing has to be guessed. */
function sparePort(craft: Craft, served: string): Inserted | null {
  const port = spareSetting(craft);
  if (!port?.value) return null;
  const { line } = port.source;
  const { start, end } = port.value;
  const range = { start: { line, character: start }, end: { line, character: end } };
  const after = { ...range, end: { line, character: start + served.length } };
  return {
    kind: "edits",
    files: [{ file: craft.file, edits: [{ range, text: served }] }],
    select: { file: craft.file, range: after },
  };
}

function isPortUse({ catalogue }: Workspace, word: string): boolean {
  const types = catalogue.setting("ports", "port1")?.types ?? [];
  return types.some((type) => type.is === "choice" && type.choices.some((choice) => choice.word === word));
}

/** The edits of a repair that a finding of a craft offers; refused if it offers it no more. */
export function repair(workspace: Workspace, file: string, { at, code, title }: Repair): Inserted {
  const names = ({ file: each, range }: { readonly file: string; readonly range: PlaceRange }) =>
    each === at.file && range.start.line === at.line;
  const finding = findingsOf(workspace, file).find(
    (each) =>
      each.code === code && [each, ...each.related].some(names) && each.fixes.some((fix) => fix.title === title),
  );
  const edits = finding?.fixes.find((fix) => fix.title === title)?.edits;
  if (!edits) return refused("That is not found there (any more), so there is nothing to repair.");
  const files = new Map<string, TextEdit[]>();
  for (const { file: each, range, text } of edits) {
    const script = workspace.script(each);
    const why = script && whyNotWritable(workspace, script, range.start.line);
    if (why) return refused(why);
    files.set(each, [...(files.get(each) ?? []), { range, text }]);
  }
  return { kind: "edits", files: [...files].map(([each, all]) => ({ file: each, edits: all })), select: null };
}

/** Where a text of a new entry stands once the edits are made; null where it is not found. */
function whereWritten(edits: readonly TextEdit[], { name }: NewEntry, selected: string): PlaceRange | null {
  for (const { range, text } of edits) {
    const rows = text.split(/\r\n|\r|\n/);
    const index = rows.findIndex((row) => row.trimStart().split(/[ \t]/)[0] === name);
    if (index < 0) continue;
    const line = range.start.line + index;
    const row = index === 0 ? " ".repeat(range.start.character) + rows[0]! : rows[index]!;
    const from = row.indexOf(selected, selected.startsWith(name) ? 0 : row.indexOf(name) + name.length);
    const start = from < 0 ? row.length - row.trimStart().length : from;
    return {
      start: { line, character: start },
      end: { line, character: from < 0 ? row.length : from + selected.length },
    };
  }
  return null;
}

/** Writes a `use` of one script into another. */
export function useFile(workspace: Workspace, file: string, used: string): Inserted {
  const [script, target] = [workspace.script(file), workspace.script(used)];
  if (!script || !target) return refused("One of the two files cannot be read (any more), so nothing was written.");
  if (!mayUse(script, target)) return refused(`A ${script.kind} cannot use a ${target.kind}, so nothing was written.`);
  if (script.uses.some((use) => isTarget(workspace, script, use, used)))
    return refused(`“${script.name}” uses “${target.name}” already.`);
  if (leadsBack(workspace, script, target)) return refused(`“${target.name}” uses “${script.name}” itself.`);
  const why = whyNotWritable(workspace, script, Math.max(0, lineForUse(script)));
  if (why !== null) return refused(why);
  return { kind: "edits", files: [{ file, edits: [writeUse(script, used)] }], select: null };
}

/** The scripts of a kind that could use, or be used by, this one and do not yet; `path` leads there from it. */
export function scriptsFor(workspace: Workspace, file: string, kind: "craft" | "handset"): UsableScript[] {
  const script = workspace.script(file);
  if (!script) return [];
  const uses = (user: Script, used: string) => user.uses.some((use) => isTarget(workspace, user, use, used));
  return workspace.view.list().flatMap((each) => {
    const other = workspace.script(each);
    if (other?.kind !== kind || other.tree.newer || each === file) return [];
    if (uses(script, each) || uses(other, file)) return [];
    return [{ file: each, name: other.name, path: pathBetween(file, each) }];
  });
}

/** A script that a pilot may choose. */
export interface UsableScript {
  readonly file: string;
  readonly name: string;
  readonly path: string;
}

function isTarget(workspace: Workspace, script: Script, use: Script["uses"][number], file: string): boolean {
  const target = workspace.target(script, use);
  return target.kind === "script" && target.script.file === file;
}

function refused(message: string): Inserted {
  return { kind: "refused", message };
}
