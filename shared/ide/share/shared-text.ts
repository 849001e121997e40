/** Writes the text of a shared script, and keeps the list of what is not in it. */
import { baseOf, type Craft, type Source } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import { isSharedMark, whyPrivate } from "../../rules/lib/private-lines.ts";
import { quote } from "../../syntax/scanner.ts";
import type { Steps } from "../../text/steps.ts";
import { type NoteReader, notesOf } from "../reports/effective-notes.ts";
import { type EffectiveSection, effectiveRows, type Row } from "../reports/effective-rows.ts";
import { leftOut } from "../reports/effective-script.ts";
import { whyNotShared } from "./board-text.ts";
import { headLines } from "./head-lines.ts";
import { inOrder, type Ledger, type Listed, ledgerOf, lineOfComment, withoutPrivateTexts } from "./ledger.ts";
import { looseNotes } from "./loose-notes.ts";

/** What becomes of kept board text, which nobody has read: it stays out, or the lines stay that look harmless. */
export type BoardText = "without" | "with";

export interface SharedText {
  readonly text: string;
  readonly taken: readonly Listed[];
  readonly kept: readonly Listed[];
}

/** What all parts of the text are written from. */
interface Desk {
  readonly craft: Craft;
  readonly workspace: Workspace;
  readonly reader: NoteReader;
  readonly ledger: Ledger;
  /** Comments that belong to no line, by section: each block as it stands in the script. */
  readonly loose: ReadonlyMap<string | null, readonly (readonly string[])[]>;
}

/** In the order of the catalogue, as the effective craft is written. */
export function* sharedText(craft: Craft, workspace: Workspace, board: BoardText): Steps<SharedText> {
  const ledger = ledgerOf(craft, workspace);
  const loose = looseBlocks(craft, workspace, ledger);
  const desk: Desk = { craft, workspace, reader: notesOf(craft, workspace), ledger, loose };
  const sections = effectiveRows(craft, workspace, "all");
  const boards: { readonly told: readonly string[]; readonly left: readonly string[] }[] = [];
  for (const each of sections) if (each.section === "verbatim") boards.push(yield* boardLines(each, board, ledger));
  const titles = new Set<string>();
  const lines = [...headLines(craft, desk.reader, loose.get(null) ?? [], ledger)];
  lines.push(...boards.flatMap(({ told }) => told));
  for (const section of sections) {
    if (section.section === "verbatim") continue;
    yield;
    lines.push(...sectionLines(section, titles, desk));
  }
  lines.push(...boards.flatMap(({ left }) => left));
  for (const source of leftOut(craft)) ledger.take("line", "It was not understood.", source);
  return { text: `${lines.join("\n")}\n`, taken: inOrder(ledger.taken), kept: inOrder(ledger.kept) };
}

function looseBlocks(craft: Craft, { catalogue }: Workspace, ledger: Ledger): Desk["loose"] {
  const loose = new Map<string | null, string[][]>();
  for (const script of craft.scripts) {
    for (const { section, comments } of looseNotes(script, catalogue)) {
      // What a handset says of itself stays with it.
      if (script.kind === "handset" && section !== "controls") continue;
      const words = comments.filter(({ text }) => !isSharedMark(text));
      const block = words.flatMap(({ text, source }) => ledger.note(text, section, source));
      const known = loose.get(section) ?? [];
      if (block.length > 0 && !known.some((each) => each.join("\n") === block.join("\n")))
        loose.set(section, [...known, block]);
    }
  }
  return loose;
}

function sectionLines(section: EffectiveSection, titles: Set<string>, desk: Desk): string[] {
  const { craft, reader, ledger } = desk;
  const headings = craft.scripts.map((script) => ({
    script,
    lines: script.sections.filter((each) => each.section === section.section).map(({ line }) => line),
  }));
  const notes = reader.ofSection(section.section).flatMap((comment) => {
    const places = headings.filter(({ lines }) => lines.length > 0);
    const at = places.map(({ script, lines }) => lineOfComment(script, comment, lines));
    const isThere = ({ file, line }: Source) =>
      craft.scripts.find((each) => each.file === file)?.tree.lines[line]?.text.includes(comment);
    return ledger.note(comment, null, at.find(isThere) ?? at[0] ?? sourceOf(section, craft));
  });
  const written = section.rows.flatMap((row) => writtenRow(section.section, row, desk));
  return ["", ...notes, heading(section, written, titles, desk), ...rowLines(section, written, desk)];
}

