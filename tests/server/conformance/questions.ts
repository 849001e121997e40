/** Questions of every kind to a workspace of a thousand craft, as whoever measures the server asks them. */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { inProject } from "../../../.dev/say.mjs";
import { craftOf, fleetOf } from "../../bench/scripts.ts";

/** The fleet by path: craft on shared layers, a craft of five hundred lines, and one as long as a script may be. */
export function fleetTexts(craft: number): Record<string, string> {
  return {
    ...fleetOf(craft),
    "typed.fettle": craftOf(500),
    "long.fettle": craftOf(11_900),
    "loom.fettle": readFileSync(inProject("examples/boards/loom.fettle"), "utf8"),
  };
}

/** The text of the demo's loom again and again, with other numbers each time, as no line is read twice. */
function longBoardText(count: number): string {
  const text = readFileSync(inProject("examples/boards/loom.txt"), "utf8");
  const lines: string[] = [];
  for (let shift = 0; lines.length < count; shift++)
    lines.push(...text.replaceAll(/\d+/g, (digits) => String((Number(digits) + shift) % 9999)).split("\n"));
  return lines.slice(0, count).join("\n");
}

/** Writes files into a folder. */
export function writeTexts(folder: string, texts: Readonly<Record<string, string>>): void {
  for (const [path, text] of Object.entries(texts)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
}

export interface Question {
  readonly method: string;
  /** Of which document, in a few words. */
  readonly of: string;
  readonly params: object;
}

const ASKED = {
  craft: "shelf-0/craft-0.fettle",
  layer: "layers/habits.fettle",
  handset: "handsets/wheel.fettle",
  long: "long.fettle",
};

/** The scripts of which most is asked. */
export const OPENED = Object.values(ASKED);

/** What is asked of the fleet that lies in a folder of this address. */
export function questionsOf(root: string): Question[] {
  const uriOf = (path: string) => `${root}/${path}`;
  const questions: Question[] = [];
  const ask = (of: string, method: string, params: object) => void questions.push({ of, method, params });
  for (const [of, path] of Object.entries(ASKED)) {
    const uri = uriOf(path);
    const textDocument = { uri };
    const spot = {
      craft: { line: 16, character: 6 },
      layer: { line: 6, character: 12 },
      handset: { line: 7, character: 3 },
      long: { line: 10, character: 6 },
    }[of]!;
    const position = spot;
    const range = { start: { line: 0, character: 0 }, end: { line: 20_000, character: 0 } };
    const nearby = { start: { line: spot.line - 2, character: 0 }, end: { line: spot.line + 2, character: 0 } };
    for (const method of [
      "diagnostic",
      "documentSymbol",
      "foldingRange",
      "documentLink",
      "codeLens",
      "semanticTokens/full",
      "documentColor",
    ])
      ask(of, `textDocument/${method}`, { textDocument });
    for (const method of [
      "hover",
      "completion",
      "signatureHelp",
      "definition",
      "documentHighlight",
      "prepareRename",
      "linkedEditingRange",
      "prepareCallHierarchy",
      "prepareTypeHierarchy",
    ])
      ask(of, `textDocument/${method}`, { textDocument, position });
    ask(of, "textDocument/references", { textDocument, position, context: { includeDeclaration: true } });
    ask(of, "textDocument/rename", { textDocument, position, newName: "other" });
    ask(of, "textDocument/codeAction", { textDocument, range: nearby, context: { diagnostics: [] } });
    ask(of, "textDocument/codeAction", { textDocument, range, context: { diagnostics: [] } });
    ask(of, "textDocument/codeAction", { textDocument, range, context: { diagnostics: [], only: ["source"] } });
    ask(of, "textDocument/inlayHint", { textDocument, range });
    ask(of, "textDocument/selectionRange", { textDocument, positions: [position] });
    const options = { tabSize: 2, insertSpaces: true };
    ask(of, "textDocument/formatting", { textDocument, options });
    ask(of, "textDocument/rangeFormatting", { textDocument, options, range: nearby });
    ask(of, "workspace/willRenameFiles", { files: [{ oldUri: uri, newUri: uriOf(`moved/${path}`) }] });
    ask(of, "workspace/willDeleteFiles", { files: [{ uri }] });
    ask(of, "fettle/panel", { uri, view: "goggles" });
    ask(of, "fettle/panel", { uri, view: "switches" });
    ask(of, "fettle/panel", { uri, view: "numbers" });
    ask(of, "fettle/panel", { uri, view: "goggles", against: { kind: "file", uri: uriOf("shelf-1/craft-51.fettle") } });
    ask(of, "fettle/benchEdit", { uri, gesture: { kind: "day", check: "bench.motors-checked", day: "2026-11-29" } });
    ask(of, "fettle/benchFile", { uri, form: "markdown", wiped: { day: "2026-11-29", saved: "what it said\n" } });
    ask(of, "fettle/benchReading", { uri, name: "bench.roll", text: "988 2012" });
    ask(of, "fettle/motorEdit", { uri, gesture: { kind: "turn", motor: 1, direction: "clockwise" }, where: null });
    ask(of, "fettle/status", { uri });
    ask(of, "fettle/effective", { uri });
    ask(of, "fettle/compare", { uri, other: { kind: "file", uri: uriOf("shelf-1/craft-51.fettle") } });
    const review = { purpose: "review", chosen: null, mapping: {}, into: null, dialect: "kiln" };
    ask(of, "fettle/review", { uri, ...review, offer: { kind: "text", text: craftOf(400), name: "mail" } });
    ask(of, "fettle/origin", { uri, position });
    ask(of, "fettle/layersFor", { uri, range: nearby });
    ask(of, "fettle/relocate", { uri, change: { kind: "extract", range: nearby, name: "New" } });
    ask(of, "fettle/mapControls", { uri, handset: uriOf(ASKED.handset), chosen: {}, layers: [] });
    ask(of, "fettle/share", { uri, board: "with" });
    ask(of, "fettle/useLines", { kind: "delete", files: [{ uri }] });
    ask(of, "fettle/scripts", { uri, kind: "handset" });
  }
  const board = { uri: uriOf("cards.txt"), text: longBoardText(50_000), dialect: uriOf("loom.fettle") };
  ask("board", "fettle/boardText", board);
  ask("board", "fettle/boardLine", { ...board, line: 40_000 });
  ask("board", "fettle/nameLine", { ...board, line: 10, section: "pack", name: "warn-at", value: "3.5 V/cell" });
  // A longer one becomes no script that anything would read.
  ask("board", "fettle/boardRead", { ...board, text: longBoardText(10_000), handset: null });
  ask("board", "fettle/boardMoved", { before: board.text, after: board.text.replace(/7/, "8") });
  ask("board", "fettle/boardDialects", {});
  ask("all", "fettle/workspaceTree", { findings: true });
  ask("all", "fettle/fleet", { known: null });
  ask("all", "fettle/habits", {});
  ask("all", "fettle/habitCondition", { mode: "finder", to: "TR is down" });
  const habit = { handset: uriOf(ASKED.handset), mode: "finder", from: null, to: "TR is down", leftOut: null };
  ask("all", "fettle/changeHabit", habit);
  ask("all", "fettle/alikeLayers", { example: uriOf(ASKED.craft) });
  const alike = { example: uriOf(ASKED.craft), kinds: ["habits", "osd"], layers: [], leftOut: null };
  ask("all", "fettle/makeAlike", alike);
  ask("all", "workspace/symbol", { query: "a" });
  ask("all", "workspace/symbol", { query: "" });
  ask("all", "workspace/diagnostic", { previousResultIds: [] });
  ask("all", "fettle/names", { typed: "low battery" });
  return questions;
}
