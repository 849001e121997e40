/** A layer's lines written into the file that uses it, in place of its `use` line; the effective craft stays the same. */
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import { NOT_UNDERSTOOD } from "../../model/line-faults.ts";
import type { Script, Use } from "../../model/script.ts";
import { pathBetween } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import { quote } from "../../syntax/scanner.ts";
import { finish, type Steps } from "../../text/steps.ts";
import { newerEdition, whyNotWritable } from "../edits/script-edits.ts";
import { acceptedOnUse } from "./accepted-on-use.ts";
import { type Draft, draftOf } from "./draft.ts";
import { spareBlanks, withoutWords } from "./groups.ts";
import { itemsOf, sectionsOf } from "./items.ts";
import { laidUnder, type Under } from "./laid-under.ts";
import { finished, type Moved, type Refusal, refusal } from "./move.ts";
import { putGroups } from "./put-lines.ts";
import { newFindings, tried } from "./same-craft.ts";

/** Writes the layer of a `use` line into the file of that line. */
export function inlineLayer(workspace: Workspace, file: FilePath, line: number): Moved {
  return finish(inlineSteps(workspace, file, line));
}

/** The same in steps: where the file is a layer itself, every craft that uses it is held against what it would be. */
export function* inlineSteps(workspace: Workspace, file: FilePath, line: number): Steps<Moved> {
  const begun = beginning(workspace, file, line);
  if ("kind" in begun) return begun;
  const { whole, script, layer, use, craft } = begun;
  const under = laidUnder(whole, layer, workspace.catalogue);
  if (typeof under === "string") return refusal(under);
  const uses = usesAfter(workspace, script, layer, use);
  if (typeof uses === "string") return refusal(uses);
  const draft = makeDraft(begun, under, uses, notesThatServe(workspace, begun, under, uses));
  const others = craft === null ? workspace.craftFilesWith(file) : [];
  const trial = tried(workspace, [draft]);
  for (const other of others) {
    yield;
    const each = workspace.craft(other)!;
    const made = trial.craft(each.file);
    if (!made || finished(workspace, each, [draft], [], []).kind === "refused")
      return refusal(
        `“${each.name}” uses this file and would be another craft after it, so “${layer.name}” stays a layer.`,
      );
  }
  return finished(workspace, whole, [draft], [], left(under, layer));
}

/** Which notes of the layer have something to accept in this file: those that have not would be findings of their own. */
function notesThatServe(workspace: Workspace, begun: Beginning, under: Under, uses: UsesAfter): Notes {
  const { script, layer, accepted } = begun;
  if (layer.allowances.length + accepted.size === 0) return NO_NOTES;
  const after = tried(workspace, [makeDraft(begun, under, uses, NO_NOTES)]);
  const found = newFindings(workspace, after, script.file);
  const codes = new Set(found.map(({ code }) => code));
  const header = layer.allowances.filter(({ holds, code }) => holds === "file" && codes.has(code));
  const idle = found
    .filter(({ code }) => code === "allow-unused")
    .map(({ range }) => after.script(script.file)!.tree.lines[range.start.line]!)
    .map(({ text, comment }) => (comment ? text.slice(comment.start).trim() : ""));
  return { header: header.map(({ span }) => layer.tree.lines[span.line]!.text.trim()), idle: new Set(idle) };
}

function left({ leftOut }: Under, { name }: Script): string[] {
  if (leftOut === 0) return [];
  return [
    leftOut === 1
      ? `One line of “${name}” did not come along, since it does not count on this craft.`
      : `${leftOut} lines of “${name}” did not come along, since they do not count on this craft.`,
  ];
}

interface Beginning {
  /** The file of the `use` line with all it uses, as if it were a craft. */
  readonly whole: Craft;
  /** The craft, where the file is one. */
  readonly craft: Craft | null;
  readonly script: Script;
  readonly layer: Script;
  readonly use: Use;
  /** Of a line of the layer the comments that accept a finding of it on the `use` line. */
  readonly accepted: ReadonlyMap<number, readonly string[]>;
}

function beginning(workspace: Workspace, file: FilePath, line: number): Beginning | Refusal {
  const script = workspace.script(file);
  const use = script?.uses.find((each) => each.line === line);
  if (!script || !use)
    return refusal("There is no “use” line here: put the cursor on the one whose layer is to be written out.");
  const target = workspace.target(script, use);
  if (target.kind !== "script")
    return refusal(`This “use” leads nowhere${target.kind === "none" ? `: ${target.why}` : ""}.`);
  const layer = target.script;
  if (layer.kind === "handset" || script.kind === "handset")
    return refusal("A handset stays a file of its own: a craft cannot say what a handset says.");
  if (layer.kind !== "layer") return refusal(`“${layer.name}” is no layer.`);
  for (const each of [script, layer]) if (each.tree.newer) return refusal(newerEdition(each));
  const why = whyNotWritable(workspace, script, line);
  if (why !== null) return refusal(why);
  const fault = layer.issues.find(({ code }) => NOT_UNDERSTOOD.has(code));
  if (fault)
    return refusal(
      `Line ${fault.span.line + 1} of “${layer.name}” has a fault: mend it first, as it would be lost or come along.`,
    );
  const whole = workspace.craftLike(file)!;
  if (whole.gaps.some(({ why: cause }) => cause !== "fault"))
    return refusal(
      `Not every file that “${script.name}” uses could be read, so it is not known what would count: mend its “use” lines first.`,
    );
  const again = whole.scripts.find(
    (each) => each.file !== file && each.uses.some((other) => leadsTo(workspace, each, other, layer)),
  );
  if (again)
    return refusal(
      `“${again.name}” uses “${layer.name}” too, so it would stay a part of “${script.name}”: write it out there first.`,
    );
  return {
    whole,
    craft: workspace.craft(file),
    script,
    layer,
    use,
    accepted: acceptedOnUse(whole, use, layer, workspace),
  };
}

