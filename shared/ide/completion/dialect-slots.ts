/** Completion inside the braces of a slot. */
import { coversColumn } from "../context/cursor-context.ts";
import { factLineAt } from "../dialect-files/fact-line.ts";
import { CODE_WORDS } from "../dialect-files/words.ts";
import type { Offer } from "./completion-item.ts";
import { dialectAt, type InDialect } from "./dialect-context.ts";

/** Offers where the cursor stands inside a slot that is being written; null where it does not. */
export function offerSlot(at: InDialect): Offer[] | null {
  const { fact, cursor } = at;
  const slot = fact?.slots.find((each) => !each.closed && each.end === cursor.column);
  if (!slot) return null;
  const close = cursor.text[cursor.column] === "}" ? "" : "}";
  if (slot.side === "right") return slot.part ? offerParts(at, slot.name.text, close) : offerLeftSlots(at, close);
  if (slot.default && coversColumn(slot.default, cursor.column)) return [];
  return slot.how ? offerCodes(at, close) : offerNewSlot(at, close);
}

/** The codes of the file, for behind the colon; a range of whole numbers does as well. */
function offerCodes(at: InDialect, close: string): Offer[] {
  const codes = [...(dialectAt(at)?.codes.values() ?? [])].map(
    ({ name, kind }): Offer => ({
      label: name,
      kind: "code",
      detail: CODE_WORDS.find(({ word }) => word === kind)!.what,
      text: `${name}${close}`,
      group: 1,
    }),
  );
  return [
    ...codes,
    {
      label: "0 to 9",
      kind: "value",
      detail: "whole numbers, both ends included",
      text: `\${1:0} to \${2:9}${close === "" ? "" : "\\}"}`,
      snippet: true,
      group: 3,
    },
  ];
}

/** What may stand behind the brace on the left: names of slots that the line has, the number, a tab. */
function offerNewSlot({ whole, cursor }: InDialect, close: string): Offer[] {
  const names = new Set(
    (whole?.slots ?? [])
      .filter(({ start, name }) => name.text !== "" && start !== cursor.column - 1)
      .map(({ name }) => name.text),
  );
  const own = [...names].map(
    (name): Offer => ({
      label: name,
      kind: "field",
      detail: "a slot of this line: it holds the same",
      text: `${name}${close}`,
      group: 1,
    }),
  );
  return [
    ...own,
    ...(names.has("#")
      ? []
      : [
          {
            label: "#",
            kind: "field",
            detail: "the number that the board gives the line",
            text: `#:\${1:0} to \${2:9}${close === "" ? "" : "\\}"}`,
            snippet: true,
            group: 2,
          } satisfies Offer,
        ]),
    { label: "tab", kind: "keyword", detail: "a tab of the board's text", text: `tab${close}`, group: 3 },
    { label: "{", kind: "keyword", detail: "a brace of the board's text", text: "{", group: 4 },
  ];
}

/** The slots of the left side, and the parts of those that are several values in one. */
function offerLeftSlots(at: InDialect, close: string): Offer[] {
  return leftSlotsOf(at).flatMap(({ name, parts, detail }): Offer[] => [
    ...parts.map(
      (part): Offer => ({
        label: `${name}.${part}`,
        kind: "field",
        detail: "one part of it",
        text: `${name}.${part}${close}`,
        group: 1,
      }),
    ),
    { label: name, kind: "field", detail, text: `${name}${close}`, group: parts.length > 0 ? 4 : 1 },
  ]);
}

function offerParts(at: InDialect, slot: string, close: string): Offer[] {
  const found = leftSlotsOf(at).find(({ name }) => name === slot);
  return (found?.parts ?? []).map(
    (part): Offer => ({ label: part, kind: "field", detail: "one part of it", text: `${part}${close}`, group: 1 }),
  );
}

export interface LeftSlot {
  readonly name: string;
  readonly parts: readonly string[];
  readonly detail: string;
  /** Whether the right side has it already. */
  readonly isUsed: boolean;
}

/** The slots of the left sides of a line, each once; those of its heading and of the section's title too. */
export function leftSlotsOf(at: InDialect): LeftSlot[] {
  const { whole, cursor } = at;
  const dialect = dialectAt(at);
  const slots = new Map<string, LeftSlot>();
  const used = new Set(
    whole?.slots.filter(({ side, end }) => side === "right" && end !== cursor.column).map(({ name }) => name.text),
  );
  for (const { name, how, side } of [...(whole?.slots ?? []), ...headingSlots(at)]) {
    if (side === "right" || name.text === "") continue;
    const code = how?.isCode ? dialect?.codes.get(how.text) : undefined;
    const parts = code?.kind === "bits" ? code.parts.map((part) => part.name) : [];
    const detail = code
      ? `by ${code.name}, ${code.kind}`
      : how && how.text !== "" && !how.isCode
        ? `whole numbers, ${how.text}`
        : "a slot of the left side";
    const known = slots.get(name.text);
    if (!known || (known.parts.length === 0 && (parts.length > 0 || how)))
      slots.set(name.text, { name: name.text, parts, detail, isUsed: used.has(name.text) });
  }
  return [...slots.values()];
}

function headingSlots({ workspace, cursor, section }: InDialect) {
  const { tree } = cursor.script;
  const entries = tree.sections.findLast(({ line, name }) => name === section && line < cursor.line)?.entries ?? [];
  const heading = entries.findLast((line) => line < cursor.line && /^\s+under(?![\w-])/.test(tree.lines[line]!.text));
  return heading === undefined ? [] : (factLineAt(tree, heading, workspace.catalogue)?.slots ?? []);
}
