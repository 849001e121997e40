/** Workspaces as text, with what is asked of all craft in them and what comes of it below. */
import { readFileSync, writeFileSync } from "node:fs";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import type { CoreChange } from "../../../shared/ide/fleet-edits/change-core.ts";
import { type FileAnswer, memoryFiles } from "../../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../../shared/model/workspace.ts";
import { edited } from "../edits/scripts-edited.ts";

export interface Case {
  readonly title: string;
  readonly asked: string;
  /** By path below the shed. */
  readonly files: Readonly<Record<string, string>>;
  readonly expected: string;
}

/** Two handsets that every case has. */
const HANDSETS = {
  "wheel.fettle": `handset "Wheel"

controls
  TL  switch    ch5  up 1000 us  down 2000 us
  TR  switch    ch6  up 1000 us  mid 1500 us  down 2000 us
  FR  switch    ch8  far 1000 us  near 2000 us
  PB  button    ch7  rest 1000 us  held 2000 us
  KN  dial      ch9  1000 us to 2000 us
`,
  "bellows.fettle": `handset "Bellows"

controls
  TL  switch    ch5  up 1000 us  down 2000 us
  PB  button    ch7  rest 1000 us  held 2000 us
`,
};

const core = makeCore(makeCatalogue());

export function casesIn(name: string): Case[] {
  const text = readFileSync(new URL(name, import.meta.url), "utf8");
  return text
    .split(/^=== /m)
    .slice(1)
    .map((block) => {
      const [head = "", ...parts] = block.split(/^--- /m);
      const [title = "", ...asked] = head.trim().split("\n");
      const files: Record<string, string> = {};
      let expected = "";
      for (const part of parts) {
        const [path = "", ...lines] = part.split("\n");
        const body = `${lines.join("\n").trimEnd()}\n`;
        if (path === "gives") expected = body.trim();
        else files[path] = body;
      }
      return { title, asked: asked.join("\n"), files, expected };
    });
}

/** With `UPDATE_FLEET_EDITS=1` what comes of each case is written below it, to be looked at. */
export function updateCases(name: string, gives: (each: Case) => string): void {
  if (!process.env.UPDATE_FLEET_EDITS) return;
  const text = casesIn(name).map((each) => {
    const files = Object.entries(each.files).map(([path, body]) => `--- ${path}\n${body.trimEnd()}\n`);
    return `=== ${each.title}\n${each.asked}\n${files.join("")}--- gives\n${gives(each)}\n`;
  });
  writeFileSync(new URL(name, import.meta.url), `${text.join("\n")}`);
}

/** A path that ends in `!utf8` is one whose bytes are no UTF-8, in `!crlf` one with the lines of another system. */
export function textsOf({ files }: Case): Record<string, string> {
  const texts: Record<string, string> = {};
  for (const [path, body] of Object.entries({ ...HANDSETS, ...files })) {
    const [file = "", mark] = path.split("!");
    texts[`/shed/${file}`] = mark === "crlf" ? body.replaceAll("\n", "\r\n") : body;
  }
  return texts;
}

export function workspaceOf(each: Case, texts = textsOf(each)): Workspace {
  const bad = new Set(
    Object.keys(each.files).flatMap((path) => (path.endsWith("!utf8") ? [`/shed/${path.split("!")[0]}`] : [])),
  );
  const view = memoryFiles(texts);
  const read = (path: string): FileAnswer => {
    const answer = view.read(path);
    return answer?.kind === "text" && bad.has(path) ? { ...answer, validUtf8: false } : answer!;
  };
  return core.at({ ...view, read });
}

/** What becomes of each craft, and the lines that change. */
export function told(change: CoreChange | string, texts: Readonly<Record<string, string>>): string {
  if (typeof change === "string") return `refused: ${change}`;
  const lines: string[] = [];
  for (const { name, notOffered, chosen, lines: changed, findings, notes } of change.craft) {
    lines.push(`${chosen ? "+" : "-"} ${name}${notOffered === null ? "" : `: ${notOffered}`}`);
    for (const each of changed) {
      const mark = { chosen: "[x] ", "left-out": "[ ] ", none: "" }[each.choice];
      lines.push(
        `    ${mark}${each.words}${each.into === null ? "" : ` (in ${each.into})`}${each.notTaken === null ? "" : ` | ${each.notTaken}`}`,
      );
    }
    for (const { severity, code } of findings) lines.push(`    ${severity} ${code}`);
    for (const note of notes) lines.push(`    ${note}`);
  }
  lines.push(...change.notes);
  for (const [file, text] of Object.entries(after(change, texts))) {
    const before = texts[file]!;
    if (before === text) continue;
    lines.push(`${file.replace("/shed/", "")}:`, ...diffOf(before, text));
  }
  return lines.join("\n");
}

/** The texts once the edits are made. */
export function after(change: CoreChange, texts: Readonly<Record<string, string>>): Record<string, string> {
  const result: Record<string, string> = { ...texts };
  for (const { file, edits } of change.files) result[file] = edited(texts[file]!, edits);
  return result;
}

/** The lines that go and those that come; a carriage return is shown. */
function diffOf(before: string, now: string): string[] {
  const [a, b] = [before, now].map((text) => text.split("\n"));
  let first = 0;
  while (first < a!.length && a![first] === b![first]) first++;
  let [enda, endb] = [a!.length, b!.length];
  while (enda > first && endb > first && a![enda - 1] === b![endb - 1]) [enda, endb] = [enda - 1, endb - 1];
  const shown = (line: string) => line.replaceAll("\r", "␍");
  return [
    ...a!.slice(first, enda).map((line) => `  -${shown(line)}`),
    ...b!.slice(first, endb).map((line) => `  +${shown(line)}`),
  ];
}
