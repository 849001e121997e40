/** What a change of several craft has of each of them, with files by their paths. */
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { FleetChangeCraft } from "../../protocol/fleet-change.ts";
import { findingSteps } from "../../rules/engine/engine.ts";
import { joinWithAnd } from "../../text/list.ts";
import type { Steps } from "../../text/steps.ts";
import { textWith, withFiles } from "../context/trial.ts";
import type { FileEdits } from "../edits/osd-write.ts";

/** As in the protocol, with the edits as the core makes them. */
export interface CoreChange {
  readonly title: string;
  readonly notes: readonly string[];
  readonly craft: readonly FleetChangeCraft[];
  readonly files: readonly FileEdits[];
}

/** The workspace as it would be. */
export function withEdits(workspace: Workspace, files: readonly FileEdits[]): Workspace {
  const texts = files.map(({ file, edits }) => [file, textWith(workspace.script(file)!, edits)] as const);
  return texts.length === 0 ? workspace : withFiles(workspace, new Map(texts));
}

const RANK = { error: 0, warning: 1, info: 2, hint: 3 };

/** The findings of a craft that it does not have now, the worst first. */
export function* foundAnew(now: Workspace, after: Workspace, file: FilePath): Steps<FleetChangeCraft["findings"]> {
  const before = new Map<string, number>();
  for (const each of yield* findingSteps(now, file)) before.set(keyOf(each), (before.get(keyOf(each)) ?? 0) + 1);
  return (yield* findingSteps(after, file))
    .filter((each) => {
      const count = before.get(keyOf(each)) ?? 0;
      before.set(keyOf(each), count - 1);
      return count <= 0;
    })
    .sort((a, b) => RANK[a.severity] - RANK[b.severity])
    .map(({ code, severity, message }) => ({ code, severity, message }));
}

/** True for what nobody should take unseen. */
export function isGrave({ severity }: FleetChangeCraft["findings"][number]): boolean {
  return severity === "error" || severity === "warning";
}

/** The same for a finding of the same kind on a line that only moved. */
function keyOf({ code, message }: { readonly code: string; readonly message: string }): string {
  return `${code} ${message.replace(/\b(lines?|file) \S*\d+/g, "$1").replace(/\.fettle:\d+/g, ".fettle")}`;
}

const MOST_NAMED = 5;

/** Names in a sentence, of many the first. */
export function few(names: readonly string[]): string {
  const quoted = names.slice(0, MOST_NAMED).map((name) => `“${name}”`);
  return joinWithAnd(names.length > MOST_NAMED ? [...quoted, `${names.length - MOST_NAMED} more`] : quoted);
}
