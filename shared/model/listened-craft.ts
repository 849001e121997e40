/** An effective craft that tells what is read of it: `reads.ts` says for whom. */
import type { Craft, Setting } from "./craft.ts";
import { type CoreMemo, type Memo, oncePer, perFile } from "./memo.ts";
import { listenTo, partRead, type Reads, readAgain, type TableReads, tableRead } from "./reads.ts";
import { usesAreAmong } from "./uses.ts";

/** What a craft is made of. */
export type CraftParts = Omit<Craft, "memo" | "coreMemo" | "usesAreThere">;

/** The craft of these parts, with an empty memory. */
export function craftOf(parts: CraftParts, coreMemo: CoreMemo): Craft {
  return new ListenedCraft(parts, coreMemo);
}

/** A copy whose parts may be replaced; all of the craft counts as read by whoever makes it. */
export function copyOf(craft: Craft): Craft {
  const { file, script, name, handset, scripts, gaps, settings, modes, outputs, controls, osd, osdSecond } = craft;
  const { adjust, kept, droppedNothing, removedByDrop, sections, answersFor, memo, coreMemo, usesAreThere } = craft;
  const some = { file, script, name, handset, scripts, gaps, settings, modes, outputs, controls, osd, osdSecond };
  return { ...some, adjust, kept, droppedNothing, removedByDrop, sections, answersFor, memo, coreMemo, usesAreThere };
}

