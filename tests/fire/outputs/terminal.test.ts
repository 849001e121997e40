/** What a stranger's text does at a terminal and in the files of the command line: nothing. */
import { mkdirSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { run } from "../../../server/src/cli/run.ts";
import { held } from "../../cli/held.ts";
import { importCommits, makeRepository } from "../../cli/repository.ts";
import { markdownFaults, unseenIn } from "./inspect.ts";
import { hostileRows } from "./rows.ts";
import { type Shed, shedOf } from "./shed.ts";

/** How the output of a command line is read. */
type Reader = "terminal" | "json" | "sarif" | "markdown" | "script";

/** Every command that reads scripts, in each form that it has; `script`: its output is bytes of the pilot's own. */
function commandLines({ craft, other, handset, dialect, board }: Shed): readonly (readonly [Reader, ...string[]])[] {
  const json = ["--format", "json"];
  const learn = `${other}=${board}`;
  return [
    ["terminal", "check"],
    ["terminal", "check", craft, "--together", craft, other],
    ["json", "check", ...json],
    ["sarif", "check", "--format", "sarif"],
    ["terminal", "check", "--since", "HEAD~1"],
    ["terminal", "format", "--check"],
    ["script", "format", "--print", other],
    ["terminal", "show", craft],
    ["terminal", "show", other],
    ["json", "show", other, ...json],
    ["script", "show", other, "--format", "script"],
    ["terminal", "compare", craft, other],
    ["terminal", "compare", `HEAD~1:${other}`, other],
    ["json", "compare", craft, other, ...json],
    ["terminal", "history", other, "pack.cells"],
    ["terminal", "history", other, "pack.label"],
    ["terminal", "history", other, "handset"],
    ["json", "history", other, "pack.cells", ...json],
    ["script", "share", other],
    ["json", "share", other, ...json],
    ["terminal", "switches", craft],
    ["terminal", "switches", other, "--handset", handset],
    ["json", "switches", other, ...json],
    ["terminal", "fleet"],
    ["terminal", "fleet", "--together", craft, other],
    ["json", "fleet", ...json],
    ["terminal", "ready", craft],
    ["terminal", "ready", other, "--set", "TL=down"],
    ["json", "ready", other, ...json],
    ["terminal", "bench", craft],
    ["terminal", "bench", other, "--wiped", "--flashed", "2026-11-01"],
    ["markdown", "bench", other, "--format", "markdown"],
    ["markdown", "bench", other, "--wiped", "--format", "markdown"],
    ["json", "bench", other, ...json],
    ["terminal", "explain", "--list"],
    ["json", "explain", "--list", ...json],
    ["markdown", "explain", "belly-kind"],
    ["markdown", "explain", "finder"],
    ["script", "board", "read", "--dialect", dialect, "--handset", handset, board],
    ["script", "board", "read", board],
    ["json", "board", "read", "--dialect", dialect, board, ...json],
    ["script", "board", "write", other],
    ["script", "board", "write", "--dialect", dialect, craft, "--no-base"],
    ["script", "board", "move", "--from", dialect, "--to", dialect, "--handset", handset, board],
    ["script", "board", "learn", learn, learn],
    ["script", "merge", other, craft, other],
    ["terminal", "git", "text", other],
  ];
}

/** What goes wrong, with the text in the arguments. */
function failing({ craft }: Shed, text: string): readonly (readonly string[])[] {
  const given = text.startsWith("-") ? `x${text}` : text;
  return [
    [given],
    ["check", `gone ${given}`],
    ["check", "--since", given],
    ["check", "--rule", `${given}=off`],
    ["show", given],
    ["compare", craft, `HEAD:${given}`],
    ["history", craft, given],
    ["ready", craft, "--set", `TL=${given}`],
    ["ready", craft, "--set", given],
    ["draw", craft, "--view", given, "--out", "x.svg"],
    ["bench", craft, "--wiped", "--flashed", given],
    ["explain", given],
    ["board", "read", "--dialect", given, given],
    ["new", "--answers", given],
  ];
}

/** What is written into files to be looked at. */
const filesOf = (shed: Shed): readonly (readonly string[])[] => [
  ["bench", shed.other, "--out", "out/bench.html"],
  ["bench", shed.other, "--wiped", "--out", "out/wiped.html"],
  ["fleet", "--together", shed.craft, shed.other, "--out", "out/fleet.html"],
  ...["osd", "switches", "rates", "filters", "motors"].map((view) => [
    "draw",
    shed.other,
    "--view",
    view,
    "--out",
    `out/${view}.svg`,
  ]),
  ["draw", shed.other, "--view", "osd", "--against", shed.craft, "--out", "out/against.svg"],
  ["draw", shed.other, "--view", "switches", "--against", shed.craft, "--out", "out/switches-against.svg"],
  ["reference", "--out", "out/reference", "--words", "words"],
];

/** The shed in a repository, each commit of which a stranger made. */
function repositoryOf(shed: Shed, text: string) {
  const repository = makeRepository(shed.texts);
  const person = text.replaceAll(/[<>\r\n\u0000]/g, "").replaceAll(/\p{Cs}/gu, "") || "x";
  const message = Buffer.from(`${text.replaceAll("\u0000", "")}\n\n${text.replaceAll("\u0000", "")}`);
  const changed = Buffer.from(shed.texts[shed.other]!.replace("cells    4", "cells    5").replace("3.6 V", "3.7 V"));
  const head = `commit refs/heads/main\nauthor ${person} <x@shed.example> 1767225600 +0000\ncommitter ${person} <x@shed.example> 1767225600 +0000\n`;
  const path = `"${[...Buffer.from(shed.other)].map((byte) => `\\${byte.toString(8).padStart(3, "0")}`).join("")}"`;
  const stream = `${head}data ${message.length}\n${message}\nfrom refs/heads/main^0\nM 100644 inline ${path}\ndata ${changed.length}\n${changed}\n`;
  importCommits(repository.folder, stream);
  repository.git("reset", "-q", "--hard", "main");
  return repository;
}

const SGR = /\u001b\[[\d;]*m/g;

/** All that is amiss in what was written, each with its command line. */
async function faultsOf(shed: Shed, text: string, folder: string): Promise<string[]> {
  const faults: string[] = [];
  const told = (args: readonly string[], where: string, found: string | null) =>
    void (
      found !== null &&
      faults.push(
        `${args[0]} ${args
          .slice(1)
          .filter((each) => each.startsWith("-"))
          .join(" ")} ${where}: ${found}`,
      )
    );
  const runIn = async (args: readonly string[], ink: "plain" | "coloured") => {
    const io = held(folder, "", ink, { columns: 80 });
    const status = await run(args, io);
    told(args, "standard error", unseenIn(io.errorText()));
    if (/fault of the program/.test(io.errorText())) faults.push(`${args.join(" ")}: ${io.errorText()}`);
    // What is refused, as no line can be written with such a name, is told why.
    if (io.outText() === "" && status === 2) told(args, "refused", io.errorText() === "" ? "nothing is said" : null);
    return { status, out: io.outText() };
  };
  for (const [reader, ...args] of commandLines(shed)) {
    const { out } = await runIn(args, "plain");
    if (reader === "terminal") {
      told(args, "pipe", unseenIn(out));
      const { out: coloured } = await runIn(args, "coloured");
      told(args, "terminal", unseenIn(coloured.replaceAll(SGR, "")));
    } else if (reader === "markdown") for (const fault of markdownFaults(out)) told(args, "Markdown", fault);
    else if (reader !== "script" && out !== "") {
      const parsed = JSON.parse(out);
      told(args, "JSON as it is written", /[\u0000-\u0009\u000b-\u001f]/.test(out) ? "a control character" : null);
      const { results = [] } = parsed.runs?.[0] ?? {};
      for (const { message } of results) told(args, "message", unseenIn(message.text));
    }
  }
  for (const args of failing(shed, text)) {
    if (args.some((each) => each.includes("\u0000"))) continue;
    await runIn(args, "plain");
  }
  mkdirSync(join(folder, "out"));
  for (const args of filesOf(shed)) {
    await runIn(args, "plain");
  }
  return faults;
}

/** Every file that was written to be looked at, by its path. */
function writtenIn(folder: string): ReadonlyMap<string, string> {
  const names = readdirSync(join(folder, "out"), { recursive: true, encoding: "utf8" });
  const files = names.filter((name) => /\.(?:html|svg|md)$/.test(name));
  return new Map(files.map((name) => [name, readFileSync(join(folder, "out", name), "utf8")]));
}

/** Where a page of ours may lead, and what it may load: itself, and a drawing that stands in it. */
const WITHIN = /^(?:#|data:image\/svg\+xml,)/;

/** Every element of a page, and each attribute that one of them has; an address that leads out of it in full. */
function kindsOf(page: string): Set<string> {
  // Inside of quotes stands neither “>” nor a quote, since both are escaped.
  return new Set(
    [...page.matchAll(/<(?:[^>"]|"[^"]*")*>/g)].flatMap(([tag]) => {
      const element = /^<[/!?]*[^\s>]*/.exec(tag)![0];
      const attributes = [...tag.slice(element.length).matchAll(/([^\s"=>]+)(?:="([^"]*)")?/g)];
      return [
        element,
        ...attributes.map(([whole, name, value = ""]) =>
          /^(?:.*:)?(?:href|src|action|data)$/.test(name!) && !WITHIN.test(value)
            ? `${element} ${whole}`
            : `${element} ${name}`,
        ),
      ];
    }),
  );
}

/** Of sheds in which nothing is hostile: all the elements and attributes that there are to be. */
async function usualKinds(): Promise<ReadonlyMap<string, ReadonlySet<string>>> {
  const kinds = new Map<string, Set<string>>();
  // A long text has more lines, and a table with it goes over several sheets.
  for (const text of ["harmless", "harmless words ".repeat(60)]) {
    const shed = shedOf(text);
    const { folder } = repositoryOf(shed, text);
    mkdirSync(join(folder, "out"));
    for (const args of filesOf(shed)) await run(args, held(folder, ""));
    for (const [name, page] of writtenIn(folder))
      kinds.set(name, new Set([...(kinds.get(name) ?? []), ...kindsOf(page)]));
  }
  return kinds;
}

let usual: ReadonlyMap<string, ReadonlySet<string>>;
beforeAll(async () => {
  usual = await usualKinds();
});

test("every page and every drawing is made", () => {
  const names = [...usual.keys()].filter((name) => !name.startsWith("reference/"));
  expect(names.sort()).toEqual([
    "against.svg",
    "bench.html",
    "filters.svg",
    "fleet.html",
    "motors.svg",
    "osd.svg",
    "rates.svg",
    "switches-against.svg",
    "switches.svg",
    "wiped.html",
  ]);
  expect(usual.get("reference/index.html")?.size).toBeGreaterThan(20);
});

test.each(hostileRows())("case %i", async (_, text) => {
  const shed = shedOf(text);
  const { folder } = repositoryOf(shed, text);
  expect(await faultsOf(shed, text, folder)).toEqual([]);
  const faults: string[] = [];
  for (const [name, page] of writtenIn(folder)) {
    const unseen = unseenIn(page);
    if (unseen !== null) faults.push(`${name}: ${unseen}`);
    if (name.endsWith(".md")) {
      if (/belly|finder|cells/.test(name)) faults.push(...markdownFaults(page).map((fault) => `${name}: ${fault}`));
    } else for (const tag of kindsOf(page)) if (!usual.get(name)?.has(tag)) faults.push(`${name}: ${tag}`);
  }
  expect(faults).toEqual([]);
});
