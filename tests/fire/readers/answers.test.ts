/** What is typed or handed over in a few words: positions, bench readings, answers, and the arguments of commands. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import { run } from "../../../server/src/cli/run.ts";
import { parsePositions } from "../../../shared/ide/arming/parse-positions.ts";
import { readBenchText } from "../../../shared/ide/edits/bench-text.ts";
import { readAnswers } from "../../../shared/ide/new-craft/answers.ts";
import { findFiles, newCraft } from "../../../shared/ide/new-craft/new-craft.ts";
import { flatAnswers } from "../../../shared/ide/new-handset/answers.ts";
import { boardOf } from "../../../shared/logic/from-craft.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { readSetting } from "../../../shared/model/read-value.ts";
import { units } from "../../../shared/model/units.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { held } from "../../cli/held.ts";
import type { Random } from "../random.ts";
import { tryCases } from "./cases.ts";
import { catalogue, scriptText, valueText } from "./grammar.ts";
import { isInWords } from "./script-laws.ts";
import { spoiled } from "./spoil.ts";

const WHEEL = `handset "Wheel"

controls
  TL  switch    ch5  up 1000 us  down 2000 us
  SX  selector  ch6  one 1000 us  two 1500 us  three 2000 us
  KN  dial      ch9  1000 us to 2000 us
`;
const JUG = `craft "Jug"\n\nuse "wheel.fettle"\n\nmodes\n  arm       when TL is down and ch12 above 1500 us\n  recorder  when SX is two or KN above 1700 us\n`;
const core = makeCore(catalogue);
const workspace = core.at(memoryFiles({ "/wheel.fettle": WHEEL, "/jug.fettle": JUG }));
const board = boardOf(workspace.craft("/jug.fettle")!, workspace);

test("positions are those of the craft's own controls, or are refused in words", async () => {
  const sound = [
    "TL=down",
    "SX=two",
    "KN=1500",
    "KN=1500us",
    "ch12=1700",
    "TL = up",
    "ch5=1000",
    "XX=up",
    "TL=",
    "=",
    "SX=seven",
    "KN=99999999999999999999",
  ];
  const tried = await tryCases(30, {
    make: (random) => random.some(random.below(4), () => spoiled(random, random.oneOf(sound), random.oneOf(sound))),
    fault: (texts) => {
      const read = parsePositions(texts, board);
      if (read.kind === "refused") return isInWords(read.why, texts.join(" ")) ? null : read.why;
      for (const [name, at] of Object.entries(read.positions)) {
        const variable = board.variables.find((each) => each.name === name);
        const places = variable?.control?.positions.map((each) => each.name) ?? [];
        const isPulse = typeof at === "number" && Number.isInteger(at) && at >= 800 && at <= 2200;
        if (!variable || (places.length > 0 ? !places.includes(String(at)) : !isPulse)) return `${name} is at ${at}`;
      }
      return null;
    },
  });
  expect(tried).toBeGreaterThan(0);
});

const SETTINGS = catalogue.sections.flatMap(({ settings }) =>
  settings.filter(({ types }) => types.some(({ is }) => is !== "fields")),
);

test("what is jotted down on the bench is read as the language reads it, or refused in words", async () => {
  const tried = await tryCases(30, {
    make: (random) => {
      const spec = random.oneOf(SETTINGS);
      return { spec, text: spoiled(random, valueText(random, spec.types), "1,5 2012 ½ ２") };
    },
    shown: ({ spec, text }) => `${spec.name} ${JSON.stringify(text)}`,
    fault: ({ spec, text }) => {
      const read = readBenchText(spec, null, text);
      if (read.kind === "unclear") return isInWords(read.message, text) ? null : read.message;
      const line = `${spec.name} ${read.text}`;
      const again = readSetting(line, { start: spec.name.length, end: line.length }, spec, units);
      return again.value ? null : `“${read.text}” is not understood: ${again.fault?.message}`;
    },
  });
  expect(tried).toBeGreaterThan(0);
});

const ANSWERS = [
  "5-inch",
  "4",
  "6",
  "yes",
  "no",
  "none",
  "wheel.fettle",
  "x",
  "",
  "\u202e",
  "__proto__",
  4,
  null,
  true,
  ["x"],
  {},
  "a".repeat(200),
  'a "b"',
];
const QUESTIONS = [
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
  "order",
  "constructor",
  "__proto__",
];

function answersText(random: Random): string {
  const given = Object.fromEntries(
    random.some(random.below(5), () => [random.oneOf(QUESTIONS), random.oneOf(ANSWERS)]),
  );
  return JSON.stringify(given);
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}

test("answers for a new craft make a script without a fault, or are refused in words", async () => {
  const found = findFiles(workspace, "/");
  const tried = await tryCases(1, {
    make: (random) =>
      random.onceIn(3) ? spoiled(random, answersText(random), answersText(random)) : answersText(random),
    fault: (text) => {
      const read = readAnswers(found, parsed(text));
      if (read.kind === "problem") return isInWords(read.problem, text) ? null : read.problem;
      const made = newCraft(read.answers, found, workspace, "/new.fettle");
      const script = core.at(memoryFiles({ "/new.fettle": made.text })).script("/new.fettle")!;
      const faulty = script.issues.find(({ code }) => code !== "unusual-value");
      return faulty ? `${faulty.message}\n${made.text}` : null;
    },
  });
  expect(tried).toBeGreaterThan(0);
});

test("answers for a new handset are read, or refused in words", async () => {
  const control = {
    name: "TL",
    kind: "switch",
    channel: 5,
    positions: { up: 1000, down: "2000 us" },
    range: "1000 us to 2000 us",
    rest: "up",
    lies: "left",
    rests: 1,
    fromUs: 1,
  };
  const tried = await tryCases(5, {
    make: (random) => {
      const parts = () => Object.fromEntries(Object.entries(control).filter(() => random.onceIn(2)));
      const text = JSON.stringify({
        name: random.oneOf(ANSWERS),
        keep: ["TL"],
        controls: random.some(random.below(3), parts),
      });
      return random.onceIn(2) ? spoiled(random, text, text) : text;
    },
    fault: (text) => {
      const read = flatAnswers(parsed(text));
      if (read.kind === "problem") return isInWords(read.problem, text) ? null : read.problem;
      return Object.values(read.answers).every((each) => typeof each === "string" || Array.isArray(each))
        ? null
        : JSON.stringify(read);
    },
  });
  expect(tried).toBeGreaterThan(0);
});

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "fettle-fire-"));
  const files = {
    ".git/HEAD": "ref: refs/heads/main\n",
    "wheel.fettle": WHEEL,
    "jug.fettle": JUG,
    "jug.txt": "set a = 1\n",
  };
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const COMMANDS = [
  "check",
  "show",
  "compare",
  "switches",
  "fleet",
  "ready",
  "bench",
  "explain",
  "board read",
  "merge",
  "share",
  "git text",
  "format",
  "help",
  "--version",
  "history",
];
const FLAGS = [
  "--format",
  "json",
  "text",
  "csv",
  "sarif",
  "--set",
  "TL=down",
  "KN=1500",
  "--due",
  "--wiped",
  "--together",
  "--flashed",
  "2026-04-18",
  "2026-13-40",
  "--throttle",
  "1000",
  "--tilt",
  "5deg",
  "--handset",
  "wheel.fettle",
  "jug.fettle",
  "-",
  "nowhere.fettle",
  ".",
  "--",
  "--check",
  "--rule",
  "arm-missing=off",
  "--since",
  "HEAD",
  "--dialect",
  "--view",
  "pack.cells",
  "cells",
  "jug.txt",
  "--format=",
  "--format=json",
  "-x",
  "--__proto__",
  "\u0000",
  "",
];

/** Whatever else stands around the folder of the test, or on the whole disk, is not to be read. */
const inFolder = (flag: string) => flag.replace(/\.{2,}/g, ".").replace(/(^|=)[\\/]+/, "$1");

test("whatever a command is called with, it answers or says in one line why not", async () => {
  const tried = await tryCases(1, {
    make: (random) => {
      const flags = random.some(random.below(5), () =>
        random.onceIn(5) ? inFolder(spoiled(random, random.oneOf(FLAGS), "--x")) : random.oneOf(FLAGS),
      );
      return {
        args: [...random.oneOf(COMMANDS).split(" "), ...flags],
        input: random.onceIn(2) ? JUG : spoiled(random, scriptText(random), JUG),
      };
    },
    fault: async ({ args, input }) => {
      const io = held(folder, input);
      const status = await run(args, io);
      const said = io.errorText();
      if (/should not have happened/.test(said)) return said;
      if (status === 2 && !/^(fettle: [^\n]+\n)+$/.test(said)) return `it ends with 2 and says ${JSON.stringify(said)}`;
      return [0, 1, 2].includes(status) ? null : `it ends with ${status}`;
    },
  });
  expect(tried).toBeGreaterThan(0);
}, 0);
