/** Lines follow the files that they name: asked about, and changed once files are renamed, moved or deleted. */
import {
  ConfigurationTarget,
  type FileDeleteEvent,
  type FileRenameEvent,
  type MessageItem,
  Range,
  Uri,
  WorkspaceEdit,
  workspace,
} from "vscode";
import { SERVER_SETTINGS, SETTINGS_SECTION, type UseLineWay } from "../../shared/protocol/settings.ts";
import { USE_LINES_REQUEST, type UseLinesParams, type UseLinesResult } from "../../shared/protocol/use-lines.ts";
import { fileNameOf } from "../../shared/text/file-name.ts";
import { joinWithAnd } from "../../shared/text/list.ts";
import { addressOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { tellInformation, tellWarning } from "./shown-window.ts";

type Next<Event> = (event: Event) => PromiseLike<void>;

/** What the language client calls around these operations, in place of what it would do itself. */
export interface UseLines {
  willRenameFiles(event: { readonly files: FileRenameEvent["files"] }): Promise<null>;
  didRenameFiles(event: FileRenameEvent, next: Next<FileRenameEvent>): Promise<void>;
  willDeleteFiles(event: { readonly files: FileDeleteEvent["files"] }): Promise<null>;
  didDeleteFiles(event: FileDeleteEvent, next: Next<FileDeleteEvent>): Promise<void>;
}

/**
 * The server is asked while everything is still in its old place. The editor would ask about edits that it is given
 * then in words of its own, without saying how many lines there are; so they are made afterwards.
 */
export function followUseLines(ask: Ask, warn: (message: string) => void): UseLines {
  const planned = new Map<string, UseLinesResult>();
  const plan = async (params: UseLinesParams): Promise<null> => {
    if (way() === "never") return null;
    try {
      const result = await ask<UseLinesResult | null>(USE_LINES_REQUEST, params);
      if (result) planned.set(keyOf(params), result);
    } catch (error) {
      warn(
        `The lines that name files could not be looked at: ${error instanceof Error ? error.message : String(error)}`,
      );
    }
    return null;
  };
  const carryOut = async (params: UseLinesParams): Promise<void> => {
    const result = planned.get(keyOf(params));
    planned.delete(keyOf(params));
    if (!result) return;
    if (result.left.length > 0) void tellWarning(result.left.join(" "));
    if (result.lines > 0 && (way() === "always" || (await isWanted(params, result)))) await apply(result);
  };
  return {
    willRenameFiles: ({ files }) => plan(moveOf(files)),
    async didRenameFiles(event, next) {
      await next(event);
      // Not waited for: the editor goes on while the question stands.
      void carryOut(moveOf(event.files));
    },
    willDeleteFiles: ({ files }) => plan(deletionOf(files)),
    async didDeleteFiles(event, next) {
      await next(event);
      void carryOut(deletionOf(event.files));
    },
  };
}

function way(): UseLineWay {
  return workspace.getConfiguration(SETTINGS_SECTION).get<UseLineWay>("useLines", SERVER_SETTINGS.useLines);
}

const moveOf = (files: FileRenameEvent["files"]): UseLinesParams => ({
  kind: "move",
  files: files.map(({ oldUri, newUri }) => ({ oldUri: addressOf(oldUri), newUri: addressOf(newUri) })),
});

const deletionOf = (files: FileDeleteEvent["files"]): UseLinesParams => ({
  kind: "delete",
  files: files.map((uri) => ({ uri: addressOf(uri) })),
});

/** Equal before and after one operation. */
const keyOf = (params: UseLinesParams) => JSON.stringify(params);

interface Answer extends MessageItem {
  readonly is: "once" | "always" | "no";
}

async function isWanted(params: UseLinesParams, result: UseLinesResult): Promise<boolean> {
  const { message, detail, yes } = question(params, result);
  const answers: Answer[] = [
    { title: yes, is: "once" },
    { title: "Always", is: "always" },
    { title: "Leave Them", is: "no", isCloseAffordance: true },
  ];
  const answer = await tellInformation(message, { modal: true, detail }, ...answers);
  if (answer?.is === "always")
    await workspace.getConfiguration(SETTINGS_SECTION).update("useLines", "always", ConfigurationTarget.Global);
  return answer !== undefined && answer.is !== "no";
}

/** So many craft are named; of more only the number is said. */
const MOST_NAMED = 5;

/** What is asked, with how much there is of it. */
function question(params: UseLinesParams, { lines, uses, files, craft }: UseLinesResult) {
  const kind = uses === lines ? "“use” line" : "line";
  const stand = `${counted(lines, kind, `${kind}s`)} in ${counted(files.length, "script", "scripts")}`;
  const always = "“Always” does so from now on without asking, until the setting fettle.useLines says otherwise.";
  if (params.kind === "move")
    return {
      message: `Let ${stand} lead to the new place?`,
      detail: `Left as they are, they no longer lead where they led. ${always}`,
      yes: lines === 1 ? "Change the Line" : "Change the Lines",
    };
  const what = params.files.length === 1 ? `“${nameOf(params.files[0]!.uri)}”` : `${params.files.length} items`;
  const named = craft.slice(0, MOST_NAMED).map((name) => `“${name}”`);
  const more = craft.length - named.length;
  const who = joinWithAnd(more > 0 ? [...named, `${more} more`] : named);
  const used = craft.length === 0 ? "" : ` ${counted(craft.length, "craft", "craft")} used ${what}: ${who}.`;
  return {
    message: `Remove ${stand} that ${lines === 1 ? "names" : "name"} what is deleted?`,
    detail:
      `${used} What it said is missing there in any case. Left as they are, these lines are errors. ${always}`.trim(),
    yes: lines === 1 ? "Remove the Line" : "Remove the Lines",
  };
}

function counted(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

function nameOf(address: string): string {
  return decodeURIComponent(fileNameOf(address));
}

/** Makes the edits as one step, and saves the scripts that were saved before, as the editor does when it refactors. */
async function apply({ files }: UseLinesResult): Promise<void> {
  const edit = new WorkspaceEdit();
  const other: string[] = [];
  for (const { file, edits } of files) {
    const uri = Uri.parse(file);
    const document = workspace.textDocuments.find((each) => each.uri.toString() === uri.toString());
    for (const { range, was, text } of edits) {
      const { start, end } = range;
      const place = new Range(start.line, start.character, end.line, end.character);
      // It may have been typed in while the question stood; line ends are the document's own.
      if (document && plain(document.getText(place)) !== plain(was)) other.push(nameOf(file));
      else edit.replace(uri, place, text);
    }
  }
  const isDone = await workspace.applyEdit(edit, { isRefactoring: true });
  if (!isDone) void tellWarning("The editor did not take the change of the lines: is a script read-only?");
  else if (other.length > 0)
    void tellWarning(
      `Some lines were changed meanwhile and are left as they are: ${joinWithAnd([...new Set(other)])}.`,
    );
}

const plain = (text: string) => text.replaceAll("\r\n", "\n").replaceAll("\r", "\n");
