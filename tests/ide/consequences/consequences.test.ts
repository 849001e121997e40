/** What follows from a value, held to the sources named beside each check. */
import { describe, expect, test } from "vitest";
import { consequencesAt, follows } from "./follow.ts";

describe("pack", () => {
  test("capacity: the usable charge, how long it lasts, its energy and its current", () => {
    const said =
      "pack\n  chemistry lipo\n  cells 4\n  capacity 850| mAh\n  reserve 20 %\n  hover-current 12 A\n  full-current 60 A\n  discharge-rating 75 C";
    // Computed: 680 mAh are 2448 A s, so 204 s at 12 A; 4 x 3.7 V nominal.
    expect(follows(said)).toEqual([
      "850 mAh at 80 % is 680 mAh; 3 min 24 s at 12 A; 41 s at 60 A",
      "At 14.8 V nominal it holds 12.6 Wh",
      "75 C of 850 mAh is 63.8 A; the full current of 60 A is 94 % of that",
    ]);
    expect(consequencesAt(said)[0]).toMatchObject({
      from: ["pack.capacity", "pack.reserve", "pack.hover-current", "pack.full-current"],
      brief: "680 mAh usable",
    });
  });

  // Flying-club article (read): 80 % of 2600 mAh are 2080 mAh.
  test("without a reserve the usual share counts, and is named as such", () => {
    expect(follows("pack\n  capacity 2600| mAh")).toEqual([
      "2600 mAh at 80 % is 2080 mAh (80 % is usual; no reserve is set)",
    ]);
  });

  // EN 61434 (quoted): 5 Ah at 2C is 10 A.
  test("discharge rating", () => {
    expect(follows("pack\n  capacity 5 Ah\n  discharge-rating 2| C")).toEqual(["2 C of 5000 mAh is 10 A"]);
  });

  // Cell makers' summaries (read): a 2S pack is charged to 8.4 V; 4s2p of 3.6 V 2400 mAh cells has 14.4 V and 4800 mAh.
  test("cells: the chemistry's limit is used if the full voltage is not set", () => {
    expect(follows("pack\n  chemistry lipo\n  cells 2|")[0]).toBe(
      "Of 2 cells: full 8.4 V (4.2 V/cell, the limit of lipo)",
    );
    expect(follows("pack\n  chemistry li-ion\n  cells 4\n  parallel 2\n  capacity 4800| mAh")).toContain(
      "At 14.4 V nominal it holds 69.1 Wh",
    );
  });

  // TSA (read): spare packs in carry-on baggage up to 100 Wh. 6 x 3.7 V x 5 Ah is 111 Wh, computed.
  test("a pack that may not be carried on board", () => {
    expect(follows("pack\n  chemistry lipo\n  cells 6\n  capacity 5000| mAh")).toContain(
      "At 22.2 V nominal it holds 111 Wh, more than the 100 Wh of a spare pack in carry-on baggage (TSA)",
    );
  });

  test("thresholds: volts of the whole pack, and how far apart they are", () => {
    const pack = "pack\n  cells 6\n  full-at 4.2 V/cell\n  warn-at 3.5| V/cell\n  land-at 3.3 V/cell";
    expect(follows(pack)).toEqual([
      "The whole pack then has 21 V, with 6 cells in series",
      "From the warning to landing are 0.2 V a cell, 1.2 V on the pack",
    ]);
    expect(follows(pack.replace("|", "").replace("cells 6", "cells 6|"))).toEqual([
      "Of 6 cells: full 25.2 V, warn 21 V, land 19.8 V",
    ]);
  });

  test("charge that is given at a threshold: rested, or in the hover where current and resistance are said", () => {
    // The curve has 3.68 V at 80 % and 3.6 V at 90 %: a rested cell of 3.64 V lies half way (from memory, as there).
    expect(follows("pack\n  chemistry lipo\n  warn-at 3.64| V/cell")).toEqual([
      "A rested cell of 3.64 V has given about 85 % of its charge (a common discharge curve, from memory); under load it is reached earlier",
    ]);
    // 10 A through 14 mohm take 0.14 V off each cell, computed: 3.5 V are 3.64 V at rest.
    expect(
      follows(
        "pack\n  chemistry lipo\n  parallel 1\n  hover-current 10 A\n  cell-resistance 14 mohm\n  warn-at 3.5| V/cell",
      ),
    ).toEqual([
      "Reached in the hover once the pack has given about 85 % of its charge (a common discharge curve, from memory)",
    ]);
  });

  test("shares and charges", () => {
    expect(follows("pack\n  capacity 1000 mAh\n  hover-current 6 A\n  warn-after 70| %")).toEqual([
      "70 % of 1000 mAh is 700 mAh; 7 min at 6 A",
    ]);
    expect(follows("pack\n  capacity 1000 mAh\n  reserve 250| mAh")).toEqual([
      "250 mAh is 25 % of 1000 mAh, so that 750 mAh are there to be flown",
    ]);
  });

  test("a named pack uses its own values over the plain ones", () => {
    const packs = 'pack\n  cells 4\n  warn-at 3.5 V/cell\n\npack "long"\n  cells 6\n  warn-at 3.4| V/cell';
    expect(follows(packs)).toEqual(["The whole pack then has 20.4 V, with 6 cells in series"]);
    expect(follows('pack\n  hover-current 5 A\n\npack "long"\n  reserve 0 %\n  capacity 2000| mAh')).toEqual([
      "2000 mAh at 100 % is 2000 mAh; 24 min at 5 A",
    ]);
  });

  test("nothing follows from a line with an error, or if a figure is missing", () => {
    expect(follows("pack\n  cells 4\n  warn-at 3.5|")).toEqual([]);
    expect(follows("pack\n  cells detect\n  warn-at 3.5| V/cell")).toEqual([]);
  });
});

