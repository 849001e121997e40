/** “Compare with…”: asks with what a script is compared. */
import { env, type QuickPickItem, QuickPickItemKind, ThemeIcon, Uri, workspace } from "vscode";
import { asideOf } from "../../shared/draw/workspace-outline.ts";
import type { OtherSide } from "../../shared/protocol/compare.ts";
import type { TreeFile, WorkspaceTree } from "../../shared/protocol/workspace-tree.ts";
import { addressOf, nameOf } from "./addresses.ts";
import { pickCraft } from "./pick-craft.ts";
import { type Commits, type Revisions, revisionSide, shortRevision } from "./revisions.ts";
import { activeScript } from "./script-editors.ts";
import { askFile, askText, pickOne, tellInformation } from "./shown-window.ts";
import type { WorkspaceScripts } from "./workspace-scripts.ts";

interface Parts {
  readonly scripts: Pick<WorkspaceScripts, "list">;
  readonly revisions: Pick<Revisions, "commitsOf">;
  /** Opens the report. */
  readonly open: (mine: Uri, other: OtherSide) => void;
}

export interface CompareCommands {
  /** Asks with what: of this script, by default of the one in front, else of a craft that is asked for. */
  compareWith(uri?: unknown): Promise<void>;
  compareWithHead(uri?: unknown): Promise<void>;
}

/** What a row of the list leads to. */
type Choice =
  | { readonly kind: "side"; readonly other: OtherSide }
  | { readonly kind: "file" | "clipboard" | "revision" }
  /** It only says something. */
  | { readonly kind: "words" };

type Item = QuickPickItem & { readonly choice?: Choice };

/** The commands, with the report that they open. */
export function compareCommands({ scripts, revisions, open }: Parts): CompareCommands {
  const scriptFor = async (of: unknown): Promise<Uri | undefined> =>
    uriIn(of) ?? activeScript()?.uri ?? (await pickCraft(await scripts.list(), "Compare which craft?"));

  return {
    async compareWith(of) {
      const mine = await scriptFor(of);
      if (!mine) return;
      const [tree, commits] = await Promise.all([scripts.list(), revisions.commitsOf(mine)]);
      const chosen = await pickOne<Item>(itemsFor(mine, tree, commits), {
        title: `Compare ${nameOf(mine)} with…`,
        placeHolder: "Differences in meaning, the riskiest first",
        matchOnDescription: true,
        matchOnDetail: true,
      });
      const other = chosen?.choice && (await sideOf(chosen.choice, mine));
      if (other) open(mine, other);
    },
    async compareWithHead(of) {
      const mine = await scriptFor(of);
      if (!mine) return;
      const commits = await revisions.commitsOf(mine);
      if (commits.kind === "none") return void tellInformation(commits.why);
      open(mine, revisionSide(addressOf(mine), "HEAD"));
    },
  };
}

function itemsFor(mine: Uri, tree: WorkspaceTree | null, commits: Commits): Item[] {
  const files = tree?.files ?? [];
  const self = files.find(({ file }) => Uri.parse(file).toString() === mine.toString());
  const used = (self?.uses ?? []).flatMap(({ to, why }) => (to === null || why !== null ? [] : [files[to]!]));
  const layers = used.filter(({ kind }) => kind === "layer");
  const others = files.filter((each) => each !== self && each.kind === (self?.kind ?? "craft"));
  return [
    ...group(
      "layers it uses",
      layers.map((each, i) => fileItem(each, i === 0 && layers.length > 1 ? "the first, on which the others lie" : "")),
    ),
    ...group("at a revision of git", revisionItems(mine, commits)),
    ...group("from elsewhere", [
      { label: "The Clipboard", iconPath: new ThemeIcon("clippy"), choice: { kind: "clipboard" } },
      { label: "A File…", iconPath: new ThemeIcon("go-to-file"), choice: { kind: "file" } },
    ]),
    ...group(
      `another ${self?.kind ?? "craft"}`,
      others.map((each) => fileItem(each, tree ? asideOf(tree, files.indexOf(each), pathOf) : "")),
    ),
  ];
}

function group(label: string, items: readonly Item[]): Item[] {
  return items.length === 0 ? [] : [{ label, kind: QuickPickItemKind.Separator }, ...items];
}

function fileItem({ file, name, kind }: TreeFile, aside: string): Item {
  const uri = addressOf(Uri.parse(file));
  return {
    label: name,
    description: aside === "" ? pathOf(file) : `${aside} · ${pathOf(file)}`,
    iconPath: new ThemeIcon(kind === "layer" ? "layers" : kind === "handset" ? "game" : "file-code"),
    choice: { kind: "side", other: { kind: "file", uri } },
  };
}

function revisionItems(mine: Uri, commits: Commits): Item[] {
  const uri = addressOf(mine);
  if (commits.kind === "none")
    return [{ label: "No revisions", detail: commits.why, iconPath: new ThemeIcon("info"), choice: { kind: "words" } }];
  const [last] = commits.commits;
  return [
    {
      label: "The Last Commit (HEAD)",
      description: last ? `last changed by “${last.title}”` : "",
      iconPath: new ThemeIcon("git-commit"),
      choice: { kind: "side", other: revisionSide(uri, "HEAD") },
    },
    ...commits.commits.map(
      ({ revision, title, date }): Item => ({
        label: title === "" ? shortRevision(revision) : title,
        description: [shortRevision(revision), date?.toLocaleDateString()].filter(Boolean).join(", "),
        iconPath: new ThemeIcon("git-commit"),
        choice: { kind: "side", other: revisionSide(uri, revision) },
      }),
    ),
    { label: "Type a Revision…", iconPath: new ThemeIcon("edit"), choice: { kind: "revision" } },
  ];
}

async function sideOf(choice: Choice, mine: Uri): Promise<OtherSide | undefined> {
  switch (choice.kind) {
    case "side":
      return choice.other;
    case "clipboard": {
      const text = await env.clipboard.readText();
      if (text.trim() !== "") return { kind: "text", text, name: "the clipboard" };
      void tellInformation("There is no text in the clipboard: copy a script, or a part of one, first.");
      return undefined;
    }
    case "file": {
      const file = await askFile({ title: `Compare ${nameOf(mine)} with`, openLabel: "Compare" });
      return file && fileSide(file);
    }
    case "revision": {
      const revision = await askText({
        title: `Compare ${nameOf(mine)} with a revision`,
        prompt: "A branch, a tag or a commit, as git names it",
        placeHolder: "HEAD~1",
      });
      return revision?.trim() ? revisionSide(addressOf(mine), revision.trim()) : undefined;
    }
    case "words":
      return undefined;
  }
}

/** A script of the workspace is read with what it uses; any other file is a text by itself. */
async function fileSide(file: Uri): Promise<OtherSide | undefined> {
  if (file.path.endsWith(".fettle") && workspace.getWorkspaceFolder(file))
    return { kind: "file", uri: addressOf(file) };
  try {
    return { kind: "text", text: new TextDecoder().decode(await workspace.fs.readFile(file)), name: nameOf(file) };
  } catch (error) {
    const why = error instanceof Error ? error.message : error;
    void tellInformation(`“${nameOf(file)}” could not be read: ${why}`);
    return undefined;
  }
}

/** A command gets the address of a document, as an object of the editor or as text. */
function uriIn(of: unknown): Uri | undefined {
  if (typeof of === "string") return Uri.parse(of);
  return of instanceof Uri ? of : undefined;
}

function pathOf(file: string): string {
  return workspace.asRelativePath(Uri.parse(file), false);
}
