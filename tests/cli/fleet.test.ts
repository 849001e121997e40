import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import type { Io } from "../../server/src/cli/io.ts";
import { finishShown } from "../../server/src/cli/progress.ts";
import { run } from "../../server/src/cli/run.ts";
import { tableBlocks } from "../../server/src/cli/table-blocks.ts";
import type { Fleet } from "../../shared/protocol/fleet.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";
import { makeRepository } from "./repository.ts";
import { wheel } from "./shed.ts";

const shed = {
  "wheel.fettle": wheel,
  "cup.fettle": 'craft "Cup"\nuse "wheel.fettle"\nmodes\n  arm when TL is down\n  level when TR is mid\n',
  "jug.fettle": 'craft "Jug"\nuse "wheel.fettle"\nmodes\n  arm when TL is down\n  turtle when TR is mid\n',
  "old/urn.fettle": 'craft "Urn"\nuse "../wheel.fettle"\nmodes\n  arm when TL is down\n  level when TR is mid\n',
};

async function fleet(files: Readonly<Record<string, string>>, args: readonly string[], more: Partial<Io> = {}) {
  const io = held(await folderOf(files), "", "plain", more);
  const status = await run(["fleet", ...args], io);
  return { status, out: io.outText(), error: io.errorText() };
}

test("tables stand one below the other, with a sign where a craft is otherwise than most", async () => {
  const { status, out, error } = await fleet(shed, []);
  expect([status, error]).toEqual([0, ""]);
  expect(out.slice(0, out.indexOf("Checks on the bench"))).toBe(`3 craft; * marks what is otherwise than on most of them

Controls of Wheel (wheel.fettle)

       TL              TR
  Cup  up –, down arm  up –, mid level, down –
  Jug  up –, down arm  up –, mid turtle, down – *
  Urn  up –, down arm  up –, mid level, down –
  TL: switch
  TR: switch; on most: up –, mid level, down –

Layers, in the order in which they are merged

       Wheel
  Cup  1
  Jug  1
  Urn  1
  Wheel: wheel.fettle

`);
});

test("no line is wider than the terminal, or than 80 columns where there is none", async () => {
  for (const columns of [undefined, 40, 60, 200]) {
    const { out } = await fleet(shed, [], columns === undefined ? {} : { columns });
    expect(out.split("\n").filter((line) => [...line].length > (columns ?? 80))).toEqual([]);
  }
});

test("the object has its fixed shape, its paths from the working folder", async () => {
  const { status, out } = await fleet(shed, ["--format", "json"]);
  const made = JSON.parse(out) as Fleet;
  expect(status).toBe(0);
  expect(Object.keys(made)).toEqual(["craft", "controls", "settings", "layers", "checks", "video", "missing"]);
  expect(made.craft[2]).toEqual({
    file: "old/urn.fettle",
    name: "Urn",
    handset: { name: "Wheel", file: "wheel.fettle" },
  });
  expect(made.controls[0]!.rows[1]).toEqual({
    craft: 1,
    cells: [
      { text: "up –, down arm", most: null, at: { file: "jug.fettle", line: 3 } },
      {
        text: "up –, mid turtle, down –",
        most: "up –, mid level, down –",
        at: { file: "jug.fettle", line: 4 },
      },
    ],
  });
});

test("craft may be named one by one, and one of them may have any name", async () => {
  const two = { ...shed, "twin.fettle": 'craft "Cup"\nuse "wheel.fettle"\nmodes\n  arm when TL is down\n' };
  const { out } = await fleet(two, ["cup.fettle", "twin.fettle"]);
  expect(out).toContain("2 craft\n");
  expect(out).toContain("  Cup (cup.fettle)   up –, down arm");
  expect(out).toContain("  Cup (twin.fettle)  up –, down arm");
});

test("what cannot be read is told, and the rest is shown", async () => {
  const { status, out, error } = await fleet(shed, ["cup.fettle", "gone.fettle"]);
  expect([status, error]).toEqual([2, "fettle: gone.fettle: there is no such file\n"]);
  expect(out).toContain("1 craft\n");
});

test("a fleet without a craft is none", async () => {
  expect(await fleet({ "wheel.fettle": wheel }, ["wheel.fettle"])).toEqual({
    status: 2,
    out: "",
    error: 'fettle: wheel.fettle: no craft is here. A craft begins with: craft "NAME"\n',
  });
});

test("names and values cannot command a terminal", async () => {
  const hostile = { "a.fettle": 'craft "A\u001b[31m\u0007B"\npack\n  plug "\u009b2J"\n' };
  const { out } = await fleet(hostile, []);
  expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
});

function* counted(until: number): Generator<void, string, void> {
  for (let done = 0; done < until; done++) yield;
  return "done";
}

test("long work tells a terminal how far it is, and takes the line away at the end", () => {
  const shown: (string | null)[] = [];
  const slow = (function* () {
    for (const begun = Date.now(); Date.now() - begun < 450; ) yield;
    return "done";
  })();
  expect(finishShown(slow, { progress: (words) => void shown.push(words) }, () => "some of 9")).toBe("done");
  expect(shown.at(0)).toBe("some of 9");
  expect(shown.at(-1)).toBeNull();
  expect(shown.length).toBeLessThan(5);
});

