/** Makes switchboards from a few lines of text, written as in a script. */
import { makeSwitchboard } from "../../shared/logic/switchboard.ts";
import type { ConditionSpec, ControlSpec, Switchboard, SwitchInput } from "../../shared/logic/switchboard-types.ts";
import { units } from "../../shared/model/units.ts";
import { readCondition } from "../../shared/syntax/read-condition.ts";
import { isFault, type ReadContext } from "../../shared/syntax/read-context.ts";
import { readControl } from "../../shared/syntax/read-control.ts";
import { scanner } from "../../shared/syntax/scanner.ts";

/**
 * Reads lines such as `TL switch ch5 up 1000 us down 2000 us` and `arm when TL is down`; several
 * lines of a mode are joined. `broken MODE` is a line of that mode that cannot be read. Sources are lines of
 * the text, from 0, in a file called `board`.
 */
export function readInput(text: string, more: Partial<SwitchInput> = {}): SwitchInput {
  const controls: ControlSpec[] = [];
  const conditions = new Map<string, ConditionSpec["lines"][number][]>();
  text.split("\n").forEach((line, i) => {
    const source = { file: "board", line: i };
    const [head] = line.trim().split(/\s+/, 1) as [string];
    if (head === "") return;
    const when = /^\s*(\S+)\s+when /.exec(line);
    const name = when ? when[1]! : head === "broken" ? line.trim().slice(7) : null;
    if (name === null) {
      controls.push(readControlLine(head, line));
      return;
    }
    const condition = when ? readConditionLine(line, when[0].length) : null;
    conditions.set(name, [...(conditions.get(name) ?? []), { condition, source }]);
  });
  return {
    controls,
    conditions: [...conditions].map(([name, lines]) => ({ name, lines })),
    endpointsUs: { fromUs: 1000, toUs: 2000 },
    ...more,
  };
}

/** The switchboard of such a text. */
export function readBoard(text: string, more: Partial<SwitchInput> = {}): Switchboard {
  return makeSwitchboard(readInput(text, more));
}

function reading(line: string, from: number): ReadContext {
  return { scan: scanner(line, from, line.length), units, pieces: [] };
}

function readControlLine(name: string, line: string): ControlSpec {
  const value = readControl(reading(line, line.indexOf(name) + name.length));
  if (isFault(value)) throw new Error(`${line}: ${value.message}`);
  const { control: kind, channel, positions, rest, fromUs, toUs } = value;
  return {
    name,
    kind,
    channel,
    positions: positions.map((p) => ({ name: p.name, pulseUs: p.pulseUs })),
    rest,
    fromUs,
    toUs,
  };
}

function readConditionLine(line: string, from: number): ConditionSpec["lines"][number]["condition"] {
  const condition = readCondition(reading(line, from), { names: [], has: () => true });
  if (isFault(condition)) throw new Error(`${line}: ${condition.message}`);
  return condition;
}
