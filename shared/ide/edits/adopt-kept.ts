/** Board text that is kept, made the same as on another craft. */
import { type AdoptScope, lineAbove, wins } from "./adopt-entries.ts";
import { fewestChanges } from "./fewest-changes.ts";
import type { ScriptChange } from "./script-changes.ts";

/** The changes after which the craft keeps these lines of a dialect; a sentence where a later file adds to them. */
export function keptChanges(scope: AdoptScope, dialect: string, wanted: readonly string[]): ScriptChange[] | string {
  const { script, base, later } = scope;
  const section = `verbatim/${dialect}`;
  for (const each of later) {
    const kept = each.kept.findLast((line) => line.dialect === dialect)?.source.line;
    const line = kept ?? each.drops.find((drop) => drop.section === section)?.line;
    if (line !== undefined) return wins({ script: each, line }, `verbatim "${dialect}"`);
  }
  const own = script.kept.filter((line) => line.dialect === dialect);
  const isDropped = script.drops.some((drop) => drop.section === section && drop.all);
  const below = isDropped ? [] : base.kept.filter((line) => line.dialect === dialect).map(({ text }) => text);
  // Lines of one dialect follow each other, file by file: what earlier files keep can only stand in front.
  const continues = below.every((text, i) => wanted[i] === text);
  const rests = continues ? wanted.slice(below.length) : wanted;
  const changes: ScriptChange[] = continues ? [] : [{ kind: "drop", section, name: "all" }];
  const steps = fewestChanges(
    own.map(({ text }) => text),
    rests,
  );
  for (const step of steps) {
    if (step.kind === "keep") continue;
    const text = step.kind === "remove" ? "" : rests[step.to]!;
    if (step.kind !== "add") {
      const { line } = own[step.from]!.source;
      changes.push(step.kind === "remove" ? { kind: "delete", line } : { kind: "value", line, text });
    } else if (own.length === 0) changes.push({ kind: "kept", section, text });
    else {
      const { line } = own[Math.max(0, step.after)]!.source;
      const { node, text: model } = script.tree.lines[line]!;
      const before = node.kind === "kept" ? model.slice(0, node.bar + 1) : "  |";
      changes.push({ kind: "below", line: step.after < 0 ? lineAbove(script, line) : line, text: before + text });
    }
  }
  return changes;
}