describe("meters", () => {
  // Maker's data (read): 3.0 V / 4096 = 732 uV, and 15k over 10k is 2.5 to 1: 1.83 mV a step and 7.5 V, computed.
  test("divider: full scale and step, naming the default that it rests on", () => {
    const divider = "pack\n  divider-top 15| kohm\n  divider-bottom 10 kohm\n  adc-reference 3.0 V";
    expect(follows(divider)).toEqual([
      "The volts are read up to 7.5 V, in steps of 1.83 mV (with adc-bits 12, as the catalogue supposes)",
    ]);
    expect(follows(`${divider}\n  adc-bits 12`)).toEqual(["The volts are read up to 7.5 V, in steps of 1.83 mV"]);
  });

  // Maker's example (read): 5 mohm, gain 20; 12 bits at 3.3 V is 8.06 mA a step; 20 A is 2 W. 33 A computed.
  test("shunt", () => {
    expect(
      follows("pack\n  full-current 20 A\n  shunt-gain 20\n  adc-bits 12\n  adc-reference 3.3 V\n  shunt 5| mohm"),
    ).toEqual([
      "The current is read up to 33 A, in steps of 8.06 mA",
      "At the full current of 20 A it turns 2 W into heat",
    ]);
  });

  // Computed: 16.2 V shown for 16.4 V is 1.2 % too low; 11 x 16.4 / 16.2 is 11.136 to 1.
  test("readings on the bench", () => {
    const bench =
      "pack\n  divider-top 10 kohm\n  divider-bottom 1 kohm\n\nbench\n  pack-volts-read 16.4 V\n  pack-volts-shown 16.2| V";
    expect(follows(bench)[0]).toContain("shows its volts 1.2 % too low: a divider-top of 10.14 kohm puts it right");
    expect(follows(bench.replace("16.2", "16.4"))).toEqual([
      "The craft shows its volts right to a thousandth: nothing is to be corrected",
    ]);
    // Far off, the line has a finding; beside the meter's own reading it is told here.
    const far = bench.replace("16.2|", "8.1|");
    expect(follows(far)).toEqual([]);
    expect(follows(far.replace("|", "").replace("16.4 V", "16.4| V"))[0]).toContain(
      "51 % too low: that is no matter of scale",
    );
    expect(follows("link\n  endpoints 1000 us to 2000 us\n\nbench\n  roll 1004 us to 2010| us")).toEqual([
      "The low end, 1000 us, is missed by 4 us, the high end, 2000 us, passed by 10 us",
    ]);
  });
});

