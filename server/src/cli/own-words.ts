/** The catalogue of a workspace on the disk: the one that ships, with the pilot's own files added. */
import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import { readOwnWords, type WordsProblem } from "../../../shared/ide/own-words/own-words.ts";
import { isWordsFile } from "../../../shared/model/file-names.ts";
import { isFolder, listNearest, nameFrom, readScriptFile, realPathOf } from "../node/disk.ts";
import { type WorkspacePlace, workspaceOf } from "../node/workspace-place.ts";
import { CannotRun, type Io, oneLine } from "./io.ts";

/** The catalogue that applies, with the pilot's own words. */
export interface Words {
  readonly catalogue: Catalogue;
  /** Equal for equal words. */
  readonly key: string;
  /** True where some file, or part of one, could not be taken; standard error has said which. */
  readonly faulty: boolean;
}

/** Folders looked into before a search gives up: more than any workspace of scripts has. */
const MOST_FOLDERS = 10_000;
/** Fewer, since a page is expected at once and the working folder may be anywhere. */
const MOST_FOLDERS_AROUND = 1000;

/** Reads the own words of a workspace; what is wrong with them goes to standard error, a line each. */
export async function wordsIn(place: WorkspacePlace, io: Io, nameOf: (file: string) => string): Promise<Words> {
  const root = realPathOf(place.folder);
  const { files, unseen } = listNearest(root, isWordsFile, place.reach === "alone" ? 1 : MOST_FOLDERS);
  if (unseen && place.reach === "below")
    io.error(`fettle: ${nameOf(root)} has more than ${MOST_FOLDERS} folders: own words count from the nearest only\n`);
  return wordsOf(files, io, nameOf);
}

/** The own words of the workspace that the working folder stands in. */
export function wordsAround(io: Io): Promise<Words> {
  const folder = realPathOf(io.folder);
  const { files } = listNearest(realPathOf(workspaceOf(folder, folder).folder), isWordsFile, MOST_FOLDERS_AROUND);
  return wordsOf(files, io, (file) => nameFrom(folder, file));
}

/** The own words below a folder that was named. */
export function wordsBelow(folder: string, io: Io): Promise<Words> {
  if (!isFolder(folder)) throw new CannotRun(`${folder} is no folder`);
  const working = realPathOf(io.folder);
  return wordsIn({ folder, reach: "below" }, io, (file) => nameFrom(working, file));
}

async function wordsOf(files: readonly string[], io: Io, nameOf: (file: string) => string): Promise<Words> {
  const read = await readOwnWords(files.map((file) => ({ file, answer: readScriptFile(file) })));
  tellProblems(read.problems, io, nameOf);
  const faulty = read.problems.some(({ severity }) => severity === "error");
  return { catalogue: read.catalogue, key: read.key, faulty };
}

/** What is wrong with own words, on standard error, a line each. */
export function tellProblems(problems: readonly WordsProblem[], io: Io, nameOf: (file: string) => string): void {
  for (const { file, range, where, message, severity } of problems) {
    const at = `${nameOf(file)}:${range.start.line + 1}:${range.start.character + 1}`;
    io.error(`fettle: ${oneLine(`${at}: ${severity}: ${where === "" ? "" : `${where}: `}${message}`)}\n`);
  }
}