function leadsTo(workspace: Workspace, from: Script, use: Use, to: Script): boolean {
  const target = workspace.target(from, use);
  return target.kind === "script" && target.script.file === to.file;
}

/** What becomes of the `use` lines: those of the layer take the place of its own, and none is there twice. */
interface UsesAfter {
  /** The paths of the layer's own, as the file would write them. */
  readonly written: readonly string[];
  /** Lines of the file that go. */
  readonly gone: readonly number[];
}

function usesAfter(workspace: Workspace, script: Script, layer: Script, use: Use): UsesAfter | string {
  interface Step {
    readonly target: Script;
    readonly line: number | null;
  }
  const steps: Step[] = [];
  for (const own of script.uses) {
    const isIt = own.line === use.line;
    for (const each of isIt ? layer.uses : [own]) {
      const target = workspace.target(isIt ? layer : script, each);
      if (target.kind !== "script")
        return `Line ${each.line + 1} of “${(isIt ? layer : script).name}” leads nowhere: mend it first.`;
      if (target.script.file !== layer.file || !isIt)
        steps.push({ target: target.script, line: isIt ? null : own.line });
    }
  }
  // Of a layer the first place counts, of a handset the last.
  const stays = steps.filter(({ target }, i) => {
    const isSame = (other: Step) => other.target.file === target.file;
    return target.kind === "handset" ? !steps.slice(i + 1).some(isSame) : !steps.slice(0, i).some(isSame);
  });
  return {
    written: stays
      .filter(({ line }) => line === null)
      .map(({ target }) => `use ${quote(pathBetween(script.file, target.file))}`),
    gone: steps.filter((step) => step.line !== null && !stays.includes(step)).map(({ line }) => line!),
  };
}

interface Notes {
  /** Comments that go above the header. */
  readonly header: readonly string[];
  /** Comments that accept nothing here, and stay out. */
  readonly idle: ReadonlySet<string>;
}

const NO_NOTES: Notes = { header: [], idle: new Set() };

function makeDraft(
  { script, use, accepted }: Beginning,
  under: Under,
  { written, gone }: UsesAfter,
  notes: Notes,
): Draft {
  const draft = draftOf(script);
  const { tree } = script;
  const fresh = new Set<number>();
  for (const line of gone) for (const each of [...script.noteOf(line).lines, line]) fresh.add(each);
  const [first, ...more] = written;
  if (first === undefined) for (const each of [...script.noteOf(use.line).lines, use.line]) fresh.add(each);
  else {
    const { text, comment } = tree.lines[use.line]!;
    draft.rewrite(use.line, first + (comment ? text.slice(text.slice(0, comment.start).trimEnd().length) : ""));
    draft.insertAfter(use.line, more);
  }
  trimDrops(draft, under, fresh);
  draft.remove(fresh);
  draft.remove(spareBlanks(tree.lines, fresh));
  const without = (texts: readonly string[]) => texts.filter((text) => !notes.idle.has(text.trim()));
  const groups = under.groups.map((group) => ({
    ...group,
    note: without(group.note),
    items: group.items.map((item) => {
      const comment = idleComment(item.rest, notes.idle);
      const cut = (text: string) => (comment === "" ? text : text.slice(0, text.length - comment.length).trimEnd());
      const above = [...without(item.above), ...without(accepted.get(item.line) ?? [])];
      const indent = /^[ \t]*/.exec(item.text)![0];
      return {
        ...item,
        above: above.map((text) => (text.startsWith("#") ? indent + text : text)),
        rest: cut(item.rest),
        text: cut(item.text),
      };
    }),
  }));
  putGroups(draft, groups, "before");
  const header = tree.header ?? 0;
  const known = new Set(script.noteOf(header).lines.map((line) => tree.lines[line]!.text.trim()));
  draft.insertAfter(
    header - 1,
    [...new Set(notes.header)].filter((text) => !known.has(text)),
  );
  return draft;
}

function idleComment(rest: string, idle: ReadonlySet<string>): string {
  for (const comment of idle) if (comment !== "" && rest.endsWith(comment)) return comment;
  return "";
}

/** Takes out the drops, or words of them, that have nothing to take back any more. */
function trimDrops(draft: Draft, { idleDrops, groups }: Under, gone: Set<number>): void {
  const { script } = draft;
  for (const { line, names } of itemsOf(script)) {
    const idle = idleDrops.get(line);
    if (!idle) continue;
    if (names === null || names.every((name) => idle.has(name)))
      for (const each of [...script.noteOf(line).lines, line]) gone.add(each);
    else draft.rewrite(line, withoutWords(script, line, idle));
  }
  for (const section of sectionsOf(script)) {
    const isFilled = groups.some((group) => group.section === section.resolved && group.items.length > 0);
    const isEmpty = !isFilled && section.entries.length > 0 && section.entries.every((line) => gone.has(line));
    if (isEmpty) for (const each of [...script.noteOf(section.line).lines, section.line]) gone.add(each);
  }
}
