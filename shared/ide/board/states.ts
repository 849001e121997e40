/** What each line of a board's text means, by the dialect that knows it or that the pilot chose. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Dialect } from "../../dialect/dialect.ts";
import { boardFileOf, dialectOf, dialectsFitting, dialectsIn } from "../../dialect/dialects.ts";
import { lineReadingSteps } from "../../dialect/read/read-board.ts";
import type { ReadLine } from "../../dialect/read/reading.ts";
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import { fileNameOf } from "../../text/file-name.ts";
import { finish, type Steps } from "../../text/steps.ts";

export type LineCounts = Readonly<Record<ReadLine["state"], number>>;

export type BoardStates =
  | {
      readonly kind: "read";
      readonly dialect: Dialect;
      readonly lines: readonly ReadLine[];
      readonly counts: LineCounts;
      /** The craft that name this text as their board's. */
      readonly craft: readonly Craft[];
    }
  | { readonly kind: "several"; readonly dialects: readonly Dialect[] }
  | { readonly kind: "none" };

/** The states of a text's lines. `chosen` is the file of the dialect that the pilot chose; it counts while it is one. */
export function boardStates(workspace: Workspace, file: FilePath, text: string, chosen: FilePath | null): BoardStates {
  return finish(boardStateSteps(workspace, file, text, chosen));
}

/** The same in steps: a text may be long. */
export function* boardStateSteps(
  workspace: Workspace,
  file: FilePath,
  text: string,
  chosen: FilePath | null,
): Steps<BoardStates> {
  const craft = craftOfText(workspace, file);
  const found = dialectFor(workspace, text, chosen, craft);
  if (found.kind !== "one") return found;
  const lines = yield* linesOf(found.dialect, text, workspace.catalogue);
  return { kind: "read", dialect: found.dialect, lines, counts: countsOf(lines), craft };
}

/** By dialect the text that was read last: a hover asks for one line of the same. */
const last = new WeakMap<Dialect, { text: string; catalogue: Catalogue; lines: readonly ReadLine[] }>();

function* linesOf(dialect: Dialect, text: string, catalogue: Catalogue): Steps<readonly ReadLine[]> {
  const known = last.get(dialect);
  if (known?.text === text && known.catalogue === catalogue) return known.lines;
  const lines = yield* lineReadingSteps(dialect, text, catalogue);
  last.set(dialect, { text, catalogue, lines });
  return lines;
}

export type FoundDialect =
  | { readonly kind: "one"; readonly dialect: Dialect }
  | { readonly kind: "several"; readonly dialects: readonly Dialect[] }
  | { readonly kind: "none" };

/** The chosen dialect, else the one that a craft of this text names, else the one that knows the text. */
export function dialectFor(
  workspace: Workspace,
  text: string,
  chosen: FilePath | null,
  craft: readonly Craft[],
): FoundDialect {
  const picked = chosen === null ? null : dialectOf(workspace, chosen);
  if (picked) return { kind: "one", dialect: picked };
  const named = new Set(craft.flatMap((each) => boardFileOf(each, "dialect") ?? []));
  const [file] = named;
  const said = named.size === 1 ? dialectOf(workspace, file!) : null;
  if (said) return { kind: "one", dialect: said };
  const fitting = dialectsFitting(dialectsIn(workspace), text);
  const [one] = fitting;
  if (!one) return { kind: "none" };
  return fitting.length === 1 ? { kind: "one", dialect: one } : { kind: "several", dialects: fitting };
}

/** The craft whose `board.text` leads to this file. */
export function craftOfText(workspace: Workspace, file: FilePath): readonly Craft[] {
  // A craft says so in its own lines or in those of a layer; either names the file by its last part.
  const last = fileNameOf(file);
  const mayName = workspace.view.list().filter((path) => {
    const answer = workspace.view.read(path);
    return answer?.kind === "text" && answer.text.includes(last);
  });
  const files = new Set(mayName.flatMap((path) => workspace.craftFilesWith(path)));
  return [...files].sort().flatMap((path) => {
    const craft = workspace.craft(path);
    return craft && boardFileOf(craft, "text") === file ? [craft] : [];
  });
}

export function countsOf(lines: readonly ReadLine[]): LineCounts {
  const counts = { read: 0, odd: 0, kept: 0, idle: 0 };
  for (const { state } of lines) counts[state]++;
  return counts;
}
