/** Takes off what mail, chat, web pages and git put around the lines of a script. */

/** A line of an offered text, and what is left of it. */
export interface Unwrapped {
  readonly text: string;
  /**
   * `aside`: it stands outside the fences that hold the script. `around`: it only held the script, as a fence does.
   * `removed`: a change takes it out.
   */
  readonly role: "line" | "aside" | "around" | "removed";
}

const LINE = (text: string): Unwrapped => ({ text, role: "line" });
const AROUND: Unwrapped = { text: "", role: "around" };

/** One for each line, in their order. */
export function unwrap(lines: readonly string[]): readonly Unwrapped[] {
  const unquoted = withoutBlame(lines.map((line) => withoutQuoting(withoutColours(line))));
  const unmarked = sidesOfPatch(unquoted) ?? withSides(unfenced(unquoted));
  return withoutBullets(withoutNumbers(unmarked.map((line) => mapped(mapped(line, withoutMarkup), withoutPlaces))));
}

function mapped(line: Unwrapped, change: (text: string) => string): Unwrapped {
  const text = change(line.text);
  return text === line.text ? line : { ...line, text };
}

/** Without the `>` that mail puts before each line of what is quoted. */
function withoutQuoting(text: string): string {
  return /^\s{0,3}>/.test(text) ? text.replace(/^(?:\s{0,3}>)+ ?/, "") : text;
}

