import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { makeSwitchboard } from "../../shared/logic/switchboard.ts";
import type { Tour } from "../../shared/logic/tour-types.ts";
import { readInput } from "./read-board.ts";
import { boardOf, shortestLength } from "./shortest-tour.ts";

/** The controls of the cases, by name. */
const CONTROLS: Readonly<Record<string, string>> = {
  TL: "switch ch5 up 1000 us down 2000 us",
  TR: "switch ch6 up 1000 us mid 1500 us down 2000 us",
  FL: "switch ch7 up 1000 us mid 1500 us down 2000 us",
  SW: "switch ch8 up 1000 us mid 1500 us down 2000 us",
  FR: "switch ch9 up 1000 us down 2000 us",
  GS: "switch ch10 up 1000 us down 2000 us",
  PB: "button ch11 rest 1000 us held 2000 us",
  PX: "button ch13 rest 1000 us held 2000 us",
  KN: "dial ch14 1000 us to 2000 us",
  KW: "dial ch15 1000 us to 2000 us",
  KR: "dial ch16 2000 us to 1000 us",
  SX: "selector ch17 one 1000 us two 1200 us three 1400 us four 1600 us five 1800 us six 2000 us",
};

interface Case {
  readonly title: string;
  readonly board: string;
  readonly twoLevel: readonly number[];
  readonly count: number;
  readonly moves: readonly string[];
}

function readCase(text: string): Case {
  const [title = "", controls = "", ...lines] = text.trimEnd().split("\n");
  const at = lines.findIndex((line) => line.startsWith("-- "));
  const said = lines.slice(0, at);
  const twoLevel = said.flatMap((line) => (line.startsWith("two-level ") ? [Number(line.slice(10))] : []));
  const handset = controls.split(" ").map((name) => `${name} ${CONTROLS[name]}`);
  return {
    title,
    board: [...handset, ...said.filter((line) => !line.startsWith("two-level "))].join("\n"),
    twoLevel,
    count: Number(/^-- (\d+):/.exec(lines[at]!)![1]),
    moves: lines.slice(at + 1),
  };
}

const cases = readFileSync(new URL("tours.txt", import.meta.url), "utf8")
  .split("\n== ")
  .slice(1)
  .map(readCase);

/** As the cases write it. */
function asText({ name, to, comesOn, goesOff }: Tour["moves"][number]): string {
  const changes = [...comesOn.map((mode) => `+${mode}`), ...goesOff.map((mode) => `-${mode}`)];
  return [name, to, ...changes].join(" ");
}

/** What a movement turns on and off in any order. */
const inOneOrder = (line: string) => line.split(" ").toSorted().join(" ");

test("there are many cases", () => {
  expect(cases.length).toBeGreaterThanOrEqual(60);
});

test.each(cases.map((each) => [each.title, each] as const))("%s", (_, { board, twoLevel, count, moves }) => {
  const input = readInput(board, { twoLevelChannels: twoLevel });
  const tour = makeSwitchboard(input).tour()!;
  expect(tour.isShortest).toBe(true);
  const lines = tour.moves.map(asText);
  if (moves.length > 0) expect(lines.map(inOneOrder)).toEqual(moves.map(inOneOrder));
  expect(lines, lines.join("\n")).toHaveLength(count);
  // The reason is a person's; that no tour is shorter is seen by trying them all.
  const isSmall = input.controls.length <= 3 && !/ch12|KN|KW|KR/.test(board);
  if (isSmall) expect(shortestLength(boardOf(input))).toBe(count);
});
