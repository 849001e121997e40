/**
 * What a control does otherwise on the other side of a comparison, drawn: a filled diamond with words, and a sign in a
 * frame before each mode: plus for one that is turned on there only, minus for one here only, and two bars, struck
 * out, for one that is turned on together with other positions.
 */
import type { ControlAgainst, PlaceChange } from "../protocol/against.ts";
import type { Card } from "./card.ts";
import { node, path, rect, rounded, type SceneNode } from "./scene.ts";
import { markedName } from "./words.ts";
import { lineHeight, text, textLines, textWidth, wrappedWords } from "./writing.ts";

const SIZE = 12;
const SMALL = 11;
const SIGN = 11;
const INDENT = SIGN + 5;
const DIFFERS = "differs there";

type Sign = "added" | "gone" | "otherwise";
const SIGNS: readonly Sign[] = ["added", "gone", "otherwise"];

/** The width that the changes of a control need, so that no name leaves its card. */
export function changesNeed(against: ControlAgainst | null): number {
  if (!against) return 0;
  const places = [...against.positions, ...against.spans];
  const names = places.flatMap((change) => SIGNS.flatMap((sign) => change[sign]));
  const ranges = against.spans.map((span) => textWidth(rangeOf(span), SMALL));
  return (
    INDENT +
    Math.max(0, ...names.map((name) => textWidth(markedName(name), SIZE)), ...ranges, textWidth(DIFFERS, SMALL))
  );
}

/** What a place does otherwise; `y` is the upper edge. */
export function drawChange(change: PlaceChange, x: number, y: number, words = DIFFERS): Card {
  const nodes: SceneNode[] = [...heading(words, x, y)];
  let top = y + lineHeight(SMALL) + 1;
  for (const sign of SIGNS) {
    for (const name of change[sign]) {
      nodes.push(
        drawSign(sign, x, top + 1),
        text(`change-name ${sign}`, x + INDENT, top + SIGN, SIZE, markedName(name)),
      );
      top += lineHeight(SIZE);
    }
  }
  return { height: top - y + 3, nodes: [node("g", { class: "change" }, nodes)] };
}

/** What else differs of a control: parts of a dial's range, then phrases; nothing where nothing does. */
export function drawBesides(against: ControlAgainst | null, x: number, y: number, width: number): Card {
  if (!against) return { height: 0, nodes: [] };
  const nodes: SceneNode[] = [];
  let top = y;
  for (const span of against.spans) {
    const drawn = drawChange(span, x, top, rangeOf(span));
    nodes.push(...drawn.nodes);
    top += drawn.height;
  }
  const phrases = [...(against.has === "both" ? [] : [against.has]), ...against.notes];
  for (const phrase of phrases) {
    const lines = wrappedWords(phrase, width - INDENT, SMALL);
    nodes.push(
      node("g", { class: "change" }, [
        diamond(x, top),
        ...textLines("change-words", x + INDENT, top + SMALL, SMALL, lines),
      ]),
    );
    top += lines.length * lineHeight(SMALL) + 3;
  }
  return { height: nodes.length === 0 ? 0 : top - y + 4, nodes };
}

function rangeOf({ fromUs, toUs }: { readonly fromUs: number; readonly toUs: number }): string {
  return `${fromUs}–${toUs} us`;
}

function heading(words: string, x: number, y: number): SceneNode[] {
  return [diamond(x, y), text("change-words", x + INDENT, y + SMALL, SMALL, words)];
}

function diamond(x: number, y: number): SceneNode {
  const middle = { x: x + SIGN / 2, y: y + SMALL / 2 + 1.5 };
  const reach = 5;
  return path(
    "change-mark",
    `M${rounded(middle.x)} ${rounded(middle.y - reach)}l${reach} ${reach}l${-reach} ${reach}l${-reach} ${-reach}Z`,
  );
}

function drawSign(sign: Sign, x: number, y: number): SceneNode {
  const middle = y + SIGN / 2;
  const bar = (at: number) => `M${rounded(x + 2.5)} ${rounded(at)}h${SIGN - 5}`;
  const strokes = {
    added: `${bar(middle)}M${rounded(x + SIGN / 2)} ${rounded(y + 2.5)}v${SIGN - 5}`,
    gone: bar(middle),
    otherwise: `${bar(middle - 1.7)}${bar(middle + 1.7)}M${rounded(x + 3)} ${rounded(y + SIGN - 2)}l${SIGN - 6} ${-(SIGN - 4)}`,
  };
  return node("g", { class: `change-sign ${sign}` }, [
    rect("sign-frame", { x: x + 0.5, y: y + 0.5, width: SIGN - 1, height: SIGN - 1 }, 2),
    path("sign-stroke", strokes[sign]),
  ]);
}
