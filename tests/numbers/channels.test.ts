/** Carriers that are sent together, held to the sources named beside each check, and searches held to trying everything. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { fleetTopic } from "../../shared/ide/reference/fleet/pages.ts";
import { type Choice, channelPlan, type Movable, RANKS } from "../../shared/numbers/channel-plan.ts";
import { fits, leastSpanKhz, openChannels, type Spacing } from "../../shared/numbers/channel-search.ts";
import { disturbancesAt, LANDS_WITHIN_MHZ } from "../../shared/numbers/channels.ts";
import { ANALOGUE_SPACING, EVEN_CHANNELS_MHZ, flightOf } from "../../shared/numbers/flight.ts";
import { ANALOGUE_WIDTH_MHZ, productsNear, thirdOrder } from "../../shared/numbers/radio.ts";

const plenty = () => ({ steps: 1e9 });
const everyMhz = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, i) => (from + i) * 1000);

describe("who is disturbed", () => {
  // Wireless-microphone guide, App. A p. 56 (read and recomputed): of 200, 195 and 187 MHz the mixtures 208 192 182 205
  // 190 213 174 203 179. A fourth carrier anywhere is disturbed where one of them falls within half an analogue width.
  const GUIDE = [208, 192, 182, 205, 190, 213, 174, 203, 179];
  test("a carrier beside those of a published table", () => {
    const [a, b, c] = [1200, 1195, 1187];
    const apart = [a * 100, b * 100, c * 100];
    // A hundred times as far apart, so that no two overlap: 100 × 1200 and so on.
    const table = GUIDE.map((mhz) => (1000 + mhz) * 100);
    for (const mhz of table) {
      for (const [off, hit] of [
        [0, true],
        [9, true],
        [-9, true],
        [9.001, false],
        [-9.001, false],
      ] as const) {
        const found = disturbancesAt([...apart, mhz + off], 3).filter(({ kind }) => kind === "product");
        expect([mhz, off, found.length > 0]).toEqual([mhz, off, hit]);
      }
    }
  });

  // Practice (no source): the eight stand 37 MHz apart, so any three neighbours are each other's mixtures.
  test("three neighbours of the eight hit exactly", () => {
    for (let first = 0; first + 2 < EVEN_CHANNELS_MHZ.length; first++) {
      const three = EVEN_CHANNELS_MHZ.slice(first, first + 3);
      const hits = three.map((_, i) => disturbancesAt(three, i).map((each) => each.kind === "product" && each.awayMhz));
      expect(hits).toEqual([[0], [], [0]]);
    }
  });

  test("two craft never disturb themselves by their own mixtures", () => {
    for (let apart = 18; apart < 200; apart++) expect(disturbancesAt([5700, 5700 + apart], 0)).toEqual([]);
  });

  test("overlaps and mixtures are those of the formulas", () => {
    const carriers = fc.array(
      fc.integer({ min: 57_000, max: 59_000 }).map((tenths) => tenths / 10),
      {
        minLength: 1,
        maxLength: 7,
      },
    );
    fc.assert(
      fc.property(carriers, (mhz) => {
        for (const [target, own] of mhz.entries()) {
          const found = disturbancesAt(mhz, target);
          const overlapping = mhz.flatMap((other, i) => (i !== target && Math.abs(other - own) < 18 - 1e-6 ? [i] : []));
          const of = found.flatMap((each) => (each.kind === "overlap" ? [each.of] : []));
          expect(of.toSorted()).toEqual(overlapping);
          if (overlapping.length > 0) continue;
          const near = productsNear(mhz, LANDS_WITHIN_MHZ + 1e-6).filter(({ carrier }) => carrier === target);
          expect(found.map((each) => each.kind === "product" && each.mhz).toSorted()).toEqual(
            near.map(({ product }) => product.mhz).toSorted(),
          );
        }
      }),
      { seed: 13, numRuns: 300 },
    );
  });
});

/** Whether nothing disturbs anything, by the formulas of `radio.ts` and nothing else. */
function isClear(khz: readonly number[], { widthKhz, landsKhz }: Spacing): boolean {
  const isApart = khz.every((a, i) => khz.every((b, j) => j <= i || Math.abs(a - b) >= widthKhz));
  return isApart && productsNear(khz, landsKhz).length === 0;
}

