/** The scripts of a workspace as rows that unfold, in words: what the tree beside the panel shows. */
import type { FindingCounts, ScriptKind, TreeFile, WorkspaceTree } from "../protocol/workspace-tree.ts";
import { compareInNumbers } from "../text/in-numbers.ts";
import { joinWithAnd } from "../text/list.ts";

/** What a row stands for: it decides its picture and what can be done with it. */
export type RowKind = "group" | ScriptKind | "unread" | "no-file" | "findings" | "users";

/** One row. */
export interface OutlineRow {
  /** The same for as long as it stands for the same. */
  readonly id: string;
  readonly kind: RowKind;
  readonly label: string;
  /** Beside the label, quieter; empty for none. */
  readonly aside: string;
  /** The whole of it in sentences, a line each. */
  readonly more: string;
  /** The script that it stands for, or in which its line is, as an index into the tree; null for a group. */
  readonly file: number | null;
  /** The line to which it leads. */
  readonly line: number;
  readonly unfolds: "not" | "closed" | "open";
  /** The indices of the scripts above it, from the outermost. */
  readonly above: readonly number[];
}

const GROUPS: readonly (readonly [kind: ScriptKind | "unread", label: string])[] = [
  ["craft", "Craft"],
  ["layer", "Layers"],
  ["handset", "Handsets"],
  ["dialect", "Dialects"],
  ["unread", "Not read"],
];

/** How a file is called where its path is meant, such as `craft/jug.fettle`. */
export type PathOf = (file: string) => string;

/** The rows at the top: a group for each kind of script that there is. */
export function topRows({ files }: WorkspaceTree): OutlineRow[] {
  return GROUPS.flatMap(([kind, label]): OutlineRow[] => {
    const count = files.filter((file) => (file.kind ?? "unread") === kind).length;
    if (count === 0) return [];
    const unfolds = kind === "craft" ? "open" : "closed";
    const row = {
      kind: "group",
      label,
      aside: String(count),
      more: `${label}: ${count}`,
      file: null,
      line: 0,
    } as const;
    return [{ id: kind, ...row, unfolds, above: [] }];
  });
}

/** The rows below a row, in the order in which they are read. */
export function rowsBelow(tree: WorkspaceTree, row: OutlineRow, pathOf: PathOf): OutlineRow[] {
  const { files } = tree;
  if (row.kind === "group") {
    const kind = row.id === "unread" ? null : row.id;
    const own = files.flatMap((file, i) => (file.kind === kind ? [i] : []));
    return byName(files, own).map((i) => fileRow(tree, i, `${row.id}/${files[i]!.file}`, [], pathOf));
  }
  if (row.file === null) return [];
  const file = files[row.file]!;
  if (row.kind === "users")
    return byName(files, file.users).map((i) => ({
      ...fileRow(tree, i, `${row.id}/${files[i]!.file}`, row.above, pathOf),
      unfolds: "not",
    }));
  if (row.kind === "findings" || row.kind === "no-file") return [];
  const above = [...row.above, row.file];
  return [
    ...findingsRows(file, row.file, row.id),
    ...useRows(tree, row, above, pathOf),
    ...usersRows(file, row.file, row, above),
  ];
}

/** Every craft of the workspace in order of name, as indices. */
export function craftInOrder({ files }: WorkspaceTree): number[] {
  return byName(
    files,
    files.flatMap(({ kind }, i) => (kind === "craft" ? [i] : [])),
  );
}

/** The findings of a file in words, as in “2 errors, 1 hint”; empty where there are none, or they are not known. */
export function findingsInWords(findings: FindingCounts | null): string {
  if (!findings) return "";
  const { errors, warnings, infos, hints } = findings;
  const parts = [
    counted(errors, "error"),
    counted(warnings, "warning"),
    counted(infos, "remark"),
    counted(hints, "hint"),
  ];
  return parts.filter((part) => part !== "").join(", ");
}

/** How many craft use a file, as in “used by 5 craft”. */
export function usersInWords(count: number): string {
  return count === 0 ? "used by no craft" : `used by ${count} craft`;
}

/** What stands beside the name of a script: its handset, by whom it is used, its findings. */
export function asideOf({ files }: WorkspaceTree, index: number, pathOf: PathOf): string {
  const file = files[index]!;
  const isAmbiguous = files.some((other, i) => i !== index && other.kind === file.kind && other.name === file.name);
  const parts = [
    isAmbiguous ? pathOf(file.file) : "",
    file.kind === "craft" ? handsetName(files, file) : "",
    file.kind === "layer" || file.kind === "handset" ? usersInWords(file.users.length) : "",
    findingsInWords(file.findings),
  ];
  return parts.filter((part) => part !== "").join(" · ");
}

function handsetName(files: readonly TreeFile[], { handset }: TreeFile): string {
  return handset === null ? "no handset" : files[handset]!.name;
}

