/** Power, bands and mixtures of carriers, held to the sources named beside each check. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  ANALOGUE_WIDTH_MHZ,
  dbmOf,
  edgesMhz,
  eirpMwOf,
  fieldMw,
  fifthOrder,
  mwOf,
  overlapMhz,
  productsNear,
  thirdOrder,
  thirdOrderCount,
} from "../../shared/numbers/radio.ts";
import { bandPositionOf, bandsAt, ismBandOf, isRegion, strongestLimit } from "../../shared/numbers/radio-bands.ts";
import { videoOf } from "../../shared/numbers/radio-of.ts";
import { craftWith } from "./read.ts";

/** The eight channels of common practice (no source): 5658 + 37 (n − 1) MHz. */
const EIGHT = Array.from({ length: 8 }, (_, n) => 5658 + 37 * n);

describe("power", () => {
  // Computed: 10 log10(25) = 13.98, 10 log10(100) = 20.
  test("25 mW is 13.98 dBm, 100 mW is 20 dBm", () => {
    expect(dbmOf(25)).toBeCloseTo(13.98, 2);
    expect(dbmOf(100)).toBe(20);
  });

  // ITU-R V.574-5 (memory): dBm is the level with regard to 1 mW; 0 dBm = 1 mW, 30 dBm = 1 W, 3 dB about the double.
  test("the level is with regard to one milliwatt", () => {
    expect(mwOf(0)).toBe(1);
    expect(mwOf(30)).toBeCloseTo(1000, 9);
    expect(mwOf(3)).toBeCloseTo(2, 2);
  });

  // A table of dBm and watts at a dealer in network radios, fab-corp.com, "dB to Watt Table and Limits" (read).
  test.each([
    [10, 10],
    [13, 20],
    [17, 50],
    [23, 200],
    [24, 250],
    [27, 500],
    [36, 4000],
  ])("%i dBm is %i mW, as such a table rounds it", (dbm, mw) => expect(mwOf(dbm) / mw).toBeCloseTo(1, 1));

  // Computed: 25 mW e.r.p. = 41 mW e.i.r.p. A dipole has 1.64 times, 2.15 dB, over an even source: rvmx.net, RV_EV (read).
  test("25 mW e.r.p. is 41 mW e.i.r.p.", () => expect(eirpMwOf(25)).toBeCloseTo(41, 0));

  // OET Bulletin 63 (computed from P = 0.3 E²): 50 mV/m at 3 m is 0.75 mW.
  test("50 mV/m at 3 m is 0.75 mW", () => expect(fieldMw(0.05, 3)).toBeCloseTo(0.75, 12));

  // Computed from the inverse-square law, as ITU-R P.525 (memory) has it: free-space loss grows by 6 dB for twice the distance.
  test("four times the power, for twice the distance, is 6 dB", () => expect(dbmOf(4) - dbmOf(1)).toBeCloseTo(6.02, 2));

  test("milliwatts and dBm turn round", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1e5, noNaN: true }), (mw) => {
        expect(mwOf(dbmOf(mw)) / mw).toBeCloseTo(1, 9);
      }),
    );
  });
});

