/** Motors, held to the sources named beside each check. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  bladePassHz,
  cyclesPerTurn,
  electricalHz,
  harmonicsAgainst,
  harmonicsHz,
  notchWeight,
  tipSpeedMs,
  turnHz,
  unloadedRpm,
} from "../../shared/numbers/motor.ts";
import { hoverHarmonicsOf, motorNotchesOf, motorsOf } from "../../shared/numbers/motor-of.ts";
import { craftWith } from "./read.ts";

describe("speed and poles", () => {
  // TI MCT8316A, FG output: 2, 4, 6, 8 poles: 1, 2, 3, 4 cycles a turn (read).
  test.each([
    [2, 1],
    [4, 2],
    [6, 3],
    [8, 4],
  ])("%i poles: %i electrical cycles a turn", (poles, cycles) => expect(cyclesPerTurn(poles)).toBe(cycles));

  // A motor maker's page (read): 5700 rpm/V × 11.1 V = 63 270 rpm.
  test("5700 rpm/V at 11.1 V", () => expect(unloadedRpm(5700, 11.1)).toBeCloseTo(63_270, 6));

  // Ohio University ch. 14.3, n = 120 f / p (read): 60 Hz gives 3600, 1800, 1200, 900 rpm for 2, 4, 6, 8 poles.
  test.each([
    [2, 3600],
    [4, 1800],
    [6, 1200],
    [8, 900],
  ])("60 Hz with %i poles: %i rpm", (poles, rpm) => expect(electricalHz(rpm, poles)).toBe(60));

  test("cycles a turn times turns a second is the electrical frequency", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 32 }), fc.double({ min: 1, max: 1e5, noNaN: true }), (pairs, rpm) => {
        const poles = 2 * pairs;
        expect(electricalHz(rpm, poles)).toBeCloseTo(cyclesPerTurn(poles) * turnHz(rpm), 6);
      }),
    );
  });

  // Computed: 5.1 in is 0.12954 m (1 in = 25.4 mm exactly), and 30 000 rpm are 500 turns a second: 203.5 m/s.
  test("tip speed", () => expect(tipSpeedMs(5.1, 30_000)).toBeCloseTo(Math.PI * 0.12954 * 500, 9));

  test("three blades pass three times a turn", () => {
    expect(bladePassHz(turnHz(12_000), 3)).toBe(600);
    expect(harmonicsHz(200, 3)).toEqual([200, 400, 600]);
  });
});

describe("harmonics against the notches", () => {
  const notches = { count: 3, floorHz: 120, widthHz: 30, easesInHz: 40, depths: [1, 0.5] };

  test("none below the floor, little by little above it, fully where it has eased in", () => {
    expect([119, 120, 130, 160, 500].map((hz) => notchWeight(hz, notches))).toEqual([0, 0, 0.25, 1, 1]);
    expect(notchWeight(120, { ...notches, easesInHz: 0 })).toBe(1);
  });

  test("what becomes of each harmonic, and which are the blades'", () => {
    const found = harmonicsAgainst(70, notches, 4, 2).map(({ hz, depth, why, blades }) => [hz, depth, why, blades]);
    expect(found).toEqual([
      [70, 0, "below-floor", false],
      [140, 0.25, "fading", true],
      [210, 1, "cut", false],
      [280, 0, "beyond-count", true],
    ]);
    expect(harmonicsAgainst(200, notches, 2, null)[1]).toMatchObject({ why: "weakened", depth: 0.5, blades: false });
  });
});

describe("what a craft says", () => {
  const CRAFT = `frame
  propeller-diameter  5.1 in
  propeller-blades    3
  hover-throttle      24 %

pack
  chemistry lipo
  cells     6
  full-at   4.2 V/cell

motors
  kv     1750 rpm/V
  poles  14
  idle   5 %

filters
  motor-notches  count 3  floor 120 Hz  width 30 Hz`;

  test("speeds without load, from the pack and the throttle", () => {
    const motors = motorsOf(...craftWith(CRAFT));
    expect(motors).toMatchObject({ motors: 4, poles: 14, blades: 3, hoverShare: 0.24 });
    expect(motors.fullRpm).toBeCloseTo(1750 * 25.2, 6);
    expect(motors.hoverRpm).toBeCloseTo(1750 * 22.2 * 0.24, 6);
    expect(motors.idleRpm).toBeCloseTo(1750 * 22.2 * 0.05, 6);
  });

  test("a limit on the motors counts, and a hover said as a pulse is a share of the throttle's travel", () => {
    const limited = motorsOf(...craftWith(CRAFT.replace("idle   5 %", "limit 80 %").replace("24 %", "1240 us")));
    expect(limited.fullRpm).toBeCloseTo(1750 * 25.2 * 0.8, 6);
    expect(limited.hoverShare).toBeCloseTo(0.24, 12);
    expect(limited.idleRpm).toBeNull();
  });

  test("the notches, and the harmonics in the hover", () => {
    expect(motorNotchesOf(...craftWith(CRAFT))).toEqual({
      count: 3,
      floorHz: 120,
      widthHz: 30,
      easesInHz: 0,
      depths: [],
    });
    const harmonics = hoverHarmonicsOf(...craftWith(CRAFT))!;
    expect(harmonics.map(({ why, blades }) => [why, blades])).toEqual([
      ["cut", false],
      ["cut", false],
      ["cut", true],
      ["beyond-count", false],
    ]);
    expect(motorNotchesOf(...craftWith("filters\n  motor-notches count 3"))).toBeNull();
    expect(hoverHarmonicsOf(...craftWith("filters\n  motor-notches count 1 floor 100 Hz width 30 Hz"))).toBeNull();
  });
});