test("short work shows nothing, and where there is no terminal no work does", () => {
  const shown: (string | null)[] = [];
  expect(finishShown(counted(20), { progress: (words) => void shown.push(words) }, String)).toBe("done");
  expect(shown).toEqual([]);
  expect(finishShown(counted(20), {}, () => expect.fail())).toBe("done");
});

test("a cell that is wider than the page is broken, at spaces where there are some", () => {
  const heads = [{ name: "TL", note: null }];
  const [block] = tableBlocks(heads, [{ name: "Cup", cells: ["up –, mid level-blend, down hold-place"] }], 30);
  expect(block).toBe("       TL\n  Cup  up –, mid level-blend,\n       down hold-place\n");
});

test("wide letters take two columns, marks none, and what turns the text is named", async () => {
  const names = ["湯飲み茶碗", "e\u0301tuve", "🫖🫖", "\u202eguj", "Jug"];
  const craft = (name: string) => `craft "${name}"\nuse "wheel.fettle"\nmodes\n  arm when TL is down\n`;
  const files = Object.fromEntries(names.map((name, i) => [`c${i}.fettle`, craft(name)]));
  const { out } = await fleet({ "wheel.fettle": wheel, ...files }, []);
  expect(out).toContain(`
                         TL
  湯飲み茶碗             up –, down arm
  e\u0301tuve                  up –, down arm
  🫖🫖                   up –, down arm
  ‹U+202E right-to-left  up –, down arm
  override›guj
  Jug                    up –, down arm
`);
});

test("a name without a space is broken where it has no more room, and no letter is lost", () => {
  const heads = [{ name: "TL", note: null }];
  const name = "湯飲み茶碗湯飲み茶碗湯飲み茶碗";
  const [block] = tableBlocks(heads, [{ name, cells: ["up –"] }], 40);
  expect(block).toBe("                    TL\n  湯飲み茶碗湯飲み  up –\n  茶碗湯飲み茶碗\n");
});

test("--out writes a page to print, and says nothing", async () => {
  const folder = await folderOf(shed);
  const io = held(folder, "");
  expect(await run(["fleet", "--out", "fleet.html"], io)).toBe(0);
  expect([io.outText(), io.errorText()]).toEqual(["", ""]);
  const page = readFileSync(join(folder, "fleet.html"), "utf8");
  expect(page).toMatch(/^<!doctype html>/);
  expect(page).toContain("3 craft side by side");
});

test.each([
  [["--out", "fleet.pdf"], "fettle: the fleet is written as HTML: name a file that ends in .html, not “fleet.pdf”\n"],
  [
    ["--out", "fleet.html", "--format", "json"],
    "fettle: --out writes a page to print, and --format says how to show it here: give one of them\n",
  ],
])("%j is refused", async (args, said) => {
  expect(await fleet(shed, args)).toEqual({ status: 2, out: "", error: said });
});

test("of craft that are flown together it says who is in the way of whom, and what to change", async () => {
  const craft = (name: string, mhz: number) => `craft "${name}"\nvideo\n  signal analogue\n  frequency ${mhz} MHz\n`;
  const files = {
    "cup.fettle": craft("Cup", 5806),
    "far/jug.fettle": craft("Jug", 5810),
    "urn.fettle": craft("Urn", 5658),
  };
  const { status, out, error } = await fleet(files, ["--together", "cup.fettle", "far/jug.fettle"]);
  expect([status, error]).toEqual([0, ""]);
  expect(out.slice(out.indexOf("Flown together"))).toBe(`Flown together: Cup, Jug

Cup: The picture at 5806 MHz stands in the way of that of “Jug” at 5810 MHz: an
  analogue signal is about 18 MHz wide, so they break each other up.
Jug: The picture at 5810 MHz stands in the way of that of “Cup” at 5806 MHz: an
  analogue signal is about 18 MHz wide, so they break each other up.
With these changes nothing is in the way:
Move Jug from 5810 to 5843 MHz
`);
  const json = await fleet(files, ["--format", "json", "urn.fettle", "--together", "cup.fettle", "far/jug.fettle"]);
  const { video } = JSON.parse(json.out) as Fleet;
  expect([video.together, video.plan, video.noPlan]).toEqual([
    [1, 2],
    [{ craft: 2, fromMhz: 5810, toMhz: 5843, note: null }],
    null,
  ]);
  const missing = await fleet(files, ["--together", "gone.fettle"]);
  expect([missing.status, missing.error]).toEqual([2, "fettle: --together: gone.fettle: there is no such file\n"]);
});

test("what changed in git after a check makes that check due, and no other", async () => {
  const craft = (yaw: string) =>
    `craft "Jug"\nsensors\n  mount-yaw ${yaw}\nbench\n  mount-checked 2026-02-01\n  motors-checked 2026-02-01\n`;
  const { folder, commit } = makeRepository({ "jug.fettle": craft("90 deg") });
  commit({ "jug.fettle": craft("180 deg") }, "Turned");
  const io = held(folder, "");
  expect(await run(["fleet", "--format", "json"], io)).toBe(0);
  const { checks } = JSON.parse(io.outText()) as Fleet;
  const said = checks.rows[0]!.cells.flatMap(({ text }, i) =>
    text === "" ? [] : `${checks.columns[i]!.name}: ${text}`,
  );
  expect(said).toEqual(["motors-checked: 2026-02-01", "mount-checked: 2026-02-01, due: mount-yaw changed"]);
});
