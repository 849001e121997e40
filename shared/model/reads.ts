/**
 * What is read of a craft while something is worked out: for as long as all of that is the same in a later craft, so is
 * what came of it. A craft tells of each part as it is asked for, so nobody has to say beforehand what he looks at.
 */

/** What was read of a craft, and of the scripts around it. */
export interface Reads {
  /** By name. */
  readonly parts: Map<string, unknown>;
  /** By section; none where the part `settings` was read whole. */
  readonly tables: Map<string, unknown>;
  /** By path. */
  readonly scripts: Map<string, unknown>;
  /** True where something was read of which nobody can tell whether it is still the same. */
  isOpen: boolean;
}

/** Who is being listened to; what was read does not name its owner, which would be kept alive by it. */
interface Reader {
  readonly owner: unknown;
  readonly reads: Reads;
  /** The section whose table was asked for last: mostly that of the next question, too. */
  lastSection: string | null;
}

/** Everything runs to its end before something else begins: one reader at a time is enough. */
let reader: Reader | null = null;

/** What comes of `work`, and what was read for it of `owner`. Whoever is being listened to has read it as well. */
export function listenTo<T>(owner: unknown, work: () => T): { readonly answer: T; readonly reads: Reads } {
  const outer = reader;
  const reads: Reads = { parts: new Map(), tables: new Map(), scripts: new Map(), isOpen: false };
  reader = { owner, reads, lastSection: null };
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
  if (!reads.parts.has("settings")) for (const [section, table] of again.tables) reads.tables.set(section, table);
  for (const [file, script] of again.scripts) reads.scripts.set(file, script);
}

/** Gives the part, which is being read. */
export function partRead<T>(owner: unknown, name: string, part: T): T {
  if (reader) {
    if (reader.owner === owner) reader.reads.parts.set(name, part);
    else reader.reads.isOpen = true;
  }
  return part;
}

/** Gives a table of the part `settings`. */
export function tableRead<T>(owner: unknown, section: string, table: T): T {
  if (reader) {
    if (reader.owner !== owner) reader.reads.isOpen = true;
    else if (reader.lastSection !== section) {
      reader.lastSection = section;
      if (!reader.reads.parts.has("settings")) reader.reads.tables.set(section, table);
    }
  }
  return table;
}

/** Gives the script of a path. */
export function scriptRead<T>(file: string, script: T): T {
  reader?.reads.scripts.set(file, script);
  return script;
}