describe("motors and loop", () => {
  // 5700 rpm/V x 11.1 V = 63 270 rpm (read). Ohio University ch. 14.3 (read): n = 120 f / p, so 14 poles see 7381.5 Hz, computed.
  test("kv: turns and electrical frequency", () => {
    expect(follows("pack\n  cells 3\n  full-at 3.7 V/cell\n\nmotors\n  poles 14\n  kv 5700| rpm/V")).toEqual([
      "At the full pack, 11.1 V: 63300 rpm without propellers, which take a good part of it; 1050 turns a second",
      "The windings then see 7382 Hz, with 14 poles",
    ]);
  });

  // TI MCT8316A (read): 8 poles give 4 electrical cycles a turn.
  test("poles", () => {
    expect(follows("motors\n  poles 8|")).toEqual(["4 electrical cycles a turn"]);
  });

  // Computed: 16 bits at 300 kbit/s are 53.3 us, and a round at 8 kHz has 125 us.
  test("command and round, with the default of the pause named", () => {
    const craft =
      "motors\n  esc-signal digital\n  esc-rate 300| kbit/s\n\nsensors\n  loop-rate 8 kHz\n  gyro-rate 8 kHz";
    expect(follows(craft)).toEqual([
      "One command with its pause takes 55.3 us, 44 % of a round of 125 us: 69.7 us are left (with esc-pause 2 us, as the catalogue supposes)",
    ]);
    expect(follows(craft.replace("esc-rate", "rpm-feedback yes\n  esc-rate"))).toEqual([
      "One command with its pause takes 55.3 us and the answer on the same wire 91.7 us, together 118 % of a round of 125 us: 22 us too long (with esc-pause 2 us, as the catalogue supposes)",
    ]);
    expect(follows(craft.replace("|", "").replace("gyro-rate 8", "gyro-rate 8|"))).toEqual([
      "A sample every 125 us",
      "1 sample of the gyro to a round",
    ]);
  });

  test("what each motor carries depends on their number", () => {
    expect(follows("frame\n  mass 400| g")).toEqual([
      "In the hover each motor carries 100 g (with motors 4, as the catalogue supposes)",
    ]);
    expect(follows("frame\n  motors 8\n  mass 400| g")).toEqual(["In the hover each motor carries 50 g"]);
  });
});

describe("filters", () => {
  // At 4 kHz, order 1 and 2 at 100 Hz: 1.588 and 2.246 ms (computed from the cookbook). Twice the cut is 2.0124 times it
  // once warped, tan(pi/20) / tan(pi/40): 1/sqrt(1 + 2.0124^2) = 44 %, -7.03 dB, and 1/sqrt(1 + 2.0124^4) = 24 %, computed.
  test("delay, what passes, and the sum of two", () => {
    const filters =
      "sensors\n  loop-rate 4 kHz\n\nfilters\n  smooth-gyro cut 100 Hz order 1\n  smooth-gyro cut 100 Hz order 2|";
    expect(follows(filters)).toEqual([
      "It delays slow movements by 2.2 ms, at a loop of 4 kHz",
      "It lets 24 % of 200 Hz through, -12.4 dB: twice its cut",
      "The whole chain delays by 3.8 ms for the gyro",
    ]);
    expect(follows(filters.replace("|", "").replace("order 1", "order 1|")).slice(0, 2)).toEqual([
      "It delays slow movements by 1.6 ms, at a loop of 4 kHz",
      "It lets 44 % of 200 Hz through, -7.03 dB: twice its cut",
    ]);
  });

  test("an order that is not set", () => {
    expect(follows("sensors\n  loop-rate 4 kHz\n\nfilters\n  smooth-gyro cut 100| Hz")[0]).toBe(
      "It delays slow movements by 1.6 ms, at a loop of 4 kHz (with order 1, as the catalogue supposes)",
    );
  });

  // Computed: edges with 40 Hz between them and 200 Hz as their geometric mean; width / (2 pi f²) is 0.159 ms.
  test("a notch", () => {
    expect(follows("sensors\n  loop-rate 8 kHz\n\nfilters\n  notch at 200 Hz width 40| Hz")).toEqual([
      "It delays slow movements by 0.16 ms, at a loop of 8 kHz",
      "It takes more than half the power from about 181 Hz to 221 Hz",
    ]);
  });

  test("without a loop rate nothing is said", () => {
    expect(follows("filters\n  smooth-gyro cut 100| Hz")).toEqual([]);
  });
});

