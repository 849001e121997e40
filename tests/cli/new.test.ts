import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import type { Io } from "../../server/src/cli/io.ts";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";
import { shed } from "./shed.ts";

const narrow = `layer "Narrow"

osd
  grid         pal
  cell-volts   at left+2, bottom-1
  pack-volts   at left+2, bottom-2
  flight-time  at right-2, bottom-1
  alerts       at centre, bottom-4
  link-quality at right-2, top+1
`;

let folder: string;
beforeAll(async () => {
  folder = await folderOf({
    ...shed,
    "layers/narrow.fettle": narrow,
    "layers/cracked.fettle": 'layer "Cracked"\n\npack\n  cells  many\n',
    "answers.json": JSON.stringify({
      name: "Cruet",
      link: "handsets/wheel.fettle",
      layers: ["Narrow"],
      video: "analogue",
    }),
  });
});

async function make(args: readonly string[], input = "", from = folder) {
  const io = held(from, input);
  const status = await run(["new", ...args], io);
  return { status, out: io.outText(), error: io.errorText() };
}

/** A run at a terminal, at which these lines are typed; then input ends. */
async function talk(lines: readonly string[], ...args: string[]) {
  const io = held(folder, "");
  const asked: string[] = [];
  const rest = [...lines];
  let ended = 0;
  const atTerminal: Io = {
    ...io,
    converse: () => ({
      ask: async (prompt) => {
        asked.push(prompt);
        return rest.shift() ?? null;
      },
      end: () => ended++,
    }),
  };
  const status = await run(["new", ...args], atTerminal);
  expect(ended).toBe(asked.length > 0 ? 1 : 0);
  return { status, out: io.outText(), error: io.errorText(), asked, left: rest.length };
}

async function check(path: string, input = "") {
  const io = held(folder, input);
  const status = await run(["check", path, "--format", "json", "--strict"], io);
  return { status, findings: JSON.parse(io.outText()).findings };
}

test("answers from a file give a craft in which nothing is found", async () => {
  const { status, out, error } = await make(["--answers", "answers.json"]);
  expect({ status, error }).toEqual({ status: 0, error: "" });
  expect(out).toContain('craft "Cruet"\n\nuse "handsets/wheel.fettle"\nuse "layers/narrow.fettle"\n');
  expect(await check("-", out)).toEqual({ status: 0, findings: [] });
});

test("answers from standard input give the same, and a file is named from where it stands", async () => {
  const answers = readFileSync(join(folder, "answers.json"), "utf8");
  expect(await make(["--answers", "-", "--out", "craft/cruet.fettle"], answers)).toEqual({
    status: 0,
    out: "",
    error: "",
  });
  const text = readFileSync(join(folder, "craft/cruet.fettle"), "utf8");
  expect(text).toContain('use "../handsets/wheel.fettle"\nuse "../layers/narrow.fettle"\n');
  expect(await check("craft/cruet.fettle")).toEqual({ status: 0, findings: [] });
  expect(readdirSync(join(folder, "craft")).filter((name) => name.includes("part"))).toEqual([]);
});

test("it is run in any folder of the repository", async () => {
  const answers = '{ "name": "Ladle", "link": "Wheel", "layers": [] }';
  expect(await make(["--answers", "-", "--out", "ladle.fettle"], answers, join(folder, "craft"))).toMatchObject({
    status: 0,
  });
  expect(readFileSync(join(folder, "craft/ladle.fettle"), "utf8")).toContain('use "../handsets/wheel.fettle"');
  expect(await check("craft/ladle.fettle")).toEqual({ status: 0, findings: [] });
});

test("a file that is there is kept, and replaced only where that is said", async () => {
  const kept = join(folder, "craft/kept.fettle");
  writeFileSync(kept, 'craft "Kept"\n');
  expect(await make(["--answers", "answers.json", "--out", "craft/kept.fettle"])).toEqual({
    status: 2,
    out: "",
    error: "fettle: craft/kept.fettle is there already: choose another name, or --force replaces it\n",
  });
  expect(readFileSync(kept, "utf8")).toBe('craft "Kept"\n');
  expect(await make(["--answers", "answers.json", "--out", "craft/kept.fettle", "--force"])).toMatchObject({
    status: 0,
  });
  expect(readFileSync(kept, "utf8")).toContain('craft "Cruet"');
});

test.each([
  ['{ "nam": "Jug" }', "no question is called “nam”: did you mean name?"],
  ['{ "size": "6-inch" }', "size: “6-inch” is no answer: one of 31-mm, 40-mm, 2-inch, 3-inch, 5-inch, 7-inch, 10-inch"],
  [
    '{ "size": "10-inch", "pack": "1 lihv" }',
    "pack: “1 lihv” does not go with size 10-inch: one of 6-lipo, 8-lipo, 6-li-ion, 8-li-ion",
  ],
  ['{ "video": "analogue", "grid": "53x20" }', "grid: “53x20” does not go with video analogue: one of pal, ntsc, none"],
  ['{ "gps": 3 }', "gps: 3 is no answer: one of no, yes"],
  ['{ "name": "" }', "name: a craft needs a name"],
  ['{ "layers": ["layers/lost.fettle"] }', "layers: “layers/lost.fettle” is no answer: any of layers/narrow.fettle"],
  ['{ "layers": "layers/cracked.fettle" }', "layers: layers/cracked.fettle cannot be used: line 4: "],
  ["[]", 'the answers are one JSON object, as in {"name": "Jug", "size": "5-inch"}'],
  ["{", "standard input is no JSON: "],
])("%s is refused in one line", async (answers, why) => {
  const { status, out, error } = await make(["--answers", "-"], answers);
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(error).toMatch(/^fettle: .*\n$/);
  expect(error).toContain(why);
});

