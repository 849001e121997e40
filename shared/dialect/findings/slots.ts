/** Slots that nothing holds or nobody uses, and slots of which it is not known where they end. */
import type { Code, Dialect, DialectIssue, Left, Meaning, Pattern, Ref, Slot, SlotPart } from "../dialect.ts";
import { refsOf } from "../file/link-facts.ts";
import { spellingsOf } from "./spellings.ts";

/** The text of a line of the dialect. */
export type LineOf = (line: number) => string;

/** Slots of right sides that no left side has, and of left sides that no right side uses and that have no default. */
export function slotsUnmatched(dialect: Dialect, lineOf: LineOf): DialectIssue[] {
  const issues: DialectIssue[] = [];
  const used = new Map<Pattern, Set<string>>();
  const mistaken = new Set<Left>();
  for (const meaning of dialect.meanings) {
    const found = unheld(meaning, lineOf, used);
    issues.push(...found);
    // A slot that the left side has in vain was mostly meant by the one that the right side misses.
    if (found.length > 0) for (const left of meaning.lefts) mistaken.add(left);
  }
  for (const left of dialect.lefts) if (!mistaken.has(left)) issues.push(...unused(left, used));
  return issues;
}

/** Slots that a right side takes and nothing holds. Notes which slots of headings are taken. */
function unheld(meaning: Meaning, lineOf: LineOf, used: Map<Pattern, Set<string>>): DialectIssue[] {
  const { lefts, line, right, title } = meaning;
  const issues: DialectIssue[] = [];
  const headings = lefts.flatMap(({ under }) => (under.kind === "heading" ? [under.pattern] : []));
  for (const heading of headings) if (!used.has(heading)) used.set(heading, new Set());
  for (const ref of refsOf(right, title)) {
    const left = lefts.find(({ pattern }) => pattern.slots.has(ref.slot));
    const slot =
      left?.pattern.slots.get(ref.slot) ?? headings.find(({ slots }) => slots.has(ref.slot))?.slots.get(ref.slot);
    for (const heading of headings) used.get(heading)!.add(ref.slot);
    const why = whyUnheld(ref, slot, lefts);
    if (why !== null)
      issues.push({ code: "slot-unmatched", message: why, span: spanOfRef(ref, meaning, lineOf(line)) });
  }
  return issues;
}

function whyUnheld({ slot: name, part }: Ref, slot: Slot | undefined, lefts: readonly Left[]): string | null {
  if (!slot) {
    const names = [...new Set(lefts.flatMap(({ pattern }) => [...pattern.slots.keys()]))].filter(
      (each) => each !== "#",
    );
    const has = names.length > 0 ? `: it has ${names.map((each) => `“{${each}}”`).join(", ")}` : ", which has no slots";
    return `Nothing of the board's text stands for “{${name}}”: name it on the left${has}.`;
  }
  if (part === null || !slot.code)
    return part === null ? null : `“{${name}}” has no parts: give it a code of bits that has “${part}”.`;
  if (slot.code.kind !== "bits")
    return `“${slot.code.name}” has no parts: write “{${name}}”, or make it a code of bits that has “${part}”.`;
  if (slot.code.parts.some((each) => each.name === part)) return null;
  return `“${slot.code.name}” has no part “${part}”: it has ${slot.code.parts.map((each) => each.name).join(", ")}.`;
}

/** The columns of a slot in a right side; where it is in the section's title, those of the whole right side. */
function spanOfRef({ slot, part }: Ref, { line, at }: Meaning, text: string): DialectIssue["span"] {
  const said = `{${slot}${part === null ? "" : `.${part}`}}`;
  const start = text.indexOf(said, at.start);
  return start < 0 ? { line, start: at.start, end: at.end } : { line, start, end: start + said.length };
}

