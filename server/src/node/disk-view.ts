/** The disk as the model asks for it. */
import { isAbsolute } from "node:path";
import { isBelow, isScriptFile } from "../../../shared/model/file-names.ts";
import type { FileAnswer, FilePath, FileView } from "../../../shared/model/files.ts";
import { scriptAnswer } from "../../../shared/model/script-limits.ts";
import { listNearest, listScripts, readScriptFile, realPathOf } from "./disk.ts";
import type { WorkspacePlace } from "./workspace-place.ts";

/**
 * A view of a workspace on the disk in which each file is read once, and the scripts are listed
 * once. `held` are texts that stand in for files, as standard input does.
 */
export function diskView(place: WorkspacePlace, held: ReadonlyMap<FilePath, FileAnswer> = new Map()): FileView {
  const answers = new Map<FilePath, FileAnswer>(held);
  const realPaths = new Map<FilePath, FilePath>();
  const root = realPathOf(place.folder);
  const mayRead = (path: FilePath) => isAbsolute(path) && (place.reach === "alone" || isBelow(path, root));
  let listed: { readonly files: readonly FilePath[]; readonly isWhole: boolean } | null = null;
  const listing = () => {
    if (!listed) {
      const unread: FilePath[] = [];
      const files =
        place.reach === "alone"
          ? listNearest(root, isScriptFile, 1).files
          : listScripts(root, (folder) => unread.push(folder));
      listed = { files, isWhole: unread.length === 0 };
    }
    return listed;
  };
  return {
    read(path) {
      let answer = answers.get(path);
      if (!answer) {
        answer = mayRead(path) ? scriptAnswer(readScriptFile(path)) : { kind: "outside" };
        answers.set(path, answer);
      }
      return answer;
    },
    list: () => listing().files,
    listsUsersOf: (path) => place.reach === "below" && !held.has(path) && isBelow(path, root) && listing().isWhole,
    realPath(path) {
      if (held.has(path)) return path;
      let real = realPaths.get(path);
      if (real === undefined) {
        real = realPathOf(path);
        realPaths.set(path, real);
      }
      return real;
    },
  };
}
