/**
 * What craft of every kind commonly carry draws no word about its size, and what is ten times off or absurd
 * for that kind does: `tests/fixtures/usual/table.txt`, a setting a row. In a value `|` stands for a space.
 */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { understood, workspaceOf } from "../check.ts";

/** The rules that judge a single value: of the unusual, of the impossible, and of what a pack or a region allows. */
const JUDGING = ["unusual-value", "out-of-range", "pack-chemistry", "pack-order", "video-band"];

const read = (name: string) =>
  readFileSync(inProject("tests/fixtures/usual", name), "utf8")
    .split("\n")
    .filter((line) => line !== "" && !line.startsWith("#"));
/** Columns are told apart by “ | ”: in a value the bar has no space beside it. */
const columns = (line: string) => line.split(/ \| ?/).map((each) => each.trim());
const kinds = new Map(
  read("kinds.txt").map((line) => {
    const [name = "", ...facts] = columns(line.replace(/\|$/, "| "));
    return [name, facts.filter((fact) => fact !== "")] as const;
  }),
);

interface Row {
  readonly kind: string;
  readonly section: string;
  readonly line: string;
  readonly sound: readonly string[];
  readonly absurd: readonly string[];
}

const rows = read("table.txt").flatMap((line): Row[] => {
  const [names = "", section = "", written = "", sound = "", absurd = ""] = columns(line);
  const values = (text: string) => text.split(" ").map((each) => each.replaceAll("|", " "));
  return names
    .split(" ")
    .map((kind) => ({ kind, section, line: written, sound: values(sound), absurd: values(absurd) }));
});

/** What is found on the line with this value, on a craft of that kind. */
function foundWith({ kind, section, line }: Row, value: string): string[] {
  const facts = kinds.get(kind);
  if (!facts) throw new Error(`No kind of craft is called “${kind}”.`);
  const written = line.replace("_", value);
  const name = written.split(" ")[0]!;
  const said = facts.filter((fact) => !fact.startsWith(`${section} ${name} `));
  const entry = (fact: string) => fact.replace(" ", "\n  ");
  const header = section === "transmitter" ? "handset" : "craft";
  const text = `${header} "Jug"\n${[...said.map(entry), `${section}\n  ${written}`].join("\n")}\n`;
  const at = text.trimEnd().split("\n").length - 1;
  const found = understood(findingsOf(workspaceOf({ "jug.fettle": text }), "jug.fettle"));
  return found
    .filter(({ code, range }) => JUDGING.includes(code) && range.start.line === at)
    .map(({ code, message }) => `${code}: ${message}`);
}

test.each(rows.map((row) => [`${row.kind}: ${row.section} ${row.line}`, row] as const))("%s", (_, row) => {
  const crying = row.sound.flatMap((value) => foundWith(row, value).map((found) => `${value}: ${found}`));
  const missed = row.absurd.filter((value) => foundWith(row, value).length === 0);
  expect({ crying, missed }).toEqual({ crying: [], missed: [] });
});
