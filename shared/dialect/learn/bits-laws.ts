/** A column and a row that are bits of one number. */
import { numberIn } from "../codes/held.ts";
import { numberOf } from "../exact.ts";
import type { AlignedLine } from "./align.ts";
import type { Member } from "./atoms.ts";
import type { Law } from "./law.ts";

export interface Bits {
  readonly law: Law;
  readonly base: number;
  readonly columnAt: number;
  readonly rowAt: number;
}

/** Bits for every column and row of the widest grid. */
const COLUMN_BITS = 6;
const ROW_BITS = 5;
const MOST_BITS = 28;

/** Where column and row lie, if only one way fits as many lines as any; all other bits are as they were. */
export function bitsLaw(
  lines: readonly AlignedLine[],
  members: readonly Member[],
  at: number,
  may: (line: number, member: Member) => boolean,
): Bits | null {
  const tokens = lines.flatMap(({ pieces }) => pieces.map((each) => each[at]!.text));
  const digits = tokens[0]!.length;
  const isHex = tokens.every((text) => /^[0-9a-f]+$/i.test(text) && text.length === digits) && digits > 1;
  const isDecimal = tokens.every((text) => /^(0|[1-9]\d*)$/.test(text));
  let found: Bits[] = [];
  let most = 1;
  for (const base of [...(isHex ? [16] : []), ...(isDecimal ? [10] : [])]) {
    const numbers = tokens.map((text) => Number.parseInt(text, base));
    if (numbers.some((n) => n >= 2 ** MOST_BITS)) continue;
    const top = 32 - Math.clz32(Math.max(...numbers));
    const spelling = base === 16 ? ` base 16 digits ${digits}` : "";
    for (let columnAt = 0; columnAt < top; columnAt++)
      for (let rowAt = 0; rowAt < top; rowAt++) {
        if (rowAt === columnAt) continue;
        const law = lawAt(numbers, columnAt, rowAt, base === 16 ? digits * 4 : top, spelling);
        if (!law) continue;
        const bits = { law, base, columnAt, rowAt };
        const count = [...lines.keys()].filter(
          (i) => members.filter((member) => may(i, member) && bitsFit(bits, lines[i]!, at, member)).length === 1,
        ).length;
        if (count > most) [found, most] = [[], count];
        if (count === most && count > 1) found.push(bits);
      }
  }
  return found.length === 1 ? found[0]! : null;
}

/** Null where the parts overlap, or a bit of neither differs. */
function lawAt(
  numbers: readonly number[],
  columnAt: number,
  rowAt: number,
  bits: number,
  spelling: string,
): Law | null {
  const width = (from: number, usual: number, other: number) =>
    other > from ? Math.min(usual, other - from) : Math.min(usual, bits - from);
  const [columns, rows] = [width(columnAt, COLUMN_BITS, rowAt), width(rowAt, ROW_BITS, columnAt)];
  const fixed: string[] = [];
  for (let bit = 0; bit < bits; bit++) {
    if ((bit >= columnAt && bit < columnAt + columns) || (bit >= rowAt && bit < rowAt + rows)) continue;
    const is = (numbers[0]! >> bit) & 1;
    if (numbers.some((n) => ((n >> bit) & 1) !== is)) return null;
    fixed.push(`${bit} is ${is}`);
  }
  const part = (from: number, count: number, name: string) =>
    `${count === 1 ? from : `${from}-${from + count - 1}`} ${name}`;
  const parts = [part(columnAt, columns, "column"), part(rowAt, rows, "row")];
  return { kind: "bits", clauses: `${[...parts, ...fixed].join(", ")}${spelling}` };
}

export function bitsFit({ base, columnAt, rowAt }: Bits, line: AlignedLine, at: number, { entries }: Member): boolean {
  const apart = Math.abs(columnAt - rowAt);
  const [columns, rows] = [
    columnAt < rowAt ? Math.min(COLUMN_BITS, apart) : COLUMN_BITS,
    rowAt < columnAt ? Math.min(ROW_BITS, apart) : ROW_BITS,
  ];
  return entries.every(({ values }, row) => {
    const n = Number.parseInt(line.pieces[row]![at]!.text, base);
    const part = (from: number, count: number) => (n >> from) & (2 ** count - 1);
    const [column, own] = values.map((each) => numberOf(numberIn(each)!.number));
    return part(columnAt, columns) === column && part(rowAt, rows) === own;
  });
}