/** A class, as getters of an object literal would give every craft a shape of its own, which makes each look at it slow. */
class ListenedCraft implements Craft {
  readonly file: string;
  readonly settings: Craft["settings"];
  readonly memo: Memo = new Map();
  readonly coreMemo: CoreMemo;
  readonly #parts: CraftParts;
  #usesAreThere: boolean | undefined;
  #namedPacks: Craft["settings"] | undefined;

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
  /** A part of its own, as every key makes the list of the scripts another one. */
  get usesAreThere() {
    this.#usesAreThere ??= usesAreAmong(this.#parts.scripts);
    return partRead(this, "usesAreThere", this.#usesAreThere);
  }
  get gaps() {
    return partRead(this, "gaps", this.#parts.gaps);
  }
  /** A part of its own, as most of what is worked out of packs concerns no other section. */
  get namedPacks() {
    if (!this.#namedPacks) {
      const last = lastNamedPacks(this);
      const packs = namedPacksIn(this.#parts.settings);
      if (!isSameMap(packs, last.packs)) last.packs = packs;
      this.#namedPacks = last.packs;
    }
    return partRead(this, "namedPacks", this.#namedPacks);
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

/** The settings of a craft: a table is read where one is asked for, all where they are gone through. */
class ListenedTables implements ReadonlyMap<string, Table> {
  readonly #craft: Craft;
  readonly #tables: Craft["settings"];
  readonly #listened = new Map<string, ListenedTable>();

  constructor(craft: Craft, tables: Craft["settings"]) {
    this.#craft = craft;
    this.#tables = tables;
  }
  get size() {
    return this.#all().size;
  }
  get(section: string) {
    const table = this.#tables.get(section);
    tableRead(this.#craft, section, table);
    if (!table) return undefined;
    let listened = this.#listened.get(section);
    if (!listened) {
      listened = new ListenedTable(this.#craft, section, table);
      this.#listened.set(section, listened);
    }
    return listened;
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

/** The settings of a section: one is read where it is asked for, all where they are gone through. */
class ListenedTable implements ReadonlyMap<string, Setting> {
  readonly #craft: Craft;
  readonly #section: string;
  readonly #table: Table;

  constructor(craft: Craft, section: string, table: Table) {
    this.#craft = craft;
    this.#section = section;
    this.#table = table;
  }
  get size() {
    return this.whole().size;
  }
  get(name: string) {
    const setting = this.#table.get(name);
    this.#reads()?.names?.set(name, setting);
    return setting;
  }
  has(name: string) {
    return this.get(name) !== undefined;
  }
  forEach(callback: (setting: Setting, name: string, all: Table) => void) {
    for (const [name, setting] of this.whole()) callback(setting, name, this);
  }
  keys() {
    return this.whole().keys();
  }
  values() {
    return this.whole().values();
  }
  entries() {
    return this.whole().entries();
  }
  [Symbol.iterator]() {
    return this.whole().entries();
  }
  /** The table as the merging made it, all of which is read. */
  whole() {
    const reads = this.#reads();
    if (reads) reads.names = null;
    return this.#table;
  }
  #reads(): TableReads | null {
    return tableRead(this.#craft, this.#section, this.#table);
  }
}

/**
 * The settings of a section as they were merged, all of which count as read: the same object for as long as no line of
 * them has changed.
 */
export function tableOf({ settings }: Craft, section: string): Table | undefined {
  const table = settings.get(section);
  return table instanceof ListenedTable ? table.whole() : table;
}

const lastNamedPacks = perFile((): { packs: Craft["settings"] } => ({ packs: new Map() }));

/** The tables of the named packs, all of which count as read: the same object for as long as no line of them has changed. */
export function namedPacksOf(craft: Craft): Craft["settings"] {
  return craft instanceof ListenedCraft ? craft.namedPacks : namedPacksIn(craft.settings);
}

function namedPacksIn(tables: Craft["settings"]): Craft["settings"] {
  const packs = new Map<string, Table>();
  for (const [section, table] of tables) if (section.startsWith("pack/")) packs.set(section, table);
  return packs;
}

/** Whether two maps hold the same objects, in the same order. */
function isSameMap(a: Craft["settings"], b: Craft["settings"]): boolean {
  if (a.size !== b.size) return false;
  const others = b.entries();
  for (const [section, table] of a) {
    const [otherSection, otherTable] = others.next().value!;
    if (section !== otherSection || table !== otherTable) return false;
  }
  return true;
}

/** The settings of a craft as they were merged: the same object for as long as no line of them has changed. */
export function tablesOf({ settings }: Craft): Craft["settings"] {
  return settings instanceof ListenedTables ? settings.whole() : settings;
}

/** Whether all that was read of an earlier craft is the same in this one; `scriptOf` gives the scripts as they are now. */
export function isAsRead(reads: Reads, craft: Craft, scriptOf: (file: string) => unknown): boolean {
  if (reads.isOpen) return false;
  for (const [name, part] of reads.parts) if (partOf(craft, name) !== part) return false;
  const tables = tablesOf(craft);
  for (const [section, read] of reads.tables) if (!isTableAsRead(read, tables.get(section))) return false;
  for (const [file, script] of reads.scripts) if (scriptOf(file) !== script) return false;
  return true;
}

function partOf(craft: Craft, name: string): unknown {
  if (name === "settings") return tablesOf(craft);
  return name === "namedPacks" ? namedPacksOf(craft) : craft[name as keyof Craft];
}

/** Settings that stay are the same objects, whatever changes beside them. */
function isTableAsRead({ table, names }: TableReads, now: Table | undefined): boolean {
  if (now === table) return true;
  if (now === undefined || table === undefined || names === null) return false;
  for (const [name, setting] of names) if (now.get(name) !== setting) return false;
  return true;
}

const NO_SCRIPT = Symbol("no script");

/** What comes of `work`, and what it has read of the craft; null of a copy, which does not tell. */
export function readsOf<T>(craft: Craft, work: () => T): { readonly answer: T; readonly reads: Reads | null } {
  return craft instanceof ListenedCraft ? listenTo(craft, work) : { answer: work(), reads: null };
}

/** Whether what `readsOf` has told of an earlier craft, in which no script was looked at, is known to be the same in this one. */
export function isStillSo(reads: Reads | null, craft: Craft): boolean {
  return reads !== null && isAsRead(reads, craft, () => NO_SCRIPT);
}

/**
 * As `oncePer`, and from one craft of a file to the next for as long as all that `work` read of it is the same: for
 * answers that hold nothing of the craft, so that nothing can be asked of an earlier one through them.
 */
export function keptWhileSame<A, T>(work: (craft: Craft, also: A) => T): (craft: Craft, also: A) => T {
  const lastOf = perFile((): { known: { also: A; answer: T; reads: Reads } | null } => ({ known: null }));
  return oncePer((craft: Craft, also: A) => {
    // A copy does not tell what is read of it.
    if (!(craft instanceof ListenedCraft)) return work(craft, also);
    const last = lastOf(craft);
    const { known } = last;
    if (known?.also === also && isAsRead(known.reads, craft, () => NO_SCRIPT)) {
      readAgain(craft, known.reads);
      return known.answer;
    }
    const { answer, reads } = listenTo(craft, () => work(craft, also));
    last.known = { also, answer, reads };
    return answer;
  });
}
