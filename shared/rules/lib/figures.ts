/** Figures as messages show them. */

/** A number to so many decimals, without zeros at its end. */
export function decimalText(number: number, decimals: number): string {
  return String(Number(number.toFixed(decimals)));
}
