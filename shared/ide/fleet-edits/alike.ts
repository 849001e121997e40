/** Other craft made like one of them in some kinds of things: what becomes of each, and the lines that change. */
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { AlikeKind, FleetChangeCraft, FleetChangeLine } from "../../protocol/fleet-change.ts";
import type { Steps } from "../../text/steps.ts";
import { differencesOf, sectionOf } from "../compare/compare.ts";
import { type ComparedRow, comparedRows } from "../compare/rows.ts";
import { missingParts } from "../context/missing-parts.ts";
import type { FileEdits } from "../edits/osd-write.ts";
import { newerEdition } from "../edits/script-edits.ts";
import { type AlikeLines, alikeLines } from "./alike-lines.ts";
import { chosenUnasked, type Meant, meantBy } from "./alike-scope.ts";
import { type CoreChange, few, foundAnew, isGrave, withEdits } from "./change-core.ts";

export interface Alike {
  readonly example: FilePath;
  readonly kinds: readonly AlikeKind[];
  readonly layers: readonly FilePath[];
  /** Craft by their files, and lines of craft as `FILE WHAT`; null before anybody has looked. */
  readonly leftOut: readonly string[] | null;
}

/** What becomes of every other craft; a sentence where there is no example, or nothing that differs. */
export function* makeAlike(workspace: Workspace, asked: Alike): Steps<CoreChange | string> {
  const example = workspace.craft(asked.example);
  if (!example) return "The craft that the others are to be like is not there any more.";
  if (example.script.tree.newer) return newerEdition(example.script);
  const isMeant = meantBy(example, asked.kinds, asked.layers, workspace.catalogue);
  const craft: FleetChangeCraft[] = [];
  const files: FileEdits[] = [];
  const same: string[] = [];
  let isOwn = false;
  for (const file of workspace.view.list()) {
    yield;
    const mine = file === example.file ? null : workspace.craft(file);
    if (!mine) continue;
    const row = yield* rowOf(workspace, mine, example, isMeant, asked.leftOut);
    if (row === null) {
      same.push(mine.name);
      isOwn ||= differencesOf(mine, example, workspace.catalogue).some(({ what }) => isMeant(what) === "own");
    } else {
      craft.push(row.craft);
      if (row.edits.length > 0) files.push({ file, edits: row.edits });
    }
  }
  if (craft.length === 0)
    return same.length === 0
      ? `“${example.name}” is the only craft of the workspace.`
      : `No other craft differs from “${example.name}” in this${isOwn ? ", but for what is of each craft alone" : ""}.`;
  return {
    title: `Like “${example.name}”`,
    notes: same.length > 0 ? [`So already: ${few(same)}.`] : [],
    // Those that are flown by the same hand come first.
    craft: craft.sort((a, b) => Number(a.notOffered !== null) - Number(b.notOffered !== null)),
    files,
  };
}

interface MadeRow {
  readonly craft: FleetChangeCraft;
  readonly edits: FileEdits["edits"];
}

