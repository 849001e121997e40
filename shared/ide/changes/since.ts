/** The findings of some files that an earlier state of all files did not have. */
import type { FilePath } from "../../model/files.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { Finding } from "../../protocol/findings.ts";
import { fileFindings, findingsOf } from "../../rules/engine/engine.ts";
import { rules } from "../../rules/engine/registry.generated.ts";
import { fileNameOf } from "../../text/file-name.ts";
import { broughtBy, type Earlier, type Known, sameLine } from "./brought.ts";
import { identityOf } from "./identity.ts";
import { renamesBetween, type Text } from "./renames.ts";

/** Codes of rules that look at one file, whose findings go along with a line that is put into another file. */
const ofOneFile = new Set(rules.filter(({ scope }) => scope !== "craft").map(({ code }) => code));

/**
 * The findings of these files that came with a change from `before` to `now`, two states of the same folder. A finding
 * that was there is known again where its line moved, or its file has another name; a second one of the same kind is
 * new. A craft is held against itself, so that one which a layer brought counts on every craft that uses it.
 */
export function findingsSince(
  before: Workspace,
  now: Workspace,
  files: readonly FilePath[],
  handset: FilePath | undefined,
): Finding[] {
  const change = changeOf(before, now, files);
  const brought = files.flatMap((file) => {
    const found = findingsOf(now, file, handset);
    if (found.length === 0) return [];
    const earlier = change.earlierName(file);
    const old = earlier === null ? [] : findingsOf(before, earlier, handset);
    return broughtBy(known(found, now), known(old, before), change.earlier).brought;
  });
  if (!brought.some(isOfOneFile)) return brought.map(({ finding }) => finding);
  return withoutMoved(brought, change.goneFindings(), change.earlier).map(({ finding }) => finding);
}

/** Without those whose line stood in another file before, and does so no longer. */
function withoutMoved(
  brought: readonly Known<Finding>[],
  gone: readonly Known<Finding>[],
  { renamed }: Earlier,
): readonly Known<Finding>[] {
  const left = new Map<string, number>();
  for (const { identity } of gone) {
    const key = sameLine({ ...identity, words: renamed(identity.words) });
    left.set(key, (left.get(key) ?? 0) + 1);
  }
  return brought.filter((each) => {
    const key = sameLine(each.identity);
    const count = isOfOneFile(each) ? (left.get(key) ?? 0) : 0;
    if (count > 0) left.set(key, count - 1);
    return count === 0;
  });
}

function isOfOneFile({ finding }: Known<Finding>): boolean {
  return ofOneFile.has(finding.code);
}

function known(findings: readonly Finding[], workspace: Workspace): Known<Finding>[] {
  return findings.map((finding) => ({ finding, identity: identityOf(finding, workspace) }));
}

/** What became of the files between two states; found out only as far as it is asked for. */
function changeOf(before: Workspace, now: Workspace, files: readonly FilePath[]) {
  let renames: ReadonlyMap<FilePath, FilePath> | null = null;
  const stays = new Map<FilePath, { readonly first: number; readonly last: number }>();
  const renamesNow = () => {
    renames ??= renamesIn(before, now, files);
    return renames;
  };
  const earlierName = (file: FilePath) => (before.script(file) ? file : (renamesNow().get(file) ?? null));
  const earlier: Earlier = {
    stays(file, line) {
      if (!stays.has(file)) {
        const name = earlierName(file);
        stays.set(file, changedLines(name === null ? null : before.script(name), now.script(file)));
      }
      const { first, last } = stays.get(file)!;
      return line < first || line > last;
    },
    renamed(words) {
      let said = words;
      for (const [to, from] of renamesNow())
        if (fileNameOf(to) !== fileNameOf(from)) said = said.replaceAll(fileNameOf(from), fileNameOf(to));
      return said;
    },
  };
  return {
    earlier,
    earlierName,
    /** The findings of single files that are no longer there, in all files that are not as they were. */
    goneFindings() {
      const pairs = new Map(before.view.list().map((file) => [file, file]));
      for (const [to, from] of renamesNow()) pairs.set(from, to);
      return [...pairs].flatMap(([from, to]) => {
        const [old, script] = [before.script(from), now.script(to)];
        if (!old || (from === to && script && textOf(old) === textOf(script))) return [];
        const [was, is] = [ofFile(old, before), script ? ofFile(script, now) : []];
        return broughtBy(is, was, earlier).leftOver;
      });
    },
  };
}

function ofFile(script: Script, workspace: Workspace): Known<Finding>[] {
  return known(
    fileFindings(workspace, script).filter(({ code }) => ofOneFile.has(code)),
    workspace,
  );
}

function renamesIn(before: Workspace, now: Workspace, files: readonly FilePath[]) {
  const [was, is] = [new Set(before.view.list()), new Set([...now.view.list(), ...files])];
  const texts = (workspace: Workspace, paths: Iterable<FilePath>, others: Workspace): Text[] =>
    [...paths].flatMap((path) => {
      const script = others.script(path) ? null : workspace.script(path);
      return script ? [{ path, text: textOf(script) }] : [];
    });
  return renamesBetween(texts(before, was, now), texts(now, is, before));
}

function textOf({ tree }: Script): string {
  return tree.lines.map(({ text }, i) => text + tree.ends[i]).join("");
}

/** The first and the last line of a text that are not, from its beginning or its end, as they were. */
function changedLines(old: Script | null, script: Script | null) {
  const [from, to] = [old?.tree.lines ?? [], script?.tree.lines ?? []];
  const most = Math.min(from.length, to.length);
  let head = 0;
  while (head < most && from[head]!.text === to[head]!.text) head++;
  let tail = 0;
  while (tail < most - head && from[from.length - 1 - tail]!.text === to[to.length - 1 - tail]!.text) tail++;
  return { first: head, last: to.length - 1 - tail };
}
