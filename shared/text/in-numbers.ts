/** The order of names that end in numbers. */

let collator: Intl.Collator | null = null;

/** “crate 2” before “crate 10”: less than 0, 0 or more than 0, as a sort takes it. */
export function compareInNumbers(a: string, b: string): number {
  // Made when it is first needed: it reads the engine's tables of languages, which no start has to wait for.
  collator ??= new Intl.Collator("en", { numeric: true });
  return collator.compare(a, b);
}
