/** Entries of a new craft, left to the files below it where those say them already. */
import type { Craft } from "../../model/craft.ts";
import { entry, placeholder, type ScriptLine } from "./script-text.ts";

type WriteEntry = (name: string, value: string, note?: string | null) => ScriptLine[];

/** The ways in which an entry of one section may come to be said. */
export interface EntryWriter {
  isSet(name: string): boolean;
  /** What was answered: said again only where a layer says something else. */
  readonly answered: WriteEntry;
  /** What is only usual: a layer knows better. */
  readonly usual: WriteEntry;
  /** What the pilot knows and we do not: a comment to be filled in. */
  readonly unknown: WriteEntry;
}

/** Says the entries of a section over what `below`, the handset and the layers, has said. */
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
