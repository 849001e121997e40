/** Files of the working tree under the paths that HEAD has for them. */
import { isScriptFile } from "../../../shared/model/file-names.ts";
import { isThere } from "./disk.ts";
import type { GitSteps, Repository } from "./git.ts";
import { makeBlobs } from "./git-blobs.ts";
import { commitNamed, craftName } from "./git-history.ts";
import { changesInWorkingTree, treeOfCommit } from "./git-log.ts";
import { topOf } from "./git-view.ts";

/**
 * Where HEAD has a file of the working tree: under the same path, under the one that it was renamed from, or where a
 * craft of its name is gone from the working tree. Paths are from the top; `text` is what the file holds.
 */
export function* pathAtHead(repository: Repository, file: string, text: string): GitSteps<string> {
  const head = yield* commitNamed("HEAD");
  if (head === null) return file;
  const entries = yield* treeOfCommit(head);
  if (entries.has(file)) return file;
  const renamed = (yield* changesInWorkingTree()).find(({ path }) => path === file)?.renamedFrom;
  const name = craftName({ kind: "text", text, validUtf8: true });
  if (renamed || name === null) return renamed ?? file;
  const gone = [...entries].filter(([path]) => isScriptFile(path) && !isThere(`${topOf(repository)}/${path}`));
  const blobs = makeBlobs();
  yield* blobs.read(gone.map(([, { id }]) => id));
  const same = gone.filter(([, { id }]) => craftName(blobs.get(id)) === name);
  return same.length === 1 ? same[0]![0] : file;
}
