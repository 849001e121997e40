/** Which files of a craft said a name, in merge order, and what of it still counts. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import { baseOf, type Craft, type Source } from "../../model/craft.ts";
import type { Entry, Script } from "../../model/script.ts";

/** A name of a section, as resolved: `pack/Winter` and `cells`. Of kept board text the section is `verbatim/DIALECT`, and the name is empty. */
export interface SaidName {
  readonly section: string;
  readonly name: string;
  /** One field of a value of fields; null for the whole. */
  readonly field: string | null;
}

/** A line that said a name, or that took it back. */
export interface ChainStep {
  readonly source: Source;
  readonly does: "says" | "drops";
  /** What it says, in canonical spelling as it follows the name; as written where it has a fault. Of a `drop` what it takes: names, or `all`. */
  readonly text: string;
  /** The note of the line, without what it accepts; empty where there is none. */
  readonly note: string;
  readonly hasFault: boolean;
  /** `whole`: all that it says counts. `part`: only some of its fields. Of a `drop`: it took something, `whole`, or nothing, `no`. */
  readonly counts: "whole" | "part" | "no";
  /** Of a value of fields those that count. */
  readonly fields: readonly string[];
  /** The line that replaced it or took it back last; null where it counts in whole. */
  readonly endedBy: Source | null;
}

/**
 * The lines that said a name or took it back, in merge order: the nearest is the last. The merge of `mergeCraft` is
 * played again for that one name, so the lines that count are those of the effective craft.
 */
export function chainOf(craft: Pick<Craft, "scripts">, said: SaidName, catalogue: Catalogue): ChainStep[] {
  const steps: Step[] = [];
  // Those that count so far: a name may be said ten thousand times.
  let live: Step[] = [];
  for (const script of craft.scripts) {
    for (const step of stepsIn(script, said)) {
      const joins = isJoint(step, said, catalogue);
      if (step.does === "drops") takeBack(live, step);
      else if (step.kind === "kept") step.isWhole = true;
      else say(live, step, joins);
      // What joins the lines above it ended those of other files with the first of them.
      const endsNone = step.kind === "kept" || (joins && live.at(-1)?.source.file === step.source.file);
      if (!endsNone) live = live.filter(isLive);
      if (isLive(step)) live.push(step);
      steps.push(step);
    }
  }
  return steps
    .filter(
      (step) => step.does === "drops" || said.field === null || step.all === null || step.all.includes(said.field),
    )
    .map((step) => toChainStep(step, said.field));
}

/** Whether all lines of a name in one file join, and together replace those of earlier files. */
export function isJoint({ kind }: Pick<Step, "kind">, { section, name }: SaidName, catalogue: Catalogue): boolean {
  if (kind === "mode" || kind === "output") return true;
  return kind === "setting" && catalogue.setting(baseOf(section), name)?.repeatable === true;
}

/** A step while the chain is walked. */
interface Step {
  readonly source: Source;
  readonly does: "says" | "drops";
  readonly kind: Entry["kind"] | "kept" | null;
  readonly text: string;
  readonly note: string;
  readonly hasFault: boolean;
  /** Of a value of fields the names of all of them; null for any other value. */
  readonly all: readonly string[] | null;
  /** Those of `all` that count. */
  fields: readonly string[];
  isWhole: boolean;
  endedBy: Source | null;
}

const isLive = ({ does, isWhole, fields }: Step): boolean => does === "says" && (isWhole || fields.length > 0);

function takeBack(live: readonly Step[], by: Step): void {
  for (const step of live) {
    end(step, by.source);
    by.isWhole = true;
  }
}

function end(step: Step, by: Source): void {
  step.isWhole = false;
  step.fields = [];
  step.endedBy = by;
}

function say(live: readonly Step[], by: Step, joins: boolean): void {
  by.isWhole = true;
  by.fields = by.all ?? [];
  if (joins && live.at(-1)?.source.file === by.source.file) return;
  for (const step of live) {
    if (by.all === null || step.all === null || joins) end(step, by.source);
    else {
      const left = step.fields.filter((field) => !by.all!.includes(field));
      if (left.length === step.fields.length) continue;
      step.fields = left;
      step.isWhole = false;
      step.endedBy = by.source;
    }
  }
}

/** What one file does to a name: its drops first, then its lines. */
function stepsIn(script: Script, { section, name }: SaidName): Step[] {
  const { file } = script;
  const step = (line: number, more: Pick<Step, "does" | "kind" | "text" | "all" | "hasFault">): Step => ({
    source: { file, line },
    note: script.noteOf(line).text,
    fields: [],
    isWhole: false,
    endedBy: null,
    ...more,
  });
  const drops = script.drops
    .filter((drop) => drop.section === section && (drop.all || drop.names.some(({ text }) => text === name)))
    .map(({ line, all, names }) => {
      const text = all ? "all" : names.map((word) => word.text).join(" ");
      return step(line, { does: "drops", kind: null, text, all: null, hasFault: false });
    });
  const kept = script.kept
    .filter(({ dialect }) => `verbatim/${dialect}` === section)
    .map(({ source, text }) =>
      step(source.line, { does: "says", kind: "kept", text: `|${text}`, all: null, hasFault: false }),
    );
  const entries = script.entries
    .filter((entry) => entry.section === section && entry.name === name)
    .map((entry) =>
      step(entry.line, {
        does: "says",
        kind: entry.kind,
        text: restOf(entry),
        all: entry.value?.kind === "fields" ? [...new Set(entry.value.fields.map((field) => field.name))] : null,
        hasFault: entry.value === null,
      }),
    );
  return [...drops, ...kept, ...entries];
}

/** What follows the name in an entry, in canonical spelling; as written where the line has a fault. */
export function restOf({ kind, text, value }: Pick<Entry, "kind" | "text" | "value">): string {
  if (value === null) return text;
  if (kind === "mode" || kind === "output") return `when ${text}`;
  return kind === "element" ? `at ${text}` : text;
}

function toChainStep(step: Step, field: string | null): ChainStep {
  const { source, does, text, note, hasFault, all, fields, isWhole, endedBy } = step;
  const part = field !== null && all !== null ? fields.filter((each) => each === field) : fields;
  const partial = part.length === 0 ? "no" : field !== null ? "whole" : "part";
  const counts = isWhole ? "whole" : partial;
  return { source, does, text, note, hasFault, counts, fields: part, endedBy: counts === "whole" ? null : endedBy };
}
