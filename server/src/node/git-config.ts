/**
 * The part of a repository's configuration that is ours, as text: put at its end and taken out again without touching a
 * byte besides. (`git config` would leave headings behind, or take a comment along.)
 */

/** What git is told of us. */
export interface GitSettings {
  readonly textconv: string;
  readonly xfuncname: string;
  readonly driver: string;
  /** The files into which the line of attributes was written, from the folder of the configuration. */
  readonly attributes: readonly string[];
}

const MARK = "# By “fettle git install”; “fettle git remove” takes it out again.";
const MARK_BYTES = Buffer.from(MARK, "utf8").toString("latin1");
const OURS = /^\[(?:diff "fettle"|merge "fettle"|fettle)\][ \t]*$/i;

/** What we set in each of our sections. */
const OUR_KEYS: ReadonlyMap<string, RegExp> = new Map([
  ['[diff "fettle"]', /^[ \t]+(?:textconv|xfuncname)[ \t]*=/i],
  ['[merge "fettle"]', /^[ \t]+(?:name|driver)[ \t]*=/i],
  ["[fettle]", /^[ \t]+attributes[ \t]*=/i],
]);

/** Where our part stands in a configuration, as a piece of its text. */
interface Part {
  readonly from: number;
  readonly to: number;
  /** Lines in it that somebody else wrote, such as `cachetextconv`, each section with its heading. */
  readonly others: readonly string[];
}

/** A configuration, one character a byte, with our part as the settings say; in place of an earlier one, else at its end. */
export function withSettings(text: string, settings: GitSettings): string {
  const end = usualEnd(text);
  const part = partText(settings, end);
  const known = partOf(text);
  if (known) return text.slice(0, known.from) + [part, ...known.others].join(end) + text.slice(known.to);
  if (text === "") return part;
  // Without a line end at the end before, there is none behind: by that its removal knows.
  return text.endsWith("\n") ? `${text}${part}${end}` : `${text}${end}${part}`;
}

/** The line end for what is put behind a text: where that ends with half of one, a whole one, which can be taken out again. */
export function usualEnd(text: string): "\r\n" | "\n" {
  return /\r\n[^\n]*$/.test(text) || text.endsWith("\r") ? "\r\n" : "\n";
}

/** A configuration without our part; null where it has none. */
export function withoutSettings(text: string): string | null {
  const known = partOf(text);
  if (!known) return null;
  const before = text.slice(0, known.from);
  const behind = text.slice(known.to);
  if (known.others.length > 0) return before + known.others.join(/\r\n/.test(text) ? "\r\n" : "\n") + behind;
  const end = /^\r?\n/.exec(behind)?.[0] ?? "";
  return end === "" ? before.replace(/\r?\n$/, "") : before + behind.slice(end.length);
}

/** The files that our part names; null where there is no such part. */
export function attributeFilesIn(text: string): readonly string[] | null {
  const known = partOf(text);
  if (!known) return null;
  const lines = text.slice(known.from, known.to).matchAll(/^[ \t]+attributes[ \t]*=[ \t]*(.*?)\r?$/gm);
  return [...lines].map(([, value = ""]) => unquoted(Buffer.from(value, "latin1").toString("utf8")));
}

/** A configuration whose part no longer names a file of attributes. */
export function withoutAttributeFile(text: string, file: string): string {
  const known = partOf(text);
  if (!known) return text;
  const line = Buffer.from(`\n\tattributes = ${quoted(file)}`, "utf8").toString("latin1");
  const at = text.indexOf(line, known.from);
  if (at < 0 || at > known.to) return text;
  // Its line end is the one before it.
  const from = text[at - 1] === "\r" ? at - 1 : at;
  return text.slice(0, from) + text.slice(at + line.length);
}

function partText({ textconv, xfuncname, driver, attributes }: GitSettings, end: string): string {
  const lines = [
    MARK,
    '[diff "fettle"]',
    `\ttextconv = ${quoted(textconv)}`,
    `\txfuncname = ${quoted(xfuncname)}`,
    '[merge "fettle"]',
    "\tname = scripts of multirotors, entry by entry",
    `\tdriver = ${quoted(driver)}`,
    ...(attributes.length > 0 ? ["[fettle]", ...attributes.map((file) => `\tattributes = ${quoted(file)}`)] : []),
  ];
  return Buffer.from(lines.join(end), "utf8").toString("latin1");
}

/** From our mark to the last line of our sections, without its line end: what others wrote behind it is not ours. */
function partOf(text: string): Part | null {
  const mark = new RegExp(`^${MARK_BYTES}\\r?$`, "m").exec(text);
  if (!mark) return null;
  let to = mark.index + mark[0].replace(/\r$/, "").length;
  let isContinued = false;
  let heading = "";
  let isOther = false;
  const others = new Map<string, string[]>();
  for (let next = text.indexOf("\n", to) + 1; next > 0; next = text.indexOf("\n", next) + 1) {
    const stop = text.indexOf("\n", next);
    const line = text.slice(next, stop < 0 ? text.length : stop).replace(/\r$/, "");
    const isOurs: boolean = isContinued || OURS.test(line) || /^[ \t]+[A-Za-z]/.test(line);
    // A comment is ours where a setting of ours follows.
    if (!isOurs && !/^[ \t]*([#;]|$)/.test(line)) break;
    if (OURS.test(line)) heading = line;
    else if (isOurs) {
      if (!isContinued) isOther = !OUR_KEYS.get(heading.trim().toLowerCase())?.test(line);
      if (isOther) others.set(heading, [...(others.get(heading) ?? [heading]), line]);
    }
    isContinued = isOurs && /(?<!\\)(?:\\\\)*\\$/.test(line);
    if (isOurs) to = next + line.length;
  }
  return { from: mark.index, to, others: [...others.values()].flat() };
}

/** A value as git reads it, whatever is in it. */
function quoted(value: string): string {
  const escaped = value.replace(/["\\]/g, "\\$&").replaceAll("\n", "\\n").replaceAll("\t", "\\t");
  return `"${escaped}"`;
}

function unquoted(value: string): string {
  return value
    .replace(/^"([\s\S]*)"$/, "$1")
    .replace(/\\(.)/g, (_, each) => (each === "n" ? "\n" : each === "t" ? "\t" : each));
}
