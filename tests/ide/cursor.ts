/** Scripts in memory, with `|` where the cursor stands. */
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { completionsAt } from "../../shared/ide/completion/complete.ts";
import { hoverAt, type LinkTargets } from "../../shared/ide/hover/hover.ts";
import { pageAddress } from "../../shared/ide/reference/page-names.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../shared/model/workspace.ts";
import type { Position } from "../../shared/syntax/span.ts";

const core = makeCore(makeCatalogue());

export const wheel = `handset "Wheel"

transmitter
  band 2.4 GHz

controls
  # worn at the tip
  TL switch ch5 up 1000 us down 2000 us
  TR switch ch6 up 1000 us mid 1500 us down 2000 us rests mid
  KN dial ch9 1000 us to 2000 us
`;

export interface At {
  readonly workspace: Workspace;
  readonly file: string;
  readonly position: Position;
}

/** A workspace of `text` as `/shed/jug.fettle`, the handset beside it, and more files by name. */
export function atCursor(text: string, more: Record<string, string> = {}): At {
  const offset = text.indexOf("|");
  const before = text.slice(0, Math.max(0, offset)).split("\n");
  const texts: Record<string, string> = {
    "/shed/wheel.fettle": wheel,
    "/shed/jug.fettle": offset < 0 ? text : text.slice(0, offset) + text.slice(offset + 1),
  };
  for (const [name, said] of Object.entries(more)) texts[`/shed/${name}`] = said;
  return {
    workspace: core.at(memoryFiles(texts)),
    file: "/shed/jug.fettle",
    position: { line: before.length - 1, character: before.at(-1)!.length },
  };
}

/** As `atCursor`; throws where the text has no cursor, as the answer would be that of its beginning. */
function atItsCursor(text: string, more: Record<string, string>): At {
  if (!text.includes("|")) throw new Error(`No | says where the cursor stands: ${text}`);
  return atCursor(text, more);
}

/** Links as they are read most easily: a line by its file, from 1, and a page by its address. */
export const testLinks: LinkTargets = {
  line: ({ file, line }) => `${file.slice(file.lastIndexOf("/") + 1)}#${line + 1}`,
  page: pageAddress,
};

/** The Markdown of the hover at the cursor, or null. */
export function hoverText(text: string, more: Record<string, string> = {}, links = testLinks): string | null {
  const { workspace, file, position } = atItsCursor(text, more);
  return hoverAt(workspace, file, position, links)?.markdown ?? null;
}

/** The labels offered at the cursor, in the order in which an editor lists them. */
export function offered(text: string, more: Record<string, string> = {}): string[] {
  const { workspace, file, position } = atItsCursor(text, more);
  const items = completionsAt(workspace, file, position);
  return [...items].sort((a, b) => (a.sort < b.sort ? -1 : 1)).map((item) => item.label);
}

/** The script after the first offer of that label was taken; holes of a snippet show as they are. */
export function taken(label: string, text: string, more: Record<string, string> = {}): string {
  const { workspace, file, position } = atItsCursor(text, more);
  const item = completionsAt(workspace, file, position).find((each) => each.label === label);
  if (!item) throw new Error(`“${label}” is not offered`);
  const lines = text.replace("|", "").split("\n");
  const { start, end } = item.range;
  const line = lines[start.line]!;
  lines[start.line] = line.slice(0, start.character) + item.text + line.slice(end.character);
  return lines.join("\n");
}
