/** Every state in which there is nothing to draw: what is said, and which buttons end it. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { fillIn, scriptsFor, useFile } from "../../../shared/ide/edits/insertions.ts";
import { panelOf } from "../../../shared/ide/panel/panel.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import type { Fillable, Gap, WayOn } from "../../../shared/protocol/ways.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { edited, type Texts } from "../edits/scripts-edited.ts";

const core = makeCore(makeCatalogue());

const parts = (text: string, by: string) =>
  text
    .split(new RegExp(`^${by} `, "m"))
    .slice(1)
    .map((part) => {
      const end = part.indexOf("\n");
      return [part.slice(0, end).trim(), part.slice(end + 1)] as const;
    });

/** The texts of a case by path, the first being that for which the panel is drawn. */
const cases = parts(readFileSync(inProject("tests/fixtures/dead-ends.txt"), "utf8"), "##").map(([name, body]) => {
  const [scripts = "", expected = ""] = body.split(/^-->\n/m);
  const files: Record<string, string> = Object.fromEntries(
    parts(scripts, "===").map(([path, text]) => [path, text.replace(/\n\n$/, "\n")]),
  );
  return { name, files, expected: expected.trim() };
});

function line(view: string, why: string | null, ways: readonly WayOn[]): string[] {
  if (why === null && ways.length === 0) return [];
  return [`${view}: ${why ?? ""} ${ways.map(({ label }) => `[${label}]`).join(" ")}`.trimEnd()];
}

/** What the panel says in each view, and its buttons. */
function saysOf(files: Texts): string {
  const model = panelOf(core.at(memoryFiles(files)), Object.keys(files)[0]!, 1, { view: "numbers" });
  const gap = (view: string) => (each: Gap) => line(view, each.why, each.ways);
  const begin =
    model.begin && `${model.begin.lacks} ${model.begin.grids.map(({ columns, rows }) => `${columns}x${rows}`)}`;
  return [
    ...line("all", model.empty, model.emptyWays),
    ...line("goggles", model.noGoggles, model.gogglesWays),
    ...(begin ? [`begin: ${begin}`] : []),
    ...line("switches", model.noSwitches, model.switchesWays),
    ...model.switchesGaps.flatMap(gap("switches")),
    ...line("numbers", model.noNumbers, model.numbersWays),
    ...(model.numbers?.missing ?? []).flatMap(gap("numbers")),
  ].join("\n");
}

describe("every dead end has its way on", () => {
  test.each(cases)("$name", ({ files, expected }) => {
    expect(saysOf(files)).toBe(expected);
  });
});

test("a script that is not there", () => {
  const model = panelOf(core.at(memoryFiles({})), "gone.fettle", 1);
  expect(model).toMatchObject({ craft: "", emptyWays: [{ action: { name: "new-craft" } }] });
});

const wheel = `handset "Wheel"
controls
  TL switch ch5 up 1000 us mid 1500 us down 2000 us rests mid
  TR switch ch6 up 1000 us down 2000 us
`;

/** The text after lines were filled in, with what is selected between brackets. */
function filled(what: Fillable, files: Texts): string {
  const answer = fillIn(core.at(memoryFiles(files)), Object.keys(files)[0]!, what);
  if (answer.kind === "refused") return answer.message;
  const { file, edits } = answer.files[0]!;
  const lines = edited(files[file]!, edits).split("\n");
  const { start, end } = answer.select!.range;
  const at = lines[start.line]!;
  lines[start.line] =
    `${at.slice(0, start.character)}[${at.slice(start.character, end.character)}]${at.slice(end.character)}`;
  return lines.join("\n");
}
const jug = (...lines: string[]) => ({ "jug.fettle": ['craft "Jug"', ...lines, ""].join("\n"), "wheel.fettle": wheel });

