/** Quantities as text for pilots. */

/** A number with that many significant digits, without trailing zeros and never with an exponent. */
export function formatNumber(number: number, digits = 3): string {
  const rounded = Number(number.toPrecision(digits));
  return Math.abs(rounded) >= 1e-6 || rounded === 0 ? String(rounded) : "0";
}

/** Volts with two decimals, as a meter shows them. */
export function formatVolts(number: number): string {
  return `${Number(number.toFixed(2))} V`;
}

/** A share from 0 to 1 in percent; from 10 % on without decimals. */
export function formatPercent(share: number): string {
  const size = share * 100;
  return `${Math.abs(size) >= 10 ? Math.round(size) : formatNumber(size, 2)} %`;
}

/** Seconds in readable units: `850 ms`, `4.2 s`, `3 min 24 s`, `1 h 5 min`. */
export function formatDuration(seconds: number): string {
  if (seconds < 0.9995) return `${formatNumber(seconds * 1000)} ms`;
  if (seconds < 9.95) return `${formatNumber(seconds, 2)} s`;
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole} s`;
  if (whole < 3600) return whole % 60 === 0 ? `${whole / 60} min` : `${Math.floor(whole / 60)} min ${whole % 60} s`;
  const minutes = Math.round(whole / 60);
  return minutes % 60 === 0 ? `${minutes / 60} h` : `${Math.floor(minutes / 60)} h ${minutes % 60} min`;
}

/** A frequency in Hz; in kHz where that is a round number, and from 10 kHz on. */
export function formatHertz(hz: number): string {
  const round = hz >= 1000 && Math.abs(hz / 100 - Math.round(hz / 100)) < 1e-9;
  return round || hz >= 9999.5 ? `${formatNumber(hz / 1000)} kHz` : `${formatNumber(hz, hz >= 1000 ? 4 : 3)} Hz`;
}

/** A number with its noun, singular or plural: `1 cell`, `4 cells`. */
export function formatCount(number: number, one: string, many = `${one}s`): string {
  return `${number} ${number === 1 ? one : many}`;
}
