/**
 * The texts that the server knows: what the editor has open lies over what was read from the workspace. Files are read
 * when a `use` asks for them, and forgotten when the editor says that they changed.
 */
import { TextDocument } from "vscode-languageserver-textdocument";
import { isScriptFile, isWordsFile } from "../../../shared/model/file-names.ts";
import type { FileAnswer, FilePath, FileView } from "../../../shared/model/files.ts";
import { OWN_LEVELS, type RuleLevels } from "../../../shared/model/rule-levels.ts";
import { scriptAnswer } from "../../../shared/model/script-limits.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import type { Uri } from "../../../shared/protocol/addresses.ts";
import { type DocumentsEvents, NO_EVENTS } from "./documents-events.ts";
import { type FileRead, makeFileCache } from "./file-cache.ts";
import { makeHabits } from "./habits.ts";
import { BEHIND, isStandIn, makeOpenDocuments, type OpenDocument } from "./open-documents.ts";
import { makeOwnWords, type OwnWordsFiles } from "./own-words.ts";
import { type HostCommits, type HostPasts, makePasts } from "./pasts.ts";
import { addressesIn, pathOf } from "./paths.ts";
import { filesNamedBy, type Reading, readUsed } from "./read-used.ts";
import { atMost } from "./timers.ts";
import { makeTogether } from "./together.ts";
import type { Turns } from "./turns.ts";
import { type FileChange, type Listing, makeWorkspaceFiles } from "./workspace-files.ts";

/** What the host can reach; paths as `paths.ts` makes them. Neither call ever rejects. */
export interface ServerFiles {
  read(path: FilePath): Promise<FileRead>;
  /** Every script below these folders, and every file of a pilot's own words; each host bounds what it looks at. */
  list(folders: readonly FilePath[]): Promise<Listing>;
  /** Whether a path is a folder, and no link to one; left out by a host that is told of files alone. */
  isFolder?(path: FilePath): Promise<boolean>;
  /** What git knows; left out where there is none to ask. */
  readonly pasts?: HostPasts;
}

/** A change of a text, as the protocol tells it. */
export type Change = Parameters<typeof TextDocument.update>[1][number];

/** What files have to do with that changed behind the editor's back. */
export type Touched = "nothing" | "scripts" | "words";

/** All texts, open or not. None of these calls throws. */
export interface Documents {
  open(uri: Uri, languageId: string, version: number, text: string): void;
  change(uri: Uri, changes: Change[], version: number): void;
  close(uri: Uri): void;
  /** Files changed behind the editor's back: they are read anew when next asked for. Paths are those of `paths.ts`. */
  apply(changes: readonly FileChange[]): Touched;
  setFolders(uris: readonly Uri[]): void;
  /** Lists the folders and reads their files anew when they are next asked for, as nobody tells what changed there. */
  lookAgain(): void;
  /** How the user wants findings shown. */
  setLevels(levels: RuleLevels): void;
  /** The craft that are flown at the same time, as the user names them. */
  setTogether(named: readonly string[]): void;
  /** The pilot's own words, read anew where their files changed. */
  readonly words: OwnWordsFiles;
  /** The document's own path, once all that it uses has been read. */
  load(uri: Uri): Promise<FilePath>;
  /** Once every script of the workspace has been read. */
  loadWorkspace(): Promise<void>;
  /** As `load`, with every other script of the workspace as well. */
  loadAll(uri: Uri): Promise<FilePath>;
  /** As `load`, with all that the findings of the document rest on. */
  loadForFindings(uri: Uri): Promise<FilePath>;
  /** Every script of the workspace, once it is listed and the pilot's own words are read; none of them need be read. */
  listed(): Promise<readonly FilePath[]>;
  isOpen(path: FilePath): boolean;
  /** True for what is open as well. */
  isRead(path: FilePath): boolean;
  read(path: FilePath): Promise<void>;
  /** All files at this moment. */
  now(): Workspace;
  /** Null where the document is not open. */
  version(uri: Uri): number | null;
  /** True where a document that is open is a craft, which needs no file besides those it uses. */
  isCraft(uri: Uri): boolean;
  openUris(): readonly Uri[];
  /** The address by which the editor knows a path. */
  uriOf(path: FilePath): Uri;
  /** The real path behind an address. */
  pathOf(uri: Uri): FilePath;
  /** The path of a file, open or not, below the real path of its folder. */
  placeOf(uri: Uri): FilePath;
  /** Another number for another past of a craft, as far as git was asked. */
  pastOf(path: FilePath): number;
  /** Another text where the habits of other craft make another finding of one, as far as they are counted. */
  habitsOf(path: FilePath): string;
  /** All that are flown together with a craft, itself among them; none where it is flown alone. */
  togetherWith(path: FilePath): readonly FilePath[];
  /** The commits of a script, where the host has a git of its own; else null. `text` is what it holds now. */
  commitsOf(path: FilePath, text: string): Promise<HostCommits | null>;
  /** Something may have been committed. */
  committed(): void;
  /** Why the text of an open document is not looked at; null where it is. */
  whyUnread(uri: Uri): string | null;
}