test.each<[Fillable, Texts, string]>([
  [
    "rates",
    jug(),
    "\nrates\n  roll   [slope 200 deg/s  end 700 deg/s]\n  pitch  slope 200 deg/s  end 700 deg/s\n  yaw ",
  ],
  [
    "rates",
    jug("rates", "  yaw slope 100 deg/s end 500 deg/s"),
    "\n  roll  [slope 200 deg/s  end 700 deg/s]\n  pitch slope",
  ],
  ["pack", jug(), "\npack\n  chemistry  [lipo]\n  cells      6\n  capacity   1100 mAh\n  warn-at    3.5 V/cell\n"],
  ["filters", jug("pack", "  cells  4"), "  cells  4\n\nfilters\n  smooth-gyro  [cut 200 Hz]\n"],
  ["loop-rate", jug("sensors", "  accelerometer  yes"), "  accelerometer  yes\n  loop-rate      [4 kHz]\n"],
  ["esc-signal", jug("motors", "  esc-signal  digital"), "  esc-signal  digital\n  esc-rate    [300 kbit/s]\n"],
  ["arm-layout", jug("frame", "  motors  4"), "  motors  4\n  arm-layout  [true-x]\n"],
  ["arm-layout", jug(), "\nframe\n  motors      [4]\n  arm-layout  true-x\n"],
  ["arm", jug('use "wheel.fettle"'), "\nmodes\n  arm  when [TL is down]\n"],
  ["arm", jug('use "wheel.fettle"', "modes", "  level when TL is up"), "\n  arm   when [TR is down]\n"],
  ["arm", jug(), "name the pilot's handset first"],
  [
    "controls",
    { "jug.fettle": 'craft "Jug"\nuse "box.fettle"\n', "box.fettle": 'handset "Box"\n' },
    '"Box"\n\ncontrols\n  [TL  switch  ch5  up 1000 us  down 2000 us]\n',
  ],
  ["controls", jug(), "No handset is in use"],
  ["port gps", jug("ports", "  port1  receiver"), "  port1  receiver\n  [port2]  gps\n"],
  ["port gps", jug("ports", "  port1  receiver", "  port4  spare"), "  port4  [gps]\n"],
  [
    "port gps",
    jug("ports", ...[1, 2, 3, 4, 5, 6, 7, 8].map((n) => `  port${n} bench`)),
    "Every port is said to serve something",
  ],
  ["header", { "jug.fettle": "pack\n  cells 4\n" }, 'craft "[Jug]"\n\npack\n'],
  ["header", { "shed/tea pot.fettle": "" }, 'craft "[Tea pot]"'],
  ["header", jug(), "has a header already"],
  ["rates", jug("rates", ...["roll", "pitch", "yaw"].map((axis) => `  ${axis} slope 1`)), "says all of that already"],
  ["rates", { "jug.fettle": 'craft "Jug" edition 9\n' }, "newer edition"],
  ["rates", { "jug.fettle": 'layer "Jug"\n' }, "no craft (any more)"],
])("%s is filled in, with what is to be looked at selected", (what, files, expected) => {
  expect(filled(what, files)).toContain(expected);
});

test("what is filled in is understood, and breaks nothing", () => {
  const files = jug('use "wheel.fettle"', "ports", "  port1 receiver");
  for (const what of ["rates", "pack", "filters", "loop-rate", "esc-signal", "arm", "port gps"] as const) {
    const answer = fillIn(core.at(memoryFiles(files)), "jug.fettle", what);
    if (answer.kind === "refused") throw new Error(answer.message);
    const after = { ...files, "jug.fettle": edited(files["jug.fettle"], answer.files[0]!.edits) };
    const told = (texts: Texts) => findingsOf(core.at(memoryFiles(texts)), "jug.fettle").map(({ code }) => code);
    const isHarmless = (code: string) => told(files).includes(code) || code === "failsafe-unsaid";
    expect(
      told(after).filter((code) => !isHarmless(code)),
      what,
    ).toEqual([]);
  }
});

test("files that could be used, and their use", () => {
  const files = { ...jug('use "wheel.fettle"'), "box/box.fettle": 'handset "Box"\n', "mug.fettle": 'craft "Mug"\n' };
  const workspace = core.at(memoryFiles(files));
  expect(scriptsFor(workspace, "jug.fettle", "handset")).toEqual([
    { file: "box/box.fettle", name: "Box", path: "box/box.fettle" },
  ]);
  expect(scriptsFor(workspace, "wheel.fettle", "craft").map(({ name }) => name)).toEqual(["Mug"]);
  const used = (file: string, other: string) => {
    const answer = useFile(workspace, file, other);
    return answer.kind === "refused"
      ? answer.message
      : edited(files[file as keyof typeof files], answer.files[0]!.edits);
  };
  expect(used("jug.fettle", "box/box.fettle")).toBe('craft "Jug"\nuse "wheel.fettle"\nuse "box/box.fettle"\n');
  expect(used("mug.fettle", "wheel.fettle")).toBe('craft "Mug"\n\nuse "wheel.fettle"\n');
  expect(used("jug.fettle", "wheel.fettle")).toContain("already");
  expect(used("jug.fettle", "mug.fettle")).toContain("cannot use a craft");
  expect(used("jug.fettle", "gone.fettle")).toContain("cannot be read");
});
