/** Hovers of every kind: where the pointer stands (`|`), and the lines that a pilot reads first. */

export interface HoverCase {
  readonly title: string;
  readonly text: string;
  readonly more?: Readonly<Record<string, string>>;
}

const craft = (rest: string) => `craft "Jug"\nuse "wheel.fettle"\nuse "habits.fettle"\n\n${rest}`;

export const habits = `layer "Habits"

pack
  # never below this, the cells are old
  land-at 3.4 V/cell
  warn-at 3,5 V/cell

modes
  # arm is the left shoulder
  arm when TL is down

rates
  roll slope 100 deg/s end 600 deg/s

osd
  grid 30 x 16
  # where the thumb hides nothing
  amps at right, bottom

outputs
  # the lamp under the nose
  lamp when TL is up
`;

const cup = (rest: string) => ({ "cup.fettle": `craft "Cup"\nuse "wheel.fettle"\nuse "jug.fettle"\n\n${rest}` });
const layer = (rest: string) => `layer "Base"\n\n${rest}`;

export const hoverCases: readonly HoverCase[] = [
  { title: "a setting of the craft's own line", text: craft("pack\n  # old cells\n  warn-a|t 3.6 V/cell\n") },
  { title: "the later of two lines", text: craft("pack\n  warn-a|t 3.5 V/cell\n  warn-at 3.6 V/cell # later wins\n") },
  {
    title: "a layer's setting, on its one craft",
    text: layer("pack\n  # old\n  warn-a|t 3.5 V/cell\n"),
    more: cup("pack\n  cells 4\n"),
  },
  {
    title: "a layer's setting that a craft says over",
    text: layer("pack\n  # old\n  warn-a|t 3.5 V/cell\n"),
    more: cup("pack\n  # new\n  warn-at 3.6 V/cell\n"),
  },
  {
    title: "a layer's setting that a craft drops",
    text: layer("pack\n  warn-a|t 3.5 V/cell\n"),
    more: cup("pack\n  drop warn-at\n"),
  },
  {
    title: "a layer's section that a craft drops",
    text: layer("pack\n  warn-a|t 3.5 V/cell\n"),
    more: cup("pack\n  drop all\n"),
  },
  { title: "a layer that no craft uses", text: layer("pack\n  # old\n  warn-a|t 3.5 V/cell\n") },
  { title: "a setting with a fault", text: craft("pack\n  cel|ls six\n") },
  { title: "a faulty line over a sound one", text: craft("pack\n  land-a|t lots\n") },
  { title: "a line out of range, which counts", text: craft("pack\n  cel|ls 99\n") },
  { title: "fields of two files", text: craft("rates\n  ro|ll end 700 deg/s\n") },
  {
    title: "a repeatable setting",
    text: craft("filters\n  no|tch at 120 Hz width 30 Hz\n  notch at 240 Hz width 40 Hz\n"),
  },
  {
    title: "a repeatable setting, one line of which has a fault",
    text: craft("filters\n  no|tch at 120 Hz width 30 Hz\n  notch at here\n"),
  },
  {
    title: "a dropped setting with a default",
    text: craft("link\n  drop cent|re\n"),
  },
  { title: "a named pack's own line", text: craft('pack\n  cells 4\n\npack "race"\n  cel|ls 6\n') },
  { title: "a setting of a second set", text: craft("rates-second\n  ro|ll end 500 deg/s\n") },
  {
    title: "a setting that follows a dial",
    text: craft("adjust\n  # softer indoors\n  throttle-li|mit follows KN from 60 % to 100 %\n"),
  },
  { title: "a text", text: craft('board\n  mod|el "kiln *7*"\n') },
  { title: "a dropped setting", text: craft("pack\n  drop land-a|t\n") },
  { title: "a dropped setting that is set anew", text: craft("pack\n  drop land-a|t\n  land-at 3.2 V/cell\n") },
  { title: "a drop of what nobody said", text: craft("pack\n  drop capaci|ty\n") },
  { title: "a dropped mode", text: craft("modes\n  drop ar|m\n") },
  { title: "a dropped element", text: craft("osd\n  drop am|ps\n") },
  { title: "a drop in a layer", text: layer("pack\n  drop warn-a|t\n"), more: cup("pack\n  warn-at 3.6 V/cell\n") },
  { title: "a mode's own line", text: craft("modes\n  # for a fall\n  tur|tle when TR is down\n") },
  {
    title: "a mode of two lines",
    text: craft("modes\n  tur|tle when TR is down\n  turtle when TL is up and TR is up\n"),
  },
  { title: "a mode with a fault", text: craft("modes\n  tur|tle when QQ is down\n") },
  { title: "a mode in a condition", text: craft("modes\n  recorder when ar|m\n") },
  { title: "a mode in a condition that nobody sets up", text: craft("modes\n  recorder when tur|tle\n") },
  { title: "an output", text: craft("outputs\n  la|mp when TR is up\n") },
  { title: "an output in a condition", text: craft("outputs\n  siren when ar|m\n") },
  { title: "an element", text: craft("osd\n  # high\n  pack-vo|lts at left+1, top\n") },
  {
    title: "an element of a layer",
    text: layer("osd\n  # low\n  am|ps at right, bottom\n"),
    more: cup("osd\n  grid 30 x 16\n"),
  },
  { title: "an element with a fault", text: craft("osd\n  pack-vo|lts at leftish\n") },
  { title: "an anchor of a place", text: craft("osd\n  pack-volts at lef|t+1, top\n") },
  { title: "a control in a condition", text: craft("modes\n  level when T|R is mid\n") },
  {
    title: "a control in its handset",
    text: 'handset "Mine"\n\ncontrols\n  # sticky\n  T|L switch ch5 up 1000 us down 2000 us\n',
  },
  {
    title: "a control that the craft restates",
    text: craft("controls\n  # worn\n  T|L switch ch5 up 1100 us down 1900 us\n"),
  },
  { title: "a dial", text: craft("modes\n  level when K|N above 1500 us\n") },
  { title: "a position", text: craft("modes\n  level when TR is mi|d\n") },
  {
    title: "a position of a handset without craft",
    text: 'handset "Mine"\n\ncontrols\n  TL switch ch5 u|p 1000 us down 2000 us\n',
  },
  { title: "a number", text: craft("pack\n  cells 6\n  warn-at 3.|6 V/cell\n") },
  { title: "a unit", text: craft("pack\n  capacity 1100 m|Ah\n") },
  { title: "a unit of its own kind", text: craft("pack\n  warn-at 3.6 V/ce|ll\n") },
  { title: "a choice", text: craft("pack\n  chemistry li|hv\n") },
  { title: "a choice of a layer", text: layer("pack\n  chemistry li|po\n"), more: cup("pack\n  chemistry lihv\n") },
  { title: "a field", text: craft("rates\n  roll slo|pe 100 deg/s\n") },
  { title: "a section", text: craft("# bought in spring\npa|ck\n  cells 4\n") },
  { title: "a section of which nothing counts", text: craft("pa|ck\n  drop all\n") },
  { title: "a named pack", text: craft('pa|ck "race"\n  cells 6\n') },
  { title: "lines that are kept", text: craft('verb|atim "old"\n  | set x = 1\n') },
  {
    title: "a header of a craft",
    text: '# the one with the dent\ncra|ft "Jug"\nuse "wheel.fettle"\nuse "habits.fettle"\n',
  },
  { title: "a header of a layer", text: layer("").replace("layer", "la|yer"), more: cup("") },
  { title: "a header of a layer without craft", text: layer("").replace("layer", "la|yer") },
  { title: "a use", text: 'craft "Jug"\nuse "hab|its.fettle"\n' },
  { title: "a use of what is not there", text: 'craft "Jug"\nuse "gla|ze.fettle"\n' },
  { title: "an accepted finding", text: craft("# allow pack-or|der: a bench supply\npack\n  cells 4\n") },
  { title: "a note", text: craft("pack\n  # a no|te\n  cells 4\n") },
  { title: "a line of kept text", text: craft('verbatim "old"\n  | se|t x = 1\n') },
  { title: "an unknown name", text: craft("pack\n  cel|lls 4\n") },
];
