/** The pilot's own words in a workspace: read when their files are there, and anew when those change. */
import { TextDocument } from "vscode-languageserver-textdocument";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { type OwnWords, readOwnWords, type WordsProblem } from "../../../shared/ide/own-words/own-words.ts";
import { isWordsFile } from "../../../shared/model/file-names.ts";
import type { FileAnswer, FilePath } from "../../../shared/model/files.ts";
import { type Core, makeCore } from "../../../shared/model/workspace.ts";
import type { Uri } from "../../../shared/protocol/addresses.ts";
import { makeOpenDocuments } from "./open-documents.ts";
import { pathOf } from "./paths.ts";

interface Host {
  /** Every such file of the workspace. */
  list(): Promise<readonly FilePath[]>;
  read(path: FilePath): Promise<{ readonly answer: FileAnswer }>;
  /** Called when a new core has taken the place of the last. */
  changed(): void;
}

type Changes = Parameters<typeof TextDocument.update>[1];

/** The pilot's own files as they are at this moment, with what they come to. */
export interface OwnWordsFiles {
  /** The core by the words as they were last read. */
  core(): Core;
  /** Once every file has been read that changed. */
  load(): Promise<void>;
  problems(): readonly WordsProblem[];
  /** Whether the editor has the file open. */
  isOpen(path: FilePath): boolean;
  /** These three give false for what is no such file, and are then without effect. */
  open(path: FilePath, document: TextDocument): boolean;
  change(uri: Uri, changes: Changes, version: number): boolean;
  close(uri: Uri): boolean;
  /** Their files changed, or are others. */
  forget(): void;
}

/** Reads them when first asked for; until then only what ships counts. */
export function makeOwnWords(host: Host): OwnWordsFiles {
  const opened = makeOpenDocuments();
  let core = makeCore(makeCatalogue());
  let read: OwnWords | null = null;
  let reading: Promise<void> | null = null;
  /** How often they were found to be out of date: what is read for an earlier count is not taken. */
  let changes = 0;

  const openedAt = (uri: Uri) => opened.at(uri) ?? opened.get(pathOf(uri));
  const answerOf = async (file: FilePath) => {
    const document = opened.get(file)?.document;
    if (document) return { file, answer: { kind: "text", text: document.getText(), validUtf8: true } as const };
    return { file, answer: (await host.read(file)).answer };
  };
  const readAll = async (): Promise<void> => {
    const asked = changes;
    const all = [...new Set([...(await host.list()), ...opened.paths()])];
    const found = await readOwnWords(await Promise.all(all.map(answerOf)));
    if (asked !== changes) return;
    // A file may have been touched without being changed: what was worked out by the words then stays.
    if (found.key !== (read?.key ?? "")) {
      core = makeCore(found.catalogue);
      host.changed();
    }
    read = found;
  };
  const stale = () => {
    reading = null;
    changes++;
    return true;
  };

  return {
    core: () => core,
    async load() {
      // What changes while it is being read is read once more.
      for (let begun: Promise<void> | null = null; begun !== reading || begun === null; ) {
        reading ??= readAll();
        begun = reading;
        await begun;
      }
    },
    problems: () => read?.problems ?? [],
    isOpen: (path) => opened.has(path),
    open(path, document) {
      if (!isWordsFile(path)) return false;
      opened.put({ path, document });
      return stale();
    },
    change(uri, edits, version) {
      const open = openedAt(uri);
      if (!open) return false;
      opened.put({ ...open, document: TextDocument.update(open.document, edits, version) });
      return stale();
    },
    close(uri) {
      const open = openedAt(uri);
      if (!open) return false;
      opened.remove(open.document.uri);
      return stale();
    },
    forget: () => void stale(),
  };
}
