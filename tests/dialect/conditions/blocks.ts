/** Reads the corpora of conditions and ranges: blocks of controls and modes, with cases below them. */
import { readFileSync } from "node:fs";
import type { ChannelRange, RangedControl } from "../../../shared/dialect/conditions/from-ranges.ts";
import { makeSwitchboard } from "../../../shared/logic/switchboard.ts";
import type { ConditionSpec, SwitchInput } from "../../../shared/logic/switchboard-types.ts";
import type { Condition } from "../../../shared/syntax/condition.ts";
import { readInput } from "../../logic/read-board.ts";

const AT = { start: 0, end: 0 };

export interface Block {
  /** The lines of controls and modes, without those of the link. */
  readonly board: string;
  readonly input: SwitchInput;
  /** Behind “with”: a dialect of `dialects.ts`. */
  readonly dialect: string | null;
  /** The indented lines, trimmed. */
  readonly cases: readonly string[];
}

/** The blocks of a file beside this one, divided by blank lines; lines with `#` say something to the reader. */
export function blocksOf(file: string): Block[] {
  const text = readFileSync(new URL(file, import.meta.url), "utf8");
  return text.split(/\n{2,}/).flatMap((block) => {
    const lines = block.split("\n").filter((line) => line.trim() !== "" && !line.startsWith("#"));
    if (lines.length === 0) return [];
    const facts = lines.filter((line) => !line.startsWith("  "));
    const board = facts.filter((line) => !/^(?:two-level|endpoints|with) /.test(line)).join("\n");
    const numbers = (word: string) =>
      facts
        .find((line) => line.startsWith(`${word} `))
        ?.split(" ")
        .slice(1)
        .map(Number);
    const [fromUs = 1000, toUs = 2000] = numbers("endpoints") ?? [];
    const input = readInput(board, { endpointsUs: { fromUs, toUs }, twoLevelChannels: numbers("two-level") ?? [] });
    const dialect = facts.find((line) => line.startsWith("with "))?.slice(5) ?? null;
    const cases = lines.filter((line) => line.startsWith("  ")).map((line) => line.trim());
    return [{ board, input, dialect, cases }];
  });
}

/** `ch5 1700..2100 ch6 900..1250` */
export function rangesOf(text: string): ChannelRange[] {
  return [...text.matchAll(/ch(\d+) (\d+(?:\.\d+)?)\.\.(\d+(?:\.\d+)?)/g)].map(([, channel, fromUs, toUs]) => ({
    channel: Number(channel),
    fromUs: Number(fromUs),
    toUs: Number(toUs),
  }));
}

/** The controls of an input as a reader of board text has them. */
export function controlsOf({ controls }: SwitchInput): ReadonlyMap<string, RangedControl> {
  return new Map(controls.map(({ name, kind, channel, positions }) => [name, { control: kind, channel, positions }]));
}

/** The condition of a board's lines themselves: any one of them, and of each all of its ranges. */
export function conditionOfLines(lines: readonly (readonly ChannelRange[])[]): ConditionSpec["lines"] {
  return lines.map((ranges) => ({
    source: { file: "board", line: 0 },
    condition: {
      kind: "and",
      parts: ranges.map(
        ({ channel, fromUs, toUs }): Condition => ({
          kind: "in",
          subject: { kind: "channel", channel, ...AT },
          fromUs,
          toUs,
          ...AT,
        }),
      ),
      ...AT,
    },
  }));
}

/** Whether two conditions hold in the same states of the controls of an input, by the logic; null where it is not known. */
export function sameStates(input: SwitchInput, a: ConditionSpec["lines"], b: ConditionSpec["lines"]): boolean | null {
  const board = makeSwitchboard({
    ...input,
    conditions: [...input.conditions, { name: "this-one", lines: a }, { name: "that-one", lines: b }],
  });
  const [one, other] = [board.selected("this-one"), board.selected("that-one")];
  return one === null || other === null ? null : one === other;
}
