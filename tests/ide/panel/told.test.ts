/** What is told of dials that adjust, of positions, and of controls that do nothing: a craft in a few lines, and the words. */
import { describe, expect, test } from "vitest";
import { type Told, told } from "./told.ts";

const KN = "KN dial ch9 1000 us to 2000 us";
const FALLING = "KN dial ch9 2000 us to 1000 us";
const OVERALL = "adjust\n  overall follows KN from 0.85 to 1.15";

const cases: Readonly<Record<string, readonly (readonly [what: string, craft: Told, words: string])[]>> = {
  "a dial that adjusts": [
    [
      "nobody has set it",
      { controls: KN, sections: OVERALL },
      `Not armed. Nothing on. KN may stand anywhere: overall from 0.85 to 1.15.
KN  overall goes from 0.85 at 1000 us to 1.15 at 2000 us`,
    ],
    [
      "in the middle",
      { controls: KN, sections: OVERALL, at: { KN: 1500 } },
      `Not armed. Nothing on. KN sets overall to 1.
KN  overall is 1 here; it goes from 0.85 at 1000 us to 1.15 at 2000 us`,
    ],
    [
      "between",
      { controls: KN, sections: OVERALL, at: { KN: 1711 } },
      `Not armed. Nothing on. KN sets overall to 1.063.
KN  overall is 1.063 here; it goes from 0.85 at 1000 us to 1.15 at 2000 us`,
    ],
    [
      "at its first stop",
      { controls: KN, sections: OVERALL, at: { KN: 1000 } },
      `Not armed. Nothing on. KN sets overall to 0.85.
KN  overall is 0.85 here; it goes from 0.85 at 1000 us to 1.15 at 2000 us`,
    ],
    [
      "at its second stop",
      { controls: KN, sections: OVERALL, at: { KN: 2000 } },
      `Not armed. Nothing on. KN sets overall to 1.15.
KN  overall is 1.15 here; it goes from 0.85 at 1000 us to 1.15 at 2000 us`,
    ],
    [
      "beyond its stop: as if nobody had set it",
      { controls: KN, sections: OVERALL, at: { KN: 2400 } },
      `Not armed. Nothing on. KN may stand anywhere: overall from 0.85 to 1.15.
KN  overall goes from 0.85 at 1000 us to 1.15 at 2000 us`,
    ],
    [
      "with a unit",
      { controls: KN, sections: "adjust\n  throttle-limit follows KN from 60 % to 100 %", at: { KN: 1310 } },
      `Not armed. Nothing on. KN sets throttle-limit to 72.4 %.
KN  throttle-limit is 72.4 % here; it goes from 60 % at 1000 us to 100 % at 2000 us`,
    ],
    [
      "falling from its first stop to its second",
      { controls: KN, sections: "adjust\n  level-tilt follows KN from 55 deg to 25 deg", at: { KN: 1250 } },
      `Not armed. Nothing on. KN sets level-tilt to 47.5 deg.
KN  level-tilt is 47.5 deg here; it goes from 55 deg at 1000 us to 25 deg at 2000 us`,
    ],
    [
      "ends in two units of a family",
      { controls: KN, sections: "adjust\n  smooth-sticks follows KN from 20 Hz to 0.1 kHz", at: { KN: 1500 } },
      `Not armed. Nothing on. KN sets smooth-sticks to 0.06 kHz.
KN  smooth-sticks is 0.06 kHz here; it goes from 0.02 kHz at 1000 us to 0.1 kHz at 2000 us`,
    ],
    [
      "large numbers, without digits after the point",
      { controls: KN, sections: "adjust\n  top-rate follows KN from 500 deg/s to 900 deg/s", at: { KN: 1333 } },
      `Not armed. Nothing on. KN sets top-rate to 633 deg/s.
KN  top-rate is 633 deg/s here; it goes from 500 deg/s at 1000 us to 900 deg/s at 2000 us`,
    ],
    [
      "both ends alike",
      { controls: KN, sections: "adjust\n  overall follows KN from 1 to 1", at: { KN: 1333 } },
      `Not armed. Nothing on. KN sets overall to 1.
KN  overall is 1 here; it goes from 1 at 1000 us to 1 at 2000 us`,
    ],
  ],
  "dials of all kinds": [
    [
      "reversed: the first value belongs to its first stop",
      { controls: FALLING, sections: OVERALL, at: { KN: 2000 } },
      `Not armed. Nothing on. KN sets overall to 0.85.
KN  reversed: 2000 us at its first stop
KN  overall is 0.85 here; it goes from 0.85 at 2000 us to 1.15 at 1000 us`,
    ],
    [
      "reversed, between",
      { controls: FALLING, sections: OVERALL, at: { KN: 1250 } },
      `Not armed. Nothing on. KN sets overall to 1.075.
KN  reversed: 2000 us at its first stop
KN  overall is 1.075 here; it goes from 0.85 at 2000 us to 1.15 at 1000 us`,
    ],
    [
      "of a part of the range",
      { controls: "KN dial ch9 1200 us to 1700 us", sections: OVERALL, at: { KN: 1450 } },
      `Not armed. Nothing on. KN sets overall to 1.
KN  overall is 1 here; it goes from 0.85 at 1200 us to 1.15 at 1700 us`,
    ],
    [
      "of a part of the range, reversed, at its end",
      { controls: "KN dial ch9 1700 us to 1200 us", sections: OVERALL, at: { KN: 1200 } },
      `Not armed. Nothing on. KN sets overall to 1.15.
KN  reversed: 1700 us at its first stop
KN  overall is 1.15 here; it goes from 0.85 at 1700 us to 1.15 at 1200 us`,
    ],
    [
      "wider than the link's end points",
      { controls: "KN dial ch9 988 us to 2012 us", sections: OVERALL, at: { KN: 988 } },
      `Not armed. Nothing on. KN sets overall to 0.85.
KN  overall is 0.85 here; it goes from 0.85 at 988 us to 1.15 at 2012 us`,
    ],
    [
      "that adjusts and turns on a mode",
      {
        controls: KN,
        sections: "modes\n  lights when KN above 1700 us\n\nadjust\n  overall follows KN from 0.85 to 1.15",
        at: { KN: 1800 },
      },
      `Not armed. Lights on. KN sets overall to 1.09.
KN  1000 to 1700 us: turns no mode on
KN  1701 to 2000 us, here now: lights on now
KN  overall is 1.09 here; it goes from 0.85 at 1000 us to 1.15 at 2000 us`,
    ],
    [
      "spans that touch",
      {
        controls: KN,
        sections: "modes\n  lights when KN in 1000 to 1500 us\n  finder when KN in 1501 to 2000 us",
        at: { KN: 1500 },
      },
      `Not armed. Lights on.
KN  1000 to 1500 us, here now: lights on now
KN  1501 to 2000 us: can turn on finder`,
    ],
    [
      "spans that share a bound: both are on there",
      {
        controls: KN,
        sections: "modes\n  lights when KN in 1000 to 1500 us\n  video-low when KN in 1500 to 2000 us",
        at: { KN: 1500 },
      },
      `Not armed. Lights and video-low on.
KN  1000 to 1499 us: can turn on lights
KN  1500 to 1500 us, here now: lights and video-low on now
KN  1501 to 2000 us: can turn on video-low`,
    ],
    [
      "reversed, with spans",
      { controls: FALLING, sections: "modes\n  lights when KN above 1700 us", at: { KN: 1800 } },
      `Not armed. Lights on.
KN  reversed: 2000 us at its first stop
KN  2000 to 1701 us, here now: lights on now
KN  1700 to 1000 us: turns nothing on`,
    ],
    [
      "not set, with spans: nothing is here now",
      { controls: KN, sections: "modes\n  lights when KN above 1700 us" },
      `Not armed. Nothing is surely on. Lights on or off, as what is not set here decides.
KN  1000 to 1700 us: turns nothing on
KN  1701 to 2000 us: can turn on lights`,
    ],
    [
      "named by its channel",
      {
        controls: KN,
        sections: `outputs\n  # the lamp\n  lamp when ch9 above 1500 us\n\n${OVERALL}`,
        at: { KN: 1600 },
      },
      `Not armed. Lamp on. KN sets overall to 1.03.
KN  1000 to 1500 us: turns no mode on
KN  1501 to 2000 us, here now: lamp on now
KN  overall is 1.03 here; it goes from 0.85 at 1000 us to 1.15 at 2000 us`,
    ],
  ],
  "several lines": [
    [
      "two settings on one dial",
      {
        controls: KN,
        sections: "adjust\n  overall follows KN from 0.85 to 1.15\n  throttle-limit follows KN from 100 % to 60 %",
        at: { KN: 1500 },
      },
      `Not armed. Nothing on. KN sets overall to 1 and throttle-limit to 80 %.
KN  overall is 1 here; it goes from 0.85 at 1000 us to 1.15 at 2000 us
KN  throttle-limit is 80 % here; it goes from 100 % at 1000 us to 60 % at 2000 us`,
    ],
    [
      "two dials, one of them set",
      {
        controls: `${KN}\nKM dial ch10 1000 us to 2000 us`,
        sections: "adjust\n  overall follows KN from 0.85 to 1.15\n  level-tilt follows KM from 25 deg to 55 deg",
        at: { KM: 2000 },
      },
      `Not armed. Nothing on. KN may stand anywhere: overall from 0.85 to 1.15. KM sets level-tilt to 55 deg.
KN  overall goes from 0.85 at 1000 us to 1.15 at 2000 us
KM  level-tilt is 55 deg here; it goes from 25 deg at 1000 us to 55 deg at 2000 us`,
    ],
    [
      "one setting twice: the later line counts",
      {
        controls: `${KN}\nKM dial ch10 1000 us to 2000 us`,
        sections: "adjust\n  overall follows KN from 0.85 to 1.15\n  overall follows KM from 0.9 to 1.1",
        at: { KN: 1500, KM: 1500 },
      },
      `Not armed. Nothing on. KM sets overall to 1.
KN  nothing in this craft depends on it
KM  overall is 1 here; it goes from 0.9 at 1000 us to 1.1 at 2000 us`,
    ],
    [
      "from a layer",
      {
        controls: KN,
        sections: "",
        more: { "habits.fettle": `layer "Habits"\n\n${OVERALL}\n` },
        at: { KN: 1500 },
      },
      `Not armed. Nothing on. KN sets overall to 1.
KN  overall is 1 here; it goes from 0.85 at 1000 us to 1.15 at 2000 us`,
    ],
    [
      "the craft over its layer",
      {
        controls: KN,
        sections: "adjust\n  overall follows KN from 0.9 to 1",
        more: { "habits.fettle": `layer "Habits"\n\n${OVERALL}\n` },
        at: { KN: 1500 },
      },
      `Not armed. Nothing on. KN sets overall to 0.95.
KN  overall is 0.95 here; it goes from 0.9 at 1000 us to 1 at 2000 us`,
    ],
    [
      "dropped",
      {
        controls: KN,
        sections: "adjust\n  drop overall",
        more: { "habits.fettle": `layer "Habits"\n\n${OVERALL}\n` },
        at: { KN: 1500 },
      },
      `Not armed. Nothing on.
KN  nothing in this craft depends on it`,
    ],
    [
      "the craft restates the control",
      { controls: KN, sections: `controls\n  KN dial ch9 2000 us to 1000 us\n\n${OVERALL}`, at: { KN: 2000 } },
      `Not armed. Nothing on. KN sets overall to 0.85.
KN  reversed: 2000 us at its first stop
KN  overall is 0.85 here; it goes from 0.85 at 2000 us to 1.15 at 1000 us`,
    ],
  ],
  "second sets": [
    [
      "one that falls back to the first",
      {
        controls: `${KN}\nTR switch ch6 up 1000 us down 2000 us`,
        sections: `modes\n  gains-second when TR is down\n\ngains-second\n  roll p 40\n\n${OVERALL}`,
        at: { KN: 1500, TR: "down" },
      },
      `Not armed. Gains-second on. KN sets overall to 1.
KN  overall is 1 here; it goes from 0.85 at 1000 us to 1.15 at 2000 us
TR  up, at rest: turns nothing on
TR  down, here now: gains-second on now`,
    ],
    [
      "one that has the setting itself, and is on",
      {
        controls: `${KN}\nTR switch ch6 up 1000 us down 2000 us`,
        sections: `modes\n  gains-second when TR is down\n\ngains-second\n  overall 0.8\n\n${OVERALL}`,
        at: { KN: 1500, TR: "down" },
      },
      `Not armed. Gains-second on. KN sets overall to 1. Gains-second has its own overall: whether KN moves that too is not said.
KN  overall is 1 here; it goes from 0.85 at 1000 us to 1.15 at 2000 us; gains-second has its own
TR  up, at rest: turns nothing on
TR  down, here now: gains-second on now`,
    ],
    [
      "one that has it itself, and is off",
      {
        controls: `${KN}\nTR switch ch6 up 1000 us down 2000 us`,
        sections: `modes\n  rates-second when TR is down\n\nrates-second\n  throttle-limit 80 %\n\nadjust\n  throttle-limit follows KN from 60 % to 100 %`,
        at: { KN: 1500 },
      },
      `Not armed. Nothing on. KN sets throttle-limit to 80 %.
KN  throttle-limit is 80 % here; it goes from 60 % at 1000 us to 100 % at 2000 us; rates-second has its own
TR  up, at rest, here now: turns nothing on
TR  down: can turn on rates-second`,
    ],
  ],
  "switches, selectors, buttons": [
    [
      "a switch that a setting is to follow: no dial, so it moves nothing",
      { controls: "TR switch ch6 up 1000 us down 2000 us", sections: "adjust\n  overall follows TR from 0.85 to 1.15" },
      `Not armed. Nothing on.
TR  overall does not follow it: only a dial moves a setting, and this is a switch`,
    ],
    [
      "what is on, and what another control still has to allow",
      {
        controls: "TR switch ch6 up 1000 us down 2000 us",
        sections: "modes\n  level when TR is down\n  recorder when TR is down and TL is down",
        at: { TR: "down" },
      },
      `Not armed. Level on.
TR  up, at rest: turns nothing on
TR  down, here now: level on now; can turn on recorder`,
    ],
    [
      "on or off, as a dial decides that nobody has set",
      {
        controls: `TR switch ch6 up 1000 us down 2000 us\n${KN}`,
        sections: "modes\n  level when TR is down and KN above 1500 us",
        at: { TR: "down" },
      },
      `Not armed. Nothing is surely on. Level on or off, as what is not set here decides.
TR  up, at rest: turns nothing on
TR  down, here now: level on or off
KN  1000 to 1500 us: turns nothing on
KN  1501 to 2000 us: can turn on level`,
    ],
    [
      "an output is something",
      {
        controls: "PB button ch7 rest 1000 us held 2000 us",
        sections: "outputs\n  lamp when PB is held",
        at: { PB: "held" },
      },
      `Not armed. Lamp on.
PB  rest, at rest: turns nothing on
PB  held, here now: lamp on now`,
    ],
    [
      "a selector with sixteen positions that nothing depends on",
      {
        controls: `SX selector ch8 ${Array.from({ length: 16 }, (_, i) => `p${i + 1} ${1000 + 60 * i} us`).join(" ")}`,
        sections: "",
      },
      `Not armed. Nothing on.
SX  nothing in this craft depends on it`,
    ],
    [
      "a selector with sixteen positions, one in use",
      {
        controls: `SX selector ch8 ${Array.from({ length: 16 }, (_, i) => `p${i + 1} ${1000 + 60 * i} us`).join(" ")}`,
        sections: "modes\n  finder when SX is p16",
        at: { SX: "p16" },
      },
      `Not armed. Finder on.
SX  p1, at rest: turns nothing on
${Array.from({ length: 14 }, (_, i) => `SX  p${i + 2}: turns nothing on`).join("\n")}
SX  p16, here now: finder on now`,
    ],
    [
      "a position of a two-level channel arrives as one of the ends",
      {
        controls: "TR switch ch6 up 1000 us mid 1500 us down 2000 us",
        sections: "link\n  two-level 6\n\nmodes\n  level when TR is down",
        at: { TR: "mid" },
      },
      `Not armed. Nothing is surely on. Level on or off, as what is not set here decides.
TR  up, at rest: turns nothing on
TR  mid, here now: level on or off; arrives as one of its neighbours, as ch6 carries two levels
TR  down: can turn on level`,
    ],
    [
      "the second page of the goggles is something",
      {
        controls: "TR switch ch6 up 1000 us down 2000 us",
        sections: "modes\n  osd-second when TR is down\n\nosd-second\n  alerts at 1, 1",
      },
      `Not armed. Nothing on.
TR  up, at rest, here now: turns nothing on
TR  down: can turn on osd-second`,
    ],
  ],
  "what is not known": [
    [
      "a line of a mode with a fault: no control is said to do nothing",
      { controls: "TR switch ch6 up 1000 us down 2000 us", sections: "modes\n  level when TR is dwon" },
      `Not armed. Nothing is surely on. Not known, since a line behind it has a fault: level.
TR  nothing that is known depends on it`,
    ],
    [
      "a line of adjust with a fault",
      { controls: KN, sections: "adjust\n  overall follows KN from 0.85" },
      `Not armed. Nothing on. What overall follows is not known, since its line has a fault.
KN  nothing that is known depends on it`,
    ],
    [
      "a faulty mode beside a dial that adjusts",
      { controls: KN, sections: `modes\n  level when KN obove 1500 us\n\n${OVERALL}`, at: { KN: 1500 } },
      `Not armed. Nothing is surely on. Not known, since a line behind it has a fault: level. KN sets overall to 1.
KN  overall is 1 here; it goes from 0.85 at 1000 us to 1.15 at 2000 us`,
    ],
    [
      "a setting that follows a control which is not there",
      { controls: KN, sections: "adjust\n  overall follows KM from 0.85 to 1.15" },
      `Not armed. Nothing on.
KN  nothing in this craft depends on it`,
    ],
  ],
};

describe.each(Object.entries(cases))("%s", (_, all) => {
  test.each(all)("%s", (_, craft, words) => {
    expect(told(craft)).toBe(words);
  });
});
