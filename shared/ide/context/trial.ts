/** A workspace as it would be with other texts in it, before anything is written. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { FilePath, FileView } from "../../model/files.ts";
import { type Core, makeCore, type Workspace } from "../../model/workspace.ts";

const cores = new WeakMap<Catalogue, Core>();

/** The files of a workspace with this text at `file` (an absolute path, which may exist); its caches are not touched. */
export function withFile(workspace: Workspace, file: FilePath, text: string): Workspace {
  return withFiles(workspace, new Map([[file, text]]));
}

/** The same with several texts, each at its path. */
export function withFiles(workspace: Workspace, texts: ReadonlyMap<FilePath, string>): Workspace {
  const core = cores.get(workspace.catalogue) ?? makeCore(workspace.catalogue);
  cores.set(workspace.catalogue, core);
  return core.at(withTexts(workspace.view, texts));
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
