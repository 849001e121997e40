/** Makes the entries of a new craft, without those that the files it uses have already. */
import type { Craft } from "../../model/craft.ts";
import { entry, placeholder, type ScriptLine } from "./script-text.ts";

type WriteEntry = (name: string, value: string, note?: string | null) => ScriptLine[];

/** Makes entries of one section; each method returns no line where the entry is not needed. */
export interface EntryWriter {
  isSet(name: string): boolean;
  /** A value from the answers: written unless the files below have exactly this value. */
  readonly answered: WriteEntry;
  /** A usual value: written unless the files below have any value. */
  readonly usual: WriteEntry;
  /** A value that only the pilot knows: a comment to be filled in, unless the files below have a value. */
  readonly unknown: WriteEntry;
}

/** A writer for a section; `below` is the craft made of the handset and the layers alone. */
export function entryWriterOver(below: Craft, section: string): EntryWriter {
  const settings = below.settings.get(section);
  const isSet = (name: string) => settings?.has(name) === true;
  return {
    isSet,
    answered: (name, value, note) => (settings?.get(name)?.text === value ? [] : [entry(name, value, note)]),
    usual: (name, value, note) => (isSet(name) ? [] : [entry(name, value, note)]),
    unknown: (name, value, note) => (isSet(name) ? [] : [placeholder(name, value, note)]),
  };
}
