/** Figures that follow from a nought in a script have no end: they can be neither drawn nor sent. */

/** The figure, or null where there is none that could be drawn. */
export function finite(figure: number | null): number | null {
  return figure !== null && Number.isFinite(figure) ? figure : null;
}

/** The figure where it is more than nothing, else null. */
export function positive(figure: number | null): number | null {
  const known = finite(figure);
  return known !== null && known > 0 ? known : null;
}
