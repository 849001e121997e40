/** All craft side by side: what their controls do, their key settings, layers, checks on the bench and video channels. */
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import { knownPart } from "../../model/known-part.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { patienceOf } from "../../numbers/flight.ts";
import type { Fleet, FleetCraft, FleetTable } from "../../protocol/fleet.ts";
import type { Steps } from "../../text/steps.ts";
import { missingParts } from "../context/missing-parts.ts";
import { type DraftRow, tableOf } from "./cells.ts";
import { CHECK_COLUMNS, checkCells } from "./checks-table.ts";
import { type CraftControls, controlsOf, joinedColumns } from "./control-cells.ts";
import { layersTable, type UsedFile, usedFiles } from "./layers-table.ts";
import { SETTING_COLUMNS, settingCells } from "./setting-cells.ts";
import { videoCells, videoOf } from "./video.ts";

/** A script, with the files among which it stands. */
export interface FleetScript {
  readonly file: FilePath;
  readonly workspace: Workspace;
}

export interface FleetOptions {
  /** The name under which a file is shown; without it its path. */
  readonly nameOf?: (file: FilePath) => string;
  /** The name of a file in a title, of a handset's table or of a layer's column; without it as `nameOf` has it. */
  readonly titleOf?: (file: FilePath) => string;
}

/** Every script of a workspace. */
export function scriptsOf(workspace: Workspace): FleetScript[] {
  return workspace.view.list().map((file) => ({ file, workspace }));
}

/** The craft among some scripts, in their order. A step is one script. */
export function* fleetOf(
  scripts: readonly FleetScript[],
  { nameOf = asItIs, titleOf = nameOf }: FleetOptions = {},
): Steps<Fleet> {
  const read: ReadCraft[] = [];
  const missing: Fleet["missing"][number][] = [];
  const view = scripts[0]?.workspace.view;
  for (const { file, workspace } of scripts) {
    yield;
    const script = workspace.script(file);
    const why = script ? whyNone(script) : whyUnread(workspace, file);
    if (why !== null) missing.push({ file: nameOf(file), why });
    const craft = why === null ? workspace.craft(file) : null;
    if (!craft) continue;
    const gone = missingParts(craft).map(({ message }) => message);
    if (gone.length > 0) missing.push({ file: nameOf(file), why: `not all of it is known: ${gone.join(" ")}` });
    read.push(readCraft(craft, workspace));
  }
  return {
    craft: read.map((each) => craftOf(each, nameOf)),
    controls: controlTables(read, nameOf, titleOf),
    settings: tableOf("Key settings", SETTING_COLUMNS, rowsOf(read, "settings"), nameOf),
    layers: layersTable(
      read.map(({ used }) => used),
      { nameOf, titleOf },
    ),
    checks: tableOf("Checks on the bench", CHECK_COLUMNS, rowsOf(read, "checks"), nameOf),
    video: videoOf(read, view?.together?.() ?? [], nameOf, patienceOf(view)),
    missing,
  };
}

const asItIs = (file: string) => file;

/** What is kept of a craft: the craft itself would be too much memory for a thousand. */
interface ReadCraft {
  readonly file: FilePath;
  readonly name: string;
  readonly handset: { readonly name: string; readonly file: FilePath } | null;
  readonly controls: CraftControls;
  readonly used: readonly UsedFile[];
  readonly settings: DraftRow["cells"];
  readonly checks: DraftRow["cells"];
  readonly video: DraftRow["cells"];
}

function readCraft(whole: Craft, workspace: Workspace): ReadCraft {
  // Of what a missing file may say nothing is told.
  const craft = knownPart(whole, workspace.catalogue);
  return {
    file: craft.file,
    name: craft.name,
    handset: craft.handset && { name: craft.handset.name, file: craft.handset.file },
    controls: controlsOf(craft, whole, workspace),
    used: usedFiles(craft),
    settings: settingCells(craft, workspace.catalogue),
    checks: checkCells(craft, workspace),
    video: videoCells(craft, workspace.catalogue),
  };
}

function craftOf({ file, name, handset }: ReadCraft, nameOf: (file: FilePath) => string): FleetCraft {
  return { file: nameOf(file), name, handset: handset && { name: handset.name, file: nameOf(handset.file) } };
}

function rowsOf(read: readonly ReadCraft[], what: "settings" | "checks"): DraftRow[] {
  return read.map((each, craft) => ({ craft, cells: each[what] }));
}

/** One table for each handset, in the order in which they are met; craft without one come last. */
function controlTables(
  read: readonly ReadCraft[],
  nameOf: (file: FilePath) => string,
  titleOf: (file: FilePath) => string,
): FleetTable[] {
  const groups = new Map<FilePath | null, number[]>();
  for (const [i, { handset, controls }] of read.entries()) {
    const file = handset?.file ?? null;
    // Without a handset there is a row only for what bare channels do.
    if (file === null && controls.cells.size === 0) continue;
    const members = groups.get(file);
    if (members) members.push(i);
    else groups.set(file, [i]);
  }
  const tables = [...groups].map(([file, members]) => {
    const { handset } = read[members[0]!]!;
    const title = handset ? `Controls of ${handset.name} (${titleOf(handset.file)})` : "Controls without a handset";
    const columns = joinedColumns(members.map((i) => read[i]!.controls));
    const rows = members.map((i) => ({ craft: i, cells: read[i]!.controls.cells }));
    return { file, table: tableOf(title, columns, rows, nameOf) };
  });
  return tables.sort((a, b) => Number(a.file === null) - Number(b.file === null)).map(({ table }) => table);
}

/** Why a script is not read as what it is meant to be; null for one that is. */
function whyNone({ tree, kind }: Script): string | null {
  if (tree.newer) return "it is written in a newer edition of the language than this program knows";
  return tree.header === null && kind !== "craft"
    ? 'its first line does not say what it is, such as: craft "NAME"'
    : null;
}

function whyUnread({ view }: Workspace, file: FilePath): string {
  const answer = view.read(file);
  if (answer?.kind === "unreadable") return answer.why;
  return answer?.kind === "outside" ? "it lies outside the workspace" : "there is no such file";
}
