/** Where a program may keep what it can make again at any time. */
import { homedir } from "node:os";
import { posix, win32 } from "node:path";

/**
 * The folder of ours among the user's caches: by the XDG Base Directory Specification, or by the customs of Windows
 * and macOS. It need not be there. Null where the user has no place for such a folder.
 */
export function cacheFolder(env = process.env, platform = process.platform, home = homeOf): string | null {
  const { isAbsolute, join } = platform === "win32" ? win32 : posix;
  const below = (folder: string | null | undefined, name: string) =>
    folder && isAbsolute(folder) ? join(folder, name) : null;
  if (platform === "win32") return below(env.LOCALAPPDATA, "fettle");
  if (platform === "darwin") return below(home(), "Library/Caches/fettle");
  return below(env.XDG_CACHE_HOME, "fettle") ?? below(home(), ".cache/fettle");
}

function homeOf(): string | null {
  try {
    return homedir();
  } catch {
    // A user of whom the system knows nothing.
    return null;
  }
}
