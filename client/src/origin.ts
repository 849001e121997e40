/** Where a value comes from, as a list to go through; what can be done about it stands below it. */
import {
  type QuickPickItem,
  QuickPickItemKind,
  Range,
  Selection,
  type TextEditor,
  TextEditorRevealType,
  ThemeIcon,
  Uri,
  window,
  workspace,
} from "vscode";
import type { Uri as Address } from "../../shared/protocol/addresses.ts";
import type { LinePlace, Place } from "../../shared/protocol/findings.ts";
import {
  type ChangeOrigin,
  ORIGIN_REQUEST,
  type OriginAction,
  type OriginParams,
  type OriginResult,
  type OriginStep,
} from "../../shared/protocol/origin.ts";
import { addressOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import type { EffectiveCrafts } from "./effective.ts";
import { relocations } from "./relocations.ts";
import { columnFor, scriptOf, selectLine } from "./script-editors.ts";
import { makeList, tellInformation } from "./shown-window.ts";

interface Parts {
  readonly ask: Ask;
  readonly effective: Pick<EffectiveCrafts, "sourceAt">;
  /** The craft that the panel draws, where a file is part of several. */
  readonly drawnCraft: () => Address | undefined;
}

export interface OriginCommands {
  /** Shows which files said the name at the cursor. */
  show(): Promise<void>;
  /** Does one of the changes to what is selected. */
  change(action: OriginAction["kind"]): Promise<void>;
  /** Does what a code action or a hover names. */
  follow(change: ChangeOrigin): Promise<void>;
}

/** What the cursor is on: a place of a script, and the selection there. */
type Asked = Omit<ChangeOrigin, "action">;

/** The commands on where values come from. */
export function originCommands({ ask, effective, drawnCraft }: Parts): OriginCommands {
  const { relocate } = relocations(ask);
  const here = (): Asked | undefined => {
    const editor = window.activeTextEditor;
    const script = scriptOf(editor);
    if (editor && script) {
      const { start, end, active } = editor.selection;
      const range = editor.selection.isEmpty ? { start: active, end: active } : { start, end };
      return { uri: addressOf(script.uri), craft: drawnCraft(), range: plain(range) };
    }
    const found = editor && effective.sourceAt(editor.document, editor.selection.active.line);
    if (!found) return undefined;
    const at = { line: found.source.line, character: 0 };
    return { uri: addressOf(Uri.parse(found.source.file)), craft: found.craft, range: { start: at, end: at } };
  };
  const show = async (asked: Asked): Promise<void> => {
    const params: OriginParams = { uri: asked.uri, craft: asked.craft, position: asked.range.start };
    const origin = await ask<OriginResult>(ORIGIN_REQUEST, params);
    if (origin.kind === "refused") return void tellInformation(origin.message);
    const chosen = await pick(origin);
    if (!chosen) return;
    if ("step" in chosen) return selectLine(chosen.step.at);
    await act(chosen.action, { ...asked, craft: origin.craft.uri }, origin);
  };
  const act = (action: OriginAction, asked: Asked, origin: Extract<OriginResult, { kind: "origin" }>) => {
    switch (action.kind) {
      case "override":
        return relocate({ ...asked, action: "override" });
      case "inline": {
        const at = { line: action.line, character: 0 };
        return relocate({ uri: origin.craft.uri, range: { start: at, end: at }, action: "inline" });
      }
      default: {
        const own = origin.steps.findLast(({ at, kind }) => kind === "craft" && at.file === origin.craft.uri);
        const at = { line: own?.at.line ?? asked.range.start.line, character: 0 };
        return relocate({ uri: origin.craft.uri, range: { start: at, end: at }, action: action.kind });
      }
    }
  };
  const nothing = () => void tellInformation("Open a script, and put the cursor on an entry first.");
  return {
    async show() {
      const asked = here();
      return asked ? show(asked) : nothing();
    },
    async change(action) {
      const asked = here();
      return asked ? relocate({ ...asked, action }) : nothing();
    },
    follow: (change) => (change.action === "show" ? show(change) : relocate({ ...change, action: change.action })),
  };
}

function plain({ start, end }: { readonly start: Place; readonly end: Place }): Asked["range"] {
  return {
    start: { line: start.line, character: start.character },
    end: { line: end.line, character: end.character },
  };
}

type Choice = QuickPickItem &
  ({ readonly step: OriginStep } | { readonly action: OriginAction } | { kind: QuickPickItemKind.Separator });

/** Lists the chain, the line that counts in front; goes along in the editor, and back where it is dismissed. */
function pick(
  origin: Extract<OriginResult, { kind: "origin" }>,
): Promise<{ readonly step: OriginStep } | { readonly action: OriginAction } | undefined> {
  const box = makeList<Choice>();
  box.title = `Where ${origin.what} comes from: ${origin.now}`;
  box.placeholder = "Nearest last. Enter goes to the line";
  box.matchOnDescription = true;
  box.matchOnDetail = true;
  const steps = origin.steps.map((step): Choice => ({ ...shownStep(step), step }));
  const actions = origin.actions.map((action): Choice => ({ label: action.title, action }));
  const line: Choice = { label: "what can be done", kind: QuickPickItemKind.Separator };
  box.items = actions.length > 0 ? [...steps, line, ...actions] : steps;
  const counts = steps.findLast((_, i) => origin.steps[i]!.counts) ?? steps.at(-1);
  if (counts) box.activeItems = [counts];
  const before = standing();
  return new Promise((resolve) => {
    let chosen: Choice | undefined;
    let shown: Promise<unknown> = Promise.resolve();
    box.onDidChangeActive(([item]) => {
      if (item && "step" in item) shown = shown.then(() => preview(item.step.at));
    });
    box.onDidAccept(() => {
      chosen = box.activeItems[0];
      box.hide();
    });
    box.onDidHide(() => {
      box.dispose();
      void shown.then(async () => {
        if (!chosen || !("step" in chosen)) await before.again();
        resolve(chosen && ("step" in chosen || "action" in chosen) ? chosen : undefined);
      });
    });
    box.show();
  });
}

function shownStep({ at, says, script, state, note, counts }: OriginStep): QuickPickItem {
  const place = `${workspace.asRelativePath(Uri.parse(at.file), false)}:${at.line + 1}`;
  return {
    label: says,
    iconPath: new ThemeIcon(counts ? "check" : "circle-slash"),
    description: `${script} · ${place}`,
    detail: note === "" ? state : `${state} — ${note.replace(/\s+/g, " ")}`,
  };
}

/** Shows a line without the keyboard leaving the list. */
async function preview({ file, line }: LinePlace): Promise<void> {
  const document = await workspace.openTextDocument(Uri.parse(file));
  const editor = await window.showTextDocument(document, {
    viewColumn: columnFor(document),
    preserveFocus: true,
    preview: true,
  });
  const { range } = document.lineAt(Math.min(line, document.lineCount - 1));
  editor.selection = new Selection(range.start, range.end);
  editor.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
}

/** What is in front now, to be shown again. */
function standing(): { again(): Promise<void> } {
  const editor: TextEditor | undefined = window.activeTextEditor;
  const selection = editor?.selection;
  return {
    async again() {
      if (!editor || !selection) return;
      const shown = await window.showTextDocument(editor.document, { viewColumn: editor.viewColumn });
      shown.selection = selection;
      shown.revealRange(new Range(selection.start, selection.end), TextEditorRevealType.InCenterIfOutsideViewport);
    },
  };
}
