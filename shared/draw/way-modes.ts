/**
 * What a place of a control turns on, drawn: what is on now stands bold on a band with a solid bar; what is on or off
 * beside an empty bar; what the place can turn on beside a broken line.
 */
import type { PanelAdjust } from "../protocol/adjust.ts";
import { adjustBriefly } from "./adjust-words.ts";
import type { Card } from "./card.ts";
import type { ModesHere } from "./control-words.ts";
import { path, rect, rounded, type SceneNode } from "./scene.ts";
import { markedName } from "./words.ts";
import { lineHeight, text, textLines, textWidth, wrapped, wrappedWords } from "./writing.ts";

export const MODES_SIZE = 12;
const BAR_WIDTH = 5;
/** From the left edge to the names. */
const INDENT = BAR_WIDTH + 6;
/** About how much wider bold letters are. */
const BOLD = 1.1;
const GAP = 3;

type Stand = "is" | "open" | "can";

const CLASSES: Readonly<Record<Stand, string>> = { is: "modes on-name", open: "modes open-name", can: "modes" };

/** The width that the longest of some names needs, whatever is on. */
export function modesNeed(modes: readonly string[]): number {
  return INDENT + BOLD * Math.max(0, ...modes.map((mode) => textWidth(`${markedName(mode)},?`, MODES_SIZE)));
}

/** The width that settings need that follow a dial. */
export function adjustsNeed(adjusts: readonly PanelAdjust[]): number {
  const words = adjusts.flatMap((each) => [
    BOLD * textWidth(adjustBriefly({ ...each, now: null }), MODES_SIZE),
    ...endLines(each).map((line) => textWidth(line, SMALL)),
  ]);
  return INDENT + Math.max(0, ...words);
}

/** The modes of a place in groups, or a dash where there is none; `y` is the upper edge. */
export function drawModes({ on, open, can }: ModesHere, x: number, y: number, width: number): Card {
  const groups: readonly (readonly [Stand, readonly string[]])[] = [
    ["is", on.map(markedName)],
    ["open", open.map((mode) => `${markedName(mode)}?`)],
    ["can", can.map(markedName)],
  ];
  const nodes: SceneNode[] = [];
  let top = y;
  for (const [stand, names] of groups) {
    if (names.length === 0) continue;
    const lines = wrapped(names, (width - INDENT) / (stand === "is" ? BOLD : 1), MODES_SIZE);
    const group = drawGroup(stand, lines, x, top, width);
    nodes.push(...group.nodes);
    top += group.height + GAP;
  }
  if (nodes.length > 0) return { height: top - y, nodes };
  return { height: lineHeight(MODES_SIZE), nodes: [text("modes none", x, y + MODES_SIZE, MODES_SIZE, "–")] };
}

const SMALL = 11;

function endLines({ from, to }: PanelAdjust): string[] {
  return [`${from.text} at ${from.pulseUs} us`, `${to.text} at ${to.pulseUs} us`];
}

/** The settings that follow a dial: the value here, and below it what it goes from and to. */
export function drawAdjusts(adjusts: readonly PanelAdjust[], x: number, y: number, width: number): Card {
  const nodes: SceneNode[] = [];
  let top = y;
  for (const adjust of adjusts) {
    const group = drawGroup(adjust.now === null ? "open" : "is", [adjustBriefly(adjust)], x, top, width);
    nodes.push(...group.nodes);
    top += group.height + 2;
    const ends = endLines(adjust);
    nodes.push(...textLines("small", x + INDENT, top + SMALL, SMALL, ends));
    top += ends.length * lineHeight(SMALL) + 6;
  }
  return { height: top - y, nodes };
}

/** Small words below the places of a control. */
export function drawNotes(notes: readonly string[], x: number, y: number, width: number): Card {
  const lines = notes.flatMap((note) => wrappedWords(note, width, SMALL));
  if (lines.length === 0) return { height: 0, nodes: [] };
  return { height: lines.length * lineHeight(SMALL) + 8, nodes: textLines("small", x, y + SMALL + 3, SMALL, lines) };
}

function drawGroup(stand: Stand, lines: readonly string[], x: number, y: number, width: number): Card {
  const height = lines.length * lineHeight(MODES_SIZE) + 1;
  const bar = { x, y, width: BAR_WIDTH, height };
  const marks = {
    is: () => [rect("on-band", { x, y, width, height }, 2), rect("on-bar", bar, 1)],
    open: () => [
      rect("open-bar", { ...bar, x: x + 0.75, y: y + 0.75, width: BAR_WIDTH - 1.5, height: height - 1.5 }, 1),
    ],
    can: () => [path("can-line", `M${rounded(x + BAR_WIDTH / 2)} ${rounded(y + 1)}v${rounded(height - 2)}`)],
  };
  return {
    height,
    nodes: [...marks[stand](), ...textLines(CLASSES[stand], x + INDENT, y + MODES_SIZE, MODES_SIZE, lines)],
  };
}
