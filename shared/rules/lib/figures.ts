/** Formats numbers for messages. */

/** A number with at most so many decimals, without trailing zeros. */
export function decimalText(number: number, decimals: number): string {
  return String(Number(number.toFixed(decimals)));
}
