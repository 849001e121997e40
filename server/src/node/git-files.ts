/** The disk as the language server asks for it, with what git knows of the scripts on it. */
import type { FilePath } from "../../../shared/model/files.ts";
import type { Core } from "../../../shared/model/workspace.ts";
import type { ServerFiles } from "../lsp/documents.ts";
import type { HostCommits } from "../lsp/pasts.ts";
import { nameFrom, realPathOf } from "./disk.ts";
import { findRepository, type GitSteps, NoRevision, waitInGit } from "./git.ts";
import { folderToAsk, makeCheckedPasts, mayHaveGit } from "./git-checks.ts";
import { pastOf } from "./git-history.ts";
import { pathAtHead } from "./git-renamed.ts";

/** The same files, of which git may know a past. */
export function withGit(files: ServerFiles): ServerFiles {
  const pasts = makeCheckedPasts();
  return {
    ...files,
    pasts: {
      of: async (path, reader) => (mayHaveGit(path) ? waitInGit(folderToAsk(path), pasts.of(path, reader)) : null),
      lookAgain: pasts.lookAgain,
      async commits(path, text, core) {
        if (!mayHaveGit(path)) return none("no git repository is around this script");
        try {
          return await waitInGit(folderToAsk(path), commitsOf(path, text, core));
        } catch (error) {
          if (error instanceof NoRevision) return none(error.message);
          throw error;
        }
      },
    },
  };
}

function* commitsOf(path: FilePath, text: string, core: Core): GitSteps<HostCommits> {
  const repository = yield* findRepository(folderToAsk(path));
  if (repository.top === null) return none("this script lies in no working tree of git");
  const own = nameFrom(realPathOf(repository.top), path);
  const commits = yield* pastOf(repository, "HEAD", yield* pathAtHead(repository, own, text), core);
  return { kind: "commits", commits };
}

function none(why: string): HostCommits {
  return { kind: "none", why: `There is no history to show: ${why}.` };
}
