/** Lines and sections of a new script, and their text in the canonical layout. */

/** A line of a section. */
export type ScriptLine =
  | { readonly kind: "entry"; readonly name: string; readonly value: string; readonly note: string | null }
  /** An entry that is commented out, since only the pilot knows its value. */
  | { readonly kind: "placeholder"; readonly name: string; readonly value: string; readonly note: string | null };

/** A section, with the note that stands above it. */
export interface ScriptSection {
  readonly name: string;
  readonly note: string | null;
  readonly lines: readonly ScriptLine[];
}

/** An entry, with the note that stands above it. */
export function entry(name: string, value: string, note: string | null = null): ScriptLine {
  return { kind: "entry", name, value, note };
}

/** An entry that the pilot is to fill in and to uncomment. */
export function placeholder(name: string, value: string, note: string | null = null): ScriptLine {
  return { kind: "placeholder", name, value, note };
}

/** Notes are wrapped at this width, so that they can be read beside the panel. */
const NOTE_COLUMNS = 100;

/**
 * A section as text: entries indented by two, values aligned, each note at the end of its line, or above where the line
 * is too long.
 */
export function sectionText({ name, note, lines }: ScriptSection): string {
  const widest = (kind: "entry" | "placeholder") =>
    Math.max(0, ...lines.map((each) => (each.kind === kind ? each.name.length : 0)));
  const width = widest("entry");
  // Placeholders are aligned only in a section that has no other entries.
  const placeholderWidth = width > 0 ? 0 : widest("placeholder");
  const rows = lines.flatMap((line): string[] => {
    if (line.kind === "placeholder")
      return [...noteAbove(line.note), `  # ${line.name.padEnd(placeholderWidth)}  ${line.value}`];
    const row = `  ${line.name.padEnd(width)}  ${line.value}`;
    const whole = `${row}  # ${line.note}`;
    const fits = line.note !== null && whole.length <= NOTE_COLUMNS && !line.note.includes("\n");
    return fits ? [whole] : [...noteAbove(line.note), row];
  });
  return [...(note === null ? [] : noteLines(note, "")), name, ...rows].join("\n");
}

const noteAbove = (note: string | null) => (note === null ? [] : noteLines(note, "  "));

/** A note as comment lines, wrapped between words; line breaks in the note are kept. */
export function noteLines(note: string, indent: string): string[] {
  return note.split("\n").flatMap((paragraph) => {
    const rows: string[] = [];
    for (const word of paragraph.split(" ")) {
      const row = rows.at(-1);
      if (row !== undefined && row.length + 1 + word.length <= NOTE_COLUMNS) rows[rows.length - 1] = `${row} ${word}`;
      else rows.push(`${indent}# ${word}`);
    }
    return rows;
  });
}
