/** Go to definition in a dialect: from a slot to its code or to where it is first named, from a heading to the line that says it is one. */
import type { Dialect } from "../../dialect/dialect.ts";
import { dialectOf } from "../../dialect/dialects.ts";
import type { Script } from "../../model/script.ts";
import type { Workspace } from "../../model/workspace.ts";
import { type Cols, type Position, rangeOf, spanAt } from "../../syntax/span.ts";
import { coversColumn } from "../context/cursor-context.ts";
import { type FactLine, factLineAt } from "../dialect-files/fact-line.ts";
import type { Definition } from "./definition-target.ts";

/** The definitions at a position of a dialect; none where nothing leads on. */
export function dialectDefinitionsAt(workspace: Workspace, script: Script, at: Position): Definition[] {
  const dialect = dialectOf(workspace, script.file);
  const fact = factLineAt(script.tree, at.line, workspace.catalogue);
  if (!dialect || !fact) return [];
  const to = (from: Cols, lines: readonly { readonly line: number; readonly cols?: Cols }[]): Definition[] =>
    lines.map(({ line, cols }) => ({
      from: rangeOf(spanAt(at.line, from)),
      file: script.file,
      range: rangeOf(spanAt(line, cols ?? contentOf(script, line))),
    }));
  const slot = fact.slots.find((each) => coversColumn(each, at.character));
  const text = script.tree.lines[at.line]!.text;
  if (slot) {
    const name = slot.how?.isCode ? slot.how.text : codeOfSlot(dialect, at.line, slot.name.text);
    const code = name === null ? undefined : dialect.codes.get(name);
    if (code) {
      const part = code.kind === "bits" ? code.parts.find((each) => each.name === slot.part?.text) : undefined;
      const own = part?.code && !coversColumn(slot.name, at.character) ? part.code : code;
      return to(
        slot,
        own.lines.map((line) => ({ line })),
      );
    }
    const first =
      slot.side === "right"
        ? fact.slots.find((each) => each.side === "left" && each.name.text === slot.name.text)
        : undefined;
    return first ? to(slot, [{ line: at.line, cols: first }]) : [];
  }
  const piece = fact.pieces.find((each) => each.kind === "code" && coversColumn(each, at.character));
  if (piece) {
    const code = dialect.codes.get(text.slice(piece.start, piece.end));
    return code
      ? to(
          piece,
          code.lines.map((line) => ({ line })),
        )
      : [];
  }
  return fact.kind === "under"
    ? to(wholeOf(fact), headingLines(script, workspace, text.slice(wholeOf(fact).start, wholeOf(fact).end)))
    : [];
}

function contentOf(script: Script, line: number): Cols {
  const { node, text } = script.tree.lines[line]!;
  return node.kind === "fact" ? node.content : { start: 0, end: text.length };
}

/** The code of a slot of the left sides of a line; null where it has none. */
export function codeOfSlot(dialect: Dialect, line: number, name: string): string | null {
  for (const { lefts } of dialect.meanings.filter((each) => each.line === line))
    for (const { pattern, under } of lefts) {
      const slot = pattern.slots.get(name) ?? (under.kind === "heading" ? under.pattern.slots.get(name) : undefined);
      if (slot) return slot.code?.name ?? null;
    }
  return null;
}

function wholeOf({ texts, head }: FactLine): Cols {
  return texts[0] ?? head ?? { start: 0, end: 0 };
}

/** The facts `heading` whose text is that of an `under`, up to codes and defaults of its slots. */
function headingLines(script: Script, { catalogue }: Workspace, quoted: string): { line: number }[] {
  const plain = (text: string) => text.slice(1, -1).replace(/\{([a-z][a-z0-9-]*|#)[:=][^}]*\}/g, "{$1}");
  const { tree } = script;
  return tree.sections
    .filter(({ name }) => name === "text")
    .flatMap(({ entries }) => entries)
    .filter((line) => {
      const fact = factLineAt(tree, line, catalogue);
      const { text } = tree.lines[line]!;
      if (!fact?.head || text.slice(fact.head.start, fact.head.end) !== "heading") return false;
      const [own] = fact.texts;
      return own !== undefined && fits(plain(text.slice(own.start, own.end)), plain(quoted));
    })
    .map((line) => ({ line }));
}

/** Whether a heading's form has this text: a slot stands for any. */
function fits(form: string, text: string): boolean {
  if (form === text) return true;
  const parts = form.split(/\{[^}]*\}/);
  if (parts.length < 2) return false;
  let at = 0;
  return (
    text.startsWith(parts[0]!) &&
    text.endsWith(parts.at(-1)!) &&
    parts.every((part) => {
      const found = text.indexOf(part, at);
      at = found + part.length;
      return found >= 0;
    })
  );
}
