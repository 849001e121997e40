/** Codes that nobody names, and codes that say a thing twice. */
import type { Cols, Span } from "../../syntax/span.ts";
import { bitsOf } from "../codes/number-code.ts";
import type { DialectIssue } from "../dialect.ts";
import type { CodeLine } from "../file/resolve-codes.ts";

type Drafts = ReadonlyMap<string, readonly CodeLine[]>;

/** Codes that no slot and no other code names. `named`: the names of codes in all slots, those of faulty lines too. */
export function codesUnused(
  drafts: Drafts,
  named: ReadonlySet<string>,
  nameAt: (line: number) => Cols,
): DialectIssue[] {
  const used = new Set(named);
  for (const lines of drafts.values())
    for (const { draft } of lines) {
      if (draft.kind === "list") used.add(draft.of.code);
      else if (draft.kind === "bits") for (const { code } of draft.parts) if (code) used.add(code.code);
    }
  return [...drafts].flatMap(([name, [first]]) =>
    used.has(name) || !first
      ? []
      : [
          {
            code: "code-unused" as const,
            message: `No slot names the code “${name}”: name it in one, as in “{v:${name}}”, or take this line out.`,
            span: { line: first.line, ...nameAt(first.line) },
          },
        ],
  );
}

/** One thing of a code that stands twice. */
interface Item extends Span {
  readonly theirs: string;
  readonly ours: string | null;
}

/** Words that are read as two values, two words for one value, and bits that belong to two parts. */
export function codesTwice(drafts: Drafts): DialectIssue[] {
  const issues: DialectIssue[] = [];
  for (const [name, lines] of drafts) {
    const items: Item[] = [];
    for (const { line, draft } of lines) {
      if (draft.kind === "words" || draft.kind === "letters")
        for (const { theirs, ours, at } of draft.words) items.push({ theirs, ours, line, ...at });
      else if (draft.kind === "set")
        for (const { bit, ours, at } of draft.items) items.push({ theirs: String(bit), ours, line, ...at });
    }
    issues.push(...twiceIn(name, items));
    const [first] = lines;
    if (first?.draft.kind === "bits") issues.push(...overlapping(first.draft, name, first.line));
    if (first?.draft.kind === "set") issues.push(...beyondDigits(first.draft, items, name));
  }
  return issues;
}

function twiceIn(code: string, items: readonly Item[]): DialectIssue[] {
  const issues: DialectIssue[] = [];
  const [byTheirs, byOurs] = [new Map<string, Item>(), new Map<string, Item>()];
  for (const item of items) {
    const same = byTheirs.get(item.theirs);
    const span: Span = { line: item.line, start: item.start, end: item.end };
    if (same) {
      issues.push({
        code: "code-lossy",
        message: `“${item.theirs}” of “${code}” means “${same.ours ?? "unset"}” already, so it is never read as “${item.ours ?? "unset"}”: keep one of the two.`,
        span,
        related: [{ message: `“${same.theirs}” stands here too`, span: same }],
      });
      continue;
    }
    byTheirs.set(item.theirs, item);
    const ours = (item.ours ?? "unset").replace(/[ \t]+/g, " ");
    const before = byOurs.get(ours);
    if (!before) byOurs.set(ours, item);
    else
      issues.push({
        code: "code-lossy",
        message: `“${item.theirs}” and “${before.theirs}” both mean “${ours}” in “${code}”, so a script cannot say which of the two the board had: “${before.theirs}” is written. Keep one of them, or accept that here.`,
        span,
        related: [{ message: `“${before.theirs}” stands here`, span: before }],
      });
  }
  return issues;
}

function overlapping(draft: CodeLine["draft"] & { kind: "bits" }, name: string, line: number): DialectIssue[] {
  const owner = new Map<number, string>();
  const names = new Set<string>();
  const issues: DialectIssue[] = [];
  const add = (message: string, at: Cols) =>
    issues.push({ code: "syntax", message, span: { line, start: at.start, end: at.end } });
  const most = bitsOf(draft);
  for (const part of draft.parts) {
    const at = part.at;
    if (names.has(part.name)) add(`“${name}” has two parts called “${part.name}”: give one another name.`, at);
    names.add(part.name);
    for (let bit = part.from; bit <= part.to; bit++) {
      const other = owner.get(bit);
      if (other !== undefined) {
        add(`Bit ${bit} of “${name}” belongs to “${other}” already: parts share no bits.`, at);
        break;
      }
      owner.set(bit, part.name);
    }
    if (most !== null && draft.digits !== null && part.to >= most)
      add(tooFew(name, draft.digits, draft.base, part.to), at);
  }
  for (const { bit, at } of draft.fixed) {
    const other = owner.get(bit);
    if (other !== undefined)
      add(`Bit ${bit} of “${name}” belongs to “${other}” already: leave one of the two out.`, at);
    owner.set(bit, `${bit} is …`);
    if (most !== null && draft.digits !== null && bit >= most) add(tooFew(name, draft.digits, draft.base, bit), at);
  }
  return issues;
}

function beyondDigits(
  draft: CodeLine["draft"] & { kind: "set" },
  items: readonly Item[],
  name: string,
): DialectIssue[] {
  const most = bitsOf(draft);
  if (most === null || draft.digits === null) return [];
  return items
    .filter(({ theirs }) => Number(theirs) >= most)
    .map(({ line, start, end, theirs }) => ({
      code: "syntax",
      message: tooFew(name, draft.digits!, draft.base, Number(theirs)),
      span: { line, start, end },
    }));
}

function tooFew(name: string, digits: number, base: number, bit: number): string {
  return `There is no bit ${bit} in ${digits} ${digits === 1 ? "digit" : "digits"} to base ${base}: give “${name}” more digits, or count its bits from 0.`;
}

/** The names of codes in the slots of a line, whatever else is wrong with it. */
export function codesNamedIn(text: string): readonly string[] {
  return [...text.matchAll(/\{(?:[a-z][a-z0-9-]*|#):([a-z][a-z0-9-]*)/g)].map((match) => match[1]!);
}
