/** Answers as JSON holds them, and the lines of the controls that they give, or the problem. */
import { describe, expect, test } from "vitest";
import { made, WHEEL } from "./handset-made.ts";

const numbers = (count: number) => Array.from({ length: count }, (_, i) => i + 1);
const one = (control: object, more: object = {}) => ({ name: "Kiln", controls: [control], ...more });

/** The lines of the section “controls”, with one blank between words. */
const controlsOf = (text: string) =>
  (text.split("\ncontrols\n")[1] ?? "")
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => line.trim().replace(/ +/g, " "));

describe("sound answers, of which nothing is found", () => {
  test.each<[string, unknown, string[]]>([
    ["all usual: one switch", { controls: [{}] }, ["S1 switch ch5 up 1000 us down 2000 us"]],
    [
      "a switch with two positions, said in words",
      one({ name: "TL", positions: "up, down", lies: "left shoulder" }),
      ["TL switch ch5 up 1000 us down 2000 us lies left shoulder"],
    ],
    [
      "three positions",
      one({ name: "TR", positions: "up, mid, down", rest: "mid" }),
      ["TR switch ch5 up 1000 us mid 1500 us down 2000 us rests mid"],
    ],
    [
      "positions with pulses, with units and without",
      one({ name: "TR", positions: "back 988 us, front 2012" }),
      ["TR switch ch5 back 988 us front 2012 us"],
    ],
    [
      "positions as data",
      one({
        positions: [
          { name: "up", pulseUs: 1100 },
          { name: "down", pulseUs: 1900 },
        ],
        channel: 7,
      }),
      ["S1 switch ch7 up 1100 us down 1900 us"],
    ],
    [
      "positions as names",
      one({ positions: ["in", "out"].map((each) => `${each}-side`) }),
      ["S1 switch ch5 in-side 1000 us out-side 2000 us"],
    ],
    [
      "a switch with four positions is a selector",
      one({ name: "SA", kind: "switch", positions: "a, b, c, d" }),
      ["SA selector ch5 a 1000 us b 1333 us c 1667 us d 2000 us"],
    ],
    [
      "a selector of six, by their number",
      one({ kind: "selector", positions: "6" }),
      ["X1 selector ch5 one 1000 us two 1200 us three 1400 us four 1600 us five 1800 us six 2000 us"],
    ],
    [
      "a selector of sixteen",
      one({ kind: "selector", positions: 16 }),
      [
        "X1 selector ch5 one 1000 us two 1067 us three 1133 us four 1200 us five 1267 us six 1333 us seven 1400 us eight 1467 us nine 1533 us ten 1600 us eleven 1667 us twelve 1733 us thirteen 1800 us fourteen 1867 us fifteen 1933 us sixteen 2000 us",
      ],
    ],
    [
      "positions by their pulses, and other words for the same",
      one({ positions: { up: 1000, mid: "1.5 ms", down: 2000 }, rests: "down" }),
      ["S1 switch ch5 up 1000 us mid 1500 us down 2000 us rests down"],
    ],
    [
      "the stops of a dial one by one",
      one({ kind: "dial", fromUs: 1900, toUs: 1100 }),
      ["D1 dial ch5 1900 us to 1100 us"],
    ],
    ["a button", one({ kind: "button", name: "PB" }), ["# springs back", "PB button ch5 rest 1000 us held 2000 us"]],
    [
      "a button that stays in is a switch",
      one({ kind: "latched-button", name: "PB" }),
      ["# a button that stays in until it is pressed again", "PB switch ch5 released 1000 us pressed 2000 us"],
    ],
    ["a dial", one({ kind: "dial", name: "KN" }), ["KN dial ch5 1000 us to 2000 us"]],
    ["a dial that is reversed", one({ kind: "dial", range: "2000 us to 1000 us" }), ["D1 dial ch5 2000 us to 1000 us"]],
    ["a dial over part of the scale", one({ kind: "dial", range: "1200-1800" }), ["D1 dial ch5 1200 us to 1800 us"]],
    ["a dial in milliseconds", one({ kind: "dial", range: "1 ms to 2 ms" }), ["D1 dial ch5 1000 us to 2000 us"]],
    [
      "names with odd letters",
      one({ name: "  schalter ö 1", positions: "Über, unten!" }),
      ["SchalterO1 switch ch5 uber 1000 us unten 2000 us"],
    ],
    ["a short name in small letters", one({ name: "sa" }), ["SA switch ch5 up 1000 us down 2000 us"]],
    ["positions that are numbers", one({ positions: "1, 2, 3" }), ["S1 switch ch5 p1 1000 us p2 1500 us p3 2000 us"]],
    [
      "channels count on from the highest free",
      { controls: [{ channel: "ch6" }, {}, {}] },
      [
        "S1 switch ch6 up 1000 us down 2000 us",
        "S2 switch ch5 up 1000 us down 2000 us",
        "S3 switch ch7 up 1000 us down 2000 us",
      ],
    ],
    ["channel sixteen", one({ channel: 16 }), ["S1 switch ch16 up 1000 us down 2000 us"]],
    [
      "twelve controls fill the channels up to sixteen",
      { controls: numbers(12).map(() => ({ kind: "dial" })) },
      numbers(12).map((i) => `D${i} dial ch${i + 4} 1000 us to 2000 us`),
    ],
    [
      "a channel beyond sixteen",
      one({ channel: 18 }),
      ["# beyond channel 16: many links do not carry it", "S1 switch ch18 up 1000 us down 2000 us"],
    ],
    [
      "usual pulses follow the measured ends",
      one({ positions: "up, mid, down" }, { travel: "988 us to 2012 us" }),
      ["S1 switch ch5 up 988 us mid 1500 us down 2012 us"],
    ],
    [
      "copied from another handset, with its notes",
      { "as-on": "copy handsets/wheel.fettle" },
      [
        "# arms, and nothing else",
        "TL switch ch5 up 1000 us down 2000 us lies left shoulder",
        "# the craft's attitude",
        "TR switch ch6 up 1000 us mid 1500 us down 2000 us",
        "KN dial ch9 2000 us to 1000 us lies middle",
      ],
    ],
    [
      "some of another handset's, and one more on the next free channel",
      { "as-on": "copy handsets/wheel.fettle", keep: ["TL", "KN"], controls: [{ kind: "button" }] },
      [
        "# arms, and nothing else",
        "TL switch ch5 up 1000 us down 2000 us lies left shoulder",
        "KN dial ch9 2000 us to 1000 us lies middle",
        "# springs back",
        "B1 button ch6 rest 1000 us held 2000 us",
      ],
    ],
    [
      "another handset in use, and one control more",
      { "as-on": "use handsets/wheel.fettle", controls: [{ lies: "right back" }] },
      ["S1 switch ch7 up 1000 us down 2000 us lies right back"],
    ],
    [
      "a control of the used handset said anew keeps its channel",
      { "as-on": "use handsets/wheel.fettle", controls: [{ name: "TR", positions: 2 }] },
      ["# in place of the TR of the used handset", "TR switch ch6 up 1000 us down 2000 us"],
    ],
    [
      "or changes it, and its kind",
      { "as-on": "use handsets/wheel.fettle", controls: [{ name: "TL", kind: "button", channel: 12 }, { channel: 5 }] },
      [
        "# in place of the TL of the used handset; springs back",
        "TL button ch12 rest 1000 us held 2000 us",
        "S1 switch ch5 up 1000 us down 2000 us",
      ],
    ],
    ["another handset in use, and nothing more", { "as-on": "use handsets/wheel.fettle" }, []],
    ["a place on one side", one({ lies: "middle" }), ["S1 switch ch5 up 1000 us down 2000 us lies middle"]],
    ["a power that few modules have", one({}, { power: "0.5 mW" }), ["S1 switch ch5 up 1000 us down 2000 us"]],
    ["a power in dBm", one({}, { power: "20 dBm" }), ["S1 switch ch5 up 1000 us down 2000 us"]],
    ["a name with quotes in it", one({}, { name: 'The "old" \\ one' }), ["S1 switch ch5 up 1000 us down 2000 us"]],
  ])("%s", (_, given, expected) => {
    const { problem, text, findings } = made(given);
    expect({ problem, findings, controls: controlsOf(text) }).toEqual({
      problem: null,
      findings: [],
      controls: expected,
    });
  });
});

