/**
 * Carriers that do not disturb one another, looked for exactly: no two nearer than the width of a picture, and no
 * mixture of the third order on any of them. Everything in whole kHz; work is counted in steps, never by the clock.
 *
 * - `openChannels`: which channels of a list are still free beside carriers that come and go
 * - `leastSpanKhz`: how much room so many more carriers need at the least
 * - `fits`: whether so many of some channels go together; `addsUp`: beside others that stand
 */

/** How near carriers and mixtures may come. */
export interface Spacing {
  /** Two carriers stand at least so far apart. */
  readonly widthKhz: number;
  /** A mixture stands farther than this from every carrier that it is not made of. */
  readonly landsKhz: number;
}

/** Steps that are left; whoever searches gives up where there are none. A step is one channel that is blocked or freed. */
export interface Work {
  steps: number;
}

/** Channels in order of frequency, of which those are open that go together with all that stand. */
export interface OpenChannels {
  readonly standing: readonly number[];
  isOpen(index: number): boolean;
  /** Puts a carrier among those that stand. It must be open where it is to go together with them. */
  stand(khz: number): void;
  /** Takes back the carrier that was put there last. */
  takeBack(): void;
}

/** Nothing stands yet, and every channel is open. `channels` are sorted. */
export function openChannels(channels: readonly number[], { widthKhz, landsKhz }: Spacing, work: Work): OpenChannels {
  const blocks = new Int32Array(channels.length);
  const standing: number[] = [];
  const block = (from: number, to: number, by: number) => {
    for (let i = firstFrom(channels, from); i < channels.length && channels[i]! <= to; i++) {
      blocks[i]! += by;
      work.steps--;
    }
    work.steps--;
  };
  const around = (khz: number, by: number) => block(khz - landsKhz, khz + landsKhz, by);
  /** Blocks, or frees, all that a carrier rules out together with those that stand. */
  const change = (x: number, by: number) => {
    block(x - widthKhz + 1, x + widthKhz - 1, by);
    for (const [i, b] of standing.entries()) {
      around(2 * x - b, by);
      around(2 * b - x, by);
      // A carrier about half-way between two has a mixture with either on the other.
      block((x + b - landsKhz) / 2, (x + b + landsKhz) / 2, by);
      for (let j = i + 1; j < standing.length; j++) {
        const c = standing[j]!;
        around(x + b - c, by);
        around(x + c - b, by);
        around(b + c - x, by);
      }
    }
  };
  return {
    standing,
    isOpen: (index) => blocks[index] === 0,
    stand(khz) {
      change(khz, 1);
      standing.push(khz);
    },
    takeBack() {
      change(standing.pop()!, -1);
    },
  };
}

/** The index of the first channel at or above a frequency. */
export function firstFrom(channels: readonly number[], khz: number): number {
  let [low, high] = [0, channels.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (channels[middle]! < khz) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * At the least so far above the highest of some carriers the last of `more` further ones stands. Where nothing
 * disturbs, no two pairs of carriers are equally far apart: two distances that differ by `landsKhz` or less are a
 * mixture on a carrier, since a − b ≈ c − d is a + d − c ≈ b. So each new gap is farther than that from all distances
 * that there are, and from the other gaps.
 */
export function leastSpanKhz(standing: readonly number[], more: number, { widthKhz, landsKhz }: Spacing): number {
  const distances: number[] = [];
  for (const [i, a] of standing.entries()) for (let j = 0; j < i; j++) distances.push(Math.abs(a - standing[j]!));
  distances.sort((a, b) => a - b);
  let [gap, sum, next] = [widthKhz, 0, 0];
  for (let each = 0; each < more; each++) {
    for (; next < distances.length && distances[next]! <= gap + landsKhz; next++)
      gap = Math.max(gap, distances[next]! + landsKhz + 1);
    sum += gap;
    gap += landsKhz + 1;
  }
  return sum;
}

/** Whether `count` of these channels, which are sorted, go together; null where the work was used up before that is known. */
export function fits(channels: readonly number[], count: number, spacing: Spacing, work: Work): boolean | null {
  return addsUp(openChannels(channels, spacing, work), channels, count, spacing, work);
}

/** Whether so many of the channels that are open go together with one another, and with those that stand. */
export function addsUp(
  open: OpenChannels,
  channels: readonly number[],
  count: number,
  spacing: Spacing,
  work: Work,
): boolean | null {
  const highest = channels.at(-1) ?? 0;
  /** Whether `more` further carriers have room above the last one that was added. */
  const from = (first: number, more: number): boolean | null => {
    if (more === 0) return true;
    for (let i = first; i < channels.length; i++) {
      if (work.steps <= 0) return null;
      work.steps--;
      const room = highest - channels[i]!;
      if (room < leastSpanKhz([], more - 1, spacing)) return false;
      if (!open.isOpen(i)) continue;
      if (more === 1) return true;
      if (room < leastSpanKhz([...open.standing, channels[i]!], more - 1, spacing)) continue;
      open.stand(channels[i]!);
      const found = from(i + 1, more - 1);
      open.takeBack();
      if (found !== false) return found;
    }
    return false;
  };
  return from(0, count);
}
