/** Every command that writes files, each with the folder that it is run in and the files that it may write. */
import { readFileSync } from "node:fs";
import { inProject } from "../../../.dev/say.mjs";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { referenceOf } from "../../../shared/ide/reference/reference.ts";
import { makeRepository } from "../../cli/repository.ts";
import { jug, wheel } from "../../cli/shed.ts";
import { projectFiles } from "../../tidy/sources.ts";

export interface Writer {
  /** The command in a few words. */
  readonly name: string;
  readonly args: readonly string[];
  /** The files that it writes, from its folder. */
  readonly targets: readonly string[];
  /** Where it refuses to write over what is there already. */
  readonly keeps?: true;
  /** It writes in a way of its own, and not as the others do. */
  readonly own?: true;
  /** It writes so much that where time is short only each call of so many is tried. */
  readonly sparse?: number;
  /** Run in the folder once, before. */
  readonly before?: readonly string[];
}

const demo = Object.fromEntries(
  projectFiles()
    .filter((path) => /^examples\/.*\.(fettle|txt)$/.test(path))
    .map((path) => [path.replace("examples/", ""), readFileSync(inProject(path), "utf8")]),
);

const askew = (name: string) =>
  jug.replace('"Jug"', `"${name}"`).replace("arm  when TL is down", "arm      when   TL is down");
const OLD = "what stood here before\n";

/** What is in the folder of each of them. */
const FILES: Readonly<Record<string, string>> = {
  ...demo,
  "handsets/wheel.fettle": `${demo["handsets/wheel.fettle"] ?? wheel}`,
  "craft/jug.fettle": jug.replaceAll(/^use .*$/gm, ""),
  "craft/askew.fettle": askew("Askew"),
  "craft/bent.fettle": askew("Bent"),
  "base.fettle": jug,
  "ours.fettle": jug.replace("TL is down", "TL is up"),
  "theirs.fettle": jug.replace("then  stop", "then  descend"),
  "craft.json": JSON.stringify({ name: "Cruet", link: "2.4-ghz", video: "analogue" }),
  "handset.json": JSON.stringify({ name: "Kiln", controls: [{ name: "TL", lies: "left shoulder" }, { kind: "dial" }] }),
  ...Object.fromEntries(
    ["read.fettle", "sent.txt", "moved.txt", "learned.fettle", "shared.fettle", "forced.fettle"].map((path) => [
      path,
      OLD,
    ]),
  ),
  ...Object.fromEntries(
    ["list.html", "list.md", "osd.svg", "osd.png", "fleet.html", "reference/index.html", "reference/own.html"].map(
      (path) => [path, OLD],
    ),
  ),
};

export const WRITERS: readonly Writer[] = [
  {
    name: "format",
    own: true,
    args: ["format", "craft/askew.fettle", "craft/bent.fettle"],
    targets: ["craft/askew.fettle", "craft/bent.fettle"],
  },
  {
    name: "merge",
    own: true,
    args: ["merge", "base.fettle", "ours.fettle", "theirs.fettle", "--out", "ours.fettle"],
    targets: ["ours.fettle"],
  },
  {
    name: "board read",
    args: ["board", "read", "--dialect", "boards/loom.fettle", "boards/loom.txt", "--out", "read.fettle"],
    targets: ["read.fettle"],
  },
  {
    name: "board write",
    args: ["board", "write", "--dialect", "boards/loom.fettle", "craft/amphora.fettle", "--out", "sent.txt"],
    targets: ["sent.txt"],
  },
  {
    name: "board move",
    args: [
      ...["board", "move", "--from", "boards/ebb-second.fettle", "--to", "boards/ebb-third.fettle"],
      ...["boards/ebb-second.txt", "--out", "moved.txt"],
    ],
    targets: ["moved.txt"],
  },
  {
    name: "board learn",
    args: ["board", "learn", "boards/read/loom.fettle=boards/loom.txt", "--out", "learned.fettle"],
    targets: ["learned.fettle"],
  },
  { name: "share", args: ["share", "craft/tankard.fettle", "--out", "shared.fettle"], targets: ["shared.fettle"] },
  {
    name: "new",
    args: ["new", "--answers", "craft.json", "--out", "cruet.fettle"],
    targets: ["cruet.fettle"],
    keeps: true,
  },
  {
    name: "new in place of another",
    args: ["new", "--answers", "craft.json", "--out", "forced.fettle", "--force"],
    targets: ["forced.fettle"],
  },
  {
    name: "new handset",
    own: true,
    args: ["new", "handset", "--answers", "handset.json", "--out", "kiln.fettle"],
    targets: ["kiln.fettle"],
    keeps: true,
  },
  {
    name: "bench as a page",
    args: ["bench", "craft/tankard.fettle", "--out", "list.html"],
    targets: ["list.html"],
  },
  {
    name: "bench as Markdown",
    args: ["bench", "craft/tankard.fettle", "--out", "list.md"],
    targets: ["list.md"],
  },
  {
    name: "draw",
    args: ["draw", "craft/tankard.fettle", "--view", "osd", "--out", "osd.svg"],
    targets: ["osd.svg"],
  },
  {
    name: "draw as pixels",
    sparse: 2,
    args: ["draw", "craft/tankard.fettle", "--view", "osd", "--out", "osd.png"],
    targets: ["osd.png"],
  },
  {
    name: "reference",
    sparse: 130,
    args: ["reference", "--out", "reference"],
    targets: referenceOf(makeCatalogue()).map(({ path }) => `reference/${path}`),
  },
  { name: "fleet", args: ["fleet", "craft", "--out", "fleet.html"], targets: ["fleet.html"] },
  { name: "git install", own: true, args: ["git", "install"], targets: [".gitattributes", ".git/config"] },
  {
    name: "git remove",
    own: true,
    args: ["git", "remove"],
    targets: [".gitattributes", ".git/config"],
    before: ["git", "install"],
  },
];

/** A folder for one of them, a repository of git. */
export function folderForWriter(): string {
  return makeRepository({ ...FILES, ".fettle-root": "" }).folder;
}
