/** The lines of an offered script that are not understood, or that belong to one that is not. */
import { baseOf } from "../../model/craft.ts";
import { NOT_UNDERSTOOD } from "../../model/line-faults.ts";
import type { Script } from "../../model/script.ts";

/** By line, why it is not understood. All lines of a name are out where one of them has a fault: together they say one thing. */
export function faultsIn(script: Script): ReadonlyMap<number, string> {
  const { tree, entries } = script;
  const messages = new Map<number, string>();
  for (const { code, message, span } of script.issues)
    if (NOT_UNDERSTOOD.has(code) && !messages.has(span.line)) messages.set(span.line, message);
  const faults = new Map<number, string>();
  const valued = new Set(entries.flatMap(({ line, value }) => (value === null ? [] : [line])));
  const held = new Map(script.drops.map((drop) => [drop.line, drop]));
  const kept = new Set(script.kept.map(({ source }) => source.line));
  for (const [line, { node, text }] of tree.lines.entries()) {
    if (node.kind === "blank" || node.kind === "comment" || node.kind === "header") continue;
    const issue = messages.get(line);
    if (node.kind === "section" || node.kind === "use") {
      if (issue && /^\S+\s+\S/.test(text)) faults.set(line, issue);
      continue;
    }
    const isRead = valued.has(line) || kept.has(line) || (held.has(line) && issue === undefined);
    if (!isRead) faults.set(line, issue ?? reasonOfSection(script, line, messages));
  }
  const faulty = new Map(
    entries.flatMap((entry) => (faults.has(entry.line) ? [[keyOf(entry), entry.line] as const] : [])),
  );
  for (const entry of entries) {
    const other = faulty.get(keyOf(entry));
    if (other === undefined || faults.has(entry.line)) continue;
    faults.set(
      entry.line,
      `Another line of “${entry.name}” was not understood, so what they say together is not known.`,
    );
  }
  return faults;
}

function keyOf({ section, name }: { readonly section: string; readonly name: string }): string {
  return `${section}\n${name}`;
}

/** Why an entry without an issue of its own says nothing: its section. */
function reasonOfSection({ sections }: Script, line: number, messages: ReadonlyMap<number, string>): string {
  const section = sections.findLast((each) => each.line < line);
  if (!section) return "This line stands in no section.";
  if (!section.known) return `“${baseOf(section.section)}” above it is no section of the language.`;
  return messages.get(section.line) ?? `What stands in “${baseOf(section.section)}” is not understood here.`;
}
