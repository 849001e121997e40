/** A folder of scripts on the disk, and what happens to them there behind the editor's back. */
import {
  chmodSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { uriOf } from "../../../server/src/lsp/paths.ts";
import type { Random } from "../random.ts";
import type { FileEvent } from "./editor.ts";
import { HOSTILE, strayText, TEXTS } from "./scene.ts";

export interface Disk {
  readonly folder: string;
  /** The address of a path below the folder. */
  uriOf(path: string): string;
  /** The paths of all files below the folder that are files, in order. */
  files(): string[];
  /** The text of a file; null where it cannot be had. */
  read(path: string): string | null;
  write(path: string, content: string | Uint8Array): void;
  rename(from: string, to: string): void;
}

/** What lies in a folder that is there; `shown` is the path by which the editor knows it. */
export function diskAt(folder: string, shown = folder): Disk {
  return {
    folder,
    uriOf: (path) => uriOf(join(shown, path)),
    files: () =>
      readdirSync(folder, { recursive: true, withFileTypes: true })
        .filter((each) => each.isFile() && !each.parentPath.includes("/.git"))
        .map((each) => join(each.parentPath, each.name).slice(folder.length + 1))
        .sort(),
    read(path) {
      try {
        return readFileSync(join(folder, path), "utf8");
      } catch {
        return null;
      }
    },
    write(path, content) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), content);
    },
    rename(from, to) {
      mkdirSync(dirname(join(folder, to)), { recursive: true });
      renameSync(join(folder, from), join(folder, to));
    },
  };
}

const NAMES = [
  "new",
  "a b",
  "ä",
  "e\u0301",
  "100%",
  "x#y",
  "q?m",
  "[1]",
  "NEW",
  "deep/er/still",
  ".hidden/in",
  "node_modules/in",
  "c:",
];

/** A name that nothing has, for a script or another file of ours. */
export function freeName(disk: Disk, random: Random): string {
  const end = random.oneOf([".fettle", ".fettle", ".fettle", ".aliases.json", ".catalogue.json", ".txt"]);
  const name = random.oneOf(NAMES);
  for (let i = 0; ; i++) {
    const path = `${name}${i || ""}${end}`;
    if (!isThere(join(disk.folder, path))) return path;
  }
}

/** True for a link too, wherever it leads to. */
function isThere(path: string): boolean {
  return lstatSync(path, { throwIfNoEntry: false }) !== undefined;
}

/** What is done to the disk; gives what an editor that watches it would tell, in order. */
type Act = (disk: Disk, random: Random, isOpen: (path: string) => boolean) => readonly FileEvent[];

const [MADE, CHANGED, DELETED] = [1, 2, 3] as const;

const someFile = (disk: Disk, random: Random): string | null => {
  const files = disk.files();
  return files.length === 0 ? null : random.oneOf(files);
};

/** Something is done to one of the files, if there is any. */
const toFile =
  (act: (disk: Disk, path: string, random: Random) => readonly FileEvent[]): Act =>
  (disk, random) => {
    const path = someFile(disk, random);
    return path === null ? [] : act(disk, path, random);
  };

/** The same to one that no editor has open: what an open document really is, is asked for once. */
const toClosed =
  (act: (disk: Disk, path: string, random: Random) => readonly FileEvent[]): Act =>
  (disk, random, isOpen) => {
    const path = someFile(disk, random);
    return path === null || isOpen(path) ? [] : act(disk, path, random);
  };

const changed = (disk: Disk, path: string): FileEvent[] => [{ uri: disk.uriOf(path), type: CHANGED }];
const made = (disk: Disk, path: string): FileEvent => ({ uri: disk.uriOf(path), type: MADE });
const deleted = (disk: Disk, path: string): FileEvent => ({ uri: disk.uriOf(path), type: DELETED });

/** Another content of a file: one that its kind has, or none that it could have. */
function contentFor(path: string, random: Random): string | Uint8Array {
  const end = path.slice(path.indexOf(".", path.lastIndexOf("/") + 1));
  const alike = [...TEXTS].filter(([name]) => name.endsWith(end)).map(([, text]) => text);
  if (alike.length > 0 && !random.onceIn(4)) return random.oneOf(alike);
  return random.oneOf<() => string | Uint8Array>([
    () => "",
    () => strayText(random),
    () => random.oneOf(alike.length > 0 ? alike : [""]).slice(0, random.between(1, 400)),
    () => new Uint8Array([0xff, 0xfe, 0x63, 0x00, 0xc3, 0x28]),
    () => 'craft "Long"\n'.repeat(random.oneOf([12_001, 90_000])),
    () => random.oneOf(HOSTILE),
    () => '{ "aliases": { "go button": "arm", "x": 5 }',
    () => '{ "catalogue": "x", "settings": [] }',
  ])();
}

