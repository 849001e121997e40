/** What was read of files, by the path asked for and by the real one, until somebody says that it changed. */
import { isScriptFile } from "../../../shared/model/file-names.ts";
import type { FileAnswer, FilePath } from "../../../shared/model/files.ts";
import type { Script } from "../../../shared/model/script.ts";

/** What a path holds, and the one path by which its real file is known. */
export interface FileRead {
  readonly answer: FileAnswer;
  readonly realPath: FilePath;
}

/** Files as they were last read. */
export interface FileCache {
  /** Undefined where nobody has read it. */
  answer(path: FilePath): FileAnswer | undefined;
  /** The path by which the real file is known; the path itself where nobody has read it. */
  realPath(path: FilePath): FilePath;
  /** Once it is read: only once at a time, and not again before it is forgotten. */
  read(path: FilePath): Promise<void>;
  forget(path: FilePath): void;
  /**
   * Everything that was read of these, and of what lies below those that are folders; with a script also whatever was
   * no text or is just being read, as it may be a link that leads there, of which nobody tells. Gives true where there was any. Where a
   * document is open, its real path stays known.
   */
  forgetBelow(paths: ReadonlySet<FilePath>, isOpen: (realPath: FilePath) => boolean): boolean;
  /** Every text. Real paths stay known, by which open documents are found. */
  forgetAll(): void;
  /** Scripts for `readUsed`: a new set whenever anything was forgotten. */
  whole(): WeakSet<Script>;
}

/** `load` reads a file and never rejects; `changed` is called whenever more is known, or less. */
export function makeFileCache(load: (path: FilePath) => Promise<FileRead>, changed: () => void): FileCache {
  const answers = new Map<FilePath, FileAnswer>();
  const realPaths = new Map<FilePath, FilePath>();
  const reading = new Map<FilePath, Promise<void>>();
  let whole = new WeakSet<Script>();

  const readNow = async (path: FilePath, isCurrent: () => boolean): Promise<void> => {
    const { answer, realPath } = await load(path);
    // It changed while it was being read: what was found may be of before.
    if (!isCurrent()) return;
    reading.delete(path);
    realPaths.set(path, realPath);
    answers.set(path, answer);
    answers.set(realPath, answer);
    changed();
  };
  const read = async (path: FilePath): Promise<void> => {
    while (!answers.has(path)) {
      let running = reading.get(path);
      if (!running) {
        const begun: Promise<void> = readNow(path, () => reading.get(path) === begun);
        reading.set(path, begun);
        running = begun;
      }
      await running;
    }
  };
  const mayLeadThere = (path: FilePath) =>
    reading.has(path) || (answers.has(path) && answers.get(path)!.kind !== "text");
  const forget = (path: FilePath) => {
    whole = new WeakSet();
    answers.delete(path);
    reading.delete(path);
    changed();
  };

  return {
    answer: (path) => answers.get(path),
    realPath: (path) => realPaths.get(path) ?? path,
    read,
    forget,
    forgetBelow(paths, isOpen) {
      const withScript = [...paths].some(isScriptFile);
      const gone = [...new Set([...answers.keys(), ...realPaths.keys(), ...reading.keys()])].filter(
        (path) => isAmong(path, paths) || (withScript && mayLeadThere(path)),
      );
      for (const path of gone) {
        const real = realPaths.get(path) ?? path;
        forget(real);
        forget(path);
        if (!isOpen(real)) realPaths.delete(path);
      }
      return gone.length > 0;
    },
    forgetAll() {
      whole = new WeakSet();
      answers.clear();
      reading.clear();
      changed();
    },
    whole: () => whole,
  };
}

/** True where a path, or a folder that it lies in, is one of these. */
function isAmong(path: FilePath, paths: ReadonlySet<FilePath>): boolean {
  for (let end = path.length; end > 0; end = path.lastIndexOf("/", end - 1))
    if (paths.has(path.slice(0, end))) return true;
  return false;
}
