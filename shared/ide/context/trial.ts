/** A workspace as it would be with other texts in it, before anything is written. */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { FilePath, FileView } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import { type Core, makeCore, type Workspace } from "../../model/workspace.ts";
import { comparePositions, type Position, type TextEdit } from "../../syntax/span.ts";

interface TrialCore {
  readonly core: Core;
  trialsLeft: number;
}

/**
 * So many trials are made before what was read for them is let go. A core keeps each file that it has read, and what was
 * worked out of a hundred craft: in a large workspace trials would come to hold as much as the answers themselves.
 */
const MOST_TRIALS = 60;

const cores = new WeakMap<Catalogue, TrialCore>();

function coreFor(catalogue: Catalogue): Core {
  let known = cores.get(catalogue);
  if (!known || known.trialsLeft === 0) {
    known = { core: makeCore(catalogue), trialsLeft: MOST_TRIALS };
    cores.set(catalogue, known);
  }
  known.trialsLeft--;
  return known.core;
}

/** The files of a workspace with this text at `file` (an absolute path, which may exist); its caches are not touched. */
export function withFile(workspace: Workspace, file: FilePath, text: string): Workspace {
  return withFiles(workspace, new Map([[file, text]]));
}

/** The same with several texts, each at its path. */
export function withFiles(workspace: Workspace, texts: ReadonlyMap<FilePath, string>): Workspace {
  return coreFor(workspace.catalogue).at(withTexts(workspace.view, texts), workspace.levels);
}

/** The text of a script, without its byte-order mark, as it would be with edits made that do not overlap. */
export function textWith({ tree }: Script, edits: readonly TextEdit[]): string {
  const starts: number[] = [];
  let text = "";
  for (const [i, line] of tree.lines.entries()) {
    starts.push(text.length);
    text += line.text + tree.ends[i];
  }
  const offsetAt = ({ line, character }: Position) => (starts[line] ?? text.length) + character;
  let made = "";
  let done = 0;
  for (const { range, text: inserted } of [...edits].sort((a, b) => comparePositions(a.range.start, b.range.start))) {
    made += text.slice(done, offsetAt(range.start)) + inserted;
    done = offsetAt(range.end);
  }
  return made + text.slice(done);
}

function withTexts(view: FileView, texts: ReadonlyMap<FilePath, string>): FileView {
  return {
    read: (path) => {
      const text = texts.get(path);
      return text === undefined ? view.read(path) : { kind: "text", text, validUtf8: true };
    },
    list: () => [...new Set([...view.list(), ...texts.keys()])].sort(),
    realPath: (path) => (texts.has(path) ? path : view.realPath(path)),
    listsUsersOf: (path) => view.listsUsersOf(path),
  };
}