/** Without the colours that a terminal shows. */
export function withoutColours(text: string): string {
  return text.includes("\u001b") ? text.replace(/\u001b\[[\d;:]*[A-Za-z]/g, "") : text;
}

const BLAMED = /^\^?[0-9a-f]{7,40} (?:\S+\s+)?\(.*?\s\d{4}-\d\d-\d\d(?: \d\d:\d\d:\d\d [+-]\d{4})?\s+\d+\) ?/;

/** Without the revision and the author that git puts before each line where it is asked who wrote it. */
function withoutBlame(lines: readonly string[]): readonly string[] {
  const isBlamed = lines.every((line) => line.trim() === "" || BLAMED.test(line));
  return isBlamed ? lines.map((line) => line.replace(BLAMED, "")) : lines;
}

/** Of a merge each parent has a range and a sign of its own: @@@ -1,3 -1,3 +1,3 @@@. */
const HUNK = /^(@@+)(?: -\d+(?:,\d+)?)+ \+\d+(?:,\d+)? \1 ?(.*)$/;
const PATCH_HEAD =
  /^(?:diff --(?:git|cc|combined) |index [0-9a-f]{4,}(?:,[0-9a-f]{4,})*\.\.|--- \S|\+\+\+ \S|(?:new|deleted) file mode |(?:old|new) mode |similarity index |rename (?:from|to) )/;

/** The name of a section alone on its line. */
const SECTION = /^[a-z][a-z0-9-]*(?:\s+"[^"]*")?$/;

/** True for a patch as git writes one. */
export function isPatch(lines: readonly string[]): boolean {
  return lines.some((line) => HUNK.test(line) || /^diff --(?:git|cc|combined) /.test(line));
}

/** The lines after a patch was applied; null for a text that is none. A hunk's own title is the section it stands in. */
function sidesOfPatch(lines: readonly string[]): Unwrapped[] | null {
  if (isPatch(lines)) {
    let within = lines.every((line) => !PATCH_HEAD.test(line) && !HUNK.test(line));
    let signs = 1;
    const sides = lines.map((text): Unwrapped => {
      const hunk = HUNK.exec(text);
      if (hunk) {
        within = true;
        signs = hunk[1]!.length - 1;
        const title = hunk[2]!.trim();
        return SECTION.test(title) ? LINE(title) : AROUND;
      }
      if (
        /^diff --(?:git|cc|combined) /.test(text) ||
        (PATCH_HEAD.test(text) && (!within || /^(?:--- |\+\+\+ )\S/.test(text)))
      ) {
        within = false;
        return AROUND;
      }
      if (!within) return { text, role: "aside" };
      return afterPatch(text, signs);
    });
    return withoutReplaced(sides);
  }
  const said = lines.filter((line) => line.trim() !== "");
  const isSided = said.every((line) => /^[+\- ]/.test(line)) && said.some((line) => /^\+\s*\S/.test(line));
  return isSided ? withoutReplaced(lines.map((line) => afterPatch(line, 1))) : null;
}

const ENTRY = /^\s+([a-zA-Z][\w-]*)\s/;

/** Of the lines that a change takes out only entries whose names do not stand in a line after it. */
function withoutReplaced(lines: readonly Unwrapped[]): Unwrapped[] {
  const heads = new Set(lines.flatMap(({ text, role }) => (role === "line" ? [text.trim().split(/\s/, 1)[0]!] : [])));
  return lines.map((line) => {
    if (line.role !== "removed") return line;
    const head = ENTRY.exec(line.text)?.[1];
    return head === undefined || heads.has(head) ? AROUND : line;
  });
}

/** The same for what stands between fences. */
function withSides(lines: Unwrapped[]): Unwrapped[] {
  const fenced = lines.filter(({ role }) => role === "line");
  if (fenced.length === lines.length) return lines;
  const sides = sidesOfPatch(fenced.map(({ text }) => text))?.values();
  return sides ? lines.map((line) => (line.role === "line" ? sides.next().value! : line)) : lines;
}

/** A line of a change that has this many signs before each, one for each of what it is compared with. */
function afterPatch(text: string, signs: number): Unwrapped {
  if (text.startsWith("\\ ")) return AROUND;
  const before = text.slice(0, signs);
  if (!/^[-+ ]+$/.test(before)) return LINE(text);
  return { text: text.slice(signs), role: before.includes("-") ? "removed" : "line" };
}

const FENCE = /^\s*(?:```+|~~~+)[\w.-]*\s*$/;

/** What stands between fences, if there are any; the rest is an aside. */
function unfenced(lines: readonly string[]): Unwrapped[] {
  const fences = lines.filter((line) => FENCE.test(line)).length;
  let within = false;
  let held = false;
  const result = lines.map((text): Unwrapped => {
    if (FENCE.test(text)) {
      within = !within;
      return AROUND;
    }
    held ||= within && text.trim() !== "";
    return { text, role: within || fences === 0 ? "line" : "aside" };
  });
  // A lone fence, or one around nothing, tells nothing of the rest.
  return held ? result : result.map((line) => (line.role === "aside" ? { ...line, role: "line" } : line));
}

/** Without the tags and the marks for code that pages and chats put around a line, and with their entities as characters. */
function withoutMarkup(text: string): string {
  let plain = text;
  plain = plain.replace(/^(\s*)(`{1,3})([^`]+)\2\s*$/, "$1$3");
  plain = plain.replace(/<\/?(?:br|pre|code|p|div|span)\b[^<>]*>|\[\/?(?:code|quote|pre)\]/gi, "");
  return plain.includes("&") ? plain.replace(/&(#\d{1,7}|#x[0-9a-f]{1,6}|[a-z]{2,6});/gi, entity) : plain;
}

const ENTITIES: ReadonlyMap<string, string> = new Map([
  ["lt", "<"],
  ["gt", ">"],
  ["amp", "&"],
  ["quot", '"'],
  ["apos", "'"],
  ["nbsp", " "],
  ["ndash", "-"],
  ["micro", "u"],
  ["deg", " deg"],
]);

function entity(whole: string, name: string): string {
  if (!name.startsWith("#")) return ENTITIES.get(name.toLowerCase()) ?? whole;
  const code = /^#x/i.test(name) ? Number.parseInt(name.slice(2), 16) : Number(name.slice(1));
  // What would break the line, or is no character, stays as it is written.
  return code >= 32 && code <= 0x10ffff && !(code >= 0xd800 && code <= 0xdfff) ? String.fromCodePoint(code) : whole;
}

/** Without the places of lines that this tool itself prints behind them. */
function withoutPlaces(text: string): string {
  return text.includes(".fettle:") ? text.replace(/\s{2,}\S+\.fettle:\d+(?:,\s+\S+\.fettle:\d+)*$/, "") : text;
}

const NUMBERED = /^(\s*)(?:[^\s:]+\.fettle[:-])?(\d{1,6})(?:[:.|)│-]|(?=\s)|$)/;

/** Without the numbers of lines, where all lines have them and they rise. */
function withoutNumbers(lines: readonly Unwrapped[]): readonly Unwrapped[] {
  const said = lines.filter(({ text, role }) => role === "line" && text.trim() !== "");
  let last = -1;
  for (const { text } of said) {
    const number = Number(NUMBERED.exec(text)?.[2] ?? Number.NaN);
    if (!(number > last)) return lines;
    last = number;
  }
  if (said.length < 2 && !/^\s*[^\s:]+\.fettle[:-]\d/.test(said[0]?.text ?? "")) return lines;
  return lines.map((line) => (line.role === "line" ? mapped(line, (text) => text.replace(NUMBERED, "")) : line));
}

/** Without the marks of a list, and the time and name that a chat puts before each line. */
function withoutBullets(lines: readonly Unwrapped[]): readonly Unwrapped[] {
  return lines.map((line) => (line.role === "line" ? mapped(line, withoutBullet) : line));
}

const CHAT = /^\s*(?:\[?\d{1,2}:\d{2}(?::\d{2})?\]?\s+)(?:<?[\p{L}][\p{L}\d_. -]{0,24}[>:]\s+)?(?=[a-zA-Z])/u;

function withoutBullet(text: string): string {
  return text.replace(/^(\s*)[-*•–+]\s+(?=[a-zA-Z])/, "$1").replace(CHAT, "");
}
