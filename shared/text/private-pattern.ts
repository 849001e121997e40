/** How a form in which something private is written is told from all other text. */

/** A form in which something private is written. */
export interface PrivatePattern {
  /** What it is, as in “phone number taken out”. */
  readonly what: string;
  /** As it continues “looks like”: with its article. */
  readonly like: string;
  /** Global, with indices (`dg`); the group `it` is the private part, without one all of it is. */
  readonly pattern: RegExp;
  /** Whether a match is one, where the form alone does not say. */
  readonly holds?: (it: string, text: string) => boolean;
}
