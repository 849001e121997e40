/** What is asked of a shed by each request of our own: everything that its answer can be about, and what is refused. */
import { ALIKE_KINDS } from "../../../shared/protocol/fleet-change.ts";
import { SCENARIOS } from "../../../shared/protocol/osd.ts";
import type { Shed } from "./shed.ts";

/** The address of a file of the shed. */
export function addressIn(path: string): string {
  return `file:///shed/${path.split("/").map(encodeURIComponent).join("/")}`;
}

/** By method the parameters that are sent, one after another; `text` is what a stranger wrote everywhere. */
export function ownAsks(shed: Shed, text: string): Readonly<Record<string, readonly object[]>> {
  const [craft, other, layer, handset, dialect, board] = [
    shed.craft,
    shed.other,
    shed.layer,
    shed.handset,
    shed.dialect,
    shed.board,
  ].map(addressIn) as [string, string, string, string, string, string];
  const boardText = shed.texts[shed.board]!;
  const otherText = shed.texts[shed.other]!;
  const lineOf = (path: string, words: string) =>
    shed.texts[path]!.split(/\r\n?|\n/).findIndex((line) => line.trimStart().startsWith(words));
  const placeOf = (path: string, words: string) => ({ line: lineOf(path, words), character: 3 });
  const rangeOf = (path: string, words: string) => {
    const line = lineOf(path, words);
    return { start: { line, character: 0 }, end: { line: line + 1, character: 0 } };
  };
  const ofBoard = { uri: board, text: boardText, dialect };
  const boardLines = boardText.split("\n").map((_, line) => line);
  const others = [
    { kind: "file", uri: other },
    { kind: "file", uri: layer },
    { kind: "text", text: otherText, name: text },
    { kind: "text", text, name: text },
    { kind: "revision", uri: other, revision: "HEAD" },
    { kind: "board", text: boardText, name: text, uri: board, dialect },
  ];
  const review = { uri: craft, purpose: "review", chosen: null, mapping: {}, into: null, dialect: text };
  const files = [craft, other, layer, handset, dialect].map((uri) => ({ uri }));
  const bench = (gesture: object) => ({ uri: other, gesture });
  const names = ["belly-kind", "lights.belly-delay", "section/lights", "pack.cells", "finder", text];
  return {
    "fettle/alikeLayers": [{ example: other }],
    "fettle/benchEdit": [
      bench({ kind: "day", check: "bench.order-checked", day: "2026-11-29" }),
      bench({ kind: "reading", name: "bench.roll", text: "988 us to 2012 us" }),
      bench({ kind: "reading", name: "bench.roll", text }),
      bench({ kind: "void", check: "bench.order-checked" }),
      bench({ kind: "void", check: text }),
    ],
    "fettle/benchFile": ["page", "markdown"].flatMap((form) => [
      { uri: other, form },
      { uri: craft, form, shown: "all" },
      { uri: other, form, wiped: { day: "2026-11-01", saved: boardText } },
    ]),
    "fettle/benchReading": ["988 us to 2012 us", text].flatMap((typed) =>
      ["bench.roll", "bench.capacity", text].map((name) => ({ uri: other, name, text: typed })),
    ),
    "fettle/boardDialects": [{}],
    "fettle/boardLine": boardLines.map((line) => ({ ...ofBoard, line })),
    "fettle/boardMoved": [{ before: boardText, after: boardText.replaceAll("900", "901") }],
    "fettle/boardNames": ["", "cells", "lamp", text].map((typed) => ({ uri: board, typed, craft: other })),
    "fettle/boardOf": files,
    "fettle/boardRead": [
      { ...ofBoard, handset },
      { ...ofBoard, handset: null },
      { ...ofBoard, text, handset },
    ],
    "fettle/boardText": [ofBoard, { ...ofBoard, dialect: null }, { ...ofBoard, text }],
    "fettle/boardWrite": [craft, other, layer].flatMap((each) =>
      [boardText, null].map((base) => ({ craft: each, dialect, base })),
    ),
    "fettle/changeHabit": ["TR is mid", text].map((to) => ({ handset, mode: "turtle", from: null, to, leftOut: null })),
    "fettle/compare": [craft, other].flatMap((uri) => others.map((each) => ({ uri, other: each }))),
    "fettle/effective": files,
    "fettle/fleet": [{ known: null }],
    "fettle/habitCondition": ["TR is mid", text].flatMap((to) => ["turtle", text].map((mode) => ({ mode, to }))),
    "fettle/habits": [{}],
    "fettle/history": [
      { uri: other, position: placeOf(shed.other, "cells") },
      { uri: other, position: placeOf(shed.other, "label") },
      { uri: craft, position: placeOf(shed.craft, "capacity") },
      { uri: layer, position: placeOf(shed.layer, "reserve") },
    ],
    "fettle/insert": [
      ...["rates", "pack", "arm", "controls", `port ${text}`].map((what) => ({ kind: "fill-in", what })),
      { kind: "use", uri: layer },
      { kind: "repair", at: { file: craft, line: 3 }, code: text, title: text },
    ].map((insert) => ({ uri: craft, insert })),
    "fettle/layersFor": ["warn-at", "capacity"].map((words) => ({ uri: craft, range: rangeOf(shed.craft, words) })),
    "fettle/makeAlike": [
      { example: other, kinds: ALIKE_KINDS, layers: [layer], leftOut: null },
      { example: craft, kinds: ALIKE_KINDS, layers: [], leftOut: null },
    ],
    "fettle/mapControls": [
      { uri: craft, chosen: {}, layers: [] },
      { uri: craft, handset: addressIn(shed.otherHandset), chosen: { TL: text }, layers: [layer] },
      { uri: layer, chosen: {}, layers: [] },
    ],
    "fettle/motorEdit": [
      { kind: "place", motor: 1, place: "front-left" },
      { kind: "place", motor: 1, place: text },
      { kind: "turn", motor: 2, direction: "clockwise" },
    ].map((gesture) => ({ uri: craft, gesture, where: null })),
    "fettle/nameLine": [
      {
        line: boardText.split("\n").findIndex((each) => each.startsWith("holds 900")),
        name: "capacity",
        value: "900 mAh",
      },
      { line: boardText.split("\n").findIndex((each) => each.startsWith("kept")), name: "label", value: text },
    ].map((named) => ({ ...ofBoard, section: "pack", ...named })),
    "fettle/names": [
      { typed: "" },
      { typed: text },
      { typed: "lamp" },
      { typed: "", at: { uri: craft, ...placeOf(shed.craft, "cells") } },
    ],
    "fettle/newCraft": [
      {},
      { link: "2.4-ghz", video: "analogue", handset: shed.handset, layers: [shed.layer], name: text },
      { link: text },
    ].map((answers) => ({ folder: "file:///shed", answers })),
    "fettle/newHandset": [{}, { name: text }, { "control-1.kind": text }, { "control-1.name": text }].map(
      (answers) => ({ folder: "file:///shed", answers }),
    ),
    "fettle/origin": [
      { uri: craft, position: placeOf(shed.craft, "capacity") },
      { uri: other, position: placeOf(shed.other, "warn-at") },
      { uri: layer, position: placeOf(shed.layer, "reserve") },
      { uri: craft, position: placeOf(shed.craft, "drop") },
      { uri: craft, position: { line: 0, character: 0 } },
    ],
    "fettle/osdEdit": [
      { kind: "move", element: "craft", column: 3, row: 3 },
      { kind: "add", element: text, column: 3, row: 3 },
      { kind: "remove", element: "pilot" },
      { kind: "begin", from: { kind: "layer", file: layer } },
    ].map((gesture) => ({ uri: craft, page: "osd", gesture, where: null })),
    "fettle/page": names.map((name) => ({ name })),
    "fettle/panel": [
      ...["goggles", "switches", "numbers", "bench", "fleet"].flatMap((view) =>
        [craft, other, layer, handset].map((uri) => ({ uri, view })),
      ),
      ...SCENARIOS.map(({ name }) => ({ uri: other, view: "goggles", scenario: name })),
      ...others.map((against) => ({ uri: other, view: "switches", against })),
      { uri: other, view: "goggles", past: { uri: other, revision: "HEAD", title: text } },
    ],
    "fettle/relocate": [
      { kind: "override", position: placeOf(shed.craft, "reserve") },
      { kind: "move", range: rangeOf(shed.craft, "warn-at"), into: layer },
      { kind: "extract", range: rangeOf(shed.craft, "warn-at"), name: text },
      { kind: "inline", line: lineOf(shed.craft, "use") + 1 },
      { kind: "inline", line: 0 },
    ].map((change) => ({ uri: craft, change })),
    "fettle/review": [
      ...others.map((offer) => ({ ...review, offer })),
      { ...review, purpose: "carry", offer: others[0], chosen: [text], into: layer },
    ],
    "fettle/scripts": ["craft", "handset"].map((kind) => ({ uri: layer, kind })),
    "fettle/share": [craft, other, layer].flatMap((uri) => ["with", "without"].map((kept) => ({ uri, board: kept }))),
    "fettle/status": files,
    "fettle/take": [{ uri: craft, other: others[0], whats: ["pack.cells", "modes.turtle", text] }],
    "fettle/useLines": [
      { kind: "delete", files: [{ uri: layer }, { uri: handset }] },
      { kind: "move", files: [{ oldUri: layer, newUri: `${layer}-moved.fettle` }] },
      { kind: "move", files: [{ oldUri: addressIn("layers"), newUri: addressIn("elsewhere") }] },
    ],
    "fettle/workspaceTree": [{ findings: true }, { findings: false }],
  };
}
