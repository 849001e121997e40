/** What a text looks like that is no script: one sentence, with what to do. */
import { isPatch, withoutColours } from "./unwrap.ts";

interface Look {
  readonly words: string;
  readonly isSo: (text: string, lines: readonly string[]) => boolean;
}

const COPY = "Copy the lines of the script themselves, from its header to its end.";

const LOOKS: readonly Look[] = [
  {
    words: "The text is empty: copy the lines of a script first.",
    isSo: (text) => text.trim().replace(/[\ufeff\u200b]/g, "") === "",
  },
  {
    words: `This looks like a picture, and not like a script: what it shows cannot be read here. ${COPY}`,
    isSo: (text) =>
      /^\s*data:image\//i.test(text) ||
      /^\ufeff?\s*(?:<\?xml[^>]*>\s*)?<svg\b/i.test(text) ||
      /^(?:\u0089|\ufffd)?PNG\r?\n|^GIF8[79]a|^JFIF|^.{0,12}JFIF/.test(text),
  },
  {
    words: `This looks like binary data, and not like a script: it holds bytes that no text has. ${COPY}`,
    isSo: isNoText,
  },
  {
    words: "This looks like a link, and nothing is fetched from it: open it, and copy the script that lies there.",
    isSo: (_, lines) => lines.every((line) => /^<?(?:https?|ftp|file|mailto):\S+>?$/i.test(line)),
  },
  {
    words:
      "This is a dialect, which says how one board's text is read, and no part of a craft: keep it as a file of its own.",
    isSo: (_, lines) => /^dialect\s+["“]/.test(lines[0] ?? ""),
  },
  {
    words: `This looks like a change of git to other files, and not to a script. ${COPY}`,
    isSo: (_, lines) => isPatch(lines),
  },
  {
    words:
      "This is one place of an unresolved merge, so it is not known which side is meant: resolve it first, or copy the lines of one side.",
    isSo: (_, lines) => ["<", ">"].every((mark) => lines.some((line) => line.startsWith(mark.repeat(7)))),
  },
  {
    words: `This looks like encoded data, and not like a script. ${COPY}`,
    isSo: (_, lines) =>
      lines.length > 0 &&
      lines.every((line) => /^[\w+/-]{24,}={0,2}$/.test(line) && /\d/.test(line) && /[A-Z]/.test(line)),
  },
  { words: `This looks like JSON, and not like a script. ${COPY}`, isSo: isJson },
  {
    words: `This looks like the markup of a page, and not like a script: copy what the page shows, and not its source.`,
    isSo: (text) => /^\s*<(?:!doctype|\?xml|!--|[a-z][\w:-]*[\s>/])/i.test(text) && /<\/|\/>|<!/.test(text),
  },
  {
    words: `This looks like a table, and not like a script: a script says one thing a line, by its name. ${COPY}`,
    isSo: isTable,
  },
  {
    words: "These are comments alone: no line says anything that could be adopted.",
    isSo: (_, lines) => lines.every((line) => line.startsWith("#")),
  },
  {
    words: `This looks like the code of a program, and not like a script. ${COPY}`,
    isSo: (_, lines) =>
      share(lines, (line) =>
        /[;{}]\s*$|^(?:function|const|let|var|import|return|def|class|#include)\b|=>/.test(line),
      ) >= 0.5,
  },
  {
    words:
      'This looks like a board\'s own text, and not like a script: what it says is not understood. Keep it in the craft as it is, in a section verbatim "NAME", each line indented and behind “|”.',
    isSo: isBoardText,
  },
];

const PROSE = `This reads like a letter, and not like a script: no line of it says a setting, a mode or a place. ${COPY}`;
const NONE_KNOWN = `No line of this text is one of a script: none says a setting, a mode or a place. ${COPY}`;
export const SAYS_NOTHING = "This script says nothing: below its header stands no entry, so there is nothing to adopt.";

/** One sentence for a text in which no line of a script was found. */
export function looksLike(text: string): string {
  const lines = text
    .split(/\r\n|\r|\n/)
    .map((line) => line.trim())
    .filter((line) => line !== "");
  const look = LOOKS.find(({ isSo }) => isSo(text, lines));
  return look?.words ?? (share(lines, isSentence) >= 0.5 ? PROSE : NONE_KNOWN);
}

/** Mostly of words, three at least. */
function isSentence(line: string): boolean {
  const all = line.split(/\s+/);
  const words = all.filter((word) => /^\p{L}[\p{L}’'-]*[.,:;!?)…]*$/u.test(word));
  return words.length >= 3 && words.length * 4 >= all.length * 3;
}

/** True for a text that is no text at all, whatever may be found in it. */
export function isNoText(text: string): boolean {
  return text.includes("\0") || strange(withoutColours(text)) * 10 > text.length;
}

/** Characters that no written text has. */
function strange(text: string): number {
  return text.match(/[\u0000-\u0008\u000e-\u001f\u007f\ufffd]/g)?.length ?? 0;
}

function share(lines: readonly string[], test: (line: string) => boolean): number {
  return lines.length === 0 ? 0 : lines.filter(test).length / lines.length;
}

function isJson(text: string): boolean {
  const trimmed = text.trim();
  if (!/^[[{]/.test(trimmed)) return false;
  if (/^\[[\w ."-]+\]$/m.test(trimmed.split("\n", 1)[0]!) && !/[\]}]$/.test(trimmed)) return false;
  return /^[[{]\s*(?:"|\{|\[|\d|[\]}]|true|false|null)/.test(trimmed);
}

/** Lines with as many cells each, two at least. */
function isTable(_: string, lines: readonly string[]): boolean {
  if (lines.length < 2) return false;
  return ["\t", ";", "|", ","].some((mark) => {
    const counts = lines.map((line) => line.split(mark).length);
    return counts[0]! > 1 && counts.every((count) => count === counts[0]) && (mark !== "," || counts[0]! > 2);
  });
}

/** Short lines of names and values that are none of the language: with signs between them, or beginning alike. */
function isBoardText(_: string, lines: readonly string[]): boolean {
  const terse = share(lines, (line) => /^[\w.$#@[\]-]+(?:\s*[=:,\s]\s*[\w."'+%-]+){1,12}$/.test(line));
  const firsts = new Map<string, number>();
  for (const line of lines) {
    const word = line.split(/[\s=:]/, 1)[0]!;
    firsts.set(word, (firsts.get(word) ?? 0) + 1);
  }
  const isRepeated = Math.max(0, ...firsts.values()) >= 2;
  return (
    terse >= 0.7 &&
    (isRepeated ? lines.some((line) => /[\d=_]/.test(line)) : share(lines, (line) => /[=_]|\d/.test(line)) >= 0.5)
  );
}