function fileRow(
  tree: WorkspaceTree,
  index: number,
  id: string,
  above: readonly number[],
  pathOf: PathOf,
  line?: number,
): OutlineRow {
  const file = tree.files[index]!;
  const isOpenAbove = above.includes(index);
  const hasUsers = file.users.length > 0 && above.length === 0;
  const unfolding = file.uses.length > 0 || hasUsers || findingsInWords(file.findings) !== "";
  return {
    id,
    kind: file.kind ?? "unread",
    label: file.name,
    aside: asideOf(tree, index, pathOf),
    more: moreOf(tree, index, pathOf),
    file: index,
    line: line ?? file.line,
    unfolds: isOpenAbove || !unfolding ? "not" : "closed",
    above,
  };
}

function moreOf(tree: WorkspaceTree, index: number, pathOf: PathOf): string {
  const file = tree.files[index]!;
  const what = file.kind === null ? "Not read" : `${file.kind[0]!.toUpperCase()}${file.kind.slice(1)} “${file.name}”`;
  const findings = findingsInWords(file.findings);
  const lines = [
    `${what}, ${pathOf(file.file)}`,
    file.fault === null ? "" : `${sentence(file.fault)}.`,
    file.kind === "craft" ? handsetLine(tree.files, file) : "",
    file.kind === "layer" || file.kind === "handset" ? `${sentence(usersInWords(file.users.length))}.` : "",
    findings === "" ? (file.findings === null ? "" : "Nothing is found in it.") : `Found in it: ${findings}.`,
  ];
  return lines.filter((line) => line !== "").join("\n");
}

function handsetLine(files: readonly TreeFile[], { handset }: TreeFile): string {
  return handset === null ? "It uses no handset." : `Its handset is “${files[handset]!.name}”.`;
}

function findingsRows(file: TreeFile, index: number, id: string): OutlineRow[] {
  const words = findingsInWords(file.findings);
  const worst = file.findings?.worst;
  if (words === "" || !worst) return [];
  const more = `Found in “${file.name}”: ${words}. Opens the first ${NAMES[worst.severity]}.`;
  const row = { kind: "findings", label: words, aside: "", more, file: index, line: worst.line } as const;
  return [{ id: `${id}/findings`, ...row, unfolds: "not", above: [] }];
}

const NAMES = { error: "error", warning: "warning", info: "remark", hint: "hint" } as const;

/** What a file uses, in its own order; a craft's handset first, since it lies under all else. */
function useRows(tree: WorkspaceTree, { id }: OutlineRow, above: readonly number[], pathOf: PathOf): OutlineRow[] {
  const { files } = tree;
  const own = above.at(-1)!;
  /** The craft below which this stands, if it does: of several handsets its own counts. */
  const craft = above.map((each) => files[each]!).find(({ kind }) => kind === "craft");
  const { uses } = files[own]!;
  const rows = uses.map(({ line, to, path, why }, i): OutlineRow => {
    const key = `${id}/${line}`;
    if (to === null) {
      const more = `“${path}” is no part of “${files[own]!.name}”: ${why}.`;
      const row = { kind: "no-file", label: path === "" ? "(no name)" : path, aside: why ?? "", more } as const;
      return { id: key, ...row, file: own, line, unfolds: "not", above };
    }
    const used = files[to]!;
    const row = fileRow(tree, to, key, above, pathOf);
    const isOtherHandset =
      craft && used.kind === "handset" && files[own]!.kind !== "handset" && craft.handset !== to && why === null;
    const isSaidAbove = uses.findIndex((use) => use.to === to) < i;
    const leftOut =
      why ??
      (isSaidAbove ? "it is named above" : isOtherHandset ? "another handset counts, and a craft has one" : null);
    if (leftOut === null) return row;
    const aside = `left out: ${leftOut}`;
    return { ...row, aside, more: `${row.more}\n${sentence(aside)}.`, unfolds: "not" };
  });
  const isHandset = ({ kind }: OutlineRow) => kind === "handset";
  return files[own]!.kind === "craft" ? [...rows.filter(isHandset), ...rows.filter((row) => !isHandset(row))] : rows;
}

/** Only where a file stands by itself: below a craft the craft itself would be listed again. */
function usersRows(file: TreeFile, index: number, { id }: OutlineRow, above: readonly number[]): OutlineRow[] {
  if (file.users.length === 0 || above.length > 1) return [];
  const label = sentence(usersInWords(file.users.length));
  const row = { kind: "users", label, aside: "", more: `${label}: “${file.name}” is a part of each.` } as const;
  return [{ id: `${id}/users`, ...row, file: index, line: file.line, unfolds: "closed", above }];
}

function byName(files: readonly TreeFile[], indices: readonly number[]): number[] {
  return [...indices].sort(
    (a, b) => compareInNumbers(files[a]!.name, files[b]!.name) || (files[a]!.file < files[b]!.file ? -1 : 1),
  );
}

function counted(count: number, what: string): string {
  return count === 0 ? "" : `${count} ${what}${count === 1 ? "" : "s"}`;
}

function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Names of craft in a sentence: all of a few, else the first and how many more. */
export function craftNamesInWords(names: readonly string[]): string {
  const few = 4;
  if (names.length <= few) return joinWithAnd(names);
  return joinWithAnd([...names.slice(0, few - 1), `${names.length - few + 1} more`]);
}