/** Null where nothing of it differs. */
function* rowOf(
  workspace: Workspace,
  mine: Craft,
  example: Craft,
  isMeant: (what: string) => Meant,
  leftOut: Alike["leftOut"],
): Steps<MadeRow | null> {
  const { file, name } = mine;
  const none = { file, name, chosen: false, lines: [], findings: [], notes: [] };
  if (mine.script.tree.newer) return { craft: { ...none, notOffered: newerEdition(mine.script) }, edits: [] };
  const all = comparedRows(mine, example, workspace.catalogue);
  const rows = all.filter(({ what }) => isMeant(what) === "taken");
  const own = all.flatMap(({ what }) => (isMeant(what) === "own" ? [what] : []));
  if (rows.length === 0) return null;
  yield;
  const isOtherHandset = mine.handset?.file !== example.handset?.file;
  const barred = new Map(rows.flatMap((row) => whyNot(row, isOtherHandset)));
  const isUnasked = chosenUnasked(mine, example, workspace.catalogue);
  const isWanted = ({ what, theirs }: ComparedRow) =>
    !barred.has(what) && (leftOut === null ? theirs !== null && isUnasked(what) : !leftOut.includes(`${file} ${what}`));
  const wanted = rows.filter(isWanted).map(({ what }) => what);
  const lines = alikeLines(workspace, mine, example, wanted, (what) => isMeant(what) === "own" && isOfLayout(what));
  yield;
  for (const [what, why] of lines.left) barred.set(what, why);
  const tried = withEdits(workspace, lines.edits.length > 0 ? [{ file, edits: lines.edits }] : []);
  const findings = lines.edits.length > 0 ? yield* foundAnew(workspace, tried, file) : [];
  const canBe = rows.some(({ what }) => !barred.has(what));
  const isChosen =
    lines.edits.length > 0 && (leftOut === null ? !isOtherHandset && !findings.some(isGrave) : !leftOut.includes(file));
  const after = tried.craft(file)!;
  return {
    craft: {
      file,
      name,
      notOffered: canBe ? null : `Nothing of it can be had: ${[...barred.values()][0]}`,
      chosen: isChosen,
      lines: rows.map((row) => lineOf(row, wanted.includes(row.what), barred.get(row.what) ?? null, lines)),
      findings,
      notes: notesOf(workspace, { mine, after, wanted, lines, isOtherHandset, own }),
    },
    edits: isChosen ? lines.edits : [],
  };
}

/**
 * Whether hardware may come along with a layer: a layout of the OSD is made for its grid. Anything else, such as a mount
 * or the day of a check, would be said of a craft at which nobody has looked.
 */
function isOfLayout(what: string): boolean {
  return ["osd", "osd-second"].includes(sectionOf(what));
}

/** Why a name cannot be taken over, as an entry of a map; none where it can. */
function whyNot({ what, notTaken }: ComparedRow, isOtherHandset: boolean): [string, string][] {
  if (notTaken !== null) return [[what, notTaken]];
  const section = sectionOf(what);
  if (isOtherHandset && (section === "modes" || section === "adjust"))
    return [[what, "It is on another handset: carry it over instead, where the controls are mapped."]];
  return [];
}

function lineOf(row: ComparedRow, isWanted: boolean, notTaken: string | null, { layers }: AlikeLines): FleetChangeLine {
  const { what, words, risk, mine, theirs, mineAt } = row;
  const choice = notTaken !== null ? "none" : isWanted ? "chosen" : "left-out";
  return {
    what,
    words,
    risk,
    before: mine,
    after: theirs,
    at: mineAt,
    into: layers.get(what) ?? null,
    choice,
    notTaken,
  };
}

interface Noted {
  readonly mine: Craft;
  readonly after: Craft;
  readonly wanted: readonly string[];
  readonly lines: AlikeLines;
  readonly isOtherHandset: boolean;
  readonly own: readonly string[];
}

function notesOf(workspace: Workspace, { mine, after, wanted, lines, isOtherHandset, own }: Noted): string[] {
  const others = differencesOf(mine, after, workspace.catalogue)
    .map(({ what }) => what)
    .filter((what) => !wanted.includes(what));
  const stays = own.filter((what) => !others.includes(what));
  const layers = [...new Set(lines.layers.values())];
  return [
    ...(isOtherHandset
      ? [`It is flown by ${mine.handset ? `the handset “${mine.handset.name}”` : "no handset that is known"}.`]
      : []),
    ...layers.map((layer) => `It uses “${layer}” then, which says ${lines.layers.size} of these.`),
    ...(others.length > 0 ? [`With it: ${few(others)}.`] : []),
    ...(stays.length > 0 ? [`Stays, as it is of this craft alone: ${few(stays)}.`] : []),
    ...missingParts(mine).map(({ message }) => `Not all of this craft is known: ${message}`),
  ];
}
