/**
 * The steps of “A dialect in half an hour”, as data: what is typed, and what is seen then. A test types them one after
 * another, so a beginner can follow them word for word.
 */

export interface GuideStep {
  readonly title: string;
  /** Why, in plain words; Markdown. */
  readonly before: string;
  /** The section below which the lines are typed, behind those that it has. */
  readonly section: string;
  /** Typed lines, without their indent. */
  readonly lines: readonly string[];
  /** Lines of an earlier step that these replace. */
  readonly replaces: readonly string[];
  /** How many lines of the board's text are read, odd, kept and idle then. */
  readonly sees: readonly [read: number, odd: number, kept: number, idle: number];
  /** One line of the board and what it says then; null where the step is about no line. */
  readonly says: readonly [board: string, meaning: string] | null;
  /** What there is to know of it; Markdown, may be empty. */
  readonly after: string;
}

/** The text of a board that nobody knows yet. */
export const MILL_TEXT = `~ mill log, third wheel
~ saved on a Tuesday
grain 1100
stones 6
sluice 70 shuts 66
idle 45
rest 20
hum 180 wide 40
flag volts 3/17
flag amps 11/17
turns roll 200 600
turns pitch 200 600
turns yaw 150 400
gate 1 A on 0 90-120
gate 2 B on 1 50-90
gate 3 - on 0 0-0
gate 4 - on 0 0-0
miller sleeps at noon
`;

/** The handset with which it is read. */
export const MILL_WHEEL = `handset "Wheel"

controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
`;

export const MILL_HEADER = 'dialect "Mill"';

