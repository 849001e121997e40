/** The lines of a shared script above its sections: its notes and those of its layers, its name, its handset. */
import type { Craft, Source } from "../../model/craft.ts";
import { isSharedMark, SHARED_MARK } from "../../rules/lib/private-lines.ts";
import { quote } from "../../syntax/scanner.ts";
import type { NoteReader } from "../reports/effective-notes.ts";
import { type Ledger, lineOfComment } from "./ledger.ts";

const MARK = `# ${SHARED_MARK}: all its files in one, what was private taken out. Read it before you use it.`;

/** `loose` are the comments that stand before the first section, each below a blank line. */
export function headLines(
  craft: Craft,
  reader: NoteReader,
  loose: readonly (readonly string[])[],
  ledger: Ledger,
): string[] {
  const { script } = craft;
  const line = script.tree.header ?? 0;
  const own = reader
    .ofHeader()
    .filter((comment) => !isSharedMark(comment))
    .flatMap((comment) => ledger.note(comment, null, lineOfComment(script, comment, [line])));
  const { text } = ledger.quoted(craft.name, "name", { file: craft.file, line });
  return [
    MARK,
    ...new Set([...own, ...notesOfLayers(craft, ledger)]),
    `craft ${quote(text)}`,
    ...loose.flatMap((block) => ["", ...block]),
    ...(craft.handset ? ["", ...handsetLines(craft, ledger)] : []),
  ];
}

/** The notes above the headers of the layers, each told as of its layer. */
function notesOfLayers({ scripts, file }: Craft, { note }: Ledger): string[] {
  return scripts.flatMap((script) => {
    const { tree, kind, name, allowances } = script;
    const { header } = tree;
    if (script.file === file || header === null || kind !== "layer") return [];
    const allowed = new Set(allowances.map(({ span }) => span.line));
    return script
      .noteOf(header)
      .lines.filter((line) => !allowed.has(line) && !isSharedMark(tree.lines[line]!.text.trim()))
      .flatMap((line, at) => {
        const words = tree.lines[line]!.text.trim().replace(/^#+\s*/, "");
        return note(`# ${at === 0 ? `From the layer “${name}”: ` : ""}${words}`, null, { file: script.file, line });
      });
  });
}

/** What only a handset can say, in comments, as a craft cannot say it. */
function handsetLines({ settings, handset }: Craft, { take, note }: Ledger): string[] {
  const { file, name: title, tree } = handset!;
  const source: Source = { file, line: tree.header ?? 0 };
  take("handset.name", "The handset stays at home: its controls are restated in the script.", source);
  const rows = [...(settings.get("transmitter")?.values() ?? [])].flatMap(({ name, text, source: at }) => {
    take(`transmitter.${name}`, "Only a handset can say it: it stands in a comment.", at);
    return note(`#   ${name}  ${text}`, null, at);
  });
  const first = `# Its controls are those of the handset “${title}”${rows.length > 0 ? ", which says besides:" : "."}`;
  return [...note(first, null, source), ...rows];
}