describe("bands", () => {
  // 47 CFR 18.301: 915 ± 13, 2450 ± 50, 5800 ± 75 MHz (read).
  test.each([
    [902, true],
    [928, true],
    [929, false],
    [2400, true],
    [2500, true],
    [2501, false],
    [5725, true],
    [5875, true],
    [5876, false],
    [868, false],
  ])("%i MHz in an ISM band: %s", (mhz, inside) => expect(ismBandOf(mhz) !== null).toBe(inside));

  // ETSI EN 300 440 V2.2.1 Table 1: 5725–5875 MHz (read); of the eight, only 5732, 5769, 5806 and 5843 lie in it (computed).
  test("Europe: four of the eight carriers lie in 5725–5875 MHz", () => {
    expect(EIGHT.filter((mhz) => bandsAt("europe", mhz, "analogue").length > 0)).toEqual([5732, 5769, 5806, 5843]);
  });

  // An analogue signal is about 18 MHz wide, so 5732 spills over the edge (common practice, no source).
  test("5732 MHz spills over the edge, the next three do not", () => {
    const places = [5695, 5732, 5769, 5806, 5843].map((mhz) =>
      bandPositionOf("europe", mhz, ANALOGUE_WIDTH_MHZ, "analogue"),
    );
    expect(places).toEqual(["outside", "spills", "inside", "inside", "inside"]);
  });

  // Computed from the same 18 MHz: 5866 MHz ends just at 5875, one megahertz more spills over it; likewise 5734 and 5733 below.
  test("a signal may reach both edges of the band, and no further", () => {
    const places = [5866, 5867, 5734, 5733].map((mhz) => bandPositionOf("europe", mhz, ANALOGUE_WIDTH_MHZ, "analogue"));
    expect(places).toEqual(["inside", "spills", "inside", "spills"]);
  });

  // ERC/REC 70-03 annex 1 (memory): 25 mW e.i.r.p. ETSI EN 300 328: 20 dBm e.i.r.p. at 2.4 GHz (quoted).
  test("Europe: 25 mW at 5.8 GHz, 20 dBm at 2.4 GHz", () => {
    expect(strongestLimit("europe", 5806, "analogue")?.powerMw).toBe(25);
    expect(dbmOf(strongestLimit("europe", 2440, null)!.powerMw)).toBe(20);
  });

  // Spanish CNAF UN-39: 868.0–868.6 MHz 25 mW e.r.p., 869.4–869.65 MHz 500 mW e.r.p. (read).
  test("Europe: 25 and 500 mW e.r.p. about 868 MHz, and nothing between", () => {
    expect(strongestLimit("europe", 868.3, null)!.powerMw).toBeCloseTo(eirpMwOf(25), 9);
    expect(strongestLimit("europe", 869.5, null)!.powerMw).toBeCloseTo(eirpMwOf(500), 9);
    expect(bandPositionOf("europe", 869, 0, null)).toBe("outside");
  });

  // 47 CFR 15.249(a): 50 mV/m at 3 m in 902–928, 2400–2483.5, 5725–5875 MHz (read): 0.75 mW (computed).
  // 47 CFR 15.247(b): 1 W (quoted); its upper band ends at 5850 (read).
  test("USA: 0.75 mW for an analogue signal, 1 W for a digital one up to 5850 MHz", () => {
    for (const mhz of [915, 2440, 5806]) {
      expect(strongestLimit("usa", mhz, "analogue")!.powerMw).toBeCloseTo(0.75, 9);
      expect(strongestLimit("usa", mhz, "digital")!.powerMw).toBe(1000);
    }
    expect(strongestLimit("usa", 5860, "digital")!.powerMw).toBeCloseTo(0.75, 9);
  });

  // 47 CFR 97.301(a): 5.650–5.925 GHz in Region 2, 5.650–5.850 in Regions 1 and 3, licensed amateurs (read).
  test("amateurs: to 5925 MHz in Region 2, to 5850 in 1 and 3; no power is known here", () => {
    const at = (mhz: number) =>
      ([1, 2, 3] as const).map((n) => bandPositionOf(`amateur-region-${n}`, mhz, 18, "analogue"));
    expect(at(5658)).toEqual(["spills", "spills", "spills"]);
    expect(at(5695)).toEqual(["inside", "inside", "inside"]);
    expect(at(5880)).toEqual(["outside", "inside", "outside"]);
    expect(at(5930)).toEqual(["outside", "outside", "outside"]);
    expect(strongestLimit("amateur-region-2", 5880, "analogue")).toBeNull();
  });

  test("nothing is said of what the tables do not reach", () => {
    expect(bandPositionOf("amateur-region-1", 1280, 18, "analogue")).toBe("unknown");
    expect(bandPositionOf("europe", 5220, 20, "digital")).toBe("unknown");
    expect(bandPositionOf("europe", 5220, 18, "analogue")).toBe("outside");
    expect(isRegion("toString")).toBe(false);
  });
});

