/** What another hand does to the scripts while somebody is at the panel. */
import type { Random } from "../../fire/random.ts";
import type { MemoryDocument } from "./memory-documents.ts";
import { memory } from "./memory-editor.ts";
import type { Shed } from "./shed-host.ts";

const PIECES = [
  "osd",
  "osd-second",
  "  grid  30 x 16",
  "  grid  0 x 0",
  "  pack-volts  at left+3, bottom-2",
  "  sight  at 900, 900",
  "  horizon-line  at centre, middle",
  "  drop alerts",
  "  drop all",
  "motors",
  "  motor1  place front-left  direction clockwise",
  "  motor2  place front-left",
  "modes",
  "  arm  when TL is down and (TR is mid or",
  "  level  when KN in 1200 us to 1500 us",
  'craft "Other"',
  'craft "',
  'use "../layers/nowhere.fettle"',
  'pack "Winter"',
  "  cells 12",
  "# allow E101:",
  "\t\u202e “” <b>&amp;</b> \u0000",
  "",
];

type Act = (document: MemoryDocument, random: Random, shed: Shed) => Promise<void> | void;

const replace = (document: MemoryDocument, from: number, to: number, text: string) => {
  const lines = document.lineCount;
  const last = Math.min(to, lines - 1);
  const end = { line: last, character: to > last ? document.lineAt(last).text.length : 0 };
  memory.documents.apply([[document, [{ range: { start: { line: Math.min(from, last), character: 0 }, end }, text }]]]);
};

/** By their names, as a failure tells them. */
const ACTS: Readonly<Record<string, Act>> = {
  "lines above": (document, random) => replace(document, 0, 0, "# above\n".repeat(random.between(1, 5))),
  "a line": (document, random) => {
    const at = random.below(document.lineCount);
    replace(document, at, at, `${random.oneOf(PIECES)}\n`);
  },
  "lines gone": (document, random) => {
    const at = random.below(document.lineCount);
    replace(document, at, Math.min(document.lineCount - 1, at + random.between(1, 4)), "");
  },
  "a letter": (document, random) => {
    const line = random.below(document.lineCount);
    const start = { line, character: random.between(0, document.lineAt(line).text.length) };
    const text = random.oneOf(["x", " ", "0", "#", '"', "-", "\t", "é"]);
    memory.documents.apply([[document, [{ range: { start, end: start }, text }]]]);
  },
  "a number": (document, random) => {
    const lines = Array.from({ length: document.lineCount }, (_, line) => line);
    const some = lines.filter((line) => /\d/.test(document.lineAt(line).text));
    if (some.length === 0) return;
    const line = random.oneOf(some);
    const { text } = document.lineAt(line);
    const character = /\d/.exec(text)!.index;
    const range = { start: { line, character }, end: { line, character: character + 1 } };
    memory.documents.apply([[document, [{ range, text: String(random.below(10)) }]]]);
  },
  empty: (document) => replace(document, 0, document.lineCount, ""),
  "another text": (document, random) =>
    replace(document, 0, document.lineCount, random.oneOf([...memory.files.values()])),
  undo: (document) => void memory.documents.undo(document),
  redo: (document) => void memory.documents.redo(document),
  "the cursor": (document, random) => {
    const editor = memory.editors.find((each) => each.document === document);
    if (editor) memory.moveCursor(editor, random.below(document.lineCount));
  },
  "another script in front": async (_, random, shed) => {
    await shed.show(random.oneOf([...memory.files.keys()]));
  },
  "a file changed": (_, random, shed) => {
    const address = random.oneOf([...memory.files.keys()]);
    return shed.change(address, `${memory.files.get(address)}\n${random.oneOf(PIECES)}\n`);
  },
  "a file gone": (_, random, shed) => shed.change(random.oneOf([...memory.files.keys()]), null),
  "the server away": (document, random, shed) =>
    shed.away(async () => {
      replace(document, 0, 0, "# above\n");
      await new Promise((resolve) => setTimeout(resolve, random.below(40)));
    }),
  "a document closed": () => {
    const shown = new Set(memory.editors.map(({ document }) => document));
    const idle = memory.documents.all().find((each) => !shown.has(each) && !each.isDirty);
    if (idle) memory.documents.close(idle);
  },
};

/** Most of what happens is small: what leaves little of the script comes rarely. */
const OFTEN = ["lines above", "a line", "a letter", "a number", "the cursor", "undo"];

/** Does something at random; gives its name. */
export async function otherHand(random: Random, shed: Shed): Promise<string> {
  const document = memory.editors[0]?.document;
  const name = random.onceIn(4) ? random.oneOf(Object.keys(ACTS)) : random.oneOf(OFTEN);
  if (document && !document.isClosed) await ACTS[name]!(document, random, shed);
  return name;
}
