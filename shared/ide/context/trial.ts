/** A workspace as it would be with one more file, before anything is written. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { FileView } from "../../model/files.ts";
import { type Core, makeCore, type Workspace } from "../../model/workspace.ts";

const cores = new WeakMap<Catalogue, Core>();

/** The files of a workspace with this text at `file` (an absolute path, which may exist); its caches are not touched. */
export function withFile(workspace: Workspace, file: string, text: string): Workspace {
  const core = cores.get(workspace.catalogue) ?? makeCore(workspace.catalogue);
  cores.set(workspace.catalogue, core);
  return core.at(withText(workspace.view, file, text));
}

function withText(view: FileView, file: string, text: string): FileView {
  return {
    read: (path) => (path === file ? { kind: "text", text, validUtf8: true } : view.read(path)),
    list: () => [...new Set([...view.list(), file])].sort(),
    realPath: (path) => (path === file ? file : view.realPath(path)),
    listsUsersOf: (path) => view.listsUsersOf(path),
  };
}