describe("mixtures of carriers", () => {
  const sorted = (mhz: number[]) => mhz.toSorted((a, b) => a - b);

  // Wireless-microphone guide, App. A p. 56, for 200, 195, 187 MHz (read and recomputed).
  test("third and fifth order of 200, 195 and 187 MHz", () => {
    const third = thirdOrder([200, 195, 187]).map(({ mhz }) => mhz);
    expect(sorted(third)).toEqual(sorted([208, 192, 182, 205, 190, 213, 174, 203, 179]));
    const fifth = fifthOrder([200, 195, 187]).map(({ mhz }) => mhz);
    expect(sorted(fifth)).toEqual(sorted([210, 185, 226, 161, 211, 171]));
  });

  // The same: n²(n−1)/2, so 2, 9, 24, 50, 90, 147 for 2 to 7 carriers (read and recomputed).
  test.each([
    [2, 2],
    [3, 9],
    [4, 24],
    [5, 50],
    [6, 90],
    [7, 147],
  ])("%i carriers have %i third-order products", (carriers, count) => {
    expect(thirdOrderCount(carriers)).toBe(count);
    expect(thirdOrder(EIGHT.slice(0, carriers))).toHaveLength(count);
  });

  // Computed: evenly spaced carriers are their own mixtures, 2 × 5769 − 5732 = 5806.
  test("three evenly spaced carriers land on each other", () => {
    const landed = productsNear([5732, 5769, 5806], 9).map(({ product, carrier }) => [product.of, carrier]);
    expect(landed).toEqual([
      ["2 × 5769 − 5806", 0],
      ["2 × 5769 − 5732", 2],
    ]);
    expect(productsNear([5658, 5695, 5769], 9)).toEqual([]);
  });

  // A live-sound magazine, prosoundweb.com, "Understanding Wireless: RF Output Power" (read): 32 channels 15 872. Its 225
  // for eight is a slip: the formula gives 224, and so does counting them.
  test("32 carriers have 15 872, eight have 224", () => {
    expect([8, 32].map(thirdOrderCount)).toEqual([224, 15_872]);
    expect(thirdOrder(EIGHT)).toHaveLength(224);
  });

  test("a product never counts against a carrier of its own, and lies where its text says", () => {
    const carriers = fc.uniqueArray(fc.integer({ min: 5600, max: 5950 }), { minLength: 2, maxLength: 7 });
    fc.assert(
      fc.property(carriers, (list) => {
        for (const { mhz, from } of thirdOrder(list)) {
          const [a, b, c] = from.map((i) => list[i]!);
          expect(mhz).toBe(c === undefined ? 2 * a! - b! : a! + b! - c);
        }
        for (const { product, carrier } of productsNear(list, 9)) expect(product.from).not.toContain(carrier);
      }),
    );
  });

  // Computed from 18 MHz of width (common practice): neighbours 37 MHz apart are clear, 10 MHz apart share 8.
  test("overlap of two channels", () => {
    expect(overlapMhz(5732, 5769, ANALOGUE_WIDTH_MHZ)).toBe(0);
    expect(overlapMhz(5740, 5750, ANALOGUE_WIDTH_MHZ)).toBe(8);
    expect(edgesMhz(5732, ANALOGUE_WIDTH_MHZ)).toEqual({ fromMhz: 5723, toMhz: 5741 });
  });
});

describe("what a craft says", () => {
  test("a video transmitter against its region", () => {
    const text =
      "video\n  signal analogue\n  frequency 5.732 GHz\n  power 14 dBm\n  power-steps 25, 200 mW\n  region europe";
    const video = videoOf(...craftWith(text));
    expect(video).toMatchObject({ signal: "analogue", carrierMhz: 5732, place: "spills", stepsMw: [25, 200] });
    expect(video.powerMw).toBeCloseTo(25.12, 2);
    expect(video.most?.powerMw).toBe(25);
  });

  test("without a region nothing is judged", () => {
    expect(videoOf(...craftWith("video\n  frequency 5732 MHz"))).toMatchObject({ place: null, bands: [], most: null });
  });
});
