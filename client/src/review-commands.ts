/** The ways to a review: from the clipboard, a file, a selection, an opened script, a text dropped on the panel, another craft. */
import { env, Uri, window, workspace } from "vscode";
import type { Uri as Address } from "../../shared/protocol/addresses.ts";
import type { OtherSide } from "../../shared/protocol/compare.ts";
import type { Dropped } from "../../shared/protocol/panel-messages.ts";
import type { Reviewed } from "../../shared/protocol/review-messages.ts";
import { addressOf, nameOf } from "./addresses.ts";
import { pickCraft } from "./pick-craft.ts";
import { activeScript, isCraft } from "./script-editors.ts";
import { askFile, tellInformation } from "./shown-window.ts";
import type { WorkspaceScripts } from "./workspace-scripts.ts";

/** What is larger is not read: a whole configuration has some hundred kilobytes at most. */
const MOST_BYTES = 4 * 1024 * 1024;

/** What was dropped on the panel, and the craft that it draws. */
export interface DroppedFor {
  readonly dropped: Dropped;
  readonly mine?: string | undefined;
}

interface Parts {
  readonly scripts: Pick<WorkspaceScripts, "list">;
  readonly open: (about: Reviewed) => void;
}

export interface ReviewCommands {
  clipboard(): Promise<void>;
  file(uri?: Uri): Promise<void>;
  selection(): Promise<void>;
  /** Of an offered document, by its address, or of what was dropped; without an argument, of the script in front. */
  review(offered?: unknown): Promise<void>;
  /** From this craft, by default the one in front, to another that is asked for. */
  carryOver(from?: Uri): Promise<void>;
}

/** The commands; which craft is meant is asked where it is not clear. */
export function reviewCommands({ scripts, open }: Parts): ReviewCommands {
  const openFor = async (offer: OtherSide, mine?: Address) => {
    const target = mine ?? (await craftFor(scripts, offer));
    if (target !== undefined) open({ mine: target, offer, purpose: "review" });
  };
  const textOffer = (text: string, name: string, mine?: Address) => openFor({ kind: "text", text, name }, mine);

  const readFile = async (uri: Uri, mine?: Address) => {
    // A script of the workspace is read with what it uses.
    if (/\.fettle$/i.test(uri.path) && workspace.getWorkspaceFolder(uri))
      return openFor({ kind: "file", uri: addressOf(uri) }, mine === addressOf(uri) ? undefined : mine);
    const name = nameOf(uri);
    try {
      const { size } = await workspace.fs.stat(uri);
      if (size > MOST_BYTES) return tooLarge(name, size / 1024 / 1024);
      await textOffer(new TextDecoder().decode(await workspace.fs.readFile(uri)), name, mine);
    } catch (error) {
      say(`“${name}” could not be read: ${error instanceof Error ? error.message : error}`);
    }
  };
  const drop = async ({ dropped, mine }: DroppedFor) => {
    const target = mine === undefined ? undefined : addressOf(Uri.parse(mine));
    switch (dropped.kind) {
      case "text":
        return textOffer(dropped.text, dropped.name, target);
      case "file":
        return readFile(Uri.parse(dropped.uri), target);
      case "too-large":
        return tooLarge(dropped.name, dropped.megabytes);
    }
  };

  return {
    async review(offered) {
      if (isDropped(offered)) return drop(offered);
      const uri = addressIn(offered) ?? activeScript()?.uri;
      if (!uri) return say("Open the script first that is to be reviewed.");
      await openFor({ kind: "file", uri: addressOf(uri) });
    },
    async clipboard() {
      const text = await env.clipboard.readText();
      if (text.trim() === "")
        return say("There is no text in the clipboard: copy what your friend wrote, then try again.");
      await textOffer(text, "the pasted text");
    },
    async file(uri) {
      const chosen = uri ?? (await askFile({ title: "Review a file", openLabel: "Review" }));
      if (chosen) await readFile(chosen);
    },
    async selection() {
      const editor = window.activeTextEditor;
      if (!editor || editor.selection.isEmpty) return say("Select the lines first that are to be reviewed.");
      const { document, selection } = editor;
      const text = document.getText(selection);
      const offer: OtherSide = { kind: "text", text, name: `the selection in ${nameOf(document.uri)}` };
      await openFor(offer, await craftFor(scripts, offer, document.uri));
    },
    async carryOver(from = activeScript()?.uri) {
      const tree = await scripts.list();
      const source = from ?? (await pickCraft(tree, "Carry over: from which craft?"));
      if (!source) return;
      const target = await pickOther(scripts, "Carry over: to which craft?", source);
      if (target) open({ mine: addressOf(target), offer: { kind: "file", uri: addressOf(source) }, purpose: "carry" });
    },
  };
}

/** The craft for which something is reviewed: the one in front, that which alone uses the layer in front, or one that is picked. */
async function craftFor(scripts: Parts["scripts"], offer: OtherSide, offered?: Uri): Promise<Address | undefined> {
  const from = offer.kind === "file" ? Uri.parse(offer.uri) : offered;
  const isOffered = (uri: Uri) => uri.toString() === from?.toString();
  const front = activeScript();
  if (front && isCraft(front) && !isOffered(front.uri)) return addressOf(front.uri);
  const picked = await pickOther(scripts, "Review: for which craft of yours?", from, front?.uri);
  return picked && addressOf(picked);
}

/** Picks a craft, but not this one; `of` is a layer whose craft come in question. */
async function pickOther(
  scripts: Parts["scripts"],
  title: string,
  without: Uri | undefined,
  of?: Uri,
): Promise<Uri | undefined> {
  const tree = await scripts.list();
  const files = tree?.files ?? [];
  const users = of && files.find(({ file }) => file === of.toString())?.users;
  const others = files
    .map(({ file }, index) => ({ file, index }))
    .filter(({ file, index }) => file !== without?.toString() && (!users?.length || users.includes(index)))
    .map(({ index }) => index);
  const areCraft = (some: readonly number[]) => some.some((index) => files[index]!.kind === "craft");
  if (without && !areCraft(others) && areCraft(files.map((_, index) => index)))
    return say("There is no other craft in this workspace: begin one with “New Craft…”.");
  const [only] = others;
  if (users?.length === 1 && only !== undefined) return Uri.parse(files[only]!.file);
  return pickCraft(tree, title, others);
}

function isDropped(offered: unknown): offered is DroppedFor {
  return typeof offered === "object" && offered !== null && "dropped" in offered;
}

function tooLarge(name: string, megabytes: number): undefined {
  return say(`“${name}” has ${megabytes.toFixed(1)} MB, and a text is reviewed up to 4 MB: is it a text at all?`);
}

/** The address that a menu, a lens or a page hands over. */
function addressIn(offered: unknown): Uri | undefined {
  if (offered instanceof Uri) return offered;
  if (typeof offered !== "object" || offered === null || !("uri" in offered)) return undefined;
  const { uri } = offered;
  if (uri instanceof Uri) return uri;
  return typeof uri === "string" ? Uri.parse(uri) : undefined;
}

function say(message: string): undefined {
  void tellInformation(message);
}
