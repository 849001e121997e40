/** What every provider of consequences shares: what it is asked about, what it answers. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Craft, Source } from "../../model/craft.ts";
import type { Value } from "../../syntax/value.ts";

/** One sentence that follows from a value. */
export interface Consequence {
  readonly text: string;
  /** What it was reckoned from, as SECTION.NAME, of one field as SECTION.NAME:FIELD. */
  readonly from: readonly string[];
  /** The same in a word or two, for beside the line; absent where it is not worth a place there. */
  readonly brief?: string;
}

/** An entry as the craft has it. Of a repeatable setting the value is that of the line asked about. */
export interface ConsequenceSubject {
  readonly craft: Craft;
  readonly catalogue: Catalogue;
  readonly section: string;
  readonly name: string;
  readonly value: Value;
  readonly source: Source;
}

/** What follows from one value; nothing where figures are missing that it would rest on. */
export type ConsequenceProvider = (subject: ConsequenceSubject) => readonly Consequence[];
/** By the name of a setting. */
export type ConsequenceProviders = Readonly<Record<string, ConsequenceProvider>>;

/** What each of these tells, one after the other. */
export function combined(...providers: readonly ConsequenceProvider[]): ConsequenceProvider {
  return (subject) => providers.flatMap((provider) => provider(subject));
}

/** One sentence, without its full stop, and what it was reckoned from. */
export function consequence(text: string, from: readonly string[], brief?: string): Consequence[] {
  return [{ text, from, ...(brief !== undefined && { brief }) }];
}
