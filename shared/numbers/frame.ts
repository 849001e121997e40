/** The frame: room between motors. Pure arithmetic. */

/**
 * Millimetres between neighbouring motors, which is the largest diameter of a propeller; null if the layout does not
 * tell. `wheelbaseMm` is the distance of two motors that stand corner to corner. Source: geometry. Four motors at the
 * corners of a square are W / √2 apart, and on any other rectangle the nearer pair is nearer still; the sides of a
 * regular polygon of n corners are W · sin(180° / n).
 */
export function propellerRoomMm(wheelbaseMm: number, motors: number, layout: string | null): number | null {
  const corners = layout === "stacked" ? motors / 2 : motors;
  if (layout === "tri" || ![4, 6, 8].includes(corners)) return null;
  return wheelbaseMm * Math.sin(Math.PI / corners);
}
