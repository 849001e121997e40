/** The tree of the workspace beside the panel: craft, layers, handsets, and what each is made of. */
import {
  type Disposable,
  EventEmitter,
  ThemeColor,
  ThemeIcon,
  type TreeDataProvider,
  TreeItem,
  TreeItemCollapsibleState,
  Uri,
  window,
  workspace,
} from "vscode";
import { kindIcon } from "../../shared/draw/kind-icons.ts";
import { type OutlineRow, rowsBelow, topRows } from "../../shared/draw/workspace-outline.ts";
import type { ScriptKind, WorkspaceTree } from "../../shared/protocol/workspace-tree.ts";
import { visibleLine, visibleText } from "../../shared/text/visible-text.ts";
import type { WorkspaceScripts } from "./workspace-scripts.ts";

export const treeViewId = "fettle.craft";

const STATES = {
  not: TreeItemCollapsibleState.None,
  closed: TreeItemCollapsibleState.Collapsed,
  open: TreeItemCollapsibleState.Expanded,
} as const;

/** Registers the view; it is filled when it is first shown. */
export function workspaceTree(scripts: WorkspaceScripts): Disposable[] {
  const changed = new EventEmitter<void>();
  const rows: TreeDataProvider<OutlineRow> = {
    onDidChangeTreeData: changed.event,
    async getChildren(row) {
      const tree = await scripts.list();
      if (!tree) return [];
      return row ? rowsBelow(tree, row, pathOf) : topRows(tree);
    },
    getTreeItem: (row) => itemOf(row, scripts.look()),
  };
  const view = window.createTreeView(treeViewId, { treeDataProvider: rows, showCollapseAll: true });
  scripts.countWhile(() => view.visible);
  const shown = view.onDidChangeVisibility(({ visible }) => {
    if (visible) scripts.changed();
  });
  return [view, changed, shown, scripts.onDidChange(() => changed.fire())];
}

/** The script behind a row of the tree; undefined for a group. */
export function uriOfRow(row: OutlineRow, tree: WorkspaceTree | null): Uri | undefined {
  const file = row.file === null ? undefined : tree?.files[row.file];
  return file && Uri.parse(file.file);
}

function pathOf(file: string): string {
  return workspace.asRelativePath(Uri.parse(file), false);
}

function itemOf(row: OutlineRow, tree: WorkspaceTree | null): TreeItem {
  const item = new TreeItem(visibleLine(row.label), STATES[row.unfolds]);
  item.id = row.id;
  item.description = visibleLine(row.aside);
  item.tooltip = visibleText(row.more);
  item.contextValue = row.kind;
  item.accessibilityInformation = {
    label: visibleLine([row.label, nameOfKind(row), row.aside].filter(Boolean).join(", ")),
  };
  item.iconPath = iconOf(row, tree);
  const uri = uriOfRow(row, tree);
  if (uri && row.kind !== "users") {
    const at = { line: row.line, character: 0 };
    item.command = {
      command: "vscode.open",
      title: "Open",
      arguments: [uri, { selection: { start: at, end: at }, preserveFocus: true }],
    };
  }
  return item;
}

/** What a screen reader says in place of the picture. */
function nameOfKind({ kind }: OutlineRow): string {
  if (kind === "no-file") return "not there";
  return kind === "craft" || kind === "layer" || kind === "handset" || kind === "dialect" ? kind : "";
}

const SEVERITY_ICONS = {
  error: new ThemeIcon("error", new ThemeColor("list.errorForeground")),
  warning: new ThemeIcon("warning", new ThemeColor("list.warningForeground")),
  info: new ThemeIcon("info"),
  hint: new ThemeIcon("lightbulb"),
};

function iconOf({ kind, file }: OutlineRow, tree: WorkspaceTree | null): TreeItem["iconPath"] {
  const worst = (file === null ? undefined : tree?.files[file]?.findings?.worst?.severity) ?? null;
  switch (kind) {
    case "group":
      return undefined;
    case "findings":
      return SEVERITY_ICONS[worst ?? "hint"];
    case "users":
      return new ThemeIcon("references");
    case "no-file":
      return SEVERITY_ICONS.error;
    case "unread":
      return new ThemeIcon("question");
    default:
      return drawnIcon(kind, worst === "error" || worst === "warning" ? worst : null);
  }
}

/** As an address that holds the picture itself: eight files a kind would say the same. */
function drawnIcon(kind: ScriptKind, mark: "error" | "warning" | null): { light: Uri; dark: Uri } {
  const address = (ground: "light" | "dark") =>
    Uri.parse(`data:image/svg+xml;base64,${btoa(kindIcon(kind, mark, ground))}`);
  return { light: address("light"), dark: address("dark") };
}
