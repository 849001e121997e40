/**
 * The texts that the server knows: what the editor has open lies over what was read from the
 * workspace. Files are read when a `use` asks for them, and forgotten when the editor says that
 * they changed.
 */
import { TextDocument } from "vscode-languageserver-textdocument";
import { isBelow, isWordsFile } from "../../../shared/model/file-names.ts";
import type { FileAnswer, FileView } from "../../../shared/model/files.ts";
import { MOST_BYTES } from "../../../shared/model/text-answer.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { makeOwnWords, type OwnWordsFiles } from "./own-words.ts";
import { pathOf, uriOf } from "./paths.ts";

/** What the host can reach; paths as `paths.ts` makes them. Neither call ever rejects. */
export interface ServerFiles {
  /** What a path holds, and the one path by which its real file is known. */
  read(path: string): Promise<{ readonly answer: FileAnswer; readonly realPath: string }>;
  /** The paths of every script below these folders, and of every file of a pilot's own words. */
  list(folders: readonly string[]): Promise<readonly string[]>;
}

/** A change of a text, as the protocol tells it. */
export type Change = Parameters<typeof TextDocument.update>[1][number];

/** All texts, open or not. Addresses and paths are those of `paths.ts`; none of these calls throws. */
export interface Documents {
  open(uri: string, languageId: string, version: number, text: string): void;
  change(uri: string, changes: Change[], version: number): void;
  close(uri: string): void;
  /** Files changed behind the editor's back: they are read anew when next asked for. */
  forget(uris: readonly string[]): void;
  setFolders(uris: readonly string[]): void;
  /** The pilot's own words, read anew where their files changed. */
  readonly words: OwnWordsFiles;
  /** The document's own path, once all that it uses has been read. */
  load(uri: string): Promise<string>;
  /** As `load`, with every other script of the workspace as well. */
  loadAll(uri: string): Promise<string>;
  /** All files at this moment. */
  now(): Workspace;
  version(uri: string): number;
  /** True where a document that is open is a craft, which needs no file besides those it uses. */
  isCraft(uri: string): boolean;
  openUris(): readonly string[];
  /** The address by which the editor knows a path. */
  uriOf(path: string): string;
  /** The largest text that is read, in characters, is passed: the text is not looked at. */
  isTooLarge(uri: string): boolean;
}

const TOO_LARGE: FileAnswer = {
  kind: "unreadable",
  why: "it is larger than 4 MB, and a script is read up to 4 MB: is it a script at all?",
};

const NO_SCRIPT: FileAnswer = { kind: "unreadable", why: "it holds words of your own, and no script" };

interface Open {
  readonly document: TextDocument;
  readonly answer: FileAnswer;
}

