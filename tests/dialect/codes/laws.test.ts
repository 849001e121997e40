/** What holds for every number code: the nearest step, of two the lower, found by trying all of them. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { decode, encode, splitSum, sumOf } from "../../../shared/dialect/codes/codes.ts";
import { numberIn, textOfHeld } from "../../../shared/dialect/codes/held.ts";
import type { Held, NumberCode } from "../../../shared/dialect/dialect.ts";
import { compareExact, type Exact, exact, minus, plus } from "../../../shared/dialect/exact.ts";

const tenths = (least: number, most: number) => fc.integer({ min: least, max: most }).map((n) => exact(BigInt(n), 10n));

const codes: fc.Arbitrary<NumberCode> = fc
  .record({
    base: fc.constantFrom(10, 16, 2, 7, 36),
    digits: fc.constantFrom(null, 4),
    least: fc.integer({ min: -20, max: 20 }),
    count: fc.integer({ min: 0, max: 40 }),
    from: tenths(-100, 100),
    each: fc.oneof(tenths(1, 60), tenths(-60, -1)),
    into: fc.option(tenths(1, 900), { freq: 4 }),
    unset: fc.option(fc.integer({ min: -25, max: 65 }), { freq: 3 }),
  })
  .map(({ least, count, unset, into, from, each, ...rest }) => ({
    kind: "number" as const,
    name: "step",
    lines: [0],
    ...rest,
    // In base 2 four digits hold 16 numbers.
    digits: rest.base === 2 || rest.base === 7 ? null : rest.digits,
    ...(into ? { into, from: exact(0n), each: exact(1n) } : { into, from, each }),
    // What is divided by numbers on both sides of nought has a gap about it.
    least: exact(BigInt(into ? Math.abs(least) : least)),
    most: exact(BigInt((into ? Math.abs(least) : least) + count)),
    unit: "V",
    channels: false,
    places: 0,
    unset: unset === null ? null : exact(BigInt(unset)),
  }));

/** Every value that the code can say, by what it spells. */
function values(code: NumberCode): { readonly value: Exact; readonly raw: string }[] {
  const found: { value: Exact; raw: string }[] = [];
  for (let n = code.least!.over; n <= code.most!.over; n++) {
    const raw = spell(Number(n), code);
    const held = decode(code, raw);
    if (held.kind === "number") found.push({ value: held.number, raw });
  }
  return found;
}

/** By the board's own rules, in another way than the program: digits of the number, or of it and a power of two. */
function spell(n: number, { base, digits }: NumberCode): string {
  const isPower = base !== 10 && Number.isInteger(Math.log2(base));
  const wraps = n < 0 && isPower;
  const size = wraps ? n + 2 ** (digits === null ? 32 : digits * Math.log2(base)) : Math.abs(n);
  const text = size
    .toString(base)
    .toUpperCase()
    .padStart(digits ?? 0, "0");
  return n < 0 && !wraps ? `-${text}` : text;
}

const off = (a: Exact, b: Exact): Exact => {
  const difference = minus(a, b);
  return difference.over < 0n ? exact(-difference.over, difference.under) : difference;
};

test("the nearest step is written, of two the lower, and is read back as what the board will understand", () => {
  fc.assert(
    fc.property(codes, tenths(-1500, 1500), (code, number) => {
      const all = values(code);
      const spelled = encode(code, { kind: "number", number, unit: "V" });
      const sorted = all.toSorted((a, b) => compareExact(a.value, b.value));
      const isBeyond =
        sorted.length === 0 ||
        compareExact(number, sorted[0]!.value) < 0 ||
        compareExact(number, sorted.at(-1)!.value) > 0;
      if (spelled.kind === "cannot") expect(isBeyond, spelled.why).toBe(true);
      else {
        const nearest = sorted.reduce((a, b) => (compareExact(off(b.value, number), off(a.value, number)) < 0 ? b : a));
        expect(textOfHeld(decode(code, spelled.text) as Held)).toBe(
          textOfHeld({ kind: "number", number: nearest.value, unit: "V" }),
        );
        expect(spelled.means === null).toBe(compareExact(nearest.value, number) === 0);
      }
    }),
    { seed: 13, numRuns: 400 },
  );
});

test("every number that a code can say is written as it was read", () => {
  fc.assert(
    fc.property(codes, (code) => {
      for (const { value, raw } of values(code))
        expect(encode(code, { kind: "number", number: value, unit: "V" })).toEqual({
          kind: "spelled",
          text: raw,
          means: null,
        });
    }),
    { seed: 13, numRuns: 200 },
  );
});

test("a value in several parts is written as its sum", () => {
  const part = fc.record({
    from: fc.integer({ min: 0, max: 3 }),
    count: fc.integer({ min: 0, max: 9 }),
    size: fc.constantFrom(1, 4, 16),
  });
  fc.assert(
    fc.property(fc.array(part, { minLength: 1, maxLength: 3 }), fc.integer({ min: 0, max: 200 }), (parts, value) => {
      const steps = parts.map(({ from, count, size }) => ({ from, to: from + count, size }));
      // Each part reaches over the next one's step, as the digits of a number do.
      const sorted = steps.toSorted((a, b) => b.size - a.size);
      fc.pre(
        sorted.every(
          ({ size }, i) =>
            i === sorted.length - 1 ||
            sorted.slice(i + 1).reduce((sum, { from, to, size: each }) => sum + (to - from) * each, 0) >=
              size - sorted.at(-1)!.size,
        ),
      );
      const terms = steps.map(({ from, to, size }) => ({
        whole: null,
        code: {
          kind: "number" as const,
          name: "part",
          lines: [0],
          base: 10,
          digits: null,
          least: exact(BigInt(from)),
          most: exact(BigInt(to)),
          from: exact(0n),
          each: exact(BigInt(size)),
          unit: "",
          channels: false,
          into: null,
          places: 0,
          unset: null,
        },
      }));
      const sums = (at: number): number[] => {
        const step = steps[at];
        if (!step) return [0];
        return Array.from({ length: step.to - step.from + 1 }, (_, i) => (step.from + i) * step.size).flatMap((one) =>
          sums(at + 1).map((rest) => one + rest),
        );
      };
      const all = sums(0);
      // Between two of the smallest steps it would be rounded: that is the law above.
      fc.pre(all.includes(value));
      const split = splitSum(terms, { kind: "number", number: exact(BigInt(value)), unit: "" })!;
      const written = split.map((share, i) => encode(terms[i]!.code, share));
      const means = written.map((each, i) => (each.kind === "spelled" ? decode(terms[i]!.code, each.text) : each));
      const total = means.reduce((sum, held) => plus(sum, numberIn(held as Held)!.number), exact(0n));
      expect(total).toEqual(exact(BigInt(value)));
      expect(sumOf(means as Held[])).toMatchObject({ kind: "number", number: total });
    }),
    { seed: 13, numRuns: 300 },
  );
});
