/** How clients on several systems spell the addresses of one workspace, and the paths by which their hosts know its files. */
export interface System {
  readonly title: string;
  /** The folder, as the client spells it. */
  readonly root: string;
  /** A file of the folder, by its path in it, as the client spells it. */
  uriOf(path: string): string;
  /** The same as the host knows it. */
  pathOf(path: string): string;
}

/** Percent-encodes whatever RFC 3986 does not let stand in a segment as it is, as `encodeURIComponent` but for ( ) ! ' *. */
const strictly = (path: string) => path.split("/").map(encodeURIComponent).join("/");
/** As editors do that leave alone what RFC 3986 lets stand in a segment. */
const sparingly = (path: string) => strictly(path).replaceAll(/%(?:2B|3D|40|26|2C|3B|24|3A)/g, decodeURIComponent);

function system(title: string, root: string, folder: string, spelled = strictly): System {
  return { title, root, uriOf: (path) => `${root}/${spelled(path)}`, pathOf: (path) => `${folder}/${path}` };
}

export const SYSTEMS: readonly System[] = [
  system("Linux", "file:///home/mug/shed", "/home/mug/shed"),
  system("Linux, with fewer letters encoded", "file:///home/mug/shed", "/home/mug/shed", sparingly),
  system("Windows, as Visual Studio Code writes it", "file:///c%3A/Users/Mug/shed", "c:/Users/Mug/shed"),
  system("Windows, with the drive as a capital", "file:///C:/Users/Mug/shed", "c:/Users/Mug/shed"),
  system("Windows, a drive in small letters and a colon", "file:///d:/shed", "d:/shed", sparingly),
  system("a share of another machine", "file://pottery/flying/shed", "//pottery/flying/shed"),
  system("a folder with blanks and signs", "file:///Users/Mug/My%20shed%20%231", "/Users/Mug/My shed #1"),
  system(
    "a folder with decomposed letters, as macOS lists them",
    "file:///Users/Mug/Toepfe%CC%81",
    "/Users/Mug/Toepfe\u0301",
  ),
  system("a browser, a mounted folder", "vscode-test-web://mount/shed", "vscode-test-web://mount/shed"),
  system("a browser, a repository", "vscode-vfs://github/pottery/shed", "vscode-vfs://github/pottery/shed"),
  system(
    "a browser, with an encoded authority",
    "vscode-remote://wsl%2Bpots/home/shed",
    "vscode-remote://wsl+pots/home/shed",
  ),
  system("memory", "memfs:/shed", "memfs:/shed"),
];
