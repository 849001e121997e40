/** The documents of an editor: their texts, what undoes each key, and the server told of all of it. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Served } from "./served.ts";
import type { Edit, Key } from "./typist.ts";

export interface OpenDocument {
  readonly path: string;
  readonly text: string;
  readonly version: number;
}

export interface Editor {
  /** What is open, in the order in which it was opened. */
  opened(): readonly OpenDocument[];
  open(path: string): OpenDocument;
  press(path: string, key: Key): void;
  /** Another text in place of the whole, as when a file is taken back to what was committed. */
  replace(path: string, text: string): void;
  /** Writes the file, of which the server is told as of any that changes on the disk. */
  save(path: string): void;
  /** Closes it; what was not saved is lost. */
  close(path: string): void;
}

const CHANGED = 2;

/** An editor on a folder with these files by path; saving keeps them the same as the disk. */
export function makeEditor({ client, root, open }: Served, folder: string, files: Map<string, string>): Editor {
  const documents = new Map<string, { path: string; text: string; version: number; undo: Edit[] }>();
  const notify = (method: string, params: object) => void client.sendNotification(method, params);
  const changed = (path: string, contentChange: object) => {
    const { version } = documents.get(path)!;
    notify("textDocument/didChange", {
      textDocument: { uri: `${root}/${path}`, version },
      contentChanges: [contentChange],
    });
  };
  /** Makes an edit; gives the one that undoes it. */
  const make = (path: string, { at, removed, text }: Edit): Edit => {
    const document = documents.get(path)!;
    const before = document.text;
    const range = { start: placeOf(before, at), end: placeOf(before, at + removed) };
    document.text = before.slice(0, at) + text + before.slice(at + removed);
    document.version++;
    changed(path, { range, text });
    return { at, removed: text.length, text: before.slice(at, at + removed) };
  };

  return {
    opened: () => [...documents.values()],
    open(path) {
      const document = { path, text: files.get(path)!, version: 1, undo: [] };
      documents.set(path, document);
      open(path, document.text);
      return document;
    },
    press(path, key) {
      const { undo } = documents.get(path)!;
      if (key.kind === "edit") undo.push(make(path, key));
      else if (undo.length > 0) make(path, undo.pop()!);
    },
    replace(path, text) {
      const document = documents.get(path)!;
      document.undo.push({ at: 0, removed: text.length, text: document.text });
      document.text = text;
      document.version++;
      changed(path, { text });
    },
    save(path) {
      const { text } = documents.get(path)!;
      files.set(path, text);
      writeFileSync(join(folder, path), text);
      notify("workspace/didChangeWatchedFiles", { changes: [{ uri: `${root}/${path}`, type: CHANGED }] });
    },
    close(path) {
      documents.delete(path);
      notify("textDocument/didClose", { textDocument: { uri: `${root}/${path}` } });
    },
  };
}

function placeOf(text: string, offset: number): { line: number; character: number } {
  let line = 0;
  let start = 0;
  for (let end = text.indexOf("\n"); end !== -1 && end < offset; end = text.indexOf("\n", start)) {
    line++;
    start = end + 1;
  }
  return { line, character: offset - start };
}