/** The name of a section; of a pack its title too, in which a name may stand. */
function heading(
  { section, title, rows }: EffectiveSection,
  written: readonly Row[],
  titles: Set<string>,
  { craft, ledger }: Desk,
): string {
  const base = baseOf(section);
  if (title === null) return base;
  const source = sourceOf({ section, title, rows }, craft);
  const { text, took } = ledger.quoted(title, section, source);
  let shown = text;
  for (let number = 2; titles.has(shown); number++) shown = `${text} ${number}`;
  titles.add(shown);
  if (took.length > 0) {
    // Every value of the pack differs, under its title of before and under that of now.
    for (const name of new Set(written.map((row) => row.name))) {
      for (const each of [section, `${base}/${shown}`])
        ledger.take(`${each}.${name}`, `It stands in “${shown}” now, as the title held ${took[0]}.`, source);
    }
  }
  return `${base} ${quote(shown)}`;
}

function sourceOf({ section, rows }: EffectiveSection, craft: Craft): Source {
  return (
    craft.sections.get(section) ?? rows[0]?.sources[0] ?? { file: craft.file, line: craft.script.tree.header ?? 0 }
  );
}

function rowLines(
  { section, rows }: EffectiveSection,
  written: readonly WrittenRow[],
  { craft, workspace, loose }: Desk,
): string[] {
  const width = Math.max(0, ...written.map(({ name }) => name.length));
  const lines = written.flatMap(({ name, text, above }) => [
    ...above.map((comment) => `  ${comment}`),
    `  ${name.padEnd(width)}  ${text}`.trimEnd(),
  ]);
  const gone = new Set(rows.filter((row) => whyTaken(section, row, craft, workspace) !== null).map(({ name }) => name));
  const told = [...gone].map((name) => `# ${name}: taken out before sharing`);
  for (const block of [...(told.length > 0 ? [told] : []), ...(loose.get(section) ?? [])])
    lines.push(...(lines.length > 0 ? [""] : []), ...block.map((comment) => `  ${comment}`));
  return lines;
}

type WrittenRow = Row & { readonly above: readonly string[] };

function writtenRow(section: string, row: Row, { craft, workspace, reader, ledger }: Desk): WrittenRow[] {
  const { name, sources } = row;
  const source = sources[0]!;
  const what = `${section}.${name}`;
  const why = whyTaken(section, row, craft, workspace);
  if (why !== null) {
    for (const each of sources) ledger.take(what, why, each);
    return [];
  }
  const spec = craft.settings.get(section)?.has(name) && workspace.catalogue.setting(baseOf(section), name);
  if (spec && spec.example === undefined)
    ledger.keep(what, "It is a setting of your own words, which whoever gets the script does not have.", source);
  if (ledger.redactor.gives(name.replaceAll("-", " ")))
    ledger.keep(what, "Its name says what a private setting says.", source);
  const above = sources.flatMap((each) => {
    const script = workspace.script(each.file)!;
    return reader
      .ofLine(each)
      .flatMap((comment) => ledger.note(comment, section, lineOfComment(script, comment, [each.line])));
  });
  return [{ ...row, text: withoutPrivateTexts(row.text, what, source, ledger), above: [...new Set(above)] }];
}

/** Why a setting is not shared; null for all else. */
function whyTaken(section: string, { name }: Row, craft: Craft, { catalogue }: Workspace): string | null {
  if (!craft.settings.get(section)?.has(name)) return null;
  const why = whyPrivate(section, name, catalogue);
  if (why !== null) return why;
  return catalogue.setting(baseOf(section), name) ? null : "It was not understood: no setting has this name.";
}

const BOARD_TEXT =
  "Board text that nobody has read may hold anything: --with-board-text keeps the lines that look harmless.";

/** The lines of board text that are shared, below their heading, and the comment that tells of the others. */
function* boardLines({ title, rows }: EffectiveSection, board: BoardText, ledger: Ledger) {
  const dialect = title ?? "";
  const what = `verbatim.${dialect}`;
  const left: Row[] = [];
  for (const row of rows) {
    yield;
    const why = board === "with" ? whyNotShared(row.text, ledger.redactor) : BOARD_TEXT;
    if (why === null) left.push(row);
    else ledger.take(what, why, row.sources[0]!);
  }
  const { text, took } = ledger.quoted(dialect, what, rows[0]!.sources[0]!);
  if (took.length > 0)
    ledger.take(`verbatim.${text}`, `It has another name now, as that held ${took[0]}.`, rows[0]!.sources[0]!);
  const gone = rows.length - left.length;
  const count = gone === 1 ? "One line" : `${gone} lines`;
  return {
    told: gone === 0 ? [] : ["", `# ${count} of board text for “${text}”: taken out before sharing`],
    left: left.length === 0 ? [] : ["", `verbatim ${quote(text)}`, ...left.map((row) => `  |${row.text}`)],
  };
}
