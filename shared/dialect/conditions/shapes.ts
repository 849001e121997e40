/** The lines of a dialect that can say when a mode is on, and what each of them can hold. */
import { encodeSlot } from "../codes/codes.ts";
import type { Dialect, Left, Meaning, RangeShape, Ref, Slot, Template } from "../dialect.ts";
import { type ChannelPlace, channelPlace, type EdgePlace, edgePlace } from "./edges.ts";

/** Lines that share a number, or a limit: no more than so many of them. */
export interface Pool {
  /** The same for the same lines of one dialect. */
  readonly key: string;
  readonly lines: number;
}

/** One range of a line. */
export interface RangePart {
  readonly channel: ChannelPlace;
  readonly from: EdgePlace;
  readonly to: EdgePlace;
  /** The same for parts that hold the same. */
  readonly like: string;
}

interface ShapeFacts {
  /** The line of the dialect; null for one made by hand. */
  readonly meaning: Meaning | null;
  readonly pools: readonly Pool[];
}

export type RangesShape = ShapeFacts & { readonly kind: "ranges"; readonly parts: readonly RangePart[] };

/** What a left side can hold of a mode's condition. */
export type BoardShape =
  | RangesShape
  | (ShapeFacts & {
      readonly kind: "mode";
      /** Whether the line can name this mode behind `when`. */
      names(mode: string): boolean;
    })
  | (ShapeFacts & { readonly kind: "always" });

const OUTPUTS = "outputs.";

/** The lines of a dialect for a mode, or for an output as `outputs.NAME`, in file order. */
export function shapesFor(dialect: Dialect, name: string): readonly BoardShape[] {
  const isOutput = name.startsWith(OUTPUTS);
  const [section, bare] = isOutput ? ["outputs", name.slice(OUTPUTS.length)] : ["modes", name];
  return dialect.meanings.flatMap((meaning) => {
    const { value, name: template } = meaning.right;
    if (meaning.section !== section || value.kind !== "condition") return [];
    const slotOf = (slot: string) => slotNamed(meaning, slot);
    if (!canBe(template, bare, slotOf)) return [];
    const facts = { meaning, pools: poolsOf(dialect, meaning, name) };
    const { shape } = value;
    if (shape.kind === "always") return { ...facts, kind: "always" as const };
    if (shape.kind === "mode") {
      const { mode } = shape;
      const names = (other: string) => canBe([mode], other, slotOf);
      return { ...facts, kind: "mode" as const, names };
    }
    const parts = partsOf(meaning, shape.ranges, slotOf);
    return parts ? { ...facts, kind: "ranges" as const, parts } : [];
  });
}

/** By the line of the dialect, which lives as long as the dialect does: what a slot can spell is worked out once. */
const knownParts = new WeakMap<Meaning, readonly RangePart[]>();

function partsOf(
  meaning: Meaning,
  ranges: readonly RangeShape[],
  slotOf: (name: string) => Slot | null,
): readonly RangePart[] | null {
  const known = knownParts.get(meaning);
  if (known) return known;
  const parts = ranges.flatMap((range) => partOf(range, slotOf) ?? []);
  if (parts.length < ranges.length) return null;
  knownParts.set(meaning, parts);
  return parts;
}

/** A slot of a line or of the heading above it. */
function slotNamed({ lefts }: Meaning, name: string): Slot | null {
  for (const { pattern, under } of lefts) {
    const slot = pattern.slots.get(name) ?? (under.kind === "heading" ? under.pattern.slots.get(name) : undefined);
    if (slot) return slot;
  }
  return null;
}

function partOf({ channel, from, to }: RangeShape, slotOf: (name: string) => Slot | null): RangePart | null {
  const places = { channel: channelPlace(channel, slotOf), from: edgePlace(from, slotOf), to: edgePlace(to, slotOf) };
  if (!places.channel || !places.from || !places.to) return null;
  const like = [channel, from, to].map((at) => likeOf(at, slotOf)).join(" ");
  return { channel: places.channel, from: places.from, to: places.to, like };
}

/** What two slots have in common that hold the same values. */
function likeOf(at: Ref | number, slotOf: (name: string) => Slot | null): string {
  if (typeof at === "number") return `=${at}`;
  const slot = slotOf(at.slot)!;
  return `${slot.code?.name ?? ""}.${at.part ?? ""}:${slot.whole ? `${slot.whole.from}-${slot.whole.to}` : ""}`;
}

/** Whether a template with at most one slot can become a word. */
function canBe(template: readonly (string | Ref)[], word: string, slotOf: (name: string) => Slot | null): boolean {
  const at = (template as Template).findIndex((piece) => typeof piece !== "string");
  if (at < 0) return template.join("") === word;
  const [before, after] = [template.slice(0, at).join(""), template.slice(at + 1)];
  if (after.some((piece) => typeof piece !== "string")) return false;
  const behind = after.join("");
  if (word.length <= before.length + behind.length || !word.startsWith(before) || !word.endsWith(behind)) return false;
  const { slot: name, part } = template[at] as Ref;
  const slot = slotOf(name);
  const held = { kind: "word", text: word.slice(before.length, word.length - behind.length) } as const;
  const encoded = slot && encodeSlot(slot, part === null ? held : { kind: "parts", parts: new Map([[part, held]]) });
  return encoded?.kind === "spelled" && encoded.means === null;
}

/** How many such lines the board has: by their numbers, by `at-most`, and one of a name where lines do not add up. */
function poolsOf({ text }: Dialect, { lefts, section }: Meaning, name: string): Pool[] {
  const pools: Pool[] = [];
  for (const { pattern } of lefts) {
    const begins = beginningOf(pattern);
    const number = pattern.slots.get("#");
    if (number?.whole) pools.push({ key: `{#} ${textBeforeNumber(pattern)}`, lines: countOf(number.whole) });
    else if (!text.repeats.some((each) => begins.startsWith(each))) pools.push({ key: `${section} ${name}`, lines: 1 });
    for (const limit of text.atMost)
      if (begins.startsWith(limit.text)) pools.push({ key: `at-most ${limit.text}`, lines: limit.count });
  }
  return pools.filter((pool, i) => pools.findIndex(({ key }) => key === pool.key) === i);
}

function countOf({ from, to }: { readonly from: number; readonly to: number }): number {
  return Math.max(0, to - from + 1);
}

/** The text with which a line begins, up to its first slot. */
function beginningOf({ parts }: Left["pattern"]): string {
  return parts[0]?.kind === "literal" ? parts[0].text : "";
}

/** The text before the number: lines that share it share numbers. */
function textBeforeNumber({ parts }: Left["pattern"]): string {
  const at = parts.findIndex((part) => part.kind === "slot" && part.name === "#");
  return parts
    .slice(0, at)
    .map((part) => (part.kind === "literal" ? part.text : `{${part.name}}`))
    .join("");
}
