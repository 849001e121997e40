/** Cases of reading: a dialect, a board's text with the state of each line before it, and the script expected. */
import type { LineState } from "../../../shared/dialect/read/reading.ts";

export interface ExpectedLine {
  readonly text: string;
  readonly state: LineState;
  readonly says: readonly string[];
  /** Part of the reason that is told; "" where none is expected. */
  readonly why: string;
}

export interface ReadingCase {
  readonly title: string;
  readonly dialect: string;
  readonly board: string;
  readonly handset: boolean;
  readonly lines: readonly ExpectedLine[];
  readonly script: string;
  readonly notes: readonly string[];
  readonly curves: readonly string[] | null;
}

export const HANDSET = `handset "Wheel"

controls
  TL  switch    ch5  up 1000 us  down 2000 us
  TR  switch    ch6  up 1000 us  mid 1500 us  down 2000 us
  PB  button    ch7  rest 1000 us  held 2000 us
  KN  dial      ch9  1000 us to 2000 us
  SX  selector  ch10 one 1000 us  two 1200 us  three 1400 us  four 1600 us  five 1800 us  six 2000 us
`;

/**
 * The cases of a file. In a board's text “→” is a tab and “(90 times x)” that many of them; each line stands behind its
 * state and a bar, with “=” before what it says and “?” before part of the reason in the lines below.
 */
export function parseCases(text: string): ReadingCase[] {
  return text
    .split(/^=== /m)
    .slice(1)
    .map((block) => {
      const [head, ...parts] = `${block}`.split(/^--- /m);
      const [title, ...dialect] = head!.trimEnd().split("\n");
      const partOf = (name: string) => {
        const part = parts.find((each) => each.startsWith(`${name}\n`));
        return part === undefined ? null : part.slice(name.length + 1).replace(/\n+$/, "");
      };
      const lines = linesOf(partOf("board")!);
      const body = expanded(partOf("script") ?? "");
      return {
        title: title!,
        dialect: `dialect "Kiln"\n\n${dialect.join("\n")}\n`,
        board: lines.map((each) => each.text).join("\n"),
        handset: partOf("handset") !== null,
        lines,
        script: `craft "Kiln"\n${body === "" ? "" : `\n${body}\n`}`,
        notes: partOf("notes")?.split("\n") ?? [],
        curves: partOf("curves")?.split("\n") ?? null,
      };
    });
}

function linesOf(part: string): ExpectedLine[] {
  const lines: { text: string; state: LineState; says: string[]; why: string }[] = [];
  for (const line of part.split("\n")) {
    const begins = /^(read|odd|kept|idle) *\|(.*)$/s.exec(line);
    const last = lines.at(-1);
    if (begins) lines.push({ text: expanded(begins[2]!), state: begins[1] as LineState, says: [], why: "" });
    else if (line.startsWith("     ="))
      last!.says = line.slice(6).trim() === "" ? [] : line.slice(6).trim().split("; ");
    else if (line.startsWith("     ?")) last!.why = line.slice(6).trim();
    else throw new Error(`no line of a board's text: ${line}`);
  }
  return lines;
}

function expanded(text: string): string {
  return text
    .replaceAll("→", "\t")
    .replace(/\((\d+) times (.)\)/g, (_, count: string, character: string) => character.repeat(Number(count)));
}
