/**
 * What is read of a craft while something is worked out: for as long as all of that is the same in a later craft, so is
 * what came of it. A craft tells of each part as it is asked for, so nobody has to say beforehand what he looks at.
 */

/** What was read of a craft, and of the scripts around it. */
export interface Reads {
  /** By name. */
  readonly parts: Map<string, unknown>;
  /** By section; none of a part that was read whole, such as `settings`. */
  readonly tables: Map<string, TableReads>;
  /** By path. */
  readonly scripts: Map<string, unknown>;
  /** True where something was read of which nobody can tell whether it is still the same. */
  isOpen: boolean;
}

/** What was read of the settings of a section. */
export interface TableReads {
  /** All of them, as they were; undefined where there were none. */
  readonly table: unknown;
  /** Those that were asked for, by name; null where all were looked at. */
  names: Map<string, unknown> | null;
}

/** Who is being listened to; what was read does not name its owner, which would be kept alive by it. */
interface Reader {
  readonly owner: unknown;
  readonly reads: Reads;
  /** The section whose table was asked for last, mostly that of the next question, too; and what was read of it. */
  lastSection: string | null;
  lastReads: TableReads | null;
}

/** Everything runs to its end before something else begins: one reader at a time is enough. */
let reader: Reader | null = null;

/** What comes of `work`, and what was read for it of `owner`. Whoever is being listened to has read it as well. */
export function listenTo<T>(owner: unknown, work: () => T): { readonly answer: T; readonly reads: Reads } {
  const outer = reader;
  const reads: Reads = { parts: new Map(), tables: new Map(), scripts: new Map(), isOpen: false };
  reader = { owner, reads, lastSection: null, lastReads: null };
  try {
    return { answer: work(), reads };
  } finally {
    reader = outer;
    readAgain(owner, reads);
  }
}

/** An answer is taken from memory: what it rests on counts as read. Null where that is not known. */
export function readAgain(owner: unknown, again: Reads | null): void {
  if (!reader) return;
  const { reads } = reader;
  if (again === null || owner !== reader.owner || again.isOpen) {
    reads.isOpen = true;
    return;
  }
  for (const [name, part] of again.parts) reads.parts.set(name, part);
  for (const [section, { table, names }] of again.tables)
    if (!isReadWhole(reads, section)) addTable(reads, section, table, names);
  for (const [file, script] of again.scripts) reads.scripts.set(file, script);
}

/** Whether a table belongs to a part that was read whole: a shelf has hundreds of packs, each of which is looked at. */
function isReadWhole({ parts }: Reads, section: string): boolean {
  return parts.has("settings") || (parts.has("namedPacks") && section.startsWith("pack/"));
}

function addTable({ tables }: Reads, section: string, table: unknown, names: TableReads["names"]): void {
  const known = tables.get(section);
  if (!known) tables.set(section, { table, names: names && new Map(names) });
  else if (names === null) known.names = null;
  else if (known.names !== null) for (const [name, setting] of names) known.names.set(name, setting);
}

/** Gives the part, which is being read. */
export function partRead<T>(owner: unknown, name: string, part: T): T {
  if (reader) {
    if (reader.owner === owner) reader.reads.parts.set(name, part);
    else reader.reads.isOpen = true;
  }
  return part;
}

/** That there is such a table of the part `settings`, or none, is being read; gives what is read of it. Null where nobody listens. */
export function tableRead(owner: unknown, section: string, table: unknown): TableReads | null {
  if (!reader) return null;
  if (reader.owner !== owner) {
    reader.reads.isOpen = true;
    return null;
  }
  if (reader.lastSection === section) return reader.lastReads;
  const { reads } = reader;
  let known: TableReads | null = null;
  if (!isReadWhole(reads, section)) {
    known = reads.tables.get(section) ?? { table, names: new Map() };
    reads.tables.set(section, known);
  }
  reader.lastSection = section;
  reader.lastReads = known;
  return known;
}

/** Gives the script of a path. */
export function scriptRead<T>(file: string, script: T): T {
  reader?.reads.scripts.set(file, script);
  return script;
}
