/** Workspaces whose files use one another, and what stands in them once edits are made. */
import { expect } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import type { UseLineEdit } from "../../../shared/ide/edits/use-lines.ts";
import { type FileView, memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";

export type Texts = Readonly<Record<string, string>>;
const core = makeCore(makeCatalogue());
export const at = (texts: Texts, more: Partial<FileView> = {}) => core.at({ ...memoryFiles(texts), ...more });

/** A workspace from the names of its files, each with the paths that it uses: a craft below `craft/`, else a layer. */
export function textsOf(shape: Readonly<Record<string, readonly string[]>>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(shape).map(([path, uses]) => [
      `/shed/${path}`,
      `${path.includes("craft") ? "craft" : "layer"} "${path}"\n\n${uses.map((use) => `use "${use}"\n`).join("")}\npack\n  cells 4\n`,
    ]),
  );
}

/** The text with the edits of its file applied, each of which must find what it says was there. */
export function applied(text: string, edits: readonly UseLineEdit[]): string {
  const starts = [0];
  for (let i = 0; i < text.length; i++)
    if (text[i] === "\n" || (text[i] === "\r" && text[i + 1] !== "\n")) starts.push(i + 1);
  const offset = ({ line, character }: { line: number; character: number }) => starts[line]! + character;
  let done = text;
  for (const { range, was, text: put } of [...edits].reverse()) {
    expect(text.slice(offset(range.start), offset(range.end))).toBe(was);
    done = done.slice(0, offset(range.start)) + put + done.slice(offset(range.end));
  }
  return done;
}

export const usesOf = (text: string) => [...text.matchAll(/^use .*$/gm)].map(([line]) => line.replace(/^use /, ""));
export const shed = {
  "craft/jug.fettle": ["../handsets/wheel.fettle", "../layers/habits.fettle"],
  "craft/mug.fettle": ["../layers/habits.fettle"],
  "layers/habits.fettle": ["tune.fettle"],
  "layers/tune.fettle": [],
  "handsets/wheel.fettle": [],
};
