/** What several lines say one by one: the lines of a repeatable setting, and the items of a list where lines add up. */
import { printValue } from "../../syntax/print-value.ts";
import type { Value } from "../../syntax/value.ts";
import type { Meaning } from "../dialect.ts";
import { nameOf, saidOf } from "../read/sayings.ts";
import { canChange, type Draft } from "./draft.ts";
import { itemGroups, type Plan } from "./plan.ts";
import { isNamed } from "./unify.ts";
import type { Want } from "./wanted.ts";

/** The lines of each repeatable setting, and the items of lists that have a line each. */
export function itemsOf(draft: Draft, wants: readonly Want[]): Want[][] {
  const groups = new Map<string, Want[]>();
  for (const want of wants) {
    const items = want.item !== null ? [want] : listItems(draft, want);
    if (items.length === 0) continue;
    const group = groups.get(want.what);
    if (group) group.push(...items);
    else groups.set(want.what, [...items]);
  }
  return [...groups.values()];
}

/** Each item of a list as a line of its own; none where one line says the whole list. */
export function listItems(draft: Draft, want: Want): Want[] {
  const { content } = want;
  if (content.kind !== "value" || (content.value.kind !== "list" && content.value.kind !== "order")) return [];
  const first = draft.dialect.meanings.find((each) => isNamed(each, want) && each.right.value.kind !== "unset");
  if (!first || !hasLineEach(draft, first)) return [];
  const { value } = content;
  const items: Value[] =
    value.kind === "list"
      ? value.items.map((item) => ({ ...value, items: [item] }))
      : value.words.map((word) => ({ ...value, words: [word] }));
  return items.map((item, i) => ({
    ...want,
    item: i,
    content: { kind: "value", value: item },
    rest: printValue(item),
  }));
}

/** Whether lines of this kind add up, and each says one item. */
function hasLineEach({ dialect }: Draft, { lefts, right: { value } }: Meaning): boolean {
  const [only] = lefts;
  if (!only || lefts.length > 1 || (value.kind !== "value" && value.kind !== "constant" && value.kind !== "word"))
    return false;
  const [head] = only.pattern.parts;
  const begins = head?.kind === "literal" ? head.text : "";
  const addsUp = only.pattern.slots.has("#") || dialect.text.repeats.some((each) => begins.startsWith(each));
  const code = value.kind === "value" ? only.pattern.slots.get(value.terms[0]?.slot ?? "")?.code?.kind : undefined;
  return addsUp && code !== "list" && code !== "set" && code !== "letters";
}

/** An equal item keeps its place; the others take what is left of the base's, then new ones. */
export function chooseForItems(plan: Plan, items: readonly Want[], choose: (want: Want) => void): void {
  const { what } = items[0]!;
  const groups = itemGroups(plan.draft, what);
  const before = groups.map(([row]) => {
    const said = row && plan.draft.said.get(what);
    const own = row?.sayings.map(saidOf).find((each) => each !== null && nameOf(each) === what);
    // A list is joined where it is read: of its lines each is asked by itself.
    const isList = own?.body.kind === "value" && (own.body.value.kind === "list" || own.body.value.kind === "order");
    return isList && own.body.kind === "value"
      ? own.body.text
      : said?.[groups.findIndex(([each]) => each === row)]?.rest;
  });
  const used = new Set<number>();
  const open: Want[] = [];
  for (const want of items) {
    const at = before.findIndex((rest, i) => rest === want.rest && !used.has(i));
    if (at < 0) open.push(want);
    else used.add(at);
  }
  if (open.length === 0 && used.size === before.length) return;
  plan.rewritten.add(what);
  for (const at of used) for (const row of groups[at]!) plan.kept.add(row);
  const free = [...before.keys()].filter((i) => !used.has(i) && groups[i]!.every(canChange));
  for (const [i, want] of open.entries()) choose({ ...want, item: free[i] ?? before.length + i });
}
