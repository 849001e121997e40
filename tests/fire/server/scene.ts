/** What a burst works on: scripts of every kind as files, and what can be said of them at random. */
import { readdirSync, readFileSync } from "node:fs";
import { inProject } from "../../../.dev/say.mjs";
import type { Random } from "../random.ts";

const FOLDERS = ["examples", "tests/fixtures/sane", "tests/fixtures/shed", "tests/fixtures/faulty/kitchen"];

/** Scripts, own words and board texts of the project, by a path that keeps those together that use one another. */
export const TEXTS: ReadonlyMap<string, string> = new Map(
  FOLDERS.flatMap((folder) =>
    readdirSync(inProject(folder), { recursive: true, encoding: "utf8" })
      .map((name) => name.replaceAll("\\", "/"))
      .filter((name) => /\.(?:fettle|json|txt)$/.test(name) && !name.includes(".vscode"))
      .sort()
      .map((name): [string, string] => [
        `${folder.split("/").at(-1)}/${name}`,
        readFileSync(inProject(`${folder}/${name}`), "utf8"),
      ]),
  ),
);

const all = [...TEXTS.values()];
/** Every line and every word that one of them has. */
export const LINES = [...new Set(all.flatMap((text) => text.split("\n")))];
export const WORDS = [...new Set(all.flatMap((text) => text.match(/[\w-]+|[^\s\w]/g) ?? []))];

/** Texts that nobody types and somebody pastes. */
export const HOSTILE = [
  "\0",
  "\r",
  "\r\n",
  "\n\r",
  "\u2028",
  "\u2029",
  "\u0085",
  "\v\f",
  "\uFEFF",
  "\u202E",
  "\u2066x\u2069",
  "\u200B",
  "\uD800",
  "\uDC00\uD800",
  "\u{1F600}",
  "e\u0301",
  "\uFFFD",
  "\t",
  '"',
  '"\\"',
  "#",
  "<script>",
  "](command:x)",
  "\u001B[31m",
  "__proto__",
  "constructor",
];

/** The files of a workspace: those of some folders, now and then of all, whole or with a part of them missing. */
export function chosenTexts(random: Random): Map<string, string> {
  const isWide = random.onceIn(5);
  const isTorn = random.onceIn(3);
  const folders = random.some(random.between(1, 2), () => random.oneOf(FOLDERS).split("/").at(-1));
  return new Map(
    [...TEXTS].filter(([path]) => (isWide || folders.includes(path.split("/")[0])) && !(isTorn && random.onceIn(3))),
  );
}

/** A text of some lines that have nothing to do with each other, under a header or none. */
export function strayText(random: Random): string {
  const header = random.oneOf([
    'craft "Stray"',
    'layer "Stray"',
    'handset "Stray"',
    'dialect "Stray"',
    "",
    "craft",
    "edition 99",
  ]);
  return [header, ...random.some(random.below(30), () => random.oneOf(LINES))].join(
    random.oneOf(["\n", "\n", "\r\n", "\r"]),
  );
}
