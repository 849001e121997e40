/**
 * Which slots of a dialect are one slot: those of a line, of all lines whose left sides are equal up to codes and
 * defaults, and of the headings above them. To give one of them another name without the others would tear them apart.
 */
import type { Catalogue } from "../../catalogue/catalogue.ts";
import type { Line, Section, Tree } from "../../syntax/tree.ts";
import { type FactLine, factLineIn } from "../dialect-files/fact-line.ts";
import { type SlotUse, slotsBetween } from "../dialect-files/slot-uses.ts";

export interface SlotGroups {
  /** The group of a slot on a line: equal for slots that are one. */
  of(line: number, name: string): string;
  /** The line on which another slot that one in this group would meet has a name; null where none has it. */
  lineWith(group: string, name: string): number | null;
}

/** The slots on the line of a section's name, as in `pack "{n}"`. */
export function titleSlots({ node, text }: Line): SlotUse[] {
  if (node.kind !== "section" || !node.title) return [];
  return slotsBetween(text, { start: node.title.start + 1, end: node.title.end - 1 }, "right");
}

/** A place at which slots meet: a line, an equal left side, a heading. */
type Holder = string;

interface Draft {
  readonly tree: Tree;
  readonly catalogue: Catalogue;
  /** The names of the slots on each line. */
  readonly onLine: Map<number, Set<string>>;
  readonly inHeading: Map<string, Set<string>>;
  /** Lines below no heading of their own that take slots from whichever stands above. */
  readonly loose: number[];
  /** Which holders share their slots of equal name. */
  readonly links: [Holder, Holder][];
}

/** The groups of the slots of a dialect's tree. */
export function slotGroups(tree: Tree, catalogue: Catalogue): SlotGroups {
  const draft: Draft = { tree, catalogue, onLine: new Map(), inHeading: new Map(), loose: [], links: [] };
  const facts = new Map<string, number[]>();
  const bare: { readonly section: Section; readonly headings: readonly string[] }[] = [];
  for (const section of tree.sections) {
    const found = lookThrough(draft, section);
    if (found.lines.length > 0) facts.set(section.name, [...(facts.get(section.name) ?? []), ...found.lines]);
    else if (found.headings.length > 0) bare.push({ section, headings: found.headings });
  }
  // A second set that only names headings takes the lines of the first one below them.
  for (const { section, headings } of bare)
    for (const line of facts.get(catalogue.section(section.name)?.like ?? "") ?? [])
      for (const heading of headings) draft.links.push([atLine(line), heading]);
  for (const line of draft.loose)
    for (const heading of draft.inHeading.keys()) if (draft.onLine.has(line)) draft.links.push([atLine(line), heading]);
  return joined(draft);
}

const LINE = "line ";

function atLine(line: number): Holder {
  return `${LINE}${line}`;
}

/** Links the lines of one section. Gives those that mean something, and the headings that it names. */
function lookThrough(draft: Draft, section: Section): { readonly lines: number[]; readonly headings: string[] } {
  const { tree, catalogue, onLine, links } = draft;
  const lines: number[] = [];
  const headings: string[] = [];
  const title = titleSlots(tree.lines[section.line]!);
  if (title.length > 0) onLine.set(section.line, namesOf(title));
  let under = "";
  for (const line of section.entries) {
    const fact = factLineIn(section.name, tree.lines[line]!, catalogue);
    if (!fact || fact.kind === "code" || fact.kind === "cannot") continue;
    const { text } = tree.lines[line]!;
    onLine.set(line, namesOf(fact.slots));
    const [first] = fact.texts;
    if (fact.kind === "under" || fact.kind === "text") {
      if (!first || (fact.kind === "text" && !saysHeading(fact, text))) continue;
      const heading = `heading ${keyOf(text, first)}`;
      draft.inHeading.set(heading, namesOf(fact.slots));
      links.push([atLine(line), heading]);
      if (fact.kind === "under") {
        under = heading;
        headings.push(heading);
        if (title.length > 0) links.push([atLine(section.line), heading]);
      }
      continue;
    }
    lines.push(line);
    if (under === "" && (title.length > 0 || looksAbove(fact))) draft.loose.push(line, section.line);
    for (const own of fact.texts) links.push([atLine(line), `left ${keyOf(text, own)} ${under}`]);
    if (under !== "") links.push([atLine(line), under]);
    if (title.length > 0) links.push([atLine(line), atLine(section.line)]);
  }
  return { lines, headings };
}

