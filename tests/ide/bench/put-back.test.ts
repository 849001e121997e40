/** What is put back after a wipe: the board's lines, each once and in an order that means the same; what spins comes after. */
import { expect, test } from "vitest";
import type { Dialect } from "../../../shared/dialect/dialect.ts";
import { dialectOf } from "../../../shared/dialect/dialects.ts";
import { readBoard } from "../../../shared/dialect/read/read-board.ts";
import { writeBoard } from "../../../shared/dialect/write/write-board.ts";
import { putBackList } from "../../../shared/ide/bench/put-back.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import type { BenchList } from "../../../shared/protocol/bench.ts";
import { workspaceOf } from "../../rules/check.ts";
import { scriptsIn } from "../../rules/fixtures.ts";
import { triedCraft } from "./craft-of-tests.ts";
import { expectLawful } from "./laws.ts";

const DAY = "2026-11-29";
const files = scriptsIn("../../examples");
const boards = workspaceOf(files);
const dialects = ["ebb-second", "ebb-third", "loom"].map(
  (name) => dialectOf(boards, Object.keys(files).find((file) => file.endsWith(`boards/${name}.fettle`))! as never)!,
);

/** Each takes a while: a quarter of them, among them the demo. */
const tried = triedCraft().filter(({ name }, i) => i % 4 === 0 || name.includes("examples"));

/** Of a put-back list the phases of its own, and the bench list behind them. */
function halvesOf(list: BenchList): { back: BenchList; checked: BenchList } {
  const isBack = ({ name }: BenchList["phases"][number]) => name.startsWith("put-back-");
  return {
    back: { ...list, phases: list.phases.filter(isBack) },
    checked: { ...list, phases: list.phases.filter((phase) => !isBack(phase)) },
  };
}

function sentIn(list: BenchList): readonly string[][] {
  return list.phases.flatMap(({ steps }) => steps.flatMap(({ lines }) => (lines ? [[...lines]] : [])));
}

/** What a board comes to by a text, but for lines that nobody reads. */
function meaning(dialect: Dialect, lines: readonly string[], workspace: Workspace, craft: Craft): string {
  const { script } = readBoard(dialect, lines.join("\n"), { workspace, handset: null, craft });
  return script.split("\nverbatim")[0]!;
}

/** Lines that count by themselves: no blank ones, comments, openings, closings or headings. */
function counting(dialect: Dialect, lines: readonly string[], workspace: Workspace, craft: Craft): string[] {
  const read = readBoard(dialect, lines.join("\n"), { workspace, handset: null, craft }).lines;
  return read.filter(({ state }) => state !== "idle").map(({ line }) => lines[line]!);
}

test("every line of the whole text is sent once, and what is sent means the same, for craft of every kind", () => {
  let pairs = 0;
  for (const { name, craft, workspace } of tried)
    for (const dialect of dialects) {
      pairs++;
      const list = putBackList(craft, workspace, { dialect, saved: null, day: DAY });
      const text = writeBoard(dialect, craft, workspace, null).text.split(/\r\n|\n/);
      const sent = sentIn(list);
      const [own, all] = [sent.flat(), text.filter((line) => line !== "")];
      const where = `${name} in ${dialect.name}`;
      expect(counting(dialect, own, workspace, craft).sort(), where).toEqual(
        counting(dialect, all, workspace, craft).sort(),
      );
      expect(meaning(dialect, own, workspace, craft), where).toBe(meaning(dialect, all, workspace, craft));
    }
  expect(pairs).toBeGreaterThan(90);
});

test("the propellers are off before anything has power, nothing spins while a craft is put back, and the bench list ends it", () => {
  for (const { name, craft, workspace } of tried)
    for (const dialect of [null, dialects[1]!]) {
      const list = putBackList(craft, workspace, { dialect, saved: null, day: DAY });
      const { back, checked } = halvesOf(list);
      expect(list.phases, name).toEqual([...back.phases, ...checked.phases]);
      const steps = list.phases.flatMap((phase) => phase.steps);
      expect(steps[0]!.id).toBe("unpowered.propellers");
      for (const { risk, id } of back.phases.flatMap((phase) => phase.steps))
        expect(["unpowered", "powered"], id).toContain(risk);
      const first = back.phases[0]!.steps.slice(0, 1);
      expectLawful({
        ...checked,
        phases: [
          { name: "unpowered", title: "", how: null, steps: first },
          ...checked.phases.filter((each) => each.name !== "unpowered"),
        ],
      });
      expect(new Set(steps.map(({ id }) => id)).size).toBe(steps.length);
    }
});
