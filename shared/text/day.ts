/** A day as it is written here, which sorts as days do, such as 2026-03-15: where the program runs, not at Greenwich. */
export function localDay(date: Date): string {
  const two = (number: number) => String(number).padStart(2, "0");
  return `${String(date.getFullYear()).padStart(4, "0")}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}
