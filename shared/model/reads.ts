/**
 * What is read of a craft while something is worked out: for as long as all of that is the same in a later craft, so is
 * what came of it. A craft tells of each part as it is asked for, so nobody has to say beforehand what he looks at.
 */

/** What was read of its owner and of the scripts around it. */
export interface Reads {
  readonly owner: unknown;
  /** By name. */
  readonly parts: Map<string, unknown>;
  /** By section; empty where the part `settings` was read whole. */
  readonly tables: Map<string, unknown>;
  /** By path. */
  readonly scripts: Map<string, unknown>;
  /** True where something was read of which nobody can tell whether it is still the same. */
  isOpen: boolean;
}

/** Everything runs to its end before something else begins: one reader at a time is enough. */
let reader: Reads | null = null;

/** What comes of `work`, and what was read for it of `owner`. Whoever is being listened to has read it as well. */
export function listenTo<T>(owner: unknown, work: () => T): { readonly answer: T; readonly reads: Reads } {
  const outer = reader;
  const reads: Reads = { owner, parts: new Map(), tables: new Map(), scripts: new Map(), isOpen: false };
  reader = reads;
  try {
    return { answer: work(), reads };
  } finally {
    reader = outer;
    readAgain(reads);
  }
}

/** An answer is taken from memory: what it rests on counts as read. */
export function readAgain(reads: Reads | null): void {
  if (!reader) return;
  if (reads === null || reads.owner !== reader.owner || reads.isOpen) {
    reader.isOpen = true;
    return;
  }
  for (const [name, part] of reads.parts) reader.parts.set(name, part);
  for (const [section, table] of reads.tables) reader.tables.set(section, table);
  for (const [file, script] of reads.scripts) reader.scripts.set(file, script);
}

/** Gives the part, which is being read. */
export function partRead<T>(owner: unknown, name: string, part: T): T {
  if (reader) {
    if (reader.owner === owner) reader.parts.set(name, part);
    else reader.isOpen = true;
  }
  return part;
}

/** Gives a table of the part `settings`. */
export function tableRead<T>(owner: unknown, section: string, table: T): T {
  if (reader) {
    if (reader.owner !== owner) reader.isOpen = true;
    else if (!reader.parts.has("settings")) reader.tables.set(section, table);
  }
  return table;
}

/** Gives the script of a path. */
export function scriptRead<T>(file: string, script: T): T {
  reader?.scripts.set(file, script);
  return script;
}

/** Whether all that was read is the same now. `partOf`, `tableOf` and `scriptOf` give what is there now. */
export function isAsRead(
  reads: Reads,
  partOf: (name: string) => unknown,
  tableOf: (section: string) => unknown,
  scriptOf: (file: string) => unknown,
): boolean {
  if (reads.isOpen) return false;
  for (const [name, part] of reads.parts) if (partOf(name) !== part) return false;
  for (const [section, table] of reads.tables) if (tableOf(section) !== table) return false;
  for (const [file, script] of reads.scripts) if (scriptOf(file) !== script) return false;
  return true;
}