describe("answers that are refused, with the reason", () => {
  test.each<[string, unknown, string]>([
    [
      "two controls on one channel",
      {
        controls: [
          { name: "A", channel: 6 },
          { name: "B", channel: 6 },
        ],
      },
      "control-2.channel: ch6 is A's already. The next free one is ch5.",
    ],
    [
      "a channel that another handset's control has",
      { "as-on": "use handsets/wheel.fettle", controls: [{ channel: 5 }] },
      "control-1.channel: ch5 is TL's already. The next free one is ch7.",
    ],
    [
      "a stick's channel",
      one({ channel: 3 }),
      "control-1.channel: Channels 1 to 4 carry the sticks, so a control takes channel 5 or one above it.",
    ],
    ["no channel", one({ channel: "five" }), "control-1.channel: “five” is no channel: write its number, as in ch5."],
    ["a channel that no link has", one({ channel: 99 }), "control-1.channel: No link carries more than 64 channels."],
    [
      "one name twice",
      { controls: [{ name: "TL" }, { name: "TL" }] },
      "control-2.name: There is a control TL already: give this one another name.",
    ],
    [
      "no letter in a name",
      one({ name: "42" }),
      "control-1.name: A control's name begins with a letter, as in TL or K1.",
    ],
    ["one position", one({ positions: "up" }), "control-1.positions: A switch has 2 or 3 positions; this is 1."],
    [
      "seventeen positions",
      one({ kind: "selector", positions: 17 }),
      "control-1.positions: A selector has 2 to 16 positions; this is 17.",
    ],
    [
      "a button with three",
      one({ kind: "button", positions: "a, b, c" }),
      "control-1.positions: A button has 2 positions, at rest and held; this is 3.",
    ],
    [
      "equal pulses",
      one({ positions: "up 1000 us down 1000 us" }),
      "control-1.positions: “up” and “down” have the same pulse, 1000 us: the craft could not tell them apart.",
    ],
    [
      "equal names",
      one({ positions: "up, Up" }),
      "control-1.positions: There are two positions “up”: each needs a name of its own.",
    ],
    [
      "a word of the language",
      one({ positions: "on, at" }),
      "control-1.positions: No position may be called “at”: the language uses the word. Give it another name.",
    ],
    [
      "the symbol of a unit",
      one({ positions: "min 1000 us max 2000 us" }),
      "control-1.positions: No position may be called “min”: the language uses the word. Give it another name.",
    ],
    [
      "a pulse beyond reason",
      one({ positions: "up 100 us down 2000 us" }),
      "control-1.positions: 100 us is no pulse of the trade: they lie between 500 us and 2500 us.",
    ],
    ["a rest that it has not", one({ rest: "mid" }), "control-1.rest: “mid” is no answer: one of up, down."],
    [
      "nowhere",
      one({ lies: "top left" }),
      "control-1.lies: “top left” is no answer: one of not-said, left shoulder, right shoulder, left face, right face, left back, right back, middle shoulder, middle face, middle back, left, right, middle.",
    ],
    [
      "a dial that does not turn",
      one({ kind: "dial", range: "1500 us to 1500 us" }),
      "control-1.range: A dial that goes from a pulse to the same pulse does nothing: say both of its stops.",
    ],
    [
      "no kind",
      one({ kind: "lever" }),
      "control-1.kind: “lever” is no answer: one of switch, selector, button, latched-button, dial.",
    ],
    [
      "no control at all",
      { name: "Kiln" },
      'controls: a handset needs at least one control, as in {"controls": [{"name": "TL", "kind": "switch"}]}',
    ],
    ["an unknown answer", { nam: "Kiln", controls: [{}] }, "no question is called “nam”: did you mean name?"],
    ["an unknown part of a control", one({ chanel: 5 }), "controls: a control has no “chanel”: did you mean channel?"],
    ["no list of controls", { controls: "TL" }, 'controls: this is a list, as in [{"name": "TL", "kind": "switch"}]'],
    [
      "no answers at all",
      [],
      'the answers are one JSON object, as in {"name": "Wheel", "controls": [{"name": "TL", "kind": "switch"}]}',
    ],
    [
      "a handset that is not there",
      { "as-on": "copy handsets/gone.fettle" },
      "as-on: “copy handsets/gone.fettle” is no answer: one of none, copy handsets/wheel.fettle, use handsets/wheel.fettle.",
    ],
    [
      "a band that no link has",
      one({}, { band: "fast" }),
      "band: “fast” is no answer: one of 2.4-ghz, 868-mhz, 915-mhz, 433-mhz, not-known, or one of your own, as in 2.4 GHz.",
    ],
    [
      "power without a unit of power",
      one({}, { power: "3 V" }),
      "power: “3 V” is no answer: one of 25-mw, 100-mw, 250-mw, 500-mw, 1000-mw, not-known, or one of your own, as in 100 mW.",
    ],
    [
      "an order that leaves a stick out",
      one({}, { order: "roll pitch yaw" }),
      "order: “roll pitch yaw” is no answer: one of not-known, roll pitch throttle yaw, throttle roll pitch yaw, or one of your own, as in roll pitch yaw throttle.",
    ],
    [
      "ends in the wrong order",
      one({}, { travel: "2000 us to 1000 us" }),
      "travel: “2000 us to 1000 us” is no answer: one of not-measured, 1000 us to 2000 us, 988 us to 2012 us, or one of your own, as in 990 us to 2010 us.",
    ],
    [
      "positions of a dial, which it has not",
      one({ kind: "Dial", positions: "up, down" }),
      'control-1.positions: a dial has no positions and rests anywhere: give the pulses at its stops, as in "range": "1000 us to 2000 us"',
    ],
    [
      "a rest of a dial",
      one({ kind: "dial", rests: "up" }),
      'control-1.rests: a dial has no positions and rests anywhere: give the pulses at its stops, as in "range": "1000 us to 2000 us"',
    ],
    [
      "the range of a switch",
      one({ name: "TL", pulses: "988 us to 2012 us" }),
      'control-1.pulses: only a dial has a range: give the positions, as in "positions": "up 1000 us, down 2000 us"',
    ],
    [
      "a control of the used handset said anew on the channel of another",
      { "as-on": "use handsets/wheel.fettle", controls: [{ name: "TR", channel: 5 }] },
      "control-1.channel: ch5 is TL's already. The next free one is ch6.",
    ],
    [
      "or twice",
      { "as-on": "use handsets/wheel.fettle", controls: [{ name: "TR" }, { name: "TR" }] },
      "control-2.name: There is a control TR already: give this one another name.",
    ],
    [
      "a mode of the sticks that there is not",
      one({}, { "stick-mode": 5 }),
      "stick-mode: “5” is no answer: one of 1, 2, 3, 4, not-known.",
    ],
    ["an empty name", one({}, { name: " " }), "name: a handset needs a name"],
  ])("%s", (_, given, expected) => expect(made(given).problem).toBe(expected));
});