describe("flight", () => {
  // Computed: 100·0.5 + 600·0.125 = 125 deg/s; 360 / 700 = 0.514 s; 100·0.769 + 600·0.769³ = 350.
  test("rates", () => {
    expect(follows("rates\n  roll slope 100 deg/s end 700| deg/s")).toEqual([
      "Half stick turns at 125 deg/s, full stick at 700 deg/s, a turn in 514 ms; half of that at 77 % of stick (with bend 3, as the catalogue supposes)",
    ]);
    expect(follows("rates\n  top-rate 125 deg/s\n  roll slope 100 deg/s end 700| deg/s bend 3")[0]).toContain(
      "full stick at 125 deg/s",
    );
    expect(follows("rates\n  roll slope 100 deg/s end 700 deg/s\n  top-rate 125| deg/s")).toEqual([
      "It limits roll from 50 % of stick on",
    ]);
  });

  test("the second set falls back on the first, field by field", () => {
    const sets = "rates\n  roll slope 100 deg/s end 700 deg/s bend 3\n\nrates-second\n  roll end 300| deg/s";
    expect(follows(sets)[0]).toContain("Half stick turns at 75 deg/s, full stick at 300 deg/s");
    expect(follows(sets)[0]).not.toContain("supposes");
  });

  test("throttle: what the stick gives, and where it hovers", () => {
    expect(follows("frame\n  hover-throttle 40 %\n\nrates\n  throttle-limit 80| %")).toEqual([
      "The stick at 25, 50, 75, 100 % gives 20, 40, 60, 80 % throttle",
      "It hovers, at 40 % throttle, with the stick at 50 %",
    ]);
  });

  test("arming", () => {
    expect(follows("link\n  endpoints 1000 us to 2000 us\n\nsafety\n  arm-throttle-limit 1050| us")).toEqual([
      "It is 5 % of the throttle stick, from 1000 us to 2000 us",
    ]);
  });

  test("a lost signal, from the last packet to the end", () => {
    const lost =
      "link\n  lost-after 500 ms\n\nfailsafe\n  hold-for 1| s\n  hold-with level\n  then stop\n  descend-for 9 s";
    expect(follows(lost)).toEqual([
      "After 500 ms without a packet the signal counts as lost, for 1 s it flies on level, with its throttle as it was, then the motors stop: 1.5 s in all",
    ]);
    expect(follows(lost.replace("stop", "descend"))[0]).toContain(
      "comes down for 9 s, and the motors stop: 11 s in all",
    );
    expect(follows(lost.replace("|", "").replace("9 s", "9| s"))).toEqual([
      "It has no effect: with `then stop` the motors stop at once",
    ]);
  });

  test("a failsafe that a receiver keeps from beginning promises nothing", () => {
    const lost = (onLoss: string) =>
      follows(`link\n  on-loss ${onLoss}\n  lost-after 500 ms\n\nfailsafe\n  hold-for 1 s\n  then stop|`);
    expect(lost("silent")[0]).toContain("then the motors stop: 1.5 s in all");
    expect(lost("hold")).toEqual([
      "Nothing of the failsafe begins: the receiver repeats what it heard last, and the board never learns of the loss",
    ]);
    expect(lost("preset")).toEqual([
      "To most boards the receiver's presets look like a live link, and then nothing of the failsafe begins",
    ]);
    expect(
      follows("link\n  lost-after 500 ms\n\nfailsafe\n  hold-for 1 s\n  then return|\n  then-without-fix stop"),
    ).toEqual([
      "After 500 ms without a packet the signal counts as lost, for 1 s it flies on, then it flies home, and without a fix the motors stop",
    ]);
  });

  test("a dial that adjusts", () => {
    const wheel = 'handset "Wheel"\n\ncontrols\n  KN dial ch9 1000 us to 2000 us\n';
    expect(
      follows('use "own.fettle"\n\nadjust\n  overall follows KN from 0.5 to 1.5|', { "own.fettle": wheel }),
    ).toEqual(["KN, from 1000 us to 2000 us, moves it by 1: 0.001 a us; in the middle it stands at 1"]);
  });
});