export const guideSteps: readonly GuideStep[] = [
  step({
    title: "Say how the text is known, and what its comments are",
    before:
      "Two lines of the text begin with `~`: they are comments. The first has words that stand in every text of this board, so by them the text can be known.",
    section: "text",
    lines: ['known-by  "mill log"', 'comment   "~"'],
    sees: [0, 0, 16, 2],
    says: null,
    after: "Idle are the two comments. All others are kept: nothing is lost, whatever you do.",
  }),
  step({
    title: "Name the first line",
    before:
      "`grain 1100` is the capacity of the pack: you know it from the label. Left stands the board's line, with a slot `{c}` where the number is. Right stands what it means, as a script would say it, with the same slot. `0 to 9999` says that it is a whole number.",
    section: "pack",
    lines: ['"grain {c:0 to 9999}"  capacity {c} mAh'],
    sees: [1, 0, 15, 2],
    says: ["grain 1100", "pack capacity 1100 mAh"],
    after:
      "One line is read. If it says *kept* instead, compare the text in quotes with the board's line, letter by letter.",
  }),
  step({
    title: "And one more of the same kind",
    before: "`stones 6` is the number of cells.",
    section: "pack",
    lines: ['"stones {n:1 to 12}"  cells {n}'],
    sees: [2, 0, 14, 2],
    says: ["stones 6", "pack cells 6"],
    after: "",
  }),
  step({
    title: "Two values in one line, and a first mistake",
    before:
      "`sluice 70 shuts 66` says when to warn and when to land. One line of the board means two entries: so it stands on the left twice, with two slots, and each time one of them on the right.",
    section: "pack",
    lines: ['"sluice {w} shuts {l}"  warn-at {w} V/cell', '"sluice {w} shuts {l}"  land-at {l} V/cell'],
    sees: [2, 1, 13, 2],
    says: null,
    after:
      "The line is *odd*: it fits, but 70 V/cell is beyond what a cell can have. So the board does not write volts. It writes steps. On the bench the pack warned at 3.5 V a cell: 3.5 / 70 is 0.05. And 66 steps of 0.05 are 3.3, as it should be.",
  }),
  step({
    title: "A number in steps",
    before: "How a board spells a value is a *code*. It has a name of your own, and stands in the section `codes`.",
    section: "codes",
    lines: ["sluice  number 0 to 90 each 0.05 V/cell"],
    sees: [2, 1, 13, 2],
    says: null,
    after: "Nothing has changed yet, as no slot names the code.",
  }),
  step({
    title: "Let the slots name it",
    before: "Change the two lines: the code stands behind a colon, and the unit goes, since the code has it.",
    section: "pack",
    lines: ['"sluice {w:sluice} shuts {l:sluice}"  warn-at {w}', '"sluice {w} shuts {l}"  land-at {l}'],
    replaces: ['"sluice {w} shuts {l}"  warn-at {w} V/cell', '"sluice {w} shuts {l}"  land-at {l} V/cell'],
    sees: [3, 0, 13, 2],
    says: ["sluice 70 shuts 66", "pack warn-at 3.5 V/cell; pack land-at 3.3 V/cell"],
    after: "It is enough to say the codes of a left side once.",
  }),
  step({
    title: "Steps of a tenth, and a number that means nothing",
    before:
      "`idle 45` is 4.5 %, in tenths. `rest 20` are the seconds after which the idling craft disarms; this board writes 0 where it never does.",
    section: "codes",
    lines: ["tenth  number 0 to 1000 each 0.1", "rest  number 0 to 600 each 1 s unset 0"],
    sees: [3, 0, 13, 2],
    says: null,
    after: "",
  }),
  step({
    title: "In two more sections",
    before: "Our sections are those of a script: `motors` holds the idle.",
    section: "motors",
    lines: ['"idle {i:tenth}"  idle {i} %'],
    sees: [4, 0, 12, 2],
    says: ["idle 45", "motors idle 4.5 %"],
    after: "The code `tenth` has no unit, so the unit stands on the right.",
  }),
  step({
    title: "The section “safety”",
    before: "",
    section: "safety",
    lines: ['"rest {t:rest}"  idle-disarm-after {t}'],
    sees: [5, 0, 11, 2],
    says: ["rest 20", "safety idle-disarm-after 20 s"],
    after:
      "You do not know our name for it? Begin the right side and look at what is offered, or search the reference for plain words, such as “disarm by itself”.",
  }),
  step({
    title: "A value of two parts",
    before: "`hum 180 wide 40` is a notch filter: where it is, and how wide.",
    section: "filters",
    lines: ['"hum {h:5 to 900} wide {w:1 to 200}"  notch at {h} Hz width {w} Hz'],
    sees: [6, 0, 10, 2],
    says: ["hum 180 wide 40", "filters notch at 180 Hz  width 40 Hz"],
    after: "",
  }),
  step({
    title: "Words of the board's own",
    before:
      "`flag volts 3/17` puts the pack's volts on the OSD, column 3, row 17. The board calls it `volts`, we call it `pack-volts`: a code of the kind `words` says so.",
    section: "codes",
    lines: ["flag  words volts pack-volts, amps amps"],
    sees: [6, 0, 10, 2],
    says: null,
    after: "",
  }),
  step({
    title: "A slot as a name",
    before: "Here the slot `{e}` is the name on the right: one line of the dialect reads all flags.",
    section: "osd",
    lines: ['"flag {e:flag} {x:0 to 60}/{y:0 to 40}"  {e} at {x}, {y}'],
    sees: [8, 0, 8, 2],
    says: ["flag volts 3/17", "osd pack-volts at 3, 17"],
    after: "",
  }),
  step({
    title: "Names that are the same",
    before:
      "`turns roll 200 600` is the rate of an axis, from the middle to the end of the stick. The board's word is ours, so it needs no code.",
    section: "rates",
    lines: ['"turns {a} {s:0 to 1999} {e:0 to 1999}"  {a} slope {s} deg/s end {e} deg/s'],
    sees: [11, 0, 5, 2],
    says: ["turns roll 200 600", "rates roll slope 200 deg/s  end 600 deg/s"],
    after: "",
  }),
  step({
    title: "Channels and pulses",
    before:
      "`gate 1 A on 0 90-120`: the first gate arms (`A`), on channel 5 (which the board counts as 0), from 1700 us to 2000 us. You find out how it counts pulses by moving one bound on the board by one: here the board writes steps of 10 us from 800 us.",
    section: "codes",
    lines: [
      "shaft  number 0 to 11 from ch5",
      "lift  number 0 to 120 from 800 us each 10 us",
      "gate  words - unset, A arm, B level",
    ],
    sees: [11, 0, 5, 2],
    says: null,
    after: "`- unset` says that a gate with `-` does nothing.",
  }),
  step({
    title: "Modes, in numbered lines",
    before:
      "`{#:1 to 4}` is the number that the board gives the line. `=0` behind a code is what stands there where nothing is set; the board's own empty gates show it.",
    section: "modes",
    lines: ['"gate {#:1 to 4} {m:gate} on {c:shaft=0} {a:lift=0}-{b:lift=0}"  {m} when {c} in {a} to {b}'],
    sees: [15, 0, 1, 2],
    says: ["gate 1 A on 0 90-120", "modes arm when ch5 in 1700 us to 2000 us"],
    after: "With your handset it reads `arm when TL is down`, as in the script below.",
  }),
];

function step({
  replaces = [],
  ...rest
}: Omit<GuideStep, "replaces"> & { readonly replaces?: readonly string[] }): GuideStep {
  return { replaces, ...rest };
}

/** The dialect after the first steps, as it is typed: sections in the order in which they come up. */
export function dialectAfter(steps: number): string {
  const sections = new Map<string, string[]>();
  for (const { section, lines, replaces } of guideSteps.slice(0, steps)) {
    const own = (sections.get(section) ?? []).filter((line) => !replaces.includes(line));
    sections.set(section, [...own, ...lines]);
  }
  const texts = [...sections].map(([name, lines]) => `${name}\n${lines.map((line) => `  ${line}`).join("\n")}`);
  return `${[MILL_HEADER, ...texts].join("\n\n")}\n`;
}
