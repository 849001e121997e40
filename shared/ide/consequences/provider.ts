/** The types of all consequence providers: what they are given, and what they return. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft, Source } from "../../model/craft.ts";
import type { Value } from "../../syntax/value.ts";

/** One sentence that follows from a value. */
export interface Consequence {
  readonly text: string;
  /** The settings that it was computed from, as SECTION.NAME, a field as SECTION.NAME:FIELD. */
  readonly from: readonly string[];
  /** The same in a few words, as an inlay hint beside the line; absent where it is not worth showing there. */
  readonly brief?: string;
}

/** An entry with its effective value on a craft; of a repeatable setting the value of the query's line. */
export interface ConsequenceSubject {
  readonly craft: Craft;
  readonly catalogue: Catalogue;
  readonly section: string;
  readonly name: string;
  readonly value: Value;
  readonly source: Source;
}

/** Returns the consequences of one value; none where a figure is missing that they are computed from. */
export type ConsequenceProvider = (subject: ConsequenceSubject) => readonly Consequence[];
/** Providers by the name of the setting. */
export type ConsequenceProviders = Readonly<Record<string, ConsequenceProvider>>;

/** A provider that returns the consequences of several, in order. */
export function combined(...providers: readonly ConsequenceProvider[]): ConsequenceProvider {
  return (subject) => providers.flatMap((provider) => provider(subject));
}

/** A list of one consequence: a sentence without its full stop, and the settings it was computed from. */
export function consequence(text: string, from: readonly string[], brief?: string): Consequence[] {
  return [{ text, from, ...(brief !== undefined && { brief }) }];
}
