/** The scripts around board text: its workspace and the handset. */
import { dirname, resolve } from "node:path";
import type { Script } from "../../../shared/model/script.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { nameFrom, realPathOf, toPath } from "../node/disk.ts";
import { CannotRun, type Io } from "./io.ts";
import { openScripts, openWorkspaces } from "./scripts.ts";

export interface Around {
  readonly workspace: Workspace;
  nameOf(file: string): string;
}

/** The workspace around a file that need not be a script; for “-” that of the working folder. */
export async function workspaceAt(path: string, io: Io): Promise<Around> {
  const folder = realPathOf(io.folder);
  const nameOf = (file: string) => nameFrom(folder, file);
  const at = path === "-" ? `${folder}/-` : toPath(resolve(io.folder, path));
  return { workspace: await openWorkspaces(new Map(), io, nameOf).around(dirname(at)), nameOf };
}

/** A handset by its path. */
export async function openHandset(path: string, io: Io): Promise<{ script: Script; workspace: Workspace }> {
  const { opened, refused } = await openScripts([path], io);
  if (refused[0] !== undefined) throw new CannotRun(refused[0]);
  const [one, second] = opened;
  if (!one || second) throw new CannotRun(`${path} holds several scripts: name one handset`);
  const script = one.workspace.script(one.file)!;
  if (script.kind !== "handset") throw new CannotRun(`${path} is a ${script.kind}, and --handset takes a handset`);
  return { script, workspace: one.workspace };
}
