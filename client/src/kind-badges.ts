/** A letter beside each script in the explorer: what it is, which its name does not tell. */
import { type Disposable, EventEmitter, FileDecoration, type Uri, window } from "vscode";
import type { TreeFile } from "../../shared/protocol/workspace-tree.ts";
import { visibleLine } from "../../shared/text/visible-text.ts";
import type { WorkspaceScripts } from "./workspace-scripts.ts";

const LETTERS = { craft: "C", layer: "L", handset: "H", dialect: "D" } as const;

/** Registers the letters; the editor's own setting “explorer.decorations.badges” turns them off, with all others. */
export function kindBadges(scripts: WorkspaceScripts): Disposable[] {
  const changed = new EventEmitter<Uri[] | undefined>();
  let shown = "";
  const byAddress = new Map<string, TreeFile>();
  const update = () => {
    const files = scripts.look()?.files ?? [];
    byAddress.clear();
    for (const file of files) byAddress.set(file.file, file);
    const now = files.map(({ file, kind, name }) => `${file} ${kind} ${name}`).join("\n");
    if (now === shown) return;
    shown = now;
    changed.fire(undefined);
  };
  const provider = window.registerFileDecorationProvider({
    onDidChangeFileDecorations: changed.event,
    provideFileDecoration(uri) {
      if (!uri.path.endsWith(".fettle")) return undefined;
      scripts.look();
      const file = byAddress.get(uri.toString());
      if (!file?.kind) return undefined;
      const what = `${file.kind.charAt(0).toUpperCase()}${file.kind.slice(1)}`;
      return new FileDecoration(LETTERS[file.kind], visibleLine(`${what} “${file.name}”`));
    },
  });
  return [provider, changed, scripts.onDidChange(update)];
}
