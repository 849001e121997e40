/** The other side of a comparison or a review: a script of the workspace, one of a revision of git, or a text that lies nowhere. */
import type { Connection } from "vscode-languageserver";
import type { Side } from "../../../shared/ide/compare/sides.ts";
import type { FileAnswer, FilePath, FileView } from "../../../shared/model/files.ts";
import { scriptAnswer } from "../../../shared/model/script-limits.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { encodedPart, type Uri } from "../../../shared/protocol/addresses.ts";
import {
  type OtherSide,
  REVISION_REQUEST,
  type RevisionParams,
  type RevisionResult,
} from "../../../shared/protocol/compare.ts";
import type { Refused } from "../../../shared/protocol/file-edits.ts";
import { addressOfOther, keyOfText, otherAddress } from "../../../shared/protocol/other-texts.ts";
import { fileNameOf } from "../../../shared/text/file-name.ts";
import type { Documents } from "./documents.ts";
import { passingCore } from "./passing-core.ts";
import { readUsed } from "./read-used.ts";

/** A side that was read, and what of it crosses to the client. */
export interface ReadSide extends Side {
  readonly kind: "read";
  readonly uri: Uri;
  /** What a report is called by: the name in the header, and where it is from. */
  readonly title: string;
  /** The address of a file of either side: of a document, or of a read-only one of the scheme `OTHER_SCHEME`. */
  uriOf(file: FilePath): Uri;
}

/** Files as the pilot's own words of now read them. */
type WorkspaceAt = (view: FileView) => Workspace;

/** Reads a side, and gives why it cannot be. */
export type ReadOther = (other: OtherSide) => Promise<ReadSide | Refused>;

/**
 * Texts of another side have paths of their own: another text another path. They are read by a core of their own, as one
 * keeps what it has read under each path.
 */
const ROOT = "fettle-other://";

/** So many sides are read before what was remembered of them is let go. */
const MOST_REMEMBERED = 20;

export function readsOthers(connection: Connection, documents: Documents): ReadOther {
  const core = passingCore(MOST_REMEMBERED);
  const at: WorkspaceAt = (view) => core.by(documents.words.core().catalogue).at(view);
  const askRevision = async (params: RevisionParams): Promise<RevisionResult> => {
    // A client that does not know the request refuses it, or answers nothing.
    const found = await connection.sendRequest<RevisionResult | null>(REVISION_REQUEST, params).catch(() => null);
    return found ?? { kind: "unreadable", why: "this editor does not read revisions of git" };
  };
  return async (other) => {
    core.used();
    switch (other.kind) {
      case "file":
        return fileSide(documents, await documents.loadAll(other.uri));
      case "text":
        return textSide(documents, other, at);
      case "revision":
        return revisionSide(documents, other, at, askRevision);
      case "board":
        return refused("A board's text is reviewed and not compared: review it against a craft of yours.");
    }
  };
}

/** A document of the workspace itself, once it is loaded. */
export function fileSide(documents: Documents, file: FilePath): ReadSide | Refused {
  const workspace = documents.now();
  const script = workspace.script(file);
  if (!script) return refused(`“${fileNameOf(file)}” cannot be compared: ${whyNot(workspace.view.read(file))}.`);
  if (script.tree.newer) return newer(fileNameOf(file));
  const { uriOf } = documents;
  return { kind: "read", workspace, file, name: `“${script.name}”`, title: script.name, uri: uriOf(file), uriOf };
}

/**
 * A text beside no file. What its `use` lines name is not looked for among the pilot's own files: those of the same
 * name say something else.
 */