/** Whether slots of the heading that happens to stand above serve a line: several texts, or one that says less than is meant. */
function looksAbove({ texts, slots }: FactLine): boolean {
  const left = new Set(slots.filter(({ side }) => side === "left").map(({ name }) => name.text));
  return texts.length > 1 || slots.some(({ name }) => !left.has(name.text));
}

function saysHeading({ head }: FactLine, text: string): boolean {
  return head !== null && text.slice(head.start, head.end) === "heading";
}

function namesOf(slots: readonly SlotUse[]): Set<string> {
  return new Set(slots.map(({ name }) => name.text));
}

/** The text of a left side with its slots by name alone: equal for left sides that are one. */
function keyOf(text: string, at: FactLine["texts"][number]): string {
  const start = at.start + 1;
  const end = at.closed ? at.end - 1 : at.end;
  let key = "";
  let from = start;
  for (const slot of slotsBetween(text, { start, end }, "left")) {
    key += `${text.slice(from, slot.start)}{${slot.name.text}}`;
    from = slot.end;
  }
  key += text.slice(from, end);
  return text[at.start] === '"' ? key.replace(/\\(["\\])/g, "$1") : key;
}

/** Joins slots of equal names over all links. */
function joined({ onLine, inHeading, links }: Draft): SlotGroups {
  const parents = new Map<string, string>();
  const rootOf = (node: string): string => {
    let root = node;
    for (let next = parents.get(root); next !== undefined; next = parents.get(root)) root = next;
    for (let each = node; each !== root; ) {
      const next = parents.get(each)!;
      parents.set(each, root);
      each = next;
    }
    return root;
  };
  const nodeOf = (holder: Holder, name: string) => `${name} ${holder}`;
  const namesAt = new Map<Holder, Set<string>>([...inHeading].map(([key, names]) => [key, new Set(names)]));
  for (const [line, names] of onLine) namesAt.set(atLine(line), names);
  // A left side holds what its lines do: each of them passes its names on.
  for (const [line, to] of links)
    if (to.startsWith("left ")) namesAt.set(to, new Set([...(namesAt.get(to) ?? []), ...(namesAt.get(line) ?? [])]));
  for (const [a, b] of links)
    for (const name of namesAt.get(a) ?? []) {
      if (!namesAt.get(b)?.has(name)) continue;
      const [one, other] = [rootOf(nodeOf(a, name)), rootOf(nodeOf(b, name))];
      if (one !== other) parents.set(one, other);
    }
  const holders = new Map<string, Holder[]>();
  for (const [holder, names] of namesAt) for (const name of names) push(holders, rootOf(nodeOf(holder, name)), holder);
  const linked = new Map<Holder, Holder[]>();
  for (const [a, b] of links) {
    push(linked, a, b);
    push(linked, b, a);
  }
  const near = (holder: Holder) => [holder, ...(linked.get(holder) ?? [])];
  return {
    of: (line, name) => rootOf(nodeOf(atLine(line), name)),
    lineWith(group, name) {
      for (const holder of holders.get(group) ?? [])
        for (const met of near(holder)) {
          if (!namesAt.get(met)?.has(name)) continue;
          const lines = near(met).flatMap((each) => (each.startsWith(LINE) ? Number(each.slice(LINE.length)) : []));
          return lines.find((line) => onLine.get(line)?.has(name)) ?? lines[0] ?? null;
        }
      return null;
    },
  };
}

function push(lists: Map<string, string[]>, key: string, value: string): void {
  const list = lists.get(key);
  if (list) list.push(value);
  else lists.set(key, [value]);
}
