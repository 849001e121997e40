/** What follows from the line at the cursor, in the words that the hover shows. */
import { type Consequence, consequencesOf } from "../../../shared/ide/consequences/consequences.ts";
import { craftFor, entryAt } from "../../../shared/ide/context/cursor-context.ts";
import { atCursor } from "../cursor.ts";

/** The consequences of the line at `|`, on the craft of these sections. */
export function consequencesAt(sections: string, more: Record<string, string> = {}): readonly Consequence[] {
  const { workspace, file, position } = atCursor(`craft "Jug"\n\n${sections}\n`, more);
  const entry = entryAt(workspace.script(file)!, position.line);
  const craft = craftFor(workspace, file);
  if (!entry || !craft) throw new Error("no entry stands at the cursor");
  return consequencesOf(craft, workspace.catalogue, { ...entry, file });
}

/** Their texts alone. */
export function follows(sections: string, more: Record<string, string> = {}): string[] {
  return consequencesAt(sections, more).map(({ text }) => text);
}
