/** The effective craft: every value that counts, and the lines that it comes from. */
import type { Condition } from "../syntax/condition.ts";
import type { ControlValue, Value } from "../syntax/value.ts";
import type { Remembering } from "./memo.ts";
import type { Script } from "./script.ts";

/** A line of a script. */
export interface Source {
  readonly file: string;
  readonly line: number;
}

/** A setting as the craft has it. `value` is null where the line that counts has a fault. */
export interface Setting {
  readonly section: string;
  readonly name: string;
  readonly value: Value | null;
  /** Canonical spelling of the value; for a faulty line what stands there. */
  readonly text: string;
  /** The line that counts last; for fields, of the last one said. */
  readonly source: Source;
  /** For `fields`: the line that each field comes from. */
  readonly fieldSources: ReadonlyMap<string, Source>;
  /** For a repeatable setting: every item in order, its value being the item's. */
  readonly items: readonly { readonly value: Value | null; readonly source: Source }[] | null;
  /** As the files before the one that counts had it, also where a `drop` took it back; null where none said it. */
  readonly before: Setting | null;
}

/** A mode or an output. `condition` is null where a line of it has a fault. */
export interface Mode {
  readonly name: string;
  readonly condition: Condition | null;
  readonly text: string;
  /** Every line that takes part, joined by "or". */
  readonly lines: readonly { readonly source: Source; readonly condition: Condition | null }[];
}

/** The catalogue's name of a section: `pack` for `pack/NAME`. */
export function baseOf(section: string): string {
  const slash = section.indexOf("/");
  return slash < 0 ? section : section.slice(0, slash);
}

/** Before the name of an output, where it stands among modes. */
const OUTPUTS = "outputs.";

/** True for the name of an output as it stands among modes: `outputs.NAME`. */
export function isOutput(name: string): boolean {
  return name.startsWith(OUTPUTS);
}

/** The mode or the output of that name; undefined where the craft has none such. */
export function modeNamed({ modes, outputs }: Pick<Craft, "modes" | "outputs">, name: string): Mode | undefined {
  return isOutput(name) ? outputs.get(name.slice(OUTPUTS.length)) : modes.get(name);
}

export interface Control {
  readonly name: string;
  readonly value: ControlValue | null;
  readonly text: string;
  readonly source: Source;
  /** True where the handset says it, false where the craft or a layer restates it. */
  readonly fromHandset: boolean;
}

/** An OSD element as placed by the script; where it comes to stand is the OSD's business. */
export interface Placed {
  readonly name: string;
  readonly value: Value | null;
  readonly text: string;
  readonly source: Source;
}

export interface FollowingSetting {
  readonly name: string;
  readonly value: Value | null;
  readonly text: string;
  readonly source: Source;
}

export interface DroppedNothing {
  readonly section: string;
  readonly name: string;
  readonly source: Source;
  readonly start: number;
  readonly end: number;
}

/** A setting that earlier files said and a `drop` took back, and nobody said again. */
export interface RemovedSetting {
  readonly setting: Setting;
  /** The line of the `drop`, and the word in it that did so. */
  readonly source: Source;
  readonly start: number;
  readonly end: number;
}

export interface Craft extends Remembering {
  readonly script: Script;
  readonly file: string;
  readonly name: string;
  /** The one handset of the craft; null where no file names one. */
  readonly handset: Script | null;
  /** Every file that takes part, in merge order: the handset's, the layers, the craft. */
  readonly scripts: readonly Script[];
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
  /** Names of sections that some file that counts has written, with the last such line. */
  readonly sections: ReadonlyMap<string, Source>;
  /**
   * The line of the craft's own file that answers for a line of another file: the `use` through
   * which that file came in; for its own lines the line itself.
   */
  answersFor(source: Source): Source;
}
