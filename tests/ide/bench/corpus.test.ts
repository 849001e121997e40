/** Craft of every kind as text, with what their bench lists must say below; how they are written stands in the first file. */
import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { benchList } from "../../../shared/ide/bench/bench-list.ts";
import type { BenchList, BenchStep } from "../../../shared/protocol/bench.ts";
import { workspaceOf } from "../../rules/check.ts";
import { expectLawful } from "./laws.ts";

const FOLDER = "tests/fixtures/bench";

const WHEEL = `handset "Wheel"
transmitter
  band         2.4 GHz
controls
  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us
  PB button ch7 rest 1000 us held 2000 us
  KN dial ch9 1000 us to 2000 us
`;

const HABITS = `layer "Habits"
link
  on-loss     silent
  lost-after  300 ms
failsafe
  hold-for   1 s
  hold-with  level
  then       stop
safety
  arm-throttle-limit  1060 us
`;

interface Case {
  readonly title: string;
  readonly lines: readonly string[];
  readonly expected: readonly string[];
}

const cases = readdirSync(inProject(FOLDER))
  .sort()
  .flatMap((name) => readFileSync(inProject(FOLDER, name), "utf8").split(/^=== /m).slice(1))
  .map((text): Case => {
    const [head = "", expected = ""] = text.split("=>\n");
    const [title = "", ...lines] = head.trimEnd().split("\n");
    return { title, lines, expected: expected.trim().split("\n") };
  });

/** The list of a craft; where it sets up no mode, TL arms it. */
function listOf(lines: readonly string[]): BenchList {
  const uses = lines.filter((line) => line.startsWith("use "));
  const rest = lines.filter((line) => !line.startsWith("use "));
  const modes = rest.includes("modes") ? [] : ["modes", "  arm  when TL is down"];
  const workspace = workspaceOf({
    "jug.fettle": ['craft "Jug"', 'use "wheel.fettle"', ...uses, ...modes, ...rest, ""].join("\n"),
    "wheel.fettle": WHEEL,
    "layers/habits.fettle": HABITS,
  });
  return benchList(workspace.craft("jug.fettle")!, workspace);
}

/** What is not as a line expects it, in words; null where it is. */
function wrongIn(list: BenchList, line: string): string | null {
  const steps = list.phases.flatMap((phase) => phase.steps);
  const step = (id: string) => steps.find((each) => each.id === id);
  const at = (id: string) => steps.findIndex((each) => each.id === id);
  const words = ({ what, expect: seen, caution }: BenchStep) => [what, seen, caution].join(" ");
  const [, kind = "", name = "", text = ""] =
    /^(?:(not-reads|reads|not|risk|due|before|no|last|unknown|steps at most)(?=[ :]) ?)?([^:]*)(?:: (.*))?$/.exec(
      line,
    ) ?? [];
  switch (kind) {
    case "no":
      return steps.some(({ id }) => id.startsWith(name)) ? `${name} is there` : null;
    case "last":
      return steps.at(-1)?.id === name ? null : `last is ${steps.at(-1)?.id}`;
    case "before":
      return at(name) >= 0 && at(name) < at(text) ? null : `${name} is not before ${text}`;
    case "unknown":
      return list.unknown.some((each) => each.includes(text)) ? null : list.unknown.join(" ");
    case "steps at most":
      // How many it takes to show every position is up to the handset.
      return steps.filter(({ id }) => !id.startsWith("switches.")).length <= Number(name)
        ? null
        : `${steps.length} steps`;
    case "due": {
      const due = step(name)?.due;
      const told = due && ("why" in due ? due.why : "day" in due ? `done ${due.day}` : due.state);
      return told?.includes(text) ? null : `${told}`;
    }
    case "risk":
      return step(name)?.risk === text ? null : `${step(name)?.risk}`;
    case "reads":
    case "not-reads": {
      const reading = steps.flatMap(({ readings }) => readings).find((each) => each.name === name);
      const told =
        reading &&
        `${reading.what}: ${reading.expected}${reading.text === null ? "" : `; the script has ${reading.text}`}`;
      return told !== undefined && told.includes(text) === (kind === "reads") ? null : `${told}`;
    }
    default: {
      const found = step(name);
      if (!found) return `no step ${name}`;
      return words(found).includes(text) === (kind !== "not") ? null : words(found);
    }
  }
}

test("there are many", () => {
  expect(cases.length).toBeGreaterThan(80);
});

test.each(cases.map((each) => [each.title, each] as const))("%s", (_, { lines, expected }) => {
  const list = listOf(lines);
  expectLawful(list);
  const wrong = expected.flatMap((line) => {
    const why = wrongIn(list, line);
    return why === null ? [] : [`${line} → ${why}`];
  });
  expect(wrong).toEqual([]);
});
