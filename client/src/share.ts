/** “Share…”: what is taken out of a craft is shown, and the script for others is opened, copied or saved. */
import {
  commands,
  env,
  type QuickPickItem,
  QuickPickItemKind,
  ThemeIcon,
  Uri,
  ViewColumn,
  window,
  workspace,
} from "vscode";
import { SHARE_REQUEST, type ShareParams, type SharePart, type ShareResult } from "../../shared/protocol/share.ts";
import { addressOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { pickCraft } from "./pick-craft.ts";
import { activeScript, selectLine } from "./script-editors.ts";
import { askPlace, pickOne, tellInformation } from "./shown-window.ts";
import type { WorkspaceScripts } from "./workspace-scripts.ts";

type Shared = Extract<ShareResult, { kind: "shared" }>;
type Step =
  | { readonly kind: "open" | "copy" | "save" }
  | { readonly kind: "board"; readonly board: ShareParams["board"] }
  | { readonly kind: "line"; readonly part: SharePart };
type Item = QuickPickItem & { readonly step?: Step };

/** Shares a craft: of a menu the one that it names, else the one in front, else one that is asked for. */
export async function share(
  ask: Ask,
  scripts: Pick<WorkspaceScripts, "list">,
  drawnCraft: () => ShareParams["craft"],
  from?: unknown,
): Promise<void> {
  const named = from instanceof Uri ? from : activeScript()?.uri;
  const uri = named ?? (await pickCraft(await scripts.list(), "Share a craft"));
  if (!uri) return;
  let board: ShareParams["board"] = "without";
  for (;;) {
    const params: ShareParams = { uri: addressOf(uri), craft: drawnCraft(), board };
    const shared = await ask<ShareResult>(SHARE_REQUEST, params);
    if (shared.kind === "refused") {
      void tellInformation(shared.message);
      return;
    }
    const step = await askStep(shared, board);
    if (step?.kind !== "board") return step && follow(step, shared);
    board = step.board;
  }
}

/** Shows what was taken out and what was left in, and what can be done with the script. */
async function askStep(shared: Shared, board: ShareParams["board"]): Promise<Step | undefined> {
  const { name, taken, ofHandset, kept, hasBoardText } = shared;
  const does = (label: string, description: string, icon: string, step: Step): Item => ({
    label,
    description,
    iconPath: new ThemeIcon(icon),
    step,
  });
  const lines = (parts: readonly SharePart[]) =>
    parts.map(
      (part): Item => ({
        label: part.what,
        description: placeOf(part),
        ...(part.why !== "" && { detail: part.why }),
        step: { kind: "line", part },
      }),
    );
  // The heading says why of each.
  const inComments = ofHandset.filter(({ what }) => what !== "handset.name").map((part) => ({ ...part, why: "" }));
  const separator = (label: string): Item => ({ label, kind: QuickPickItemKind.Separator });
  const group = (label: string, parts: readonly SharePart[]) =>
    parts.length > 0 ? [separator(label), ...lines(parts)] : [];
  const items: Item[] = [
    does("Open the script", "to be read before it is given away", "open-preview", { kind: "open" }),
    does("Copy the script", "to the clipboard", "copy", { kind: "copy" }),
    does("Save the script…", "as a file of its own", "save", { kind: "save" }),
    ...(hasBoardText
      ? [
          board === "without"
            ? does("Keep board text too", "its lines that look harmless", "add", { kind: "board", board: "with" })
            : does("Leave board text out", "nobody has read it", "remove", { kind: "board", board: "without" }),
        ]
      : []),
    ...group("left in: look at these yourself", kept),
    ...group("taken out", taken),
    ...group("in comments, as only a handset can say it", inComments),
  ];
  const lookAt = kept.length === 0 ? [] : [`${kept.length} to look at yourself`];
  const found = [...(taken.length === 0 ? [] : [`${taken.length} taken out`]), ...lookAt];
  const count = found.length === 0 ? "nothing private was found" : found.join(", ");
  const chosen = await pickOne(items, {
    title: `Share “${name}” – ${count}`,
    placeHolder: "Not every name in a sentence is found: read the script once.",
    matchOnDescription: true,
    matchOnDetail: true,
    ignoreFocusOut: true,
  });
  return chosen?.step;
}

function placeOf({ at }: SharePart): string {
  return `${workspace.asRelativePath(Uri.parse(at.file), false)}, line ${at.line + 1}`;
}

async function follow(step: Exclude<Step, { kind: "board" }>, { text, name, proposed }: Shared): Promise<void> {
  switch (step.kind) {
    case "line":
      return selectLine(step.part.at);
    case "copy":
      await env.clipboard.writeText(text);
      void tellInformation(`“${name}” is in the clipboard as one script. Read it once before you give it away.`);
      return;
    case "save": {
      const file = await askPlace({
        title: `Share “${name}”`,
        defaultUri: Uri.parse(proposed),
        filters: { Fettle: ["fettle"] },
      });
      if (!file) return;
      await workspace.fs.writeFile(file, new TextEncoder().encode(text));
      await commands.executeCommand("vscode.open", file, ViewColumn.Beside);
      return;
    }
    case "open": {
      const document = await workspace.openTextDocument({ language: "fettle", content: text });
      await window.showTextDocument(document, { viewColumn: ViewColumn.Beside, preview: false });
    }
  }
}