const NO_SCRIPT: FileAnswer = { kind: "unreadable", why: "it holds words of your own, and no script" };

/** So long an answer waits for the own words of a workspace that is still being listed. */
const LISTING_WAIT_MS = 300;

interface Open extends OpenDocument {
  readonly answer: FileAnswer;
}

/**
 * No documents yet; `files` is what the host can reach besides those that will be opened. With `turns` the craft are
 * compared with one another in the background.
 */
export function makeDocuments(
  files: ServerFiles,
  events: DocumentsEvents = NO_EVENTS,
  turns: Pick<Turns, "giveWay"> | null = null,
): Documents {
  const opened = makeOpenDocuments<Open>();
  /** Opened, and not yet known by their real paths. */
  const resolving = new Map<Uri, Promise<void>>();
  const uris = new Map<FilePath, Uri>();
  /** The real paths of what is open, whatever becomes of the files and the folders. */
  const places = new Map<Uri, FilePath>();
  let scripts: { readonly listed: readonly FilePath[]; readonly all: readonly FilePath[] } | null = null;
  let folders: readonly FilePath[] = [];
  let addressOf = addressesIn([]);
  let levels = OWN_LEVELS;
  let current: Workspace | null = null;
  const invalidate = () => {
    current = null;
  };

  const workspaceFiles = makeWorkspaceFiles({
    realPath: async (folder) => (await files.read(folder)).realPath,
    list: (folders) => files.list(folders),
    isFolder: async (path) => (await files.isFolder?.(path)) ?? false,
    cut: () => events.listingCut(),
  });
  const words = makeOwnWords({
    list: async () => {
      const isWhole = await atMost(LISTING_WAIT_MS, workspaceFiles.listed());
      if (!isWhole) void workspaceFiles.listed().then(listedLate);
      return workspaceFiles.words();
    },
    read: (path) => files.read(path),
    changed: invalidate,
  });
  const listedLate = () => {
    if (workspaceFiles.words().length > 0) words.forget();
    events.listedLate();
  };
  const pasts =
    files.pasts &&
    makePasts({
      host: files.pasts,
      catalogue: () => words.core().catalogue,
      changed() {
        invalidate();
        events.pastsFound();
      },
      failed: events.failed,
    });
  const cache = makeFileCache(async (path) => {
    await workspaceFiles.foldersKnown();
    // Of a file that is not there yet nobody knows more than its folder's real path.
    const { answer, realPath } = await files.read(workspaceFiles.belowRealFolder(path));
    return { answer: workspaceFiles.isOutside(realPath) ? { kind: "outside" } : scriptAnswer(answer), realPath };
  }, invalidate);

  const pathFor = (uri: Uri) =>
    opened.standIn(uri) ?? places.get(uri) ?? cache.realPath(workspaceFiles.belowRealFolder(pathOf(uri)));
  const answerOf = (path: FilePath) => (isStandIn(path) ? BEHIND : (opened.get(path)?.answer ?? cache.answer(path)));
  const listScripts = () => {
    const listed = workspaceFiles.scripts();
    if (scripts?.listed !== listed) scripts = { listed, all: [...new Set([...listed, ...opened.paths()])].sort() };
    return scripts.all;
  };
  const view = (all: readonly FilePath[]): FileView => ({
    read: (path) => (isWordsFile(path) ? NO_SCRIPT : answerOf(path)),
    list: () => all,
    realPath: cache.realPath,
    listsUsersOf: workspaceFiles.listsUsersOf,
    ...(pasts && { past: pasts.past }),
    ...(habits && { habits: habits.of }),
    together: () => together.flown(),
  });
  const now = (): Workspace => {
    const all = listScripts();
    if (current?.view.list() !== all) current = words.core().at(view(all), levels);
    return current;
  };
  const openAt = (path: FilePath, document: TextDocument): Open => {
    const text = document.getText();
    // Bytes that are no UTF-8 reach the editor as this mark; only the file itself tells them from one that was typed.
    const onDisk = cache.answer(path);
    const validUtf8 = !(onDisk?.kind === "text" && !onDisk.validUtf8 && text.includes("\uFFFD"));
    return { path, document, answer: scriptAnswer({ kind: "text", text, validUtf8 }) };
  };
  /** Something of what is open at these paths is another. */
  const changedAt = (...paths: FilePath[]) => {
    const listed = new Set(scripts?.all);
    for (const path of paths) {
      if (opened.has(path) !== listed.has(path)) scripts = null;
      const document = opened.get(path)?.document;
      if (document) uris.set(path, document.uri as Uri);
      else uris.delete(path);
    }
    invalidate();
  };

  /** The document of an address or, of one that is spelled otherwise than when it was opened, of its file. */
  const openedAt = (uri: Uri) => opened.at(uri) ?? opened.get(pathFor(uri));

  /** An opened document is kept under its real path, which has to be asked for. */
  const resolveOpened = async (uri: Uri): Promise<void> => {
    const path = pathOf(uri);
    await cache.read(path);
    const open = opened.at(uri);
    if (!open) return;
    const real = cache.realPath(path);
    places.set(uri, real);
    opened.replace(openAt(real, open.document));
    changedAt(path, real);
  };
  const reading: Reading = {
    now,
    read: cache.read,
    isRead: (path) => answerOf(path) !== undefined,
  };
  const load = async (uri: Uri): Promise<FilePath> => {
    await words.load();
    await resolving.get(uri);
    await readUsed(() => [pathFor(uri)], reading);
    return pathFor(uri);
  };

  const loadWorkspace = async (): Promise<void> => {
    await words.load();
    await workspaceFiles.listed();
    // Of the thousand scripts of a workspace it is usually known that all they use is read; what is open may be new.
    const whole = { ...reading, whole: cache.whole, left: events.reading };
    await readUsed(() => [...workspaceFiles.scripts(), ...opened.paths()], whole);
  };
  let reads: Promise<void> | null = null;
  /** All scripts, among which one may be meant by a line that names none; nobody waits long for the words of a finding. */
  const otherFiles = async (): Promise<void> => {
    const all = loadWorkspace();
    if ((await atMost(LISTING_WAIT_MS, all)) || reads) return;
    reads = all.then(() => {
      reads = null;
      events.listedLate();
    });
  };
  const loadAll = async (uri: Uri): Promise<FilePath> => {
    await loadWorkspace();
    return load(uri);
  };

  const listed = async (): Promise<readonly FilePath[]> => {
    await words.load();
    await workspaceFiles.listed();
    return workspaceFiles.scripts();
  };
  const habits =
    turns &&
    makeHabits({
      catalogue: () => words.core().catalogue,
      view: () => now().view,
      listed,
      isRead: reading.isRead,
      read: reading.read,
      giveWay: turns.giveWay,
      changed() {
        invalidate();
        events.habitsFound();
      },
      failed: events.failed,
    });
  const together = makeTogether({
    folders: () => folders,
    now,
    listed,
    loadWorkspace,
    read: (paths) => readUsed(() => paths, reading),
    changed() {
      invalidate();
      events.togetherFound();
    },
    refused: events.togetherRefused,
    failed: events.failed,
  });

  const lookAgain = () => {
    together.lookAgain();
    workspaceFiles.setFolders(folders);
    cache.forgetAll();
    words.forget();
    invalidate();
  };

  return {
    open(uri, languageId, version, text) {
      const path = pathOf(uri);
      uris.set(path, uri);
      const document = TextDocument.create(uri, languageId, version, text);
      if (words.open(path, document)) return;
      opened.put(openAt(path, document));
      changedAt(path);
      together.lookAgain();
      const resolved = resolveOpened(uri).finally(() => resolving.delete(uri));
      resolving.set(uri, resolved);
    },
    change(uri, changes, version) {
      if (words.change(uri, changes, version)) return;
      const open = openedAt(uri);
      if (open) {
        opened.put(openAt(open.path, TextDocument.update(open.document, changes, version)));
        changedAt(open.path);
      }
      together.lookAgain();
    },
    close(uri) {
      if (words.close(uri)) return;
      cache.forget(pathFor(uri));
      const open = openedAt(uri);
      places.delete(uri);
      if (open) {
        opened.remove(open.document.uri);
        changedAt(open.path);
      }
      together.lookAgain();
    },
    apply(changes) {
      const before = workspaceFiles.scripts();
      const wordsBefore = workspaceFiles.words().join();
      const paths = new Set(
        changes.flatMap((change) => (change.kind === "moved" ? [change.path, change.to] : change.path)),
      );
      for (const path of [...paths]) paths.add(workspaceFiles.belowRealFolder(path));
      for (const change of changes) workspaceFiles.apply(change);
      together.lookAgain();
      const isRead = cache.forgetBelow(paths, (path) => opened.has(path));
      if ([...paths].some(isWordsFile) || workspaceFiles.words().join() !== wordsBefore) {
        words.forget();
        return "words";
      }
      return isRead || [...paths].some(isScriptFile) || workspaceFiles.scripts() !== before ? "scripts" : "nothing";
    },
    setFolders(given) {
      addressOf = addressesIn(given);
      folders = given.map((uri) => pathOf(uri).replace(/(?<=.)\/$/, ""));
      lookAgain();
    },
    lookAgain,
    setLevels(now) {
      levels = now;
      invalidate();
    },
    setTogether: together.set,
    togetherWith: together.with,
    words,
    load,
    loadWorkspace,
    loadAll,
    async loadForFindings(uri) {
      const path = await load(uri);
      const others = together.with(path);
      if (others.length > 0) await readUsed(() => others, reading);
      const script = now().script(path);
      if (!script) return path;
      // What a layer accepts may be of use on any craft; what is named and is not there may be meant for any file.
      if (script.kind !== "craft" && script.allowances.length > 0) return loadAll(uri);
      const isMissing = (file: FilePath) => now().view.read(file)?.kind !== "text";
      if (filesNamedBy(script).some(isMissing)) await otherFiles();
      return path;
    },
    listed,
    isOpen: (path) => opened.has(path),
    isRead: reading.isRead,
    read: reading.read,
    now,
    version: (uri) => openedAt(uri)?.document.version ?? null,
    isCraft: (uri) => now().script(pathFor(uri))?.kind === "craft",
    openUris: () => [...opened.all()].map(({ document }) => document.uri as Uri),
    uriOf: (path) => uris.get(path) ?? addressOf(workspaceFiles.asEditorHas(path)),
    pathOf: pathFor,
    placeOf: (uri) => workspaceFiles.belowRealFolder(pathOf(uri)),
    pastOf: (path) => pasts?.idOf(path) ?? 0,
    habitsOf: (path) => habits?.idOf(path) ?? "",
    commitsOf: async (path, text) => (await pasts?.commits(path, text)) ?? null,
    committed: () => pasts?.lookAgain(),
    whyUnread(uri) {
      const answer = opened.has(pathFor(uri)) || opened.standIn(uri) ? answerOf(pathFor(uri)) : undefined;
      return answer?.kind === "unreadable" ? answer.why : null;
    },
  };
}
