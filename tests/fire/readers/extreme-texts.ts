/** Texts far beyond what any pilot writes: some are still read, of others it is said that they are too much. */

export interface Extreme {
  /** By path; `jug.fettle` is the one that is asked about. */
  readonly files: Readonly<Record<string, string>>;
  /** What is said of the file as a whole, where it is too much to be read. */
  readonly refused: RegExp | null;
}

const lines = (count: number, line: (i: number) => string) =>
  Array.from({ length: count }, (_, i) => line(i)).join("\n");
const jug = (text: string, refused: RegExp | null = null, more: Readonly<Record<string, string>> = {}): Extreme => ({
  files: { "jug.fettle": text, ...more },
  refused,
});
const craft = (rest: string) => `craft "Jug"\nuse "wheel.fettle"\n${rest}\n`;

const WHEEL = {
  "wheel.fettle":
    'handset "Wheel"\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n  TR switch ch6 up 1000 us mid 1500 us down 2000 us\n  KN dial ch9 1000 us to 2000 us\n',
};

/** So many layers, each of which uses the next one; the last leads where it is told to, or nowhere. */
function deepLayers(count: number, back: string | null): Record<string, string> {
  const next = (i: number) => (i + 1 < count ? `layer-${i + 1}.fettle` : back);
  return Object.fromEntries(
    Array.from({ length: count }, (_, i) => {
      const use = next(i) === null ? "" : `use "${next(i)}"\n`;
      return [`layer-${i}.fettle`, `layer "L ${i}"\n${use}pack\n  cells ${1 + (i % 8)}\n`];
    }),
  );
}

const LINE = /^line \d+ has \d+ characters, and a line is read up to 20000/;
const LINES = /^it has \d+ lines, and a script is read up to 12000/;
const SIZE = /^it is \d+\.\d MB, and a script is read up to 1 MB/;

