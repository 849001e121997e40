/** Entries of a new craft, left to the files below it where those say them already. */
import type { Craft } from "../../model/craft.ts";
import { entry, off, type ScriptLine } from "./lines.ts";

type Say = (name: string, value: string, note?: string | null) => ScriptLine[];

/** The ways in which an entry of one section may come to be said. */
export interface EntryWriter {
  isSaid(name: string): boolean;
  /** What was answered: said again only where a layer says something else. */
  readonly answered: Say;
  /** What is only usual: a layer knows better. */
  readonly usual: Say;
  /** What the pilot knows and we do not: a comment to be filled in. */
  readonly unknown: Say;
}

/** Says the entries of a section over what `below`, the handset and the layers, has said. */
export function entryWriterOver(below: Craft, section: string): EntryWriter {
  const said = below.settings.get(section);
  const isSaid = (name: string) => said?.has(name) === true;
  return {
    isSaid,
    answered: (name, value, note) => (said?.get(name)?.text === value ? [] : [entry(name, value, note)]),
    usual: (name, value, note) => (isSaid(name) ? [] : [entry(name, value, note)]),
    unknown: (name, value, note) => (isSaid(name) ? [] : [off(name, value, note)]),
  };
}
