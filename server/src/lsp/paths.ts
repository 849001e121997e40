/**
 * Between the addresses of editors and the paths of the core. A file of the disk is its plain
 * path; any other address keeps its scheme and authority. Paths are decoded: two spellings of one
 * address give one path.
 */
import type { FilePath } from "../../../shared/model/files.ts";
import { asUri, encodedPart, type Uri } from "../../../shared/protocol/addresses.ts";

/** The path behind an address: `file:///a/b%20c.fettle` is `/a/b c.fettle`, `file:///c%3A/x` is `c:/x`. */
export function pathOf(uri: Uri): FilePath {
  const parts = /^([A-Za-z][A-Za-z0-9+.-]*):(?:\/\/([^/?#]*))?([^?#]*)/.exec(uri);
  if (!parts) return decoded(uri);
  const [, scheme = "", authority, path = ""] = parts;
  const said = decoded(path);
  if (scheme.toLowerCase() !== "file")
    return `${scheme}:${authority === undefined ? "" : `//${decoded(authority)}`}${said}`;
  if (authority) return `//${decoded(authority)}${said}`;
  return /^\/[A-Za-z]:/.test(said) ? said.charAt(1).toLowerCase() + said.slice(2) : said;
}

/** The address of a path, every part encoded. */
export function uriOf(path: FilePath): Uri {
  return asUri(addressOf(path));
}

/**
 * Gives the addresses of paths: one that lies in a folder of the client begins as the client spells that folder, since
 * not every client takes `file:///C:/shed` and `file:///c%3A/shed` for one.
 */
export function addressesIn(folders: readonly Uri[]): (path: FilePath) => Uri {
  const spelled = folders.map((uri) => ({ uri: uri.replace(/\/$/, ""), path: pathOf(uri).replace(/\/$/, "") }));
  return (path) => {
    const folder = spelled.find((each) => path.startsWith(`${each.path}/`));
    return folder ? asUri(folder.uri + encoded(path.slice(folder.path.length))) : uriOf(path);
  };
}

/** What a client says of its folders when it starts the server. */
interface Roots {
  readonly workspaceFolders?: readonly { readonly uri: string }[] | null;
  readonly rootUri?: string | null;
  readonly rootPath?: string | null;
}

/** The folders that a client has open: its workspace folders or, of one that does not know such, its one root. */
export function foldersOf({ workspaceFolders, rootUri, rootPath }: Roots): Uri[] {
  if (workspaceFolders) return workspaceFolders.map(({ uri }) => asUri(uri));
  if (rootUri) return [asUri(rootUri)];
  return rootPath ? [uriOf(rootPath.replaceAll("\\", "/"))] : [];
}

function addressOf(path: string): string {
  if (path.startsWith("//")) return `file:${encoded(path)}`;
  if (path.startsWith("/")) return `file://${encoded(path)}`;
  if (/^[A-Za-z]:\//.test(path)) return `file:///${encoded(path)}`;
  const parts = /^([A-Za-z][A-Za-z0-9+.-]*):(\/\/[^/]*)?(.*)$/s.exec(path);
  if (!parts) return encoded(path);
  const [, scheme = "", authority = "", rest = ""] = parts;
  return `${scheme}:${encoded(authority)}${encoded(rest)}`;
}

function encoded(path: string): string {
  return path.split("/").map(encodedPart).join("/");
}

/** What cannot be decoded stays as it is: a stray % is no reason to lose a file. */
function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
