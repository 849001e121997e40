/** Texts of another side as read-only documents: of a revision, of the clipboard, of whatever lies nowhere. */
import { type Disposable, EventEmitter, Uri, workspace } from "vscode";
import { COMPARE_REQUEST, OTHER_SCHEME, type OtherSide } from "../../shared/protocol/compare.ts";
import type { Compared } from "../../shared/protocol/compare-messages.ts";
import type { LinePlace } from "../../shared/protocol/findings.ts";
import { addressOfOther, keyOfText, otherTextIn } from "../../shared/protocol/other-texts.ts";
import { REVIEW_REQUEST } from "../../shared/protocol/review.ts";
import { nameOf } from "./addresses.ts";
import type { Ask } from "./ask.ts";
import type { Revisions } from "./revisions.ts";
import { columnFor, selectLine } from "./script-editors.ts";
import { showDiff } from "./shown-window.ts";

export interface OtherDocuments {
  /** As `ask`, which remembers every text that is offered: its lines can then be opened. */
  readonly ask: Ask;
  /** Shows both texts beside each other, the other side first, in the editor's own comparison. */
  showNativeDiff(compared: Compared): Promise<unknown>;
  /** Shows a line of a script, also of one that lies nowhere. */
  openPlace(at: LinePlace): Promise<void>;
  readonly disposables: readonly Disposable[];
}

/** As many offered texts are kept; each may be a megabyte. */
const MOST_TEXTS = 30;

/** Registers the texts under addresses of their own; `ask` asks the server. */
export function otherDocuments(ask: Ask, revisions: Pick<Revisions, "text" | "onDidChange">): OtherDocuments {
  const texts = new Map<string, string>();
  const changed = new EventEmitter<Uri>();
  const remember = (other: OtherSide | undefined) => {
    if (other?.kind !== "text") return;
    const key = keyOfText(other.text);
    texts.delete(key);
    texts.set(key, other.text);
    if (texts.size > MOST_TEXTS) texts.delete(texts.keys().next().value!);
  };
  const provider = workspace.registerTextDocumentContentProvider(OTHER_SCHEME, {
    onDidChange: changed.event,
    async provideTextDocumentContent({ query }) {
      const text = otherTextIn(query);
      if (!text) return "# This address stands for no text.\n";
      if ("key" in text) return texts.get(text.key) ?? "# This text is not kept any more: paste it once more.\n";
      const found = await revisions.text(text);
      if (found.kind === "text") return found.text;
      const why = found.kind === "missing" ? "this file is not part of it" : found.why;
      return `# ${text.revision} cannot be shown: ${why}.\n`;
    },
  });
  // What HEAD or a branch stands for may be another commit now.
  const moved = revisions.onDidChange(() => {
    for (const { uri } of workspace.textDocuments) if (uri.scheme === OTHER_SCHEME) changed.fire(uri);
  });
  return {
    ask: (method, params, token) => {
      if (method === COMPARE_REQUEST) remember((params as { readonly other?: OtherSide }).other);
      if (method === REVIEW_REQUEST) remember((params as { readonly offer?: OtherSide }).offer);
      return ask(method, params, token);
    },
    async showNativeDiff({ mine, other }) {
      remember(other);
      const [theirs, ours] = [addressOfOther(other), mine].map((address) => Uri.parse(address));
      const title = `${nameOf(theirs!)} ↔ ${nameOf(ours!)}`;
      // Where the script stands, so that the report stays in sight.
      const viewColumn = columnFor(await workspace.openTextDocument(ours!));
      await showDiff(theirs!, ours!, title, { viewColumn, preview: true });
    },
    openPlace: selectLine,
    disposables: [provider, changed, moved],
  };
}
