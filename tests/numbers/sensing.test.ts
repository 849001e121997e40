/** Divider, shunt and converter, held to the sources named beside each check. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  correctedShuntMohm,
  correctedTopKohm,
  currentClipA,
  currentStepA,
  dividedV,
  dividerScale,
  pinStepV,
  shownError,
  shuntCurrentA,
  shuntHeatW,
  voltsClipV,
  voltsStepV,
} from "../../shared/numbers/sensing.ts";
import { calibrationOf, currentMeterOf, voltsMeterOf } from "../../shared/numbers/sensing-of.ts";
import { craftWith } from "./read.ts";

const shunt = { shuntMohm: 5, gain: 20, offsetMv: 0 };
const ohms = fc.double({ min: 0.1, max: 500, noNaN: true });

describe("the divider", () => {
  // Maker's tables of board supplies (read).
  test.each([
    [15, 10, 9, 3.6, 1],
    [12, 10, 6.4, 2.9, 1],
    [12, 10, 8.4, 3.8, 1],
    [5.1, 10, 5, 3.31, 2],
  ])("%fk over %fk takes %f V to %f V", (topKohm, bottomKohm, packVolts, pinV, digits) => {
    expect(dividedV(packVolts, { topKohm, bottomKohm })).toBeCloseTo(pinV, digits);
  });

  // Computed from the first line: 3.0 V on the pin are 7.5 V of the pack, and a step of 732 uV is one of 1.83 mV.
  test("clipping and step of 15k over 10k", () => {
    const divider = { topKohm: 15, bottomKohm: 10 };
    expect(voltsClipV(divider, { bits: 12, referenceV: 3 })).toBe(7.5);
    expect(voltsStepV(divider, { bits: 12, referenceV: 3 })).toBeCloseTo(0.00183, 5);
  });
});

describe("the converter and the shunt", () => {
  // Maker's data: 3.0 V / 4096 = 732 uV (read).
  test("one step of 12 bits at 3.0 V is 732 uV", () => {
    expect(pinStepV({ bits: 12, referenceV: 3 }) * 1e6).toBeCloseTo(732, 0);
  });

  // Maker's example (read): 5 mohm, gain 20, 20 A gives 100 mV, 2.0 V, 2 W; 12 bits at 3.3 V is 8.06 mA a step.
  test("5 mohm, gain 20, 20 A", () => {
    expect(shuntCurrentA(0.1, { ...shunt, gain: 1 })).toBeCloseTo(20, 12);
    expect(shuntCurrentA(2, shunt)).toBeCloseTo(20, 12);
    expect(shuntHeatW(20, 5)).toBeCloseTo(2, 12);
    expect(currentStepA(shunt, { bits: 12, referenceV: 3.3 }) * 1000).toBeCloseTo(8.06, 2);
  });

  // Computed from that example: 3.3 V on the pin are 33 A; with 300 mV at rest the reading ends at 30 A.
  test("where the current's reading stops rising", () => {
    expect(currentClipA(shunt, { bits: 12, referenceV: 3.3 })).toBeCloseTo(33, 9);
    expect(currentClipA({ ...shunt, offsetMv: 300 }, { bits: 12, referenceV: 3.3 })).toBeCloseTo(30, 9);
  });

  test("the current is what puts these volts on the pin", () => {
    fc.assert(
      fc.property(ohms, ohms, ohms, fc.integer({ min: -500, max: 500 }), (current, shuntMohm, gain, offsetMv) => {
        const pinV = (current * shuntMohm * gain + offsetMv) / 1000;
        expect(shuntCurrentA(pinV, { shuntMohm, gain, offsetMv })).toBeCloseTo(current, 3);
      }),
    );
  });
});

describe("calibration", () => {
  test("with the new upper resistor the board shows what the meter read", () => {
    fc.assert(
      fc.property(ohms, ohms, ohms, fc.double({ min: 0.9, max: 1.1, noNaN: true }), (top, bottomKohm, real, off) => {
        const divider = { topKohm: top + bottomKohm, bottomKohm };
        const shown = real * off;
        const pinV = dividedV(shown, divider);
        const topKohm = correctedTopKohm(divider, real, shown)!;
        expect(pinV * dividerScale({ topKohm, bottomKohm })).toBeCloseTo(real, 6);
      }),
    );
  });

  test("with the new shunt the board counts what the charger put back", () => {
    // Computed: 900 counted for 1000 put back, so every ampere shown was really 1.111: the shunt is smaller by a tenth.
    const shuntMohm = correctedShuntMohm(0.5, 1000, 900)!;
    expect(shuntMohm).toBeCloseTo(0.45, 12);
    const pinV = (9 * 0.45 * shunt.gain) / 1000;
    expect(shuntCurrentA(pinV, { ...shunt, shuntMohm: 0.5 })).toBeCloseTo(8.1, 12);
    expect(shownError(900, 1000)).toBeCloseTo(-0.1, 12);
  });

  test("readings of zero, or a scale below one, correct nothing", () => {
    expect(correctedTopKohm({ topKohm: 10, bottomKohm: 1 }, 0, 16)).toBeNull();
    expect(correctedTopKohm({ topKohm: 10, bottomKohm: 1 }, 16, 0)).toBeNull();
    expect(correctedTopKohm({ topKohm: 10, bottomKohm: 1 }, 1, 16)).toBeNull();
    expect(correctedShuntMohm(0.5, 0, 900)).toBeNull();
  });
});

describe("what a craft says", () => {
  const METERS = `pack
  divider-top     10 kohm
  divider-bottom  1000 ohm
  shunt           0.25 mohm
  shunt-gain      50`;

  test("the meters, with the catalogue's 12 bits at 3.3 V", () => {
    expect(voltsMeterOf(...craftWith(METERS))!.clipV).toBeCloseTo(36.3, 9);
    expect(currentMeterOf(...craftWith(METERS))!.clipA).toBeCloseTo(264, 9);
    expect(currentMeterOf(...craftWith(`${METERS}\n  shunt-offset 300 mV`))!.clipA).toBeCloseTo(240, 9);
  });

  test("no meter where something else measures, or where a part of it is not said", () => {
    expect(voltsMeterOf(...craftWith(`${METERS}\n  volts-from esc-data`))).toBeNull();
    expect(currentMeterOf(...craftWith(`${METERS}\n  current-from none`))).toBeNull();
    expect(voltsMeterOf(...craftWith("pack\n  divider-top 10 kohm"))).toBeNull();
    expect(currentMeterOf(...craftWith(`${METERS}\n  adc-reference 3.3 A`))).toBeNull();
  });

  test("bench readings give the new divider and the new shunt", () => {
    const bench = `${METERS}\n\nbench
  pack-volts-read   16.42 V
  pack-volts-shown  16.1 V
  charge-put-back   1 Ah
  charge-counted    900 mAh`;
    const { volts, current } = calibrationOf(...craftWith(bench));
    expect(volts!.topKohm).toBeCloseTo((11 * 16.42) / 16.1 - 1, 9);
    expect(current!.shuntMohm).toBeCloseTo(0.225, 12);
    expect(calibrationOf(...craftWith(METERS))).toEqual({ volts: null, current: null });
  });
});
