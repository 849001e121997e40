/** Common mistakes in an entry that can be recognised by the catalogue or by the rest of the line. */
import type { Catalogue } from "../catalogue/catalogue.ts";
import type { SectionSpec } from "../catalogue/specs.ts";
import { type Fault, fault, type ReadContext, type Repair } from "../syntax/read-context.ts";
import type { Cols } from "../syntax/span.ts";
import type { Word } from "../syntax/tree.ts";

/** The fault of a `:` or `=` between a name and its value, as other languages write it; null if there is none. */
export function signFault(text: string, at: Cols): Fault | null {
  const { start } = at;
  const found = /^(:=|[:=])[ \t]*/.exec(text.slice(start, at.end));
  if (!found) return null;
  const sign = found[1]!;
  const separated = /[ \t]/.test(text.charAt(start - 1));
  // Blanks behind the sign stay, if only they part the two, as they may line the values up.
  const isFollowed = found[0].length > sign.length;
  const end = start + (separated ? found[0].length : sign.length);
  return fault(
    "syntax",
    { start, end: start + sign.length },
    `Between a name and its value stand only spaces: remove “${sign}”.`,
    { title: `Remove “${sign}”`, start, end, text: separated || isFollowed ? "" : " " },
  );
}

/** The fault of a line that continues with another entry; null if it does not. */
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

/** So far behind a sign a keyword is looked for. */
const MOST_BLANKS = 40;

/** The repair for a missing keyword: replaces what is in its place, or inserts it before the value. */
export function keywordRepair({ scan }: ReadContext, word: "when" | "at"): Repair[] {
  if (scan.done()) return [];
  const { text, start, end } = scan.rest();
  const sign = /^(?::=|[:=])(?=[ \t]*(when|at)(?![A-Za-z0-9_-]))/.exec(scan.text(start, start + MOST_BLANKS));
  if (sign?.[1] === word) {
    const isFollowed = /[ \t]/.test(scan.text(start + sign[0].length, start + sign[0].length + 1));
    return [{ title: `Remove “${sign[0]}”`, start, end: start + sign[0].length, text: isFollowed ? "" : " " }];
  }
  if (/^(?:=|:|=>|->|if|on|with|at|when|is)$/.test(text)) return [{ title: `Write ${word}`, start, end, text: word }];
  const begins = word === "when" ? /^(?:[A-Z(]|ch\d|not$)/ : /^(?:\d|left|centre|right)/;
  return begins.test(text) ? [{ title: `Put ${word} before it`, start, end: start, text: `${word} ` }] : [];
}

/** How other languages join two tests, and the keywords to write instead. */
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

/** The fault of a condition that continues with an operator of other languages; null if it does not. */
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

/** The fault of an indented line that should not be: a “use”, or the name of a section. Null for any other line. */
export function outdentFault(text: string, head: Word, catalogue: Catalogue): Fault | null {
  const rest = text.slice(head.end).replace(/#.*/, "").trim();
  const isUse = head.text === "use" && rest.startsWith('"');
  if (!isUse && !(rest === "" && catalogue.section(head.text))) return null;
  const what = isUse ? "A “use” line stands before all sections" : `“${head.text}” is the name of a section`;
  return fault("syntax", head, `${what}: remove its indent.`, {
    title: "Remove the indent",
    start: 0,
    end: head.start,
    text: "",
    // It may be a mode or an element that has no value yet.
    ...(!isUse && (catalogue.mode(head.text) || catalogue.element(head.text)) && { doubtful: true }),
  });
}

/** The fault of a setting written as SECTION.NAME, as the reference writes it; null for any other name. */
export function dottedFault(text: string, head: Word, catalogue: Catalogue): Fault | null {
  const name = /^\.([a-z][a-z0-9-]*)/.exec(text.slice(head.end))?.[1];
  // A setting that cannot follow a dial has another fault.
  const takesQuantity = catalogue.setting(head.text, name ?? "")?.types.some(({ is }) => is === "quantity");
  if (!name || !takesQuantity) return null;
  const at = { start: head.start, end: head.end + 1 + name.length };
  return fault("syntax", at, `A setting is named without its section here: “${name}”.`, {
    title: `Write ${name}`,
    ...at,
    text: name,
  });
}
