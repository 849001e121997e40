/** Whether two radios can hear each other at all. */

/** Bands inside which two radios may meet, in MHz. Common practice, no source. */
const BANDS_MHZ = [
  [433, 435],
  [863, 870],
  [902, 928],
  [2400, 2500],
] as const;

/** Whether radios at two frequencies may meet: at one and the same, or in one band. */
export function bandsMeet(oneMhz: number, otherMhz: number): boolean {
  return (
    oneMhz === otherMhz || BANDS_MHZ.some(([from, to]) => [oneMhz, otherMhz].every((mhz) => mhz >= from && mhz <= to))
  );
}
