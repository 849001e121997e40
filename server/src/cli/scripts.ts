/** The scripts that a command is asked about, found on the disk or read from standard input. */
import { resolve } from "node:path";
import type { FileAnswer, FilePath, FileView } from "../../../shared/model/files.ts";
import type { FlownCraft } from "../../../shared/model/flown.ts";
import type { RuleLevels } from "../../../shared/model/rule-levels.ts";
import type { Script } from "../../../shared/model/script.ts";
import { scriptAnswer } from "../../../shared/model/script-limits.ts";
import { textAnswer } from "../../../shared/model/text-answer.ts";
import { type Core, makeCore, type Workspace } from "../../../shared/model/workspace.ts";
import { withHabits } from "../../../shared/rules/lib/fleet-habits.ts";
import { pastReader } from "../../../shared/rules/lib/past-checks.ts";
import { isFolder, listScripts, nameFrom, readScriptFile, realPathOf, toPath } from "../node/disk.ts";
import { diskView } from "../node/disk-view.ts";
import { type CheckedPasts, withPast } from "../node/git-checks.ts";
import { isMarked, type WorkspacePlace, workspaceBelow, workspaceOf } from "../node/workspace-place.ts";
import { CannotRun, type Io } from "./io.ts";
import { wordsIn } from "./own-words.ts";

/** A script, with the files among which it stands. */
export interface Opened {
  readonly file: string;
  readonly workspace: Workspace;
}

/** What came of the paths that a command was given. */
export interface Scripts {
  /** Scripts that could be read, each once. */
  readonly opened: readonly Opened[];
  /** Why the others could not, a line each. */
  readonly refused: readonly string[];
  /** True where a file of the pilot's own words is at fault: the details are on standard error. */
  readonly wordsFaulty: boolean;
  /** The real path of the handset that stands in, where one was named. */
  readonly handset: string | undefined;
  /** The name under which a file is reported. */
  nameOf(file: string): string;
  /** What reads the scripts of one of the workspaces. */
  coreOf(workspace: Workspace): CoreOfWords;
}

/** What reads scripts, with the key of the own words that it knows: equal for equal words. */
export interface CoreOfWords {
  readonly core: Core;
  readonly key: string;
}

/** The scripts that a path stands for; why there are none goes to `refused`. */
export type FilesAt = (at: string, path: string, refused: string[]) => readonly string[];

/** How scripts are opened. */
export interface Opening {
  /** It stands in for the crafts' own. */
  readonly handset?: string | undefined;
  /** How findings are shown. */
  readonly levels?: RuleLevels;
  readonly filesAt?: FilesAt;
  /** For findings: what git knows, and with it the habits of the other craft. */
  readonly pasts?: CheckedPasts;
  /** The paths of craft that are flown at the same time. */
  readonly together?: readonly string[];
}

/** Opens files, folders (every script below them) and `-`. */
export async function openScripts(
  paths: readonly string[],
  io: Io,
  { handset, levels, filesAt = everyFileAt, pasts, together = [] }: Opening = {},
): Promise<Scripts> {
  const folder = realPathOf(io.folder);
  const input = inputPath(folder);
  const held = new Map<string, FileAnswer>();
  if (paths.includes("-") || together.includes("-")) held.set(input, scriptAnswer(textAnswer(await io.input())));
  const nameOf = (file: string): string => {
    if (file === input && held.has(input)) return "-";
    return nameFrom(folder, file);
  };
  let flown: readonly FlownCraft[] = [];
  const found = new Map<string, Workspace>();
  const openedIn = (workspace: Workspace) => [...found].flatMap(([file, its]) => (its === workspace ? file : []));
  const workspaces = openWorkspaces(held, io, nameOf, { levels, pasts, together: () => flown, openedIn });
  const stand = handset === undefined ? undefined : await holdHandset(handset, held, workspaces, io.folder);
  if (together.length > 0) flown = await readTogether(together, io, workspaces.around);
  const refused: string[] = [];
  for (const path of paths) {
    const at = path === "-" ? input : toPath(resolve(io.folder, path));
    const files = path === "-" ? [input] : filesAt(at, path, refused);
    const place = workspaces.placeAround(at);
    for (const each of files) {
      const workspace = await workspaces.at(each === at ? place : workspaceBelow(realPathOf(each), place));
      const file = workspace.view.realPath(each);
      const answer = workspace.view.read(file);
      if (answer?.kind === "text") found.set(file, found.get(file) ?? workspace);
      else refused.push(`${nameOf(each)}: ${whyNot(answer)}`);
    }
  }
  const opened = [...found].map(([file, workspace]) => ({ file, workspace }));
  return {
    opened,
    refused,
    wordsFaulty: workspaces.wordsFaulty(),
    handset: stand,
    nameOf,
    coreOf: workspaces.coreOf,
  };
}

/** Where standard input stands among the files: in the working folder. */
export function inputPath(folder: string): string {
  return `${folder === "/" ? "" : folder}/-`;
}

/** Opens the one craft that a command is about; `pasts` where it asks git. */
export async function openCraft(path: string, io: Io, handset?: string, pasts?: CheckedPasts) {
  const scripts = await openScripts([path], io, { handset, ...(pasts && { pasts }) });
  const [reason] = scripts.refused;
  if (reason !== undefined) throw new CannotRun(reason);
  const [one, second] = scripts.opened;
  if (!one || second) throw new CannotRun(`${path} holds several scripts: name one craft`);
  const script = one.workspace.script(one.file)!;
  const craft = script.tree.newer ? null : one.workspace.craft(one.file, scripts.handset);
  if (!craft) throw new CannotRun(`${scripts.nameOf(one.file)} ${whyNoCraft(script)}`);
  return { ...one, craft, nameOf: scripts.nameOf };
}

