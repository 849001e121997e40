/** What `fettle new` and `fettle new handset` share: where a new script is to stand, and answers as JSON. */
import { resolve } from "node:path";
import { basename, dirname, join } from "node:path/posix";
import { findFiles } from "../../../shared/ide/new-craft/new-craft.ts";
import { isScriptFile } from "../../../shared/model/file-names.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { listNearest, nameFrom, readScriptFile, realPathOf, toPath } from "../node/disk.ts";
import { diskView } from "../node/disk-view.ts";
import { workspaceOf } from "../node/workspace-place.ts";
import { CannotRun, type Io } from "./io.ts";
import { wordsIn } from "./own-words.ts";

/** The most folders that are searched for handsets and layers, so that the questions appear at once. */
const MOST_FOLDERS = 1000;

/**
 * Where a new script is to stand, and what is there to build it on. Without a file it stands in the working folder.
 */
export async function openPlace(out: string | undefined, io: Io) {
  const folder = realPathOf(io.folder);
  const target = toPath(resolve(folder, out ?? "new.fettle"));
  const file = join(realPathOf(dirname(target)), basename(target));
  const place = workspaceOf(file, folder);
  const { catalogue } = await wordsIn(place, io, (each) => nameFrom(folder, each));
  const { files } = listNearest(realPathOf(place.folder), isScriptFile, place.reach === "alone" ? 1 : MOST_FOLDERS);
  const workspace = makeCore(catalogue).at({ ...diskView(place), list: () => files });
  return { workspace, found: findFiles(workspace, folder), file };
}

/** What a file, or for “-” standard input, holds as JSON. */
export async function readJson(path: string, io: Io): Promise<unknown> {
  const name = path === "-" ? "standard input" : path;
  const answer = path === "-" ? null : readScriptFile(toPath(resolve(io.folder, path)));
  if (answer?.kind === "missing") throw new CannotRun(`${name}: there is no such file`);
  if (answer?.kind === "unreadable") throw new CannotRun(`${name}: ${answer.why}`);
  const text = answer?.kind === "text" ? answer.text : new TextDecoder().decode(await io.input());
  try {
    return JSON.parse(text.replace(/^\ufeff/, ""));
  } catch (error) {
    throw new CannotRun(`${name} is no JSON: ${(error as Error).message}`);
  }
}

/** Where a new script goes, and what it finds there. */
export type Place = Awaited<ReturnType<typeof openPlace>>;
