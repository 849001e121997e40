/** Slips in an entry that the catalogue, or the rest of the line, tells from other faults. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { SectionSpec } from "../catalogue/types.ts";
import { type Fault, fault, type ReadContext, type Repair } from "../syntax/read-context.ts";
import type { Cols } from "../syntax/span.ts";
import type { Word } from "../syntax/tree.ts";

/** The fault of a sign between a name and its value, as other languages write one. */
export function signFault(text: string, at: Cols): Fault | null {
  const { start } = at;
  const found = /^(:=|[:=])[ \t]*/.exec(text.slice(start, at.end));
  if (!found) return null;
  const sign = found[1]!;
  const separated = /[ \t]/.test(text.charAt(start - 1));
  return fault(
    "syntax",
    { start, end: start + sign.length },
    `Between a name and its value stand only spaces: take “${sign}” away.`,
    { title: `Take “${sign}” away`, start, end: start + found[0].length, text: separated ? "" : " " },
  );
}

/** The fault of a line that goes on with another entry. */
export function secondEntry(
  text: string,
  head: Word,
  problem: Fault,
  spec: SectionSpec,
  catalogue: Catalogue,
): Fault | null {
  const [all, , name] = /^([,;][ \t]*)?([a-z][a-z0-9-]*)/.exec(text.slice(problem.start)) ?? [];
  if (problem.code !== "syntax" || !all || !name || !catalogue.setting(spec.name, name)) return null;
  const end = problem.start + all.length;
  const start = end - name.length;
  const before = text.slice(0, problem.start).trimEnd().length;
  return fault("syntax", { start, end }, `One entry a line: “${name}” begins a line of its own.`, {
    title: `Give ${name} a line of its own`,
    start: before,
    end: start,
    text: `\n${text.slice(0, head.start)}`,
  });
}

/** Puts the word where it is wanted: for what stands in its place, or before what begins there. */
export function keywordRepair({ scan }: ReadContext, word: "when" | "at"): Repair[] {
  if (scan.done()) return [];
  const { text, start, end } = scan.rest();
  if (/^(?:=|:|=>|->|if|on|with|at|when|is)$/.test(text)) return [{ title: `Write ${word}`, start, end, text: word }];
  const begins = word === "when" ? /^(?:[A-Z(]|ch\d|not$)/ : /^(?:\d|left|centre|right)/;
  return begins.test(text) ? [{ title: `Put ${word} before it`, start, end: start, text: `${word} ` }] : [];
}

/** How others join two tests. */
const JOINTS: Readonly<Record<string, readonly string[]>> = {
  "&&": ["and"],
  "&": ["and"],
  "+": ["and"],
  AND: ["and"],
  And: ["and"],
  "||": ["or"],
  "|": ["or"],
  OR: ["or"],
  Or: ["or"],
  ",": ["and", "or"],
};

/** The fault of a condition that goes on as others would write it; null where it does not. */
export function jointFault({ scan }: ReadContext): Fault | null {
  const { text, start, end } = scan.rest();
  const words = Object.hasOwn(JOINTS, text) ? JOINTS[text]! : [];
  if (words.length === 0) return null;
  const space = text === "," ? " " : "";
  return fault(
    "syntax",
    { start, end },
    `Two tests are joined by “and” or “or”; “${text}” stands here.`,
    ...words.map((word) => ({ title: `Write ${word}`, start, end, text: `${space}${word}` })),
  );
}

/** The fault of a line that is indented and belongs to no section: a “use”, or a section's own name. */
export function outdentFault(text: string, head: Word, catalogue: Catalogue): Fault | null {
  const rest = text.slice(head.end).replace(/#.*/, "").trim();
  const isUse = head.text === "use" && rest.startsWith('"');
  if (!isUse && !(rest === "" && catalogue.section(head.text))) return null;
  const what = isUse ? "A “use” line stands before all sections" : `“${head.text}” is the name of a section`;
  return fault("syntax", head, `${what}: take its indent away.`, {
    title: "Take the indent away",
    start: 0,
    end: head.start,
    text: "",
  });
}

/** The fault of a setting that is named with its section, as pages name it; null where it is none. */
export function dottedFault(text: string, head: Word, catalogue: Catalogue): Fault | null {
  const name = /^\.([a-z][a-z0-9-]*)/.exec(text.slice(head.end))?.[1];
  // Of what no dial can move another fault is told.
  const takesQuantity = catalogue.setting(head.text, name ?? "")?.types.some(({ is }) => is === "quantity");
  if (!name || !takesQuantity) return null;
  const at = { start: head.start, end: head.end + 1 + name.length };
  return fault("syntax", at, `A setting is named without its section here: “${name}”.`, {
    title: `Write ${name}`,
    ...at,
    text: name,
  });
}
