/** An effective craft that tells what is read of it: `reads.ts` says for whom. */
import type { Craft, Setting } from "./craft.ts";
import type { CoreMemo, Memo } from "./memo.ts";
import { partRead, tableRead } from "./reads.ts";

/** What a craft is made of. */
export type CraftParts = Omit<Craft, "memo" | "coreMemo">;

/** The craft of these parts, with an empty memory. */
export function craftOf(parts: CraftParts, coreMemo: CoreMemo): Craft {
  return new ListenedCraft(parts, coreMemo);
}

/** A copy whose parts may be replaced; all of the craft counts as read by whoever makes it. */
export function copyOf(craft: Craft): Craft {
  const { file, script, name, handset, scripts, gaps, settings, modes, outputs, controls, osd, osdSecond } = craft;
  const { adjust, kept, droppedNothing, removedByDrop, sections, answersFor, memo, coreMemo } = craft;
  const some = { file, script, name, handset, scripts, gaps, settings, modes, outputs, controls, osd, osdSecond };
  return { ...some, adjust, kept, droppedNothing, removedByDrop, sections, answersFor, memo, coreMemo };
}

/** A class, as getters of an object literal would give every craft a shape of its own, which makes each look at it slow. */
class ListenedCraft implements Craft {
  readonly file: string;
  readonly settings: Craft["settings"];
  readonly memo: Memo = new Map();
  readonly coreMemo: CoreMemo;
  readonly #parts: CraftParts;

  constructor(parts: CraftParts, coreMemo: CoreMemo) {
    this.#parts = parts;
    this.file = parts.file;
    this.coreMemo = coreMemo;
    this.settings = new ListenedTables(this, parts.settings);
  }
  get script() {
    return partRead(this, "script", this.#parts.script);
  }
  get name() {
    return partRead(this, "name", this.#parts.name);
  }
  get handset() {
    return partRead(this, "handset", this.#parts.handset);
  }
  get scripts() {
    return partRead(this, "scripts", this.#parts.scripts);
  }
  get gaps() {
    return partRead(this, "gaps", this.#parts.gaps);
  }
  get modes() {
    return partRead(this, "modes", this.#parts.modes);
  }
  get outputs() {
    return partRead(this, "outputs", this.#parts.outputs);
  }
  get controls() {
    return partRead(this, "controls", this.#parts.controls);
  }
  get osd() {
    return partRead(this, "osd", this.#parts.osd);
  }
  get osdSecond() {
    return partRead(this, "osdSecond", this.#parts.osdSecond);
  }
  get adjust() {
    return partRead(this, "adjust", this.#parts.adjust);
  }
  get kept() {
    return partRead(this, "kept", this.#parts.kept);
  }
  get droppedNothing() {
    return partRead(this, "droppedNothing", this.#parts.droppedNothing);
  }
  get removedByDrop() {
    return partRead(this, "removedByDrop", this.#parts.removedByDrop);
  }
  get sections() {
    return partRead(this, "sections", this.#parts.sections);
  }
  get answersFor() {
    return partRead(this, "answersFor", this.#parts.answersFor);
  }
}

type Table = ReadonlyMap<string, Setting>;

/** The settings of a craft: one table is read where one is asked for, all where they are gone through. */
class ListenedTables implements ReadonlyMap<string, Table> {
  readonly #craft: Craft;
  readonly #tables: Craft["settings"];

  constructor(craft: Craft, tables: Craft["settings"]) {
    this.#craft = craft;
    this.#tables = tables;
  }
  get size() {
    return this.#all().size;
  }
  get(section: string) {
    return tableRead(this.#craft, section, this.#tables.get(section));
  }
  has(section: string) {
    return this.get(section) !== undefined;
  }
  forEach(callback: (table: Table, section: string, all: ReadonlyMap<string, Table>) => void) {
    for (const [section, table] of this.#all()) callback(table, section, this);
  }
  keys() {
    return this.#all().keys();
  }
  values() {
    return this.#all().values();
  }
  entries() {
    return this.#all().entries();
  }
  [Symbol.iterator]() {
    return this.#all().entries();
  }
  /** The part `settings`, as the merging made it. */
  whole() {
    return this.#tables;
  }
  #all() {
    return partRead(this.#craft, "settings", this.#tables);
  }
}

/** The settings of a craft as they were merged: the same object for as long as no line of them has changed. */
export function tablesOf({ settings }: Craft): Craft["settings"] {
  return settings instanceof ListenedTables ? settings.whole() : settings;
}

/** A part of a craft by its name, as `reads.ts` has it. */
export function partNamed(craft: Craft, name: string): unknown {
  return name === "settings" ? tablesOf(craft) : craft[name as keyof Craft];
}
