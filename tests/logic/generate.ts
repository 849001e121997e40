/** Random craft, made by fast-check so that a failing one shrinks. */
import fc from "fast-check";
import type { ConditionSpec, ControlSpec, SwitchInput } from "../../shared/logic/switchboard-types.ts";
import type { Condition, Subject } from "../../shared/syntax/condition.ts";

const AT = { start: 0, end: 0 };
/** A short range, so that every microsecond can be enumerated. */
export const SHORT_SCALE_US = { fromUs: 1000, toUs: 1012 };

const switchKinds = fc.constantFrom("switch", "selector", "button");
const pulseUs = fc.integer({ min: SHORT_SCALE_US.fromUs, max: SHORT_SCALE_US.toUs });

/** Bounds; half of them are not whole, and some are outside the range. */
const boundUs = fc.integer({ min: 1996, max: 2028 }).map((twice) => twice / 2);

/** Links; some have channels with only two levels, some a measured stick. */
const link: fc.Arbitrary<Pick<SwitchInput, "twoLevelChannels" | "measuredUs">> = fc.record({
  twoLevelChannels: fc.oneof(
    { weight: 3, arbitrary: fc.constant([]) },
    { weight: 1, arbitrary: fc.uniqueArray(fc.integer({ min: 3, max: 8 }), { maxLength: 3 }) },
  ),
  measuredUs: fc.oneof(
    { weight: 3, arbitrary: fc.constant(new Map()) },
    {
      weight: 1,
      arbitrary: fc
        .tuple(pulseUs, pulseUs)
        .map(([a, b]) => new Map([[3, { fromUs: Math.min(a, b), toUs: Math.max(a, b) }]])),
    },
  ),
});

function control(i: number): fc.Arbitrary<ControlSpec> {
  const name = `C${i}`;
  const channel = 5 + i;
  const stepped = fc
    .tuple(switchKinds, fc.uniqueArray(pulseUs, { minLength: 2, maxLength: 4 }), fc.nat({ max: 1 }))
    .map(([kind, pulses, rest]): ControlSpec => {
      const positions = pulses.map((us, p) => ({ name: `p${p}`, pulseUs: us }));
      return { name, kind, channel, positions, rest: positions[rest]!.name, fromUs: null, toUs: null };
    });
  const dial = fc
    .tuple(pulseUs, pulseUs)
    .map(([fromUs, toUs]): ControlSpec => ({ name, kind: "dial", channel, positions: [], rest: null, fromUs, toUs }));
  return fc.oneof({ weight: 3, arbitrary: stepped }, { weight: 1, arbitrary: dial });
}

function subject(controls: readonly ControlSpec[]): fc.Arbitrary<Subject> {
  const named = controls.map(({ name }): Subject => ({ kind: "control", name, ...AT }));
  const driven = controls.map(({ channel }): Subject => ({ kind: "channel", channel, ...AT }));
  return fc.constantFrom<Subject>(...named, ...driven, { kind: "channel", channel: 3, ...AT });
}

function test(controls: readonly ControlSpec[], modes: readonly string[]): fc.Arbitrary<Condition> {
  const stepped = controls.filter(({ kind }) => kind !== "dial");
  const tests: fc.Arbitrary<Condition>[] = [
    fc.tuple(subject(controls), boundUs, boundUs).map(([of, a, b]): Condition => {
      return { kind: "in", subject: of, fromUs: Math.min(a, b), toUs: Math.max(a, b), ...AT };
    }),
    fc
      .tuple(fc.constantFrom("above" as const, "below" as const), subject(controls), boundUs)
      .map(([kind, of, bound]): Condition => ({ kind, subject: of, boundUs: bound, ...AT })),
    fc.constant<Condition>({ kind: "always", ...AT }),
  ];
  if (stepped.length > 0) {
    const is = fc.constantFrom(...stepped).chain((of) =>
      fc.tuple(fc.constantFrom(...of.positions), fc.boolean()).map(
        ([position, negated]): Condition => ({
          kind: "is",
          control: of.name,
          controlAt: AT,
          position: position.name,
          positionAt: AT,
          negated,
          ...AT,
        }),
      ),
    );
    tests.push(is, is, is);
  }
  // `nobody` is a mode that is not set up.
  if (modes.length > 0) tests.push(fc.constantFrom(...modes, "nobody").map((name) => ({ kind: "mode", name, ...AT })));
  return fc.oneof(...tests);
}

function condition(controls: readonly ControlSpec[], modes: readonly string[]): fc.Arbitrary<Condition> {
  return fc.letrec<{ whole: Condition }>((tie) => ({
    whole: fc.oneof(
      { depthSize: "small", withCrossShrink: true, maxDepth: 4 },
      { weight: 3, arbitrary: test(controls, modes) },
      {
        weight: 2,
        arbitrary: fc
          .tuple(fc.constantFrom("and" as const, "or" as const), fc.array(tie("whole"), { minLength: 2, maxLength: 3 }))
          .map(([kind, parts]): Condition => ({ kind, parts, ...AT })),
      },
      { weight: 1, arbitrary: tie("whole").map((part): Condition => ({ kind: "not", part, ...AT })) },
    ),
  })).whole;
}

/** A craft whose modes name only earlier ones, listed in this order or the reverse. */
export function craft(mostControls: number, mostModes: number): fc.Arbitrary<SwitchInput> {
  return fc
    .integer({ min: 1, max: mostControls })
    .chain((count) => fc.tuple(...Array.from({ length: count }, (_, i) => control(i))))
    .chain((controls) =>
      fc.tuple(
        fc.constant(controls),
        fc.integer({ min: 1, max: mostModes }).chain((count) =>
          fc.tuple(
            ...Array.from({ length: count }, (_, m) =>
              fc.array(
                condition(
                  controls,
                  Array.from({ length: m }, (__, i) => `m${i}`),
                ),
                { minLength: 1, maxLength: 2 },
              ),
            ),
          ),
        ),
        fc.boolean(),
        link,
      ),
    )
    .map(([controls, modes, backwards, carries]): SwitchInput => {
      const conditions = modes.map((lines, m): ConditionSpec => {
        return { name: `m${m}`, lines: lines.map((each) => ({ condition: each, source: { file: "made", line: m } })) };
      });
      return {
        controls,
        conditions: backwards ? conditions.reverse() : conditions,
        endpointsUs: SHORT_SCALE_US,
        ...carries,
      };
    });
}
