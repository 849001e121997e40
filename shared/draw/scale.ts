/** Scales of charts: from values to lengths, with round ticks. */

export interface Scale {
  readonly name: string;
  readonly unit: string;
  readonly from: number;
  readonly to: number;
  readonly ticks: readonly number[];
  /** The label of a tick. */
  label(value: number): string;
  /** The place of a value, from 0 at the scale's beginning to 1 at its end; outside that range if the value is. */
  share(value: number): number;
}

interface Named {
  readonly name: string;
  readonly unit: string;
}

/** A linear scale that begins and ends at ticks of 1, 2, 2.5 or 5 times a power of ten, about `count` of them. */
export function evenScale({ name, unit }: Named, least: number, most: number, count: number): Scale {
  const top = most > least ? most : least + 1;
  const step = niceStep((top - least) / Math.max(1, count));
  const first = Math.floor(least / step + 1e-9);
  const last = Math.ceil(top / step - 1e-9);
  const ticks = Array.from({ length: last - first + 1 }, (_, index) => tidy((first + index) * step));
  const [from, to] = [ticks[0]!, ticks.at(-1)!];
  return { name, unit, from, to, ticks, label: String, share: (value) => (value - from) / (to - from) };
}

function niceStep(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough) + 1e-9);
  const step = [1, 2, 2.5, 5, 10].find((each) => each * power >= rough * (1 - 1e-9))!;
  return step * power;
}

/** Rounds off floating-point errors. */
function tidy(value: number): number {
  return Number(value.toPrecision(12)) + 0;
}

/** One decade of preferred numbers, twenty of them: ISO 3, series R'20, from memory. */
const PREFERRED = [10, 11, 12.5, 14, 16, 18, 20, 22, 25, 28, 32, 36, 40, 45, 50, 56, 63, 71, 80, 90];

/** Round numbers at nearly equal ratios, from 10 on, between two ends, both included. */
export function preferredNumbers(from: number, to: number): number[] {
  const numbers: number[] = [];
  for (let power = 1; power * PREFERRED[0]! <= to; power *= 10)
    numbers.push(...PREFERRED.map((each) => each * power).filter((each) => each >= from && each <= to));
  return numbers;
}

/** A logarithmic scale with ticks at 1, 2 and 5 times powers of ten. Both ends are above 0. */
export function ratioScale({ name, unit }: Named, from: number, to: number): Scale {
  const ticks: number[] = [];
  for (let power = 10 ** Math.floor(Math.log10(from)); power <= to; power *= 10) {
    for (const each of [1, 2, 5]) {
      const tick = tidy(each * power);
      if (tick >= from && tick <= to) ticks.push(tick);
    }
  }
  const span = Math.log(to / from);
  return { name, unit, from, to, ticks, label: String, share: (value) => Math.log(value / from) / span };
}