describe("radio and picture", () => {
  // 25 mW = 13.98 dBm and 100 mW = 20 dBm (computed); 47 CFR 18.301 (read): 5800 ± 75 and 2450 ± 50 MHz.
  test("powers and bands", () => {
    expect(follows("video\n  power 25| mW")).toEqual(["25 mW is 14 dBm"]);
    expect(follows("link\n  receiver-power 20| dBm")).toEqual(["20 dBm is 100 mW"]);
    expect(follows("video\n  power-steps 25 mW, 100| mW")).toEqual(["In dBm: 14, 20"]);
    expect(follows("video\n  frequency 5732| MHz\n  signal analogue")).toEqual([
      "An analogue signal is some 18 MHz wide: 5723 to 5741 MHz",
      "Its middle lies in the ISM band 5725 to 5875 MHz (47 CFR 18.301)",
    ]);
    expect(follows("video\n  frequency 5658| MHz")).toEqual(["No ISM band holds it"]);
    expect(follows("link\n  band 2.4| GHz")).toEqual(["It lies in the ISM band 2400 to 2500 MHz (47 CFR 18.301)"]);
  });

  // ERC/REC 70-03 annex 1 (memory): 25 mW; ETSI EN 300 440 (read): 5725-5875 MHz. 5732 - 9 spills over, practice.
  test("a region's own band and limit", () => {
    const video = "video\n  region europe\n  signal analogue\n  frequency 5732 MHz\n  power 200| mW";
    expect(follows(video)[1]).toMatch(/^The most for europe on this frequency is 25 mW, 14 dBm, radiated/);
    expect(follows(video.replace("|", "").replace("5732", "5732|"))[2]).toContain("and an edge of it spills over");
  });

  test("packets", () => {
    expect(follows("link\n  packet-rate 250| Hz\n  lost-after 300 ms\n\nsensors\n  loop-rate 4 kHz")).toEqual([
      "A packet every 4 ms; the loop goes round 16 times from one to the next",
      "The signal counts as lost after 75 missed packets in a row",
    ]);
  });

  // BKSTS Illustrated Dictionary (read): 90 % at 4:3; columns 2-27 and rows 1-14 of 30 x 16, computed.
  test("cells of an element, and what every screen shows", () => {
    const osd = "video\n  signal analogue\n\nosd\n  picture 4:3\n  grid pal|\n  pack-volts at right, bottom";
    expect(follows(osd)).toEqual([
      "480 cells: columns 0 to 29, rows 0 to 15",
      "Every screen shows columns 2 to 27 and rows 1 to 14: the middle 90 % of a 4:3 picture",
    ]);
    const lines = follows(osd.replace("|", "").replace("bottom", "bottom|"));
    expect(lines[0]).toMatch(/^Its widest text takes columns \d+ to 29, row 15 of 30 x 16, counted from 0$/);
    expect(lines[1]).toBe("That lies outside the 90 % of a 4:3 picture that every screen shows");
  });
});