/** No documents yet; `files` is what the host can reach besides those that will be opened. */
export function makeDocuments(files: ServerFiles): Documents {
  const opened = new Map<string, Open>();
  const resolving = new Map<string, Promise<void>>();
  const answers = new Map<string, FileAnswer>();
  const realPaths = new Map<string, string>();
  const uris = new Map<string, string>();
  const reading = new Map<string, Promise<void>>();
  let folders: readonly string[] = [];
  let foldersKnown: Promise<unknown> = Promise.resolve();
  let listed: Promise<readonly string[]> | null = null;
  let known: readonly string[] = [];
  let current: Workspace | null = null;
  const words = makeOwnWords({
    list: () => foldersKnown.then(() => files.list(folders)),
    read: (path) => files.read(path),
    changed: () => {
      current = null;
    },
  });

  const realOf = (path: string) => realPaths.get(path) ?? path;
  const pathFor = (uri: string) => realOf(pathOf(uri));
  const isOutside = (path: string) => folders.length > 0 && !folders.some((folder) => isBelow(path, folder));

  const view = (): FileView => {
    const scripts = [...new Set([...known, ...opened.keys()])].sort();
    return {
      read: (path) => (isWordsFile(path) ? NO_SCRIPT : (opened.get(path)?.answer ?? answers.get(path))),
      list: () => scripts,
      realPath: realOf,
    };
  };
  const now = (): Workspace => {
    current ??= words.core().at(view());
    return current;
  };
  const invalidate = () => {
    current = null;
  };
  const setOpen = (path: string, document: TextDocument) => {
    const text = document.getText();
    // Bytes that are no UTF-8 reach the editor as this mark; only the file itself tells them from one that was typed.
    const onDisk = answers.get(path);
    const validUtf8 = !(onDisk?.kind === "text" && !onDisk.validUtf8 && text.includes("\uFFFD"));
    opened.set(path, { document, answer: text.length > MOST_BYTES ? TOO_LARGE : { kind: "text", text, validUtf8 } });
    invalidate();
  };

  const read = (path: string): Promise<void> => {
    let under = reading.get(path);
    if (!under) {
      under = foldersKnown
        .then(() => files.read(path))
        .then(({ answer, realPath }) => {
          reading.delete(path);
          realPaths.set(path, realPath);
          answers.set(realPath, isOutside(realPath) ? { kind: "outside" } : answer);
          if (realPath !== path) answers.set(path, answers.get(realPath)!);
          invalidate();
        });
      reading.set(path, under);
    }
    return under;
  };

  /** Files that the closures of some scripts name and nobody has looked at. */
  const unread = (from: readonly string[]): string[] => {
    const workspace = now();
    const missing = new Set<string>();
    const seen = new Set<string>();
    const visit = (path: string) => {
      if (seen.has(path)) return;
      seen.add(path);
      const script = workspace.script(path);
      for (const use of script?.uses ?? []) {
        const target = workspace.target(script!, use);
        if (target.kind === "unread") missing.add(target.file);
        else if (target.kind === "script") visit(target.script.file);
      }
    };
    for (const path of from) {
      if (!opened.has(path) && !answers.has(path)) missing.add(path);
      visit(path);
    }
    return [...missing];
  };
  const readUsed = async (paths: () => readonly string[]): Promise<void> => {
    for (let missing = unread(paths()); missing.length > 0; missing = unread(paths()))
      await Promise.all(missing.map(read));
  };

  /** An opened document is kept under its real path, which has to be asked for. */
  const resolveOpened = async (uri: string): Promise<void> => {
    const path = pathOf(uri);
    await read(path);
    const open = opened.get(path);
    if (!open) return;
    const real = realOf(path);
    uris.set(real, uri);
    if (real !== path) opened.delete(path);
    setOpen(real, open.document);
  };
  const load = async (uri: string): Promise<string> => {
    await words.load();
    await resolving.get(uri);
    await readUsed(() => [pathFor(uri)]);
    return pathFor(uri);
  };

  return {
    open(uri, languageId, version, text) {
      const path = pathOf(uri);
      uris.set(path, uri);
      if (words.open(path, TextDocument.create(uri, languageId, version, text))) return;
      setOpen(path, TextDocument.create(uri, languageId, version, text));
      resolving.set(
        uri,
        resolveOpened(uri).finally(() => resolving.delete(uri)),
      );
    },
    change(uri, changes, version) {
      if (words.change(pathOf(uri), changes, version)) return;
      const path = opened.has(pathFor(uri)) ? pathFor(uri) : pathOf(uri);
      const open = opened.get(path);
      if (open) setOpen(path, TextDocument.update(open.document, changes, version));
    },
    close(uri) {
      if (words.close(pathOf(uri))) return;
      opened.delete(pathFor(uri));
      opened.delete(pathOf(uri));
      answers.delete(pathFor(uri));
      invalidate();
    },
    forget(changedUris) {
      words.forget(changedUris.map(pathOf));
      for (const uri of changedUris) {
        const path = pathOf(uri);
        answers.delete(pathFor(uri));
        answers.delete(path);
        if (!opened.has(pathFor(uri))) realPaths.delete(path);
      }
      listed = null;
      invalidate();
    },
    setFolders(folderUris) {
      const said = folderUris.map((uri) => pathOf(uri).replace(/(?<=.)\/$/, ""));
      folders = said;
      // A workspace may be opened through a link, while its files are known by their real paths.
      foldersKnown = Promise.all(said.map((folder) => files.read(folder))).then((found) => {
        folders = found.map(({ realPath }) => realPath);
      });
      answers.clear();
      listed = null;
      words.forgetAll();
      invalidate();
    },
    words,
    load,
    async loadAll(uri) {
      listed ??= foldersKnown
        .then(() => files.list(folders))
        .then((paths) => paths.filter((path) => !isWordsFile(path)));
      const all = await listed;
      if (all !== known) {
        known = all;
        invalidate();
      }
      await load(uri);
      await readUsed(() => known);
      return pathFor(uri);
    },
    now,
    version: (uri) => opened.get(pathFor(uri))?.document.version ?? 0,
    isCraft: (uri) => now().script(pathFor(uri))?.kind === "craft",
    openUris: () => [...opened.values()].map(({ document }) => document.uri),
    uriOf: (path) => uris.get(path) ?? uriOf(path),
    isTooLarge: (uri) => opened.get(pathFor(uri))?.answer === TOO_LARGE,
  };
}
