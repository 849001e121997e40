/** What keeps a script from being read whole. */
import type { Script } from "../../model/script.ts";

/** As the end of a sentence; null where nothing does. */
export function faultOf({ tree }: Script): string | null {
  if (tree.newer) return "it is written in a newer edition of the language than this tool reads";
  return tree.header === null ? "it has no header that says what it is, so it counts as a layer" : null;
}