test("a whole file, and what is to be done next", () => {
  const { text, next, findings } = made({
    name: "Kiln",
    band: "868.3 MHz",
    power: "25-mw",
    "stick-mode": 2,
    order: "throttle roll pitch yaw",
    travel: "990 us to 2010 us",
    controls: [
      { name: "TL", lies: "left shoulder" },
      { name: "KN", kind: "dial", channel: 10, lies: "middle" },
    ],
  });
  expect(findings).toEqual([]);
  expect(text).toBe(`# Made from a few questions: try every control on the bench before you trust this. Propellers off.
handset "Kiln"

transmitter
  band        868.3 MHz
  power       25 mW  # how much may be sent is a matter of local law
  stick-mode  2
  travel      990 us to 2010 us

# Channels 1 to 4 carry the sticks: throttle roll pitch yaw. A craft says so in its link.
controls
  TL  switch  ch5   up 990 us  down 2010 us  lies left shoulder
  KN  dial    ch10  990 us to 2010 us  lies middle
`);
  expect(next).toEqual([
    "In each craft, or in a layer that they share, the section “link” says the order of the sticks: order throttle roll pitch yaw.",
    "Move each control with the propellers off, and see that it does what the script says.",
  ]);
});

test("what is not known is left to be filled in", () => {
  const { text, findings } = made({ name: "Kiln", band: "not-known", controls: [{ name: "TL" }] });
  expect(findings).toEqual([]);
  expect(text).toContain(
    "\ntransmitter\n  # As printed on the module, without the #:\n  # band   2.4 GHz\n  # power  100 mW\n\ncontrols\n",
  );
});

test("a handset that uses another says only what differs", () => {
  const { text, findings } = made({
    name: "Kiln",
    "as-on": "use handsets/wheel.fettle",
    band: "2.4-ghz",
    power: "250 mW",
    "stick-mode": "2",
  });
  expect(findings).toEqual([]);
  expect(text).toContain('handset "Kiln"\n\nuse "wheel.fettle"\n\ntransmitter\n  power  250 mW');
  expect(text).not.toContain("band");
  expect(text).not.toContain("controls\n");
});

test("the other handset's band and power are the usual ones", () => {
  const slow = WHEEL.replace("2.4 GHz", "868 MHz").replace("100 mW", "25 mW");
  const { text } = made({ "as-on": "copy handsets/wheel.fettle" }, { "handsets/wheel.fettle": slow });
  expect(text).toContain("  band        868 MHz\n  power       25 mW");
});