describe("how many fit", () => {
  // Carriers without any mixture of third order on one of them are marks of a Golomb ruler: no two pairs are equally far
  // apart. Lengths of the shortest: OEIS A003022 (memory): 1, 3, 6, 11, 17, 25, 34 for two to eight marks.
  test.each([
    [2, 1],
    [3, 3],
    [4, 6],
    [5, 11],
    [6, 17],
    [7, 25],
    [8, 34],
  ])("%i points without width take a length of %i", (marks, length) => {
    const points = { widthKhz: 1, landsKhz: 0 };
    const upTo = (last: number) => Array.from({ length: last + 1 }, (_, i) => i);
    expect(fits(upTo(length), marks, points, plenty())).toBe(true);
    expect(fits(upTo(length - 1), marks, points, plenty())).toBe(false);
  });

  // Computed with these widths, as the page says it: the first row is what lies inside 5725–5875 MHz.
  const rows = fleetTopic("channels-together")!.matchAll(/^\| (\d+) MHz \| (\d+) MHz \| (\d+) \|$/gm);
  test.each([...rows].map((row): [number, number, number] => [Number(row[1]), Number(row[2]), Number(row[3])]))(
    "from %i to %i MHz %i pictures go together, and no more",
    (from, to, most) => {
      expect(fits(everyMhz(from, to), most, ANALOGUE_SPACING, plenty())).toBe(true);
      expect(fits(everyMhz(from, to), most + 1, ANALOGUE_SPACING, plenty())).toBe(false);
    },
  );

  test("a search that runs out of work says so, the same each time", () => {
    const few = () => fits(everyMhz(5658, 5917), 7, ANALOGUE_SPACING, { steps: 10_000 });
    expect([few(), few()]).toEqual([null, null]);
  });

  const spacings = fc.record({ widthKhz: fc.integer({ min: 1, max: 5 }), landsKhz: fc.integer({ min: 0, max: 4 }) });
  test("what is open is what the formulas allow", () => {
    fc.assert(
      fc.property(spacings, fc.array(fc.integer({ min: 0, max: 60 }), { maxLength: 5 }), (spacing, wanted) => {
        const channels = everyMhz(0, 60).map((khz) => khz / 1000);
        const open = openChannels(channels, spacing, plenty());
        for (const khz of wanted) if (isClear([...open.standing, khz], spacing)) open.stand(khz);
        for (const khz of channels) expect(open.isOpen(khz)).toBe(isClear([...open.standing, khz], spacing));
        while (open.standing.length > 0) open.takeBack();
        expect(channels.every((khz) => open.isOpen(khz))).toBe(true);
      }),
      { seed: 13, numRuns: 200 },
    );
  });

  test("the least span is never more than what carriers that go together need", () => {
    fc.assert(
      fc.property(spacings, fc.array(fc.integer({ min: 0, max: 80 }), { maxLength: 6 }), (spacing, wanted) => {
        const standing: number[] = [];
        for (const khz of wanted.toSorted((a, b) => a - b))
          if (isClear([...standing, khz], spacing)) standing.push(khz);
        for (let from = 1; from < standing.length; from++) {
          const span = standing.at(-1)! - standing[from - 1]!;
          expect(leastSpanKhz(standing.slice(0, from), standing.length - from, spacing)).toBeLessThanOrEqual(span);
        }
      }),
      { seed: 13, numRuns: 500 },
    );
  });
});

/** The best plan by trying every one, in the order of the docstring of `channel-plan.ts`. */
function bestOfAll(craft: readonly Movable[], spacing: Spacing): readonly number[] | null {
  const rankOf = (i: number, khz: number) => craft[i]!.choices.find((each) => each.khz === khz)!.rank;
  const keyOf = (khz: readonly number[]) => {
    const moved = khz.map((each, i) => Math.abs(each - craft[i]!.khz));
    const movers = khz.flatMap((each, i) => (each === craft[i]!.khz ? [] : [i]));
    const ranks = movers.map((i) => rankOf(i, khz[i]!));
    return [
      movers.length,
      ranks.filter((rank) => rank === "any").length,
      ranks.filter((rank) => rank !== "spare").length,
      moved.reduce((sum, each) => sum + each, 0),
      Math.max(0, ...moved),
      ...moved,
      ...khz,
    ];
  };
  const isLess = (a: readonly number[], b: readonly number[]) => {
    const at = a.findIndex((each, i) => each !== b[i]);
    return at >= 0 && a[at]! < b[at]!;
  };
  let best: readonly number[] | null = null;
  const go = (khz: readonly number[]): void => {
    if (khz.length === craft.length) {
      if (isClear(khz, spacing) && (!best || isLess(keyOf(khz), keyOf(best)))) best = khz;
      return;
    }
    const own = craft[khz.length]!;
    for (const each of new Set([own.khz, ...own.choices.map((choice) => choice.khz)])) go([...khz, each]);
  };
  go([]);
  return best;
}

