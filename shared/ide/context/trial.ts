/** A workspace as it would be with other texts in it, before anything is written. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { FilePath, FileView } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import { type Core, makeCore, type Workspace } from "../../model/workspace.ts";
import { comparePositions, type Position, type TextEdit } from "../../syntax/span.ts";

const cores = new WeakMap<Catalogue, Core>();

/** The files of a workspace with this text at `file` (an absolute path, which may exist); its caches are not touched. */
export function withFile(workspace: Workspace, file: FilePath, text: string): Workspace {
  return withFiles(workspace, new Map([[file, text]]));
}

/** The same with several texts, each at its path. */
export function withFiles(workspace: Workspace, texts: ReadonlyMap<FilePath, string>): Workspace {
  const core = cores.get(workspace.catalogue) ?? makeCore(workspace.catalogue);
  cores.set(workspace.catalogue, core);
  return core.at(withTexts(workspace.view, texts), workspace.levels);
}

/** The text of a script, without its byte-order mark, as it would be with edits made that do not overlap. */
export function textWith({ tree }: Script, edits: readonly TextEdit[]): string {
  const starts: number[] = [];
  let text = "";
  for (const [i, line] of tree.lines.entries()) {
    starts.push(text.length);
    text += line.text + tree.ends[i];
  }
  const offsetAt = ({ line, character }: Position) => (starts[line] ?? text.length) + character;
  let made = "";
  let done = 0;
  for (const { range, text: inserted } of [...edits].sort((a, b) => comparePositions(a.range.start, b.range.start))) {
    made += text.slice(done, offsetAt(range.start)) + inserted;
    done = offsetAt(range.end);
  }
  return made + text.slice(done);
}

function withTexts(view: FileView, texts: ReadonlyMap<FilePath, string>): FileView {
  return {
    read: (path) => {
      const text = texts.get(path);
      return text === undefined ? view.read(path) : { kind: "text", text, validUtf8: true };
    },
    list: () => [...new Set([...view.list(), ...texts.keys()])].sort(),
    realPath: (path) => (texts.has(path) ? path : view.realPath(path)),
    listsUsersOf: (path) => view.listsUsersOf(path),
  };
}
