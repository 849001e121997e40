/** Small dialects whose lines hold conditions in different ways. */
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import type { Dialect } from "../../../shared/dialect/dialect.ts";
import { readDialect } from "../../../shared/dialect/read-dialect.ts";
import { parse } from "../../../shared/syntax/parse.ts";

const does = "does  words a arm, f level, t turtle, q recorder";
const flue = "flue  number 0 to 11 from ch5";
const draw = "draw  number 0 to 60 from 880 us each 20 us";
const fluesAll = "flue  number 0 to 15 from ch1";
const shelf = `"shelf {m:does} by {c:flue}, {a:draw}..{b:draw}"  {m} when {c} in {a} to {b}`;

const texts = {
  one: { text: ['repeats "shelf"'], codes: [does, flue, draw], modes: [shelf] },
  two: {
    text: ['repeats "shelf"'],
    codes: [does, flue, draw],
    modes: [
      `"shelf {m:does} by {c:flue}, {a:draw}..{b:draw}; by {d:flue}, {x:draw}..{y:draw}"  {m} when {c} in {a} to {b} and {d} in {x} to {y}`,
    ],
  },
  linked: {
    text: ['repeats "shelf"'],
    codes: [does, flue, draw],
    modes: [shelf, `"chain {m:does} to {o:does}"  {m} when {o}`, `"steady {m:does}"  {m} when always`],
  },
  few: {
    text: [],
    codes: [does, flue, draw],
    modes: [`"shelf {#:1 to 2} {m:does} by {c:flue}, {a:draw}..{b:draw}"  {m} when {c} in {a} to {b}`],
  },
  single: { text: [], codes: [draw], modes: [`"queen {a:draw}..{b:draw}"  recorder when ch6 in {a} to {b}`] },
  coarse: {
    text: ['repeats "shelf"'],
    codes: [does, flue, "draw  number 0 to 6 from 900 us each 200 us"],
    modes: [shelf],
  },
  narrow: {
    text: ['repeats "shelf"'],
    codes: [does, flue, "draw  number 0 to 50 from 1000 us each 20 us"],
    modes: [shelf],
  },
  words: {
    text: ['repeats "shelf"'],
    codes: [does, flue, "draw  words lo 900 us, some 1300 us, more 1700 us, hi 2100 us"],
    modes: [shelf],
  },
  plain: {
    text: ['repeats "shelf"'],
    codes: [does, flue],
    modes: [`"shelf {m:does} by {c:flue}, {a:800 to 2200}..{b:800 to 2200}"  {m} when {c} in {a} to {b} us`],
  },
  bits: {
    text: ['repeats "shelf"'],
    codes: [
      does,
      "flue  number 0 to 20 from ch5",
      "draw  number from 860 us each 20 us",
      "spot  bits base 16 digits 4 0-2 by:flue, 3-8 low:draw, 9-14 high:draw",
    ],
    modes: [`"shelf {m:does} {p:spot}"  {m} when {p.by} in {p.low} to {p.high}`],
  },
  sticks: { text: ['repeats "shelf"'], codes: [does, fluesAll, draw], modes: [shelf] },
  any: {
    text: ['repeats "shelf"'],
    codes: [does, fluesAll],
    modes: [`"shelf {m:does} by {c:flue}, {a}..{b}"  {m} when {c} in {a} to {b} us`],
  },
  "any-two": {
    text: ['repeats "shelf"'],
    codes: [does, fluesAll],
    modes: [
      `"shelf {m:does} by {c:flue}, {a}..{b}; by {d:flue}, {x}..{y}"  {m} when {c} in {a} to {b} and {d} in {x} to {y}`,
    ],
  },
  "any-three": {
    text: ['repeats "shelf"'],
    codes: [does, fluesAll],
    modes: [
      `"shelf {m:does} by {c:flue}, {a}..{b}; by {d:flue}, {x}..{y}; by {e:flue}, {v}..{w}"  {m} when {c} in {a} to {b} and {d} in {x} to {y} and {e} in {v} to {w}`,
    ],
  },
  "stepped-two": {
    text: ['repeats "shelf"'],
    codes: [does, fluesAll, draw],
    modes: [
      `"shelf {m:does} by {c:flue}, {a:draw}..{b:draw}; by {d:flue}, {x:draw}..{y:draw}"  {m} when {c} in {a} to {b} and {d} in {x} to {y}`,
    ],
  },
} as const;

const catalogue = makeCatalogue();
export type DialectName = keyof typeof texts;

export function dialectText(name: DialectName): string {
  return ["text", "codes", "modes"].reduce((text, section) => {
    const lines = texts[name][section as "text" | "codes" | "modes"];
    return lines.length === 0 ? text : `${text}\n${section}\n${lines.map((line) => `  ${line}\n`).join("")}`;
  }, `dialect "${name}"\n`);
}

export function dialectNamed(name: DialectName): Dialect {
  const dialect = readDialect(`${name}.fettle`, parse(dialectText(name)), catalogue);
  if (dialect.issues.length > 0) throw new Error(`${name}: ${dialect.issues.map(({ message }) => message).join(" ")}`);
  return dialect;
}
