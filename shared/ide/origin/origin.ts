/** Where a name comes from: the files of a craft that said it, what became of each, and what can be done about it. */
import type { Craft, Source } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { OriginAction } from "../../protocol/origin.ts";
import type { Position } from "../../syntax/span.ts";
import { joinWithAnd } from "../../text/list.ts";
import { type ChainStep, chainOf, type SaidName } from "./chain.ts";
import { type Refusal, refusal } from "./move.ts";
import { craftAt, saidNameAt, wordsOf } from "./name-at.ts";
import { whyNotOverridden } from "./override.ts";

export interface Origin {
  readonly kind: "origin";
  /** SECTION.NAME. */
  readonly what: string;
  readonly craft: { readonly name: string; readonly file: FilePath };
  /** What counts now, in a few words. */
  readonly now: string;
  readonly steps: readonly OriginLine[];
  readonly actions: readonly OriginAction[];
}

/** A line that said the name or took it back, and what became of it. */
export interface OriginLine {
  readonly source: Source;
  readonly script: string;
  readonly kind: Script["kind"];
  readonly says: string;
  readonly note: string;
  readonly state: string;
  readonly counts: boolean;
}

/** The chain of the name at a position, in merge order; refused where nothing is named there, or no craft uses the file. */
export function originOf(
  workspace: Workspace,
  file: FilePath,
  at: Position,
  picked: FilePath | undefined,
): Origin | Refusal {
  const said = saidNameAt(workspace, file, at);
  if (!said) return refusal("There is no name here: put the cursor on an entry, or on a word of a “drop”.");
  const craft = craftAt(workspace, file, picked);
  if (!craft) return refusal("No craft uses this file, so nothing comes of it yet: name it in one with “use”.");
  const chain = chainOf(craft, said, workspace.catalogue);
  if (chain.length === 0) return refusal(`No file of “${craft.name}” says ${wordsOf(said)}.`);
  return {
    kind: "origin",
    what: wordsOf(said),
    craft: { name: craft.name, file: craft.file },
    now: nowInWords(craft, chain),
    steps: chain.map((step) => lineOf(craft, said, step)),
    actions: actionsFor(workspace, craft, said, chain),
  };
}

function lineOf(craft: Craft, { name }: SaidName, step: ChainStep): OriginLine {
  const script = scriptOf(craft, step.source);
  return {
    source: step.source,
    script: script.name,
    kind: script.kind,
    says: step.does === "drops" ? `drop ${step.text}` : `${name} ${step.text}`.trim(),
    note: step.note,
    state: stateOf(craft, step),
    counts: step.does === "says" && step.counts !== "no",
  };
}

function stateOf(craft: Craft, step: ChainStep): string {
  if (step.does === "drops") return step.counts === "no" ? "takes back nothing" : "takes back what stands above";
  if (step.hasFault) return step.counts === "no" ? `has a fault, ${ended(craft, step)}` : "has a fault: nothing counts";
  if (step.counts === "whole") return "counts";
  if (step.counts === "part") return `counts for ${joinWithAnd([...step.fields])}; the rest is ${ended(craft, step)}`;
  return ended(craft, step);
}

function ended(craft: Craft, { endedBy }: ChainStep): string {
  if (!endedBy) return "replaced";
  const { node } = scriptOf(craft, endedBy).tree.lines[endedBy.line]!;
  return `${node.kind === "drop" ? "dropped" : "replaced"} by ${placeOf(craft, endedBy)}`;
}

function placeOf(craft: Craft, source: Source): string {
  return `${scriptOf(craft, source).name}, line ${source.line + 1}`;
}

function scriptOf({ scripts, script }: Craft, { file }: Source): Script {
  return scripts.find((each) => each.file === file) ?? script;
}

function nowInWords(craft: Craft, chain: readonly ChainStep[]): string {
  const live = chain.filter(({ does, counts }) => does === "says" && counts !== "no");
  const names = [...new Set(live.map(({ source }) => scriptOf(craft, source).name))];
  if (live.length === 0) return `nothing counts on ${craft.name}`;
  if (live.some(({ hasFault }) => hasFault)) return `a line with a fault: nothing counts on ${craft.name}`;
  if (live.every(({ source }) => source.file === craft.file))
    return `on ${craft.name} ${live.length === 1 ? "its own line counts" : "its own lines count"}`;
  return `on ${craft.name} what ${joinWithAnd(names)} ${names.length === 1 ? "says" : "say"} counts`;
}

function actionsFor(workspace: Workspace, craft: Craft, said: SaidName, chain: readonly ChainStep[]): OriginAction[] {
  const actions: OriginAction[] = [];
  const own = chain.find(({ does, source }) => does === "says" && source.file === craft.file);
  if (whyNotOverridden(workspace, craft, said) === null)
    actions.push({ kind: "override", title: `Override here, on ${craft.name}` });
  if (own) {
    if (craft.scripts.some(({ kind }) => kind === "layer")) actions.push({ kind: "move", title: "Move to a layer…" });
    actions.push({ kind: "extract", title: "Extract a new layer…" });
  }
  const last = chain.findLast(({ does, counts }) => does === "says" && counts !== "no");
  const use = last && craft.script.uses.find((each) => leadsTo(workspace, craft.script, each, last.source.file));
  if (use && scriptOf(craft, last.source).kind === "layer")
    actions.push({
      kind: "inline",
      title: `Inline the layer ${scriptOf(craft, last.source).name} in ${craft.name}`,
      line: use.line,
    });
  return actions;
}

function leadsTo(workspace: Workspace, script: Script, use: Script["uses"][number], file: FilePath): boolean {
  const target = workspace.target(script, use);
  return target.kind === "script" && target.script.file === file;
}

/** A step of a chain in a few words, with the line that it stands on. */
export interface ShortStep {
  readonly script: string;
  readonly does: ChainStep["does"];
  readonly text: string;
  readonly source: Source;
}

/**
 * The lines of a chain where more than one file said the name or took it back, nearest last: of each file its last one,
 * what counted before a `drop` as well. Empty where one file alone has a say.
 */
export function shortChain(craft: Craft, said: SaidName, workspace: Workspace): ShortStep[] {
  const byFile = new Map<string, ShortStep>();
  for (const { source, does, text, endedBy } of chainOf(craft, said, workspace.catalogue)) {
    // What a later line of the same file replaced is of no interest to another one.
    if (endedBy?.file === source.file) continue;
    const before = byFile.get(source.file);
    const isJoined = before && does === "says" && before.does === "says";
    const words = does === "drops" ? "dropped" : isJoined ? `${before.text}; ${text}` : text;
    byFile.set(source.file, { script: scriptOf(craft, source).name, does, text: words, source });
  }
  return byFile.size > 1 ? [...byFile.values()] : [];
}
