/** The name of a file without the folders that lead to it, from a path or an address with `/`. */
export function fileNameOf(path: string): string {
  return path.slice(path.lastIndexOf("/") + 1);
}