function textSide(
  documents: Documents,
  other: Extract<OtherSide, { kind: "text" }>,
  at: WorkspaceAt,
): ReadSide | Refused {
  const answer = scriptAnswer({ kind: "text", text: other.text, validUtf8: true });
  if (answer.kind === "unreadable") return refused(`The text cannot be compared: ${answer.why}`);
  const file = `${ROOT}text/${DEEP}${keyOfText(other.text)}.fettle`;
  const workspace = at(viewOf(new Map([[file, answer]]), NOT_HERE));
  const script = workspace.script(file)!;
  if (script.tree.newer) return newer(other.name);
  if (script.entries.length + script.drops.length + script.kept.length + script.uses.length === 0)
    return refused(`Nothing in ${other.name} is a line of a script: copy a craft, a layer or some lines of one.`);
  const uri = addressOfOther(other);
  const isNamed = script.tree.header !== null;
  return {
    kind: "read",
    workspace,
    file,
    name: isNamed ? `“${script.name}” of ${other.name}` : other.name,
    title: isNamed ? `${script.name} (${other.name})` : other.name,
    isAlone: true,
    uri,
    uriOf: (path) => (path === file ? uri : documents.uriOf(path)),
  };
}

/** A file at a revision, with all that it uses at that revision. Words of the pilot's own are those of now. */
async function revisionSide(
  documents: Documents,
  { uri, revision }: Extract<OtherSide, { kind: "revision" }>,
  at: WorkspaceAt,
  ask: (params: RevisionParams) => Promise<RevisionResult>,
): Promise<ReadSide | Refused> {
  await documents.load(uri);
  const root = `${ROOT}${encodedPart(revision)}`;
  const pathOf = (path: FilePath): FilePath => `${root}${path.startsWith("/") ? "" : "/"}${path}`;
  const isRooted = documents.pathOf(uri).startsWith("/");
  const ownPath = (file: FilePath): FilePath => file.slice(root.length + (isRooted ? 0 : 1));
  const texts = new Map<FilePath, FileAnswer>();
  const now = () => at(viewOf(texts, undefined));
  const read = async (file: FilePath) => {
    const found = await ask({ uri: documents.uriOf(ownPath(file)), revision });
    texts.set(file, found.kind === "text" ? scriptAnswer({ ...found, validUtf8: true }) : found);
  };
  const file = pathOf(documents.pathOf(uri));
  await readUsed(() => [file], { now, read, isRead: (path) => texts.has(path) || !path.startsWith(`${root}/`) });
  const workspace = now();
  const script = workspace.script(file);
  if (!script) return refused(whyNoRevision(fileNameOf(file), revision, texts.get(file)));
  if (script.tree.newer) return newer(`${fileNameOf(file)} at ${revision}`);
  const uriOf = (path: FilePath) =>
    path.startsWith(`${root}/`)
      ? otherAddress({ uri: documents.uriOf(ownPath(path)), revision })
      : documents.uriOf(path);
  const name = `“${script.name}” at ${revision}`;
  return { kind: "read", workspace, file, name, title: `${script.name} at ${revision}`, uri: uriOf(file), uriOf };
}

/** Folders around a text, so that every `../` in it leads somewhere: to a file that is not here. */
const DEEP = "-/".repeat(16);
const NOT_HERE: FileAnswer = { kind: "unreadable", why: "only the text itself is here, and no file beside it" };

/** A view of texts by their paths; `rest` is what stands for all others, undefined while they may still be read. */
function viewOf(texts: ReadonlyMap<FilePath, FileAnswer>, rest: FileAnswer | undefined): FileView {
  return {
    read: (path) => texts.get(path) ?? rest,
    list: () => [...texts.keys()].sort(),
    realPath: (path) => path,
    listsUsersOf: () => false,
  };
}

function whyNoRevision(name: string, revision: string, answer: FileAnswer | undefined): string {
  if (answer?.kind === "unreadable") return `${name} cannot be read at ${revision}: ${answer.why}.`;
  return `There is no ${name} at ${revision}: it was not committed there under this path, or git does not know that revision.`;
}

function whyNot(answer: FileAnswer | undefined): string {
  if (answer?.kind === "unreadable") return answer.why;
  return answer?.kind === "outside" ? "it lies outside the workspace" : "there is no such file";
}

function newer(name: string): Refused {
  return refused(`${name} is written in a newer edition of the language than this program knows.`);
}

function refused(message: string): Refused {
  return { kind: "refused", message };
}
