/** A craft as one script for others: all its files in one, what is private taken out, checked to say the same. */
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Finding } from "../../protocol/findings.ts";
import { findingSteps } from "../../rules/engine/engine.ts";
import { finish, type Steps } from "../../text/steps.ts";
import { differencesOf } from "../compare/compare.ts";
import { missingParts } from "../context/missing-parts.ts";
import { withFile } from "../context/trial.ts";
import type { Listed } from "./ledger.ts";
import { type BoardText, sharedText } from "./shared-text.ts";

export type { Listed } from "./ledger.ts";

export type Shared =
  | {
      readonly kind: "shared";
      readonly text: string;
      readonly taken: readonly Listed[];
      readonly kept: readonly Listed[];
    }
  /** Why the craft cannot be shared as it is, in a sentence. */
  | { readonly kind: "refused"; readonly message: string };

/**
 * The craft as one script that needs no other file: its layers laid over one another, the controls of its handset
 * restated, its notes kept. What is private is taken out and listed, as is what one script cannot say.
 */
export function shareCraft(craft: Craft, workspace: Workspace, board: BoardText): Shared {
  return finish(shareSteps(craft, workspace, board));
}

/** The same in steps: on the longest craft they take a second. */
export function* shareSteps(craft: Craft, workspace: Workspace, board: BoardText): Steps<Shared> {
  const [missing] = missingParts(craft).filter(({ path }) => path !== null && isAbsent(craft, path));
  if (missing) {
    return {
      kind: "refused",
      message: `${missing.message} What it says would be missing for whoever gets the script: put that right first.`,
    };
  }
  const made = yield* sharedText(craft, workspace, board);
  const text = yield* withNotesThatFit(made.text, craft, workspace);
  yield;
  const wrong = notTheSame(craft, text, made.taken, workspace);
  if (wrong === null) return { kind: "shared", text, taken: made.taken, kept: made.kept };
  return {
    kind: "refused",
    message: `The shared script would not be the same craft (${wrong}), which is a fault of this program: nothing was made.`,
  };
}

/** Whether a file is not there at all, or not understood as a whole; with lines that have faults it is there. */
function isAbsent({ gaps }: Craft, path: string): boolean {
  return gaps.some((gap) => gap.path === path && ["missing", "unread", "newer"].includes(gap.why));
}

/** The first thing that differs between the craft and the shared text and is not among what was taken; null for none. */
function notTheSame(craft: Craft, text: string, taken: readonly Listed[], workspace: Workspace): string | null {
  const trial = withFile(workspace, craft.file, text);
  const shared = trial.craft(craft.file);
  if (!shared) return "it is no craft";
  const listed = new Set(taken.map(({ what }) => what));
  const differing = differencesOf(craft, shared, workspace.catalogue);
  return differing.find(({ what }) => !listed.has(what))?.what ?? null;
}

/**
 * The text with a note above each line on which something is found that was not found on the craft, where that comes
 * of the sharing itself; and without the notes that accept what is found no more, as what a layer by itself had.
 */
function* withNotesThatFit(text: string, craft: Craft, workspace: Workspace): Steps<string> {
  const before = new Set<string>();
  for (const { file } of craft.scripts) for (const { code } of yield* findingSteps(workspace, file)) before.add(code);
  const added = new Map<number, Set<string>>();
  const idle = new Set<number>();
  for (const finding of yield* findingSteps(withFile(workspace, craft.file, text), craft.file)) {
    const { line } = finding.range.start;
    if (finding.code === "allow-unused") idle.add(line);
    const why = before.has(finding.code) ? null : whyAccepted(finding);
    if (why !== null) added.set(line, (added.get(line) ?? new Set()).add(`# allow ${finding.code}: ${why}`));
  }
  return text
    .split("\n")
    .flatMap((line, at) => {
      if (idle.has(at)) return [];
      const indent = /^ */.exec(line)![0];
      return [...[...(added.get(at) ?? [])].map((note) => indent + note), line];
    })
    .join("\n");
}

/**
 * Why a finding that came with the sharing is accepted; null for all others, which nothing silences for whoever gets
 * the script. In a handset a control may lie on a channel that this craft does not have, as long as it is not used.
 */
function whyAccepted({ code }: Finding): string | null {
  if (/^(?:channel-beyond|levels-lost)$/.test(code)) return "it is on the handset, and this craft does not use it";
  return /^(?:osd-(?:overlap|off-grid|unsafe-area|centre-clutter)|setting-needs)$/.test(code)
    ? "something was taken out before sharing"
    : null;
}

/** What a craft cannot say, and what therefore is not private and yet not in it. */
export function isOfHandset({ what }: Pick<Listed, "what">): boolean {
  return /^(?:handset|transmitter)\./.test(what);
}

/** The path under which a shared script is proposed to be saved, beside the craft's own. */
export function sharedPath(file: FilePath): string {
  return file.replace(/(?:\.fettle)?$/, "-shared.fettle");
}
