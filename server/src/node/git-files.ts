/** The disk as the language server asks for it, with what git knows of the scripts on it. */
import { dirname } from "node:path";
import type { ServerFiles } from "../lsp/documents.ts";
import { waitInGit } from "./git.ts";
import { makeCheckedPasts, mayHaveGit } from "./git-checks.ts";

/** The same files, of which git may know a past. */
export function withGit(files: ServerFiles): ServerFiles {
  const pasts = makeCheckedPasts();
  return {
    ...files,
    pasts: {
      of: async (path, reader) => (mayHaveGit(path) ? waitInGit(dirname(path), pasts.of(path, reader)) : null),
      lookAgain: pasts.lookAgain,
    },
  };
}