/** Slots of a left side that nobody uses, where they have no default; and those of its heading. */
function unused({ pattern, beside, under }: Left, used: Map<Pattern, Set<string>>): DialectIssue[] {
  const names = beside.filter((name) => !name.includes(".") && pattern.slots.get(name)?.default === null);
  const issues = names.map((name) => ({
    code: "slot-unmatched" as const,
    message: `Nothing on the right uses “{${name}}”, so nobody says what to write there: use it, or give it a default, as in “{${name}=0}”.`,
    span: { ...pattern.at, ...slotAt(pattern, name) },
  }));
  const heading = under.kind === "heading" ? under.pattern : null;
  const taken = heading && used.get(heading);
  if (!heading || !taken) return issues;
  // Once for each heading.
  used.delete(heading);
  for (const [name, slot] of heading.slots)
    if (!taken.has(name) && slot.default === null && name !== "#")
      issues.push({
        code: "slot-unmatched",
        message: `Nothing below this heading uses “{${name}}”, so nobody says what to write there: use it on the right, or in the section's name, or give it a default, as in “{${name}=0}”.`,
        span: { ...heading.at, ...slotAt(heading, name) },
      });
  return issues;
}

function slotAt({ parts, at }: Pattern, name: string): { start: number; end: number } {
  return parts.find((part): part is SlotPart => part.kind === "slot" && part.name === name)?.at ?? at;
}

/** Slots that end nowhere, or too early. */
export function slotsEndless(dialect: Dialect): DialectIssue[] {
  const headings = dialect.lefts.flatMap(({ under }) => (under.kind === "heading" ? [under.pattern] : []));
  const patterns = new Map<string, Pattern>();
  for (const pattern of [...dialect.text.headings, ...headings, ...dialect.lefts.map((left) => left.pattern)])
    patterns.set(`${pattern.at.line} ${pattern.at.start}`, pattern);
  return [...patterns.values()].flatMap((pattern) => endlessIn(pattern, dialect.text.blanks === "loose"));
}

function endlessIn(pattern: Pattern, isLoose: boolean): DialectIssue[] {
  const issues: DialectIssue[] = [];
  const { parts } = pattern;
  for (const [i, part] of parts.entries()) {
    if (part.kind !== "slot") continue;
    const next = parts[i + 1];
    const slot = pattern.slots.get(part.name)!;
    const why =
      next === undefined || endsAtMark(slot.code)
        ? null
        : next.kind === "slot"
          ? adjacent(part, next)
          : early(slot, next.text, i + 2 === parts.length, isLoose);
    if (why !== null) issues.push({ code: "slot-endless", message: why, span: { ...pattern.at, ...part.at } });
  }
  return issues;
}

/** Text with marks around it ends at its mark, whatever follows. */
function endsAtMark(code: Code | null): boolean {
  return (code?.kind === "text" && code.within !== "") || (code?.kind === "list" && endsAtMark(code.of));
}

function adjacent({ name }: SlotPart, next: SlotPart): string {
  return `Nothing says where “{${name}}” ends and “{${next.name}}” begins: a slot ends at the text behind it. Write what stands between them, or make them one slot with a code of bits or letters.`;
}

/** A slot ends where the text behind it next stands: what holds that text in itself is cut short. */
function early(slot: Slot, text: string, isLast: boolean, isLoose: boolean): string | null {
  const behind = isLoose ? collapsed(isLast ? text.trimEnd() : text) : text;
  if (behind === "") return null;
  const { code } = slot;
  if (code?.kind === "list" && (isLoose ? collapsed(code.by) : code.by).includes(behind))
    return `“{${slot.name}}” ends at “${behind}”, and that stands between its items: only the first would be read. Write a longer text behind it, or put this slot last.`;
  const first = code?.kind === "text" || code?.kind === "list" ? 0 : 1;
  const spelled =
    code?.kind === "words" || code?.kind === "letters" || code?.kind === "number" || slot.whole
      ? spellingsOf(slot)
      : null;
  const all = [...(spelled ?? []), ...(slot.default === null ? [] : [slot.default])];
  const cut = all.find((each) => (isLoose ? collapsed(each) : each).indexOf(behind, first) >= 0);
  return cut === undefined
    ? null
    : `“{${slot.name}}” ends at “${behind}”, and the board's “${cut}” has that in itself: it would be read only up to there. Write a longer text behind it, or put this slot last.`;
}

function collapsed(text: string): string {
  return text.replace(/[ \t]+/g, " ");
}