const ACTS: readonly Act[] = [
  toFile((disk, path, random) => {
    disk.write(path, contentFor(path, random));
    return changed(disk, path);
  }),
  toFile((disk, path, random) => {
    const lines = (disk.read(path) ?? "").split("\n");
    lines.splice(
      random.below(lines.length),
      random.below(4),
      ...random.some(random.below(3), () => random.oneOf(lines)),
    );
    disk.write(path, lines.join("\n"));
    return changed(disk, path);
  }),
  // What was broken is mended.
  (disk, random) => {
    const [path, text] = random.oneOf([...TEXTS]);
    let isNew: boolean;
    try {
      isNew = !isThere(join(disk.folder, path));
      disk.write(path, text);
    } catch {
      // A folder, a link in a circle, or a file that is in the way of a folder, stays.
      return [];
    }
    return isNew ? [made(disk, path)] : changed(disk, path);
  },
  (disk, random) => {
    const path = freeName(disk, random);
    disk.write(path, contentFor(path, random));
    return [made(disk, path)];
  },
  toFile((disk, path) => {
    rmSync(join(disk.folder, path));
    return [deleted(disk, path)];
  }),
  toFile((disk, path, random) => {
    const to = freeName(disk, random);
    disk.rename(path, to);
    return [deleted(disk, path), made(disk, to)];
  }),
  // A folder moves with all that is in it, or goes.
  toFile((disk, path, random) => {
    const from = dirname(path);
    if (from === ".") return [];
    const to = `${from}-${random.below(99)}`;
    if (isThere(join(disk.folder, to))) return [];
    disk.rename(from, to);
    // Links as well, which lead to where the folder was.
    const inIt = readdirSync(join(disk.folder, to), { recursive: true, withFileTypes: true })
      .filter((each) => !each.isDirectory())
      .map((each) => join(each.parentPath, each.name).slice(disk.folder.length + 1))
      .sort();
    return [deleted(disk, from), ...inIt.map((each) => made(disk, each))];
  }),
  toFile((disk, path, random) => {
    const from = dirname(path);
    if (from === "." || !random.onceIn(3)) return [];
    rmSync(join(disk.folder, from), { recursive: true });
    return [deleted(disk, from)];
  }),
  toClosed((disk, path, random) => {
    rmSync(join(disk.folder, path));
    mkdirSync(join(disk.folder, path));
    if (random.onceIn(2)) return [deleted(disk, path), made(disk, path)];
    return changed(disk, path);
  }),
  toClosed((disk, path, random) => {
    const other = freeName(disk, random);
    if (dirname(other) !== ".") return [];
    rmSync(join(disk.folder, path));
    symlinkSync(join(disk.folder, path), join(disk.folder, other));
    symlinkSync(join(disk.folder, other), join(disk.folder, path));
    return [...changed(disk, path), made(disk, other)];
  }),
  (disk, random) => {
    const name = `loop-${random.below(1000)}`;
    if (!isThere(join(disk.folder, name))) symlinkSync(".", join(disk.folder, name));
    return [];
  },
  toClosed((disk, path, random) => {
    chmodSync(join(disk.folder, path), random.oneOf([0o000, 0o644]));
    return changed(disk, path);
  }),
];

/** One thing that happens to the files. */
export function actOn(disk: Disk, random: Random, isOpen: (path: string) => boolean): readonly FileEvent[] {
  return random.oneOf(ACTS)(disk, random, isOpen);
}

/** What is told of some events: what belongs to one path stays in order, all else may come in another; some is told twice. */
export function asTold(events: readonly FileEvent[], random: Random): FileEvent[] {
  const told = [...events];
  for (let i = told.length - 1; i > 0; i--) {
    const [a, b] = [told[i - 1]!, told[i]!];
    if (!a.uri.startsWith(b.uri) && !b.uri.startsWith(a.uri) && random.onceIn(2)) [told[i - 1], told[i]] = [b, a];
  }
  return told.flatMap((each) => (random.onceIn(6) ? [each, each] : [each]));
}
