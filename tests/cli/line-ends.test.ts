/** Line ends of another system: what the command line writes of such scripts and texts has them too, and no other kind. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";

const NAMES = [
  "boards/loom.fettle",
  "boards/loom.txt",
  "boards/read/loom.fettle",
  "craft/pipkin.fettle",
  "craft/wobbly-jug.fettle",
  "handsets/wheel.fettle",
  "layers/habits.fettle",
  "layers/maker-base.fettle",
  "layers/osd-narrow.fettle",
  "layers/osd-wide.fettle",
  "layers/tune-five.fettle",
];
const DEMO = NAMES.map((name): [string, string] => [name, readFileSync(inProject(`examples/${name}`), "utf8")]);

const BASE = 'craft "Jug"\n\npack\n  cells  4\n\nrates\n  roll  slope 90  end 400  bend 3\n';
const OWN = {
  "base.fettle": BASE,
  "ours.fettle": `${BASE}\nfailsafe\n  then  stop\n`,
  "theirs.fettle": BASE.replace("4", "6"),
  "clash.fettle": `${BASE.replace("4", "6")}\nfailsafe\n  then  descend\n`,
  "changed.fettle": 'craft "Cup"\n\nuse "handsets/wheel.fettle"\n\npack\n  capacity  1300 mAh\n  warn-at  3.6 V/cell\n',
  "untidy.fettle": 'craft "Mug"\n\n\n\npack\n cells 4   # four\n   capacity    1100 mAh\n| stray\n',
};

/** A command line, and the file that it writes; null where it answers on standard output. */
const COMMANDS: readonly (readonly [line: string, written: string | null])[] = [
  ["format untidy.fettle", "untidy.fettle"],
  ["merge base.fettle ours.fettle theirs.fettle", null],
  ["merge base.fettle ours.fettle clash.fettle --out merged.fettle", "merged.fettle"],
  ["board write boards/read/loom.fettle --base boards/loom.txt --out new.txt", "new.txt"],
  ["board write changed.fettle --dialect boards/loom.fettle --base boards/loom.txt --out new.txt", "new.txt"],
  ["board write changed.fettle --dialect boards/loom.fettle --base boards/loom.txt --changes --out new.txt", "new.txt"],
];

/** A script that begins anew, out of several: whatever they are like, it has LF alone. */
const BEGUN: readonly (readonly [line: string, written: string | null])[] = [
  ["share craft/pipkin.fettle --out shared.fettle", "shared.fettle"],
  [
    "board read --dialect boards/loom.fettle --handset handsets/wheel.fettle boards/loom.txt --out read.fettle",
    "read.fettle",
  ],
];

const SHAPES: Record<string, (text: string) => string> = {
  CRLF: (text) => text.replaceAll("\n", "\r\n"),
  CR: (text) => text.replaceAll("\n", "\r"),
  "CRLF and a byte-order mark": (text) => `\uFEFF${text.replaceAll("\n", "\r\n")}`,
  "CRLF, but none at the end": (text) => text.replace(/\n+$/, "").replaceAll("\n", "\r\n"),
};

/** What a command writes over the demo and the scripts to be merged, in such a shape. */
async function writtenBy(line: string, written: string | null, shape: (text: string) => string) {
  const texts = [...DEMO, ...Object.entries(OWN)].map(([name, text]) => [name, shape(text)]);
  texts.push([".fettle-root", ""]);
  const folder = await folderOf(Object.fromEntries(texts));
  const io = held(folder, "");
  const status = await run(line.split(" "), io);
  const text = written === null ? io.outText() : readFileSync(`${folder}/${written}`, "utf8");
  return { status, text, error: io.errorText() };
}

for (const [title, shape] of Object.entries(SHAPES)) {
  test.each(COMMANDS)(`${title}: fettle %s`, async (line, written) => {
    const plain = await writtenBy(line, written, (text) => shape(text).replace(/\r\n?/g, "\n"));
    const other = await writtenBy(line, written, shape);
    expect(plain.text).toContain("\n");
    const end = title === "CR" ? "\r" : "\r\n";
    expect(other, plain.error).toEqual({ ...plain, text: plain.text.replaceAll("\n", end) });
  });

  test.each(BEGUN)(`${title}: fettle %s begins a text`, async (line, written) => {
    const plain = await writtenBy(line, written, (text) => text);
    expect(plain.text).toContain("\n");
    expect((await writtenBy(line, written, shape)).text).toBe(plain.text);
  });
}
