/** “Save the Bench List…”: as a page to print, or as Markdown, by the ending of the file that the pilot names. */
import { commands, env, Uri, workspace } from "vscode";
import { asUri } from "../../shared/protocol/addresses.ts";
import type { BenchShown } from "../../shared/protocol/bench.ts";
import { BENCH_FILE_REQUEST, type BenchFileParams, type BenchFileResult } from "../../shared/protocol/bench-file.ts";
import { addressOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import { pickCraft } from "./pick-craft.ts";
import { activeScript } from "./script-editors.ts";
import { askPlace, tellInformation } from "./shown-window.ts";
import type { WorkspaceScripts } from "./workspace-scripts.ts";

interface Parts {
  readonly ask: Ask;
  readonly scripts: Pick<WorkspaceScripts, "list">;
  /** The craft that a layer is drawn as part of, and how much of its list the panel shows. */
  readonly panel: {
    drawnCraft(): BenchFileParams["craft"];
    benchShown(uri: BenchFileParams["uri"]): BenchShown | undefined;
  };
}

/** Saves the list of a craft: of a menu the one that it names, else the one in front, else one that is asked for. */
export async function saveBench({ ask, scripts, panel }: Parts, from?: unknown): Promise<void> {
  const named = from instanceof Uri ? from : activeScript()?.uri;
  const uri = named ?? (await pickCraft(await scripts.list(), "Save a bench list"));
  if (!uri) return;
  const about = addressOf(uri);
  const fetch = (form: BenchFileParams["form"]) => {
    const params: BenchFileParams = { uri: about, craft: panel.drawnCraft(), form, shown: panel.benchShown(about) };
    return ask<BenchFileResult>(BENCH_FILE_REQUEST, params);
  };
  await saveList(fetch, "bench list");
}

/** Asks where to save a list, and saves it there as its ending says; `what` it is in a sentence. */
export async function saveList(
  fetch: (form: BenchFileParams["form"]) => Promise<BenchFileResult>,
  what: string,
): Promise<void> {
  const page = await fetch("page");
  if (page.kind === "refused") return say(page.message);
  const file = await askPlace({
    title: `Save the ${what} of “${page.name}”`,
    defaultUri: Uri.parse(page.proposed),
    filters: { "Page to print": ["html"], Markdown: ["md"] },
  });
  if (!file) return;
  const isMarkdown = /\.(md|markdown)$/i.test(file.path);
  const result = isMarkdown ? await fetch("markdown") : page;
  if (result.kind === "refused") return say(result.message);
  try {
    await workspace.fs.writeFile(file, new TextEncoder().encode(result.text));
  } catch (error) {
    return say(`The ${what} could not be saved: ${error instanceof Error ? error.message : error}`);
  }
  const open = "Open";
  const chosen = await tellInformation(`The ${what} of “${page.name}” is saved.`, open);
  if (chosen === open) await openSaved(file, isMarkdown);
}

/** A page is printed from a browser; where the file is on no disk, as in a browser, its text is shown. */
async function openSaved(file: Uri, isMarkdown: boolean): Promise<void> {
  if (isMarkdown || file.scheme !== "file") await commands.executeCommand("vscode.open", file);
  else await env.openExternal(file);
}

function say(message: string): void {
  void tellInformation(message);
}

/** The address that a menu, a button or a finding names. */
export function namedIn(from: unknown): ReturnType<typeof asUri> | undefined {
  if (from instanceof Uri) return addressOf(from);
  return typeof from === "string" ? asUri(from) : undefined;
}
