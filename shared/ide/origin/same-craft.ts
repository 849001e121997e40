/** Whether a craft is the same after lines of it were moved, and what is found on it that was not before. */
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Finding } from "../../protocol/findings.ts";
import { findingsOf } from "../../rules/engine/engine.ts";
import { type Difference, differencesOf } from "../compare/compare.ts";
import { withFiles } from "../context/trial.ts";
import { type Draft, textAfter } from "./draft.ts";

/** The workspace with these drafts written, and these files made. */
export function tried(
  workspace: Workspace,
  drafts: readonly Draft[],
  creates: readonly { readonly file: FilePath; readonly text: string }[] = [],
): Workspace {
  return withFiles(
    workspace,
    new Map([
      ...drafts.map((draft) => [draft.script.file, textAfter(draft.script, draft.edits())] as const),
      ...creates.map(({ file, text }) => [file, text] as const),
    ]),
  );
}

/** What differs between a craft and the same file after a change, the sections that it has included. */
export function changesOf(before: Craft, after: Craft | null, workspace: Workspace): readonly (Difference | string)[] {
  if (!after) return ["the whole craft"];
  const sections = new Set([...before.sections.keys(), ...after.sections.keys()]);
  const changed = [...sections].filter((name) => before.sections.has(name) !== after.sections.has(name));
  return [...differencesOf(before, after, workspace.catalogue), ...changed];
}

/** Findings of a file that are there after a change and were not before, by code and severity. */
export function newFindings(before: Workspace, after: Workspace, file: FilePath): Finding[] {
  const counts = new Map<string, number>();
  const key = ({ code, severity }: Finding) => `${code} ${severity}`;
  for (const finding of findingsOf(before, file)) counts.set(key(finding), (counts.get(key(finding)) ?? 0) + 1);
  return findingsOf(after, file).filter((finding) => {
    const left = counts.get(key(finding)) ?? 0;
    counts.set(key(finding), left - 1);
    return left <= 0;
  });
}
