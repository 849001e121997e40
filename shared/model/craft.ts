/** The effective craft: every value after merging, with its source lines. */
import type { Condition } from "../syntax/condition.ts";
import type { ControlValue, Value } from "../syntax/value.ts";
import type { Gap } from "./gaps.ts";
import type { FromCore, Remembering } from "./memo.ts";
import type { Script } from "./script.ts";

/** A line of a script. */
export interface Source {
  readonly file: string;
  readonly line: number;
}

/** An effective setting. `value` is null if the line that sets it has a fault. */
export interface Setting {
  readonly section: string;
  readonly name: string;
  readonly value: Value | null;
  /** Canonical spelling of the value; the text as written if the line has a fault. */
  readonly text: string;
  /** The line that sets the value; for fields, the last line that sets one of them. */
  readonly source: Source;
  /** For `fields`: the line that each field comes from. */
  readonly fieldSources: ReadonlyMap<string, Source>;
  /** For a repeatable setting: every item in order, its value being the item's. */
  readonly items: readonly { readonly value: Value | null; readonly source: Source }[] | null;
  /** The value from the files before that of `source`, also if a `drop` removed it; null if none of them set it. */
  readonly before: Setting | null;
}

/** A mode or an output. `condition` is null if one of its lines has a fault. */
export interface Mode {
  readonly name: string;
  readonly condition: Condition | null;
  readonly text: string;
  /** The lines whose conditions are joined by `or`. */
  readonly lines: readonly { readonly source: Source; readonly condition: Condition | null }[];
}

/** The catalogue's name of a section: `pack` for `pack/NAME`. */
export function baseOf(section: string): string {
  const slash = section.indexOf("/");
  return slash < 0 ? section : section.slice(0, slash);
}

/** Prefix of an output's name in lists that hold modes and outputs. */
const OUTPUTS = "outputs.";

/** True for the name of an output in a list that holds modes and outputs: `outputs.NAME`. */
export function isOutput(name: string): boolean {
  return name.startsWith(OUTPUTS);
}

/** The mode, or for `outputs.NAME` the output, of that name; undefined if the craft does not have it. */
export function modeNamed({ modes, outputs }: Pick<Craft, "modes" | "outputs">, name: string): Mode | undefined {
  return isOutput(name) ? outputs.get(name.slice(OUTPUTS.length)) : modes.get(name);
}

export interface Control {
  readonly name: string;
  readonly value: ControlValue | null;
  readonly text: string;
  readonly source: Source;
  /** True if a handset sets it, false if the craft or a layer overrides it. */
  readonly fromHandset: boolean;
}

/** An OSD element with its place as written; `shared/osd` computes its cells. */
export interface Placed {
  readonly name: string;
  readonly value: Value | null;
  readonly text: string;
  readonly source: Source;
}

/** An entry of `adjust`: a setting that follows a dial. */
export interface FollowingSetting {
  readonly name: string;
  readonly value: Value | null;
  readonly text: string;
  readonly source: Source;
}

/** A `drop`, or a name in one, that had nothing to remove. */
export interface DroppedNothing {
  readonly section: string;
  readonly name: string;
  readonly source: Source;
  readonly start: number;
  readonly end: number;
}

/** A setting that earlier files set, that a `drop` removed, and that no later line has set again. */
export interface RemovedSetting {
  readonly setting: Setting;
  /** The line of the `drop`, and the columns of the word in it that removed the setting. */
  readonly source: Source;
  readonly start: number;
  readonly end: number;
}

export interface Craft extends Remembering, FromCore {
  readonly script: Script;
  readonly file: string;
  readonly name: string;
  /** The one handset of the craft; null if no file names one. */
  readonly handset: Script | null;
  /** Every file that takes part, in merge order: the handset's, the layers, the craft. */
  readonly scripts: readonly Script[];
  /** True where every file that one of them uses is among them. */
  readonly usesAreThere: boolean;
  /** What is missing since a used file, or a line of one, could not be read; in merge order. Empty for a whole craft. */
  readonly gaps: readonly Gap[];
  /** By section and then by name; a named pack is a section of its own, `pack/NAME`. */
  readonly settings: ReadonlyMap<string, ReadonlyMap<string, Setting>>;
  readonly modes: ReadonlyMap<string, Mode>;
  readonly outputs: ReadonlyMap<string, Mode>;
  readonly controls: ReadonlyMap<string, Control>;
  readonly osd: ReadonlyMap<string, Placed>;
  readonly osdSecond: ReadonlyMap<string, Placed>;
  readonly adjust: ReadonlyMap<string, FollowingSetting>;
  readonly kept: readonly { readonly dialect: string; readonly text: string; readonly source: Source }[];
  readonly droppedNothing: readonly DroppedNothing[];
  /** By SECTION.NAME. */
  readonly removedByDrop: ReadonlyMap<string, RemovedSetting>;
  /** The sections that files of the craft have and no later file drops, each with the last line of its name. */
  readonly sections: ReadonlyMap<string, Source>;
  /**
   * The line of the craft's own file at which a problem in another file is reported: the `use` that
   * includes that file. For lines of its own file the line itself.
   */
  answersFor(source: Source): Source;
}