/** Why a script is no craft, in words that follow its name. */
export function whyNoCraft(script: Script): string {
  if (script.tree.newer) return "is written in a newer edition of the language than this program knows";
  if (script.tree.header === null) return 'is no craft: its first line should be: craft "NAME"';
  return `is a ${script.kind}, and a craft is expected here: name a craft that uses it`;
}

function everyFileAt(at: string, path: string, refused: string[]): readonly string[] {
  if (!isFolder(at)) return [at];
  const before = refused.length;
  const files = listScripts(at, (below, why) => refused.push(`${below}: the folder cannot be read: ${why}`));
  if (files.length === 0 && refused.length === before) refused.push(`${path}: no script (.fettle) is in this folder`);
  return files;
}

/** Why a file gives no text, in words that follow its name and a colon. */
export function whyNot(answer: FileAnswer | undefined): string {
  switch (answer?.kind) {
    case "outside":
      return "it lies outside the workspace, and only files inside it are read";
    case "unreadable":
      return answer.why;
    default:
      return "there is no such file";
  }
}

/** What findings rest on besides the files of a craft. */
interface Judging {
  readonly levels?: RuleLevels | undefined;
  readonly pasts?: CheckedPasts | undefined;
  readonly together?: NonNullable<FileView["together"]>;
  /** The scripts that were named, of one of the workspaces. */
  readonly openedIn?: (workspace: Workspace) => readonly string[];
}

/** One view of the disk, with the own words that lie there, for each workspace. */
export function openWorkspaces(
  held: Map<string, FileAnswer>,
  io: Io,
  nameOf: (file: string) => string,
  { levels, pasts, together, openedIn = () => [] }: Judging = {},
) {
  const workspaces = new Map<string, Workspace>();
  const cores = new Map<string, CoreOfWords>();
  let wordsFaulty = false;
  const placeAround = (path: string) => workspaceOf(realPathOf(path), realPathOf(io.folder));
  const keyOf = ({ reach, folder }: WorkspacePlace) => `${reach} ${folder}`;
  const at = async (place: WorkspacePlace): Promise<Workspace> => {
    const key = keyOf(place);
    let workspace = workspaces.get(key);
    if (!workspace) {
      const words = await wordsIn(place, io, nameOf);
      wordsFaulty ||= words.faulty;
      const core = makeCore(words.catalogue);
      cores.set(key, { core, key: words.key });
      workspace = core.at(
        viewOf(place, core, () => workspace!),
        levels,
      );
      workspaces.set(key, workspace);
    }
    return workspace;
  };
  const viewOf = (place: WorkspacePlace, core: Core, workspace: () => Workspace): FileView => {
    const view = { ...diskView(place, held), ...(together && { together, isPatient: true }) };
    if (!pasts) return view;
    // What nobody called a workspace may be a whole disk: there the scripts that were named are all that is looked at.
    const files = () => (isMarked(place.folder) ? view.list() : openedIn(workspace()));
    return withHabits(withPast(view, pasts, pastReader(makeCore(core.catalogue))), core, files);
  };
  const around = (path: string) => at(placeAround(path));
  return {
    wordsFaulty: () => wordsFaulty,
    placeAround,
    at,
    around,
    /** What reads the scripts of the workspace around a path, with the words that lie there now. */
    async coreAround(path: string): Promise<Core> {
      await around(path);
      return cores.get(keyOf(placeAround(path)))!.core;
    },
    coreOf: (workspace: Workspace) => [...cores.values()].find(({ core }) => core.catalogue === workspace.catalogue)!,
  };
}

/** What craft that are flown at the same time send, each read among the files of its own workspace, and once however often it was named. What is no craft is refused in words. */
export async function readTogether(
  paths: readonly string[],
  io: Io,
  workspaceAround: (file: FilePath) => Promise<Workspace>,
): Promise<FlownCraft[]> {
  const { flownIn } = await import("../../../shared/rules/lib/flown.ts");
  const flown = new Map<FilePath, FlownCraft>();
  for (const path of paths) {
    const at = path === "-" ? inputPath(realPathOf(io.folder)) : realPathOf(toPath(resolve(io.folder, path)));
    if (path !== "-" && isFolder(at)) throw new CannotRun(`--together: ${path} is a folder: name the craft in it`);
    const workspace = await workspaceAround(at);
    const file = workspace.view.realPath(at);
    const script = workspace.script(file);
    if (!script) throw new CannotRun(`--together: ${path}: ${whyNot(workspace.view.read(file))}`);
    const [craft] = flownIn(workspace, [file]);
    if (!craft) throw new CannotRun(`--together: ${path} ${whyNoCraft(script)}`);
    flown.set(file, craft);
  }
  return [...flown.values()];
}

/** Reads the handset that stands in, from wherever it lies. */
async function holdHandset(
  path: string,
  held: Map<string, FileAnswer>,
  workspaces: ReturnType<typeof openWorkspaces>,
  folder: string,
): Promise<string> {
  const file = realPathOf(toPath(resolve(folder, path)));
  const answer = scriptAnswer(readScriptFile(file));
  if (answer.kind !== "text") throw new CannotRun(`${path}: ${whyNot(answer)}`);
  held.set(file, answer);
  const kind = (await workspaces.around(file)).script(file)?.kind;
  if (kind !== "handset") throw new CannotRun(`${path} is a ${kind}, and --handset takes a handset`);
  return file;
}