export const EXTREMES: Readonly<Record<string, Extreme>> = {
  "1 MB on one line": jug(`craft "Jug"\npack\n  cells ${"4".repeat(1_000_000)}`, LINE),
  "2 MB": jug(craft(`pack\n${"  cells 4\n".repeat(200_000)}`), SIZE),
  "100,000 lines": jug(craft(lines(100_000, () => "  # x")), LINES),
  "12,000 lines of settings": jug(craft(`pack\n${lines(11_990, () => "  cells 4")}`)),
  "a line of 20,000 characters": jug(craft(`pack\n  cells ${"4".repeat(19_990)}`)),
  "a name of 19,000 letters": jug(craft(`pack\n  ${"a".repeat(19_000)} 4`)),
  "a string of 19,000 backslashes": jug(craft(`board\n  text "${"\\".repeat(19_000)}"`)),
  "10,000 use lines of as many files": jug(`craft "Jug"\n${lines(10_000, (i) => `use "layer-${i}.fettle"`)}\n`),
  "10,000 use lines of one file": jug(`craft "Jug"\n${lines(10_000, () => 'use "wheel.fettle"')}\n`, null, WHEEL),
  "layers 200 deep": jug('craft "Jug"\nuse "layer-0.fettle"\npack\n  cells 4\n', null, deepLayers(200, null)),
  "200 layers in a circle": jug('craft "Jug"\nuse "layer-0.fettle"\n', null, deepLayers(200, "layer-0.fettle")),
  "a craft and 200 layers in a circle": jug('craft "Jug"\nuse "layer-0.fettle"\n', null, deepLayers(200, "jug.fettle")),
  "10,000 sections": jug(craft(lines(10_000, (i) => ["pack", "modes", "osd", "link"][i % 4]!))),
  "5,000 packs": jug(craft(lines(10_000, (i) => (i % 2 === 0 ? `pack "P ${i}"` : "  cells 4")))),
  "5,000 unknown sections": jug(craft(lines(10_000, (i) => (i % 2 === 0 ? `kettle-${i}` : "  water 4 l")))),
  "5,000 controls": jug('craft "Jug"\nuse "wheel.fettle"\nmodes\n  arm when T0 is down\n', null, {
    "wheel.fettle": `handset "Wheel"\ncontrols\n${lines(5000, (i) => `  T${i} switch ch${5 + i} up 1000 us down 2000 us`)}\n`,
  }),
  "5,000 controls in the file itself": jug(
    `handset "Wheel"\ncontrols\n${lines(5000, (i) => `  T${i} switch ch${5 + (i % 12)} up 1000 us down 2000 us`)}\n`,
  ),
  "10,000 lines of modes": jug(
    craft(
      `modes\n${lines(10_000, (i) => `  ${["arm", "level", "turtle", "finder"][i % 4]} when ${i % 3 === 0 ? "TL is down" : `ch${10 + (i % 90)} above ${1000 + (i % 997)} us`}`)}`,
    ),
    null,
    WHEEL,
  ),
  "10,000 outputs": jug(craft(`outputs\n${lines(10_000, (i) => `  lamp-${i} when TL is down`)}`), null, WHEEL),
  "a condition of 1,400 terms": jug(
    craft(`modes\n  arm when ${Array(1400).fill("TL is down").join(" or ")}`),
    null,
    WHEEL,
  ),
  "a condition of 10,000 terms": jug(
    craft(`modes\n  arm when ${Array(10_000).fill("TL is down").join(" or ")}`),
    LINE,
    WHEEL,
  ),
  "a condition of 1,000 unlike terms": jug(
    craft(`modes\n  arm when ${lines(1000, (i) => `ch${10 + i} above 1500`).replaceAll("\n", " and ")}`),
    LINE,
  ),
  "a condition of 700 unlike terms": jug(
    craft(`modes\n  arm when ${lines(700, (i) => `ch${10 + i} above 1500 us`).replaceAll("\n", " or ")}`),
  ),
  "5,000 brackets": jug(craft(`modes\n  arm when ${"(".repeat(5000)}TL is down${")".repeat(5000)}`), null, WHEEL),
  "4,000 denials": jug(craft(`modes\n  arm when ${"not ".repeat(4000)}TL is down`), null, WHEEL),
  "10,000 kept lines": jug(craft(`verbatim "kiln"\n${lines(10_000, (i) => `  | row ${i}`)}`)),
  "10,000 comments above one entry": jug(
    craft(`pack\n${lines(10_000, () => "  # allow cells-ambiguous: so")}\n  cells 4`),
  ),
  "5,000 conflicts": jug(craft(lines(10_000, (i) => (i % 2 === 0 ? "<<<<<<< ours" : ">>>>>>> theirs")))),
  "10,000 filters": jug(craft(`filters\n${lines(10_000, (i) => `  smooth-gyro cut ${100 + (i % 300)} Hz`)}`)),
  "10,000 elements": jug(craft(`osd\n  grid 53 x 20\n${lines(10_000, (i) => `  pack-volts at ${i % 53}, ${i % 20}`)}`)),
  "10,000 lines that drop": jug(craft(`modes\n${lines(10_000, () => "  drop arm level turtle")}`)),
  "a dialect of 10,000 lines": jug(
    `dialect "Kiln"\npack\n${lines(10_000, (i) => `  "pot ${i} of {c:0 to 9999}"  capacity {c} mAh`)}\n`,
  ),
  "a dialect of 10,000 codes": jug(`dialect "Kiln"\ncodes\n${lines(10_000, (i) => `  c${i} list c${i + 1} by ","`)}\n`),
  "a dialect of one line with 5,000 slots": jug(`dialect "Kiln"\npack\n  "${"{a} ".repeat(1000)}"  cells 4\n`),
  "zero bytes": jug(`craft "Jug"\n${"\0".repeat(10_000)}`),
  "12,000 carriage returns": jug(`craft "Jug"\n${"\r".repeat(11_990)}`),
  "characters that do not show": jug(craft(lines(2000, () => "  # \u202e\u200b\ufeff\u2066"))),
};
