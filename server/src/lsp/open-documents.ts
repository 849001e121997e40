/**
 * The documents that an editor has open, by the paths of their files. One file may be open under several addresses: a
 * drive is spelled in more than one way, and a link and what it leads to are one file. The document that was opened or
 * changed last stands for the file then, and once it is closed, the one before it: no text is lost with another. Of one
 * that has another text meanwhile nothing is answered, as places and edits would be those of the other.
 */
import type { TextDocument } from "vscode-languageserver-textdocument";
import type { FileAnswer, FilePath } from "../../../shared/model/files.ts";

/** What is answered of a document that does not stand for its file, under its stand-in. */
export const BEHIND: FileAnswer = {
  kind: "unreadable",
  why: "it is open under another address too, with another text",
};

/** True for a path that no file has, which is given of a document whose file another one stands for. */
export function isStandIn(path: FilePath): boolean {
  return path.startsWith(STAND_IN);
}

const STAND_IN = "fettle-behind:";

/** A document under the path by which its file is known. */
export interface OpenDocument {
  readonly path: FilePath;
  readonly document: TextDocument;
}

export interface OpenDocuments<Opened extends OpenDocument> {
  /** Whichever stands for the file of a path. */
  get(path: FilePath): Opened | undefined;
  has(path: FilePath): boolean;
  paths(): Iterable<FilePath>;
  /** A path for a document that does not stand for its file and has another text; null for any other. */
  standIn(uri: string): FilePath | null;
  /** The document of this very address. */
  at(uri: string): Opened | undefined;
  all(): Iterable<Opened>;
  /** Opened or changed: it stands for its file from now on. */
  put(opened: Opened): void;
  /** The same document, known better: what stands for a file stays. */
  replace(opened: Opened): void;
  /** Closed, by its address. */
  remove(uri: string): void;
}

/** None yet. */
export function makeOpenDocuments<Opened extends OpenDocument>(): OpenDocuments<Opened> {
  /** In the order in which they were opened or changed. */
  const byUri = new Map<string, Opened>();
  const byPath = new Map<FilePath, Opened>();
  const choose = (path: FilePath) => {
    const last = [...byUri.values()].findLast((each) => each.path === path);
    if (last) byPath.set(path, last);
    else byPath.delete(path);
  };
  const replace = (opened: Opened) => {
    const before = byUri.get(opened.document.uri);
    byUri.set(opened.document.uri, opened);
    choose(opened.path);
    if (before && before.path !== opened.path) choose(before.path);
  };
  return {
    get: (path) => byPath.get(path),
    has: (path) => byPath.has(path),
    paths: () => byPath.keys(),
    standIn(uri) {
      const own = byUri.get(uri);
      const shown = own && byPath.get(own.path)!;
      return own === shown || own?.document.getText() === shown?.document.getText() ? null : STAND_IN + uri;
    },
    at: (uri) => byUri.get(uri),
    all: () => byUri.values(),
    replace,
    put(opened) {
      const before = byUri.get(opened.document.uri);
      byUri.delete(opened.document.uri);
      replace(opened);
      if (before) choose(before.path);
    },
    remove(uri) {
      const before = byUri.get(uri);
      if (byUri.delete(uri)) choose(before!.path);
    },
  };
}