test.each([
  [["--answers", "lost.json"], "lost.json: there is no such file"],
  [
    ["--answers", "answers.json", "--out", "nowhere/cruet.fettle"],
    "nowhere/cruet.fettle cannot be written: its folder is not there",
  ],
  [["--answers", "answers.json", "--force"], "--force belongs to --out"],
  [["jug"], "“jug” is one word too many"],
  [[], "standard input is no terminal"],
])("new %j is refused", async (args, why) => {
  const { status, out, error } = await make(args);
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(error).toContain(why);
});

test("a layer that brings in a finding is left out, and it is said why", async () => {
  const answers = { link: "Wheel", layers: "Narrow", video: "digital", grid: "none" };
  const { status, out, error } = await make(["--answers", "-"], JSON.stringify({ ...answers, link: "868 MHz" }));
  expect({ status, error }).toEqual({ status: 0, error: "" });
  await folderFile("layers/slow.fettle", 'layer "Slow"\n\nlink\n  band  868 MHz\n\nmodes\n  arm  when NOB is down\n');
  const left = await make(["--answers", "-"], JSON.stringify({ ...answers, layers: ["Slow", "Narrow"] }));
  expect(left.status).toBe(0);
  expect(left.error).toContain("layers/slow.fettle is left out: ");
  expect(left.out).toMatch(/# Left out, because: (.*\n# ){1,3}use "layers\/slow.fettle"\n/);
  expect(out).not.toContain("slow");
  expect(await check("-", left.out)).toEqual({ status: 0, findings: [] });
});

async function folderFile(path: string, text: string): Promise<void> {
  writeFileSync(join(folder, path), text);
}

test("at a terminal Enter takes every usual answer", async () => {
  const { status, out, error, asked } = await talk(["", "", "", "", "", "", "", "", ""]);
  expect(status).toBe(0);
  expect(asked).toHaveLength(9);
  expect(asked[1]).toBe("Number or word [5-inch] ");
  expect(error).toContain("1 of 8  How large are the propellers?\n   1  31 mm");
  expect(error).toContain("layers/cracked.fettle cannot be used: line 4: ");
  const usual = await make(["--answers", "-"], '{ "layers": "none" }');
  expect(usual).toEqual({ status: 0, out, error: "" });
});

test("a question is answered by a number or a word, and asked again after anything else", async () => {
  const typed = [
    "Cruet",
    "5",
    "99",
    "six lipos",
    "6 lipo",
    "wheel",
    "analogue",
    "PAL",
    "no",
    "racing",
    "1, narrow",
    "",
  ];
  const { status, out, error, left } = await talk(typed, "--out", "craft/typed.fettle");
  expect({ status, out, left }).toEqual({ status: 0, out: "", left: 1 });
  expect(error).toContain("pack: “99” is no answer: one of 4-lipo, 6-lipo, 4-li-ion, 6-li-ion\n");
  const text = readFileSync(join(folder, "craft/typed.fettle"), "utf8");
  expect(text).toMatch(/craft "Cruet"(.|\n)*layers\/narrow.fettle(.|\n)*cells {6}6\n/);
  expect(await check("craft/typed.fettle")).toEqual({ status: 0, findings: [] });
});

test("the begin of one answer is enough, and what a number or a begin was taken for is said", async () => {
  const { status, out, error } = await talk(["Cruet", "6", "6-l", "4-lii", "wh", "a", "pa", "n", "beg", ""]);
  expect(status).toBe(0);
  // Six is the sixth of the list, and the pilot may have meant inches.
  expect(error).toContain("\n  → 7 inch\n");
  expect(error).toContain("pack: “6-l” is no answer");
  expect(out).toContain("A 7 inch craft, 4-cell li-ion, for a beginner");
  expect(out).toContain("signal  analogue");
});

test("where input ends before the questions do, nothing is written", async () => {
  const { status, out, error } = await talk(["Cruet", "5-inch"], "--out", "craft/unfinished.fettle");
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(error).toMatch(/\nfettle: the answers ended before the questions did: nothing is written\n$/);
  expect(existsSync(join(folder, "craft/unfinished.fettle"))).toBe(false);
});

test("the questions are given as JSON, and every answer that they list is accepted", async () => {
  const { status, out } = await make(["--questions"]);
  expect(status).toBe(0);
  const questions: {
    id: string;
    usual: unknown;
    choices: { word: string; onlyWith?: { question: string; words: string[] } }[];
  }[] = JSON.parse(out);
  expect(questions.map(({ id }) => id)).toEqual([
    "name",
    "size",
    "pack",
    "ducts",
    "link",
    "video",
    "grid",
    "gps",
    "pilot",
    "layers",
  ]);
  for (const { id, choices } of questions.slice(1)) {
    for (const { word, onlyWith } of choices) {
      const answers = { ...(onlyWith && { [onlyWith.question]: onlyWith.words[0] }), [id]: word };
      expect(await make(["--answers", "-"], JSON.stringify(answers)), JSON.stringify(answers)).toMatchObject({
        status: 0,
      });
    }
  }
});