describe("a plan", () => {
  const frequency = fc.integer({ min: 0, max: 24 });
  const movable: fc.Arbitrary<Movable> = fc.record({
    khz: frequency,
    choices: fc
      .uniqueArray(fc.record({ khz: frequency, rank: fc.constantFrom(...RANKS) }), {
        selector: ({ khz }: Choice) => khz,
        maxLength: 9,
      })
      .map((choices): Choice[] => choices),
  });
  const alike = fc
    .tuple(fc.array(movable, { minLength: 1, maxLength: 2 }), fc.array(fc.nat(1), { minLength: 1, maxLength: 4 }))
    .map(([kinds, picks]) => picks.map((pick) => kinds[pick % kinds.length]!));
  const flights = fc.oneof(fc.array(movable, { minLength: 1, maxLength: 4 }), alike);
  const spacing = fc.record({ widthKhz: fc.integer({ min: 1, max: 4 }), landsKhz: fc.integer({ min: 0, max: 2 }) });

  test("is the best of all, as enumerated, or there is none", () => {
    const kinds = { plan: 0, none: 0, changes: 0 };
    fc.assert(
      fc.property(flights, spacing, (craft, each) => {
        const found = channelPlan(craft, each, plenty());
        const best = bestOfAll(craft, each);
        if (!best) kinds.none++;
        else if (best.some((khz, i) => khz !== craft[i]!.khz)) kinds.changes++;
        else kinds.plan++;
        const khz = found.kind === "plan" ? craft.map((own, i) => found.moves.get(i) ?? own.khz) : null;
        expect(khz).toEqual(best);
      }),
      { seed: 13, numRuns: 600 },
    );
    // Of every kind there is enough for this to mean something.
    expect(Math.min(...Object.values(kinds))).toBeGreaterThan(40);
  });

  test("says that it does not know where the work is used up", () => {
    const craft = Array.from({ length: 6 }, () => ({
      khz: 5_800_000,
      choices: everyMhz(5658, 5917).map((khz): Choice => ({ khz, rank: "any" })),
    }));
    expect(channelPlan(craft, ANALOGUE_SPACING, { steps: 20_000 })).toEqual({ kind: "unknown" });
  });
});

describe("a flight", () => {
  const flown = (mhz: number, more: object = {}) => ({
    file: `/shed/${mhz}.fettle`,
    name: "Jug",
    signal: "analogue" as const,
    carrierMhz: mhz,
    widthMhz: ANALOGUE_WIDTH_MHZ,
    spareMhz: null,
    region: "europe",
    at: null,
    ...more,
  });

  test("every plan leaves nothing in the way, and each part of it made leaves the rest as the plan", () => {
    const flights = fc.array(fc.integer({ min: 5726, max: 5874 }), { minLength: 2, maxLength: 4 });
    let moved = 0;
    fc.assert(
      fc.property(flights, fc.nat(), (carriers, pick) => {
        const craft = carriers.map((mhz) => flown(mhz));
        const { plan } = flightOf(craft);
        if (plan === null) return;
        const after = craft.map((each, i) => flown(plan.find((move) => move.craft === i)?.toMhz ?? each.carrierMhz));
        const khz = after.map(({ carrierMhz }) => carrierMhz * 1000);
        expect(isClear(khz, ANALOGUE_SPACING)).toBe(true);
        expect(flightOf(after).plan).toEqual([]);
        if (plan.length === 0) return;
        moved++;
        const one = plan[pick % plan.length]!;
        const next = flightOf(craft.map((each, i) => (i === one.craft ? after[i]! : each)));
        expect(next.plan).toHaveLength(plan.length - 1);
      }),
      { seed: 13, numRuns: 60 },
    );
    expect(moved).toBeGreaterThan(20);
  });

  test("a plan stays in the bands of the region, with the edges of what nobody named", () => {
    const { plan } = flightOf([5806, 5806, 5806, 5806].map((mhz) => flown(mhz)));
    expect(plan).toHaveLength(3);
    for (const { toMhz, rank } of plan!) {
      expect(toMhz).toBeGreaterThanOrEqual(rank === "any" ? 5734 : 5725);
      expect(toMhz).toBeLessThanOrEqual(rank === "any" ? 5866 : 5875);
    }
  });

  test("more than are ever flown together are counted, and no plan is looked for", () => {
    const many = flightOf(Array.from({ length: 40 }, (_, i) => flown(5700 + i)));
    expect(many.noPlan).toEqual({ kind: "too-many" });
    expect(many.disturbances.every((each) => each.length > 0)).toBe(true);
  });

  test("a hurried search gives up on what takes long, and finds nothing else than a patient one", () => {
    const six = [5806, 5806, 5806, 5806, 5806, 5806].map((mhz) => flown(mhz, { region: null }));
    expect(flightOf(six, "hurried").noPlan).toEqual({ kind: "too-much-work", isHurried: true });
    expect(flightOf(six, "patient").plan).toHaveLength(5);
    const five = [5806, 5769, 5806, 5732, 5658].map((mhz) => flown(mhz, { region: null }));
    expect(flightOf(five, "hurried").plan).not.toBeNull();
    expect(flightOf(five, "hurried")).toEqual(flightOf(five, "patient"));
  });

  test("nobody is sent onto a picture of which nobody says the kind", () => {
    const both = [flown(5806, { region: null }), flown(5806, { region: null })];
    expect(flightOf(both).plan?.map(({ toMhz }) => toMhz)).toEqual([5769]);
    const unknown = flown(5771, { signal: null, widthMhz: null, region: null });
    expect(flightOf([...both, unknown]).plan?.map(({ toMhz }) => toMhz)).toEqual([5843]);
  });

  test("without a region whole megahertz are looked at only between the usual channels", () => {
    const { noPlan } = flightOf([1280, 1280].map((mhz) => flown(mhz, { region: null })));
    expect(noPlan).toEqual({ kind: "no-choice" });
  });

  // Computed: the count of products that are looked at is that of the formula, which the guide's table holds.
  test("no product is left out", () => expect(thirdOrder([1, 2, 4, 8, 16, 32, 64])).toHaveLength(147));
});
