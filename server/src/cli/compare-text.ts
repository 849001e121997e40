/** A comparison as a person reads it. */
import type { Risk } from "../../../shared/protocol/compare.ts";
import { oneLine } from "./io.ts";

/** What a comparison prints. */
export interface ComparedText {
  readonly mine: SideText;
  readonly theirs: SideText;
  readonly notes: readonly string[];
  readonly rows: readonly {
    readonly what: string;
    readonly risk: Risk;
    readonly words: string;
    /** As `file:line`, from 1; null where that side does not have it. */
    readonly mineAt: string | null;
    readonly theirsAt: string | null;
  }[];
}

export interface SideText {
  readonly name: string;
  readonly from: string;
}

const HEADS: Readonly<Record<Risk, string>> = {
  high: "High risk: arming, link, failsafe, motors, ports, controls",
  medium: "Medium risk",
  low: "Low risk",
};

/** The terminal's own colours, which its owner chose: bold red, yellow, bold. */
const COLOURS: Readonly<Record<Risk, string>> = { high: "1;31", medium: "33", low: "1" };

/** Both sides, what is to be known, the differences by risk, the riskiest first, and a line that counts them. */
export function compareText({ mine, theirs, notes, rows }: ComparedText, ink: "plain" | "coloured"): string {
  const tint = (code: string, text: string) => (ink === "coloured" ? `\u001b[${code}m${text}\u001b[0m` : text);
  const name = Math.max(mine.name.length, theirs.name.length);
  const side = (word: string, { name: own, from }: SideText) =>
    `${word}  ${oneLine(own).padEnd(name)}  ${oneLine(from)}`.trimEnd();
  const head = [side("from", mine), side("to  ", theirs), ...notes.map((note) => `note  ${oneLine(note)}`)];
  const widest = Math.max(0, ...rows.map(({ what }) => what.length));
  const groups = (["high", "medium", "low"] as const).flatMap((risk) => {
    const own = rows.filter((row) => row.risk === risk);
    if (own.length === 0) return [];
    const lines = own.map(({ what, words, mineAt, theirsAt }) => {
      const places = [mineAt, theirsAt].map((at) => (at === null ? "–" : oneLine(at))).join(" → ");
      return `  ${oneLine(what).padEnd(widest)}  ${oneLine(words)}  ${tint("90", `(${places})`)}`;
    });
    return [[tint(COLOURS[risk], HEADS[risk]), ...lines]];
  });
  return `${[head, ...groups, [countText(rows)]].map((lines) => lines.join("\n")).join("\n\n")}\n`;
}

function countText(rows: ComparedText["rows"]): string {
  if (rows.length === 0) return "No difference in meaning.";
  const counts = (["high", "medium", "low"] as const).flatMap((risk) => {
    const number = rows.filter((row) => row.risk === risk).length;
    return number === 0 ? [] : `${number} ${risk}`;
  });
  return `${rows.length} ${rows.length === 1 ? "difference" : "differences"}: ${counts.join(", ")}`;
}
