/** A zero in a script can make figures infinite, which can be neither drawn nor sent as JSON. */

/** The figure; null where it is not finite. */
export function finite(figure: number | null): number | null {
  return figure !== null && Number.isFinite(figure) ? figure : null;
}

/** The figure; null where it is not finite or not above zero. */
export function positive(figure: number | null): number | null {
  const known = finite(figure);
  return known !== null && known > 0 ? known : null;
}
