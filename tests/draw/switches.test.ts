import { expect, test } from "vitest";
import { stateMarks } from "../../shared/draw/state-marks.ts";
import { drawSwitches } from "../../shared/draw/switches.ts";
import {
  becomesInWords,
  dialPulseUs,
  inSpan,
  lossInWords,
  movesInWords,
  setsInWords,
  standsInWords,
  stateInWords,
  waysInWords,
} from "../../shared/draw/words.ts";
import { wrapped } from "../../shared/draw/writing.ts";
import type { SwitchesState } from "../../shared/protocol/panel.ts";
import { joinWithAnd } from "../../shared/text/list.ts";
import { all, numbers, texts } from "./find.ts";
import { fullSwitches, rocker } from "./samples.ts";

const mode = (name: string) => ({ name, what: `${name}.`, lines: [] });
const state = (some: Partial<SwitchesState>): SwitchesState => ({
  positions: {},
  atRest: true,
  armed: "no",
  on: [],
  possible: [],
  unknown: [],
  adjusts: { moving: [], idle: [], faulty: [] },
  ...some,
});

test("the state in words", () => {
  expect(stateInWords(state({ on: [mode("level")] }))).toBe("Not armed. Level on.");
  expect(stateInWords(state({ armed: "yes", on: [mode("arm"), mode("level"), mode("recorder")] }))).toBe(
    "Armed. Level and recorder on.",
  );
  expect(stateInWords(state({ armed: "yes", on: [mode("arm")] }))).toBe("Armed. Nothing else on.");
  expect(stateInWords(state({ armed: null }))).toBe("Nothing arms this craft. Nothing on.");
  expect(stateInWords(state({ armed: "depends", possible: [mode("arm"), mode("finder")] }))).toBe(
    "Armed or not, as what is not set here decides. Nothing is surely on. " +
      "Finder on or off, as what is not set here decides.",
  );
  expect(joinWithAnd(["a", "b", "c"])).toBe("a, b and c");
});

test("what an error hides is said to be not known, and channels without a control are named with their pulse", () => {
  expect(stateInWords(state({ armed: "unknown", unknown: ["arm", "outputs.lamp"] }))).toBe(
    "Whether it is armed is not known: a line behind arm has a fault. Nothing is surely on. " +
      "Not known, since a line behind it has a fault: lamp.",
  );
  const tangled = ["arm", "level"];
  expect(stateInWords(state({ armed: "unknown", unknown: [...tangled, "finder"], tangled }))).toBe(
    "Whether it is armed is not known: a condition is too tangled to follow. Nothing is surely on. " +
      "Not known, since a line behind it has a fault: finder. Not known, too tangled to follow: level.",
  );
  expect(stateInWords(state({ positions: { TL: "up", KN: 1500, ch11: 1200 } }))).toBe(
    "Not armed. Nothing on. This is with ch11 at 1200 us.",
  );
  expect(standsInWords("level", state({ unknown: ["level"] }))).toBe("not known");
  expect(waysInWords({ ...mode("level"), ways: null })).toBe("a line behind it has a fault");
  expect(waysInWords({ ...mode("level"), ways: null, tangled: "level" })).toBe(
    "its condition is too tangled to follow",
  );
  expect(waysInWords({ ...mode("recorder"), ways: null, tangled: "outputs.lamp" })).toBe(
    "it depends on lamp, which is too tangled to follow",
  );
  expect(setsInWords({ states: 2, state: state({ unknown: [] }) })).toBe("2 different sets of modes");
  expect(setsInWords({ states: 1, state: state({ unknown: tangled }) })).toBe("One set of the modes that are known");
  expect(waysInWords({ ...mode("level"), ways: [] })).toBe("no position turns it on");
});

test("controls keep the script's order, with what each position turns on", () => {
  const words = texts(drawSwitches(fullSwitches, { width: 700 }));
  expect(words[0]).toBe("Not armed. Level and altitude-hold on.");
  const names = ["TL", "TR", "PB", "KN", "SX"];
  expect(words.filter((word) => names.includes(word))).toEqual(names);
  expect(words.slice(words.indexOf("down"), words.indexOf("TR")).join(" ")).toBe("down arm, recorder");
});

test("long words above the controls are broken into lines, and the controls make room", () => {
  const long = { ...fullSwitches, state: state({ possible: ["finder", "lights", "recorder", "level"].map(mode) }) };
  const scene = drawSwitches(long, { width: 460 });
  const said = all(scene, "state-words");
  expect(said.length).toBeGreaterThan(1);
  expect(said.map((each) => texts(each).join("")).join(" ")).toBe(stateInWords(long.state));
  // Every line at 0.62 of its size a letter, as the bold letters of the drawn files take at most.
  for (const each of said) expect(texts(each).join("").length * 15 * 0.62).toBeLessThanOrEqual(460);
  const tops = all(scene, "card").map(({ attributes }) => Number(attributes.y));
  expect(Math.min(...tops)).toBeGreaterThan(Number(said.at(-1)!.attributes.y) + 8);
});

test("exactly the current position is filled, on every control", () => {
  const scene = drawSwitches(fullSwitches, { words: "none" });
  const set = all(scene, "way").filter(({ attributes }) => String(attributes.class).includes("set"));
  expect(set.map(({ attributes }) => [attributes["data-control"], attributes["data-set"]])).toEqual([
    ["TL", "up"],
    ["TR", "mid"],
    ["PB", "rest"],
    ["KN", 1500],
    ["SX", "one"],
  ]);
});

test("of a handset by itself it is not said that no craft uses its controls", () => {
  const controls = fullSwitches.controls.map((control) => ({
    ...control,
    positions: control.positions.map((position) => ({ ...position, modes: [] })),
    spans: control.spans.map((span) => ({ ...span, modes: [] })),
  }));
  const picture = { ...fullSwitches, controls, state: state({}) };
  const said = (uses: "left out" | undefined) =>
    texts(drawSwitches(picture, { words: "none", ...(uses && { uses }) })).filter((text) => /nothing/.test(text));
  expect(said(undefined).length).toBeGreaterThanOrEqual(controls.length);
  expect(said("left out")).toEqual([]);
});

test("controls wrap within the width, and none is drawn beyond it", () => {
  for (const width of [100, 280, 420, 1200]) {
    const scene = drawSwitches(fullSwitches, { width });
    const [, , drawnWidth, height] = numbers(scene.attributes.viewBox);
    for (const { attributes } of all(scene, "card")) {
      expect(Number(attributes.x) + Number(attributes.width)).toBeLessThanOrEqual(drawnWidth! + 0.5);
      expect(Number(attributes.y) + Number(attributes.height)).toBeLessThanOrEqual(height!);
    }
  }
});

test("a handset without controls is an empty drawing, not a broken one", () => {
  const scene = drawSwitches({ ...fullSwitches, controls: [] }, { words: "none" });
  expect(scene.attributes.viewBox).not.toContain("NaN");
  expect(scene.attributes.viewBox).not.toContain("Infinity");
});

test("a dial stands where it is set, else in the middle; both ends of a stretch belong to it", () => {
  const knob = fullSwitches.controls.find(({ name }) => name === "KN")!;
  expect(dialPulseUs(knob, { KN: 1710 })).toBe(1710);
  expect(dialPulseUs(knob, {})).toBe(1500);
  expect(inSpan(1700, knob.spans[1]!)).toBe(true);
  expect(inSpan(1701, knob.spans[1]!)).toBe(false);
});

test("a card is as wide as its longest name needs", () => {
  const long = rocker("TL", 5, { up: [], down: ["outputs.a-lamp-of-a-rather-long-name"] });
  const scene = drawSwitches({ ...fullSwitches, controls: [long, long] }, { width: 300 });
  const [first, second] = all(scene, "card");
  expect(Number(first!.attributes.width)).toBeGreaterThan(200);
  expect(second!.attributes.x).toBe(first!.attributes.x);
  expect(texts(scene)).toContain("→ a-lamp-of-a-rather-long-name");
});

test("neither a control's name nor its kind reaches into the other, on a card of its own width", () => {
  const long = rocker("LEFT-SHOULDER-SWITCH", 16, { up: [], down: ["arm"] }, { kind: "selector" });
  const [card] = all(drawSwitches({ ...fullSwitches, controls: [long] }, { width: 100 }), "card");
  // 20 letters of 15 and 14 of 11 units, each about 0.58 of that wide.
  expect(Number(card!.attributes.width)).toBeGreaterThan(20 * 15 * 0.58 + 14 * 11 * 0.58);
});

test("every position that gives the mode is marked, and none without a mode", () => {
  const given = (mode: string | null) =>
    all(drawSwitches(fullSwitches, { mode }), "gives").map(({ attributes }) => [
      attributes["data-control"],
      attributes["data-set"],
    ]);
  expect(given("recorder")).toEqual([["TL", "down"]]);
  expect(given("altitude-hold")).toEqual([["KN", 1500]]);
  expect(given(null)).toEqual([]);
});

test("what the loss of the signal does to each mode, in words", () => {
  const modes = [
    { name: "arm", becomes: "kept" },
    { name: "level", becomes: "kept" },
    { name: "outputs.lamp", becomes: "on" },
    { name: "turtle", becomes: "off" },
    { name: "finder", becomes: "either" },
  ] as const;
  expect(lossInWords({ receiver: "preset", armed: "kept", modes })).toBe(
    "Signal lost. The receiver sends its presets. Armed if it was. Lamp on. Turtle off. Level as it was. " +
      "Finder on or off, as what is not said decides.",
  );
  expect(lossInWords({ receiver: null, armed: null, modes: [] })).toBe(
    "Signal lost. The script does not say what the receiver does.",
  );
});

test("a mode in a state, and what the loss of the signal does to it there", () => {
  const here = state({ on: [mode("level")], possible: [mode("finder")] });
  const kept = ["level", "finder", "turtle"].map((name) => ({ name, becomes: "kept" as const }));
  const said = (name: string) => [
    standsInWords(name, here),
    becomesInWords(name, { receiver: "hold", armed: null, modes: kept }, here),
  ];
  expect(said("level")).toEqual(["on", "stays on"]);
  expect(said("turtle")).toEqual(["off", "stays off"]);
  expect(said("finder")).toEqual(["on or off", "stays as it was"]);
  expect(said("lights")).toEqual(["off", "not known"]);
});

test("the lines behind what is on say by which control; at rest none is marked", () => {
  expect(stateMarks(fullSwitches)).toEqual([]);
  const at = (line: number) => ({ file: "file:///shed/jug.fettle", line });
  const on = [
    { name: "arm", what: "", lines: [at(2), at(4)] },
    { name: "altitude-hold", what: "", lines: [at(5)] },
    { name: "outputs.lamp", what: "", lines: [at(6)] },
  ];
  const moved = { ...fullSwitches.state, atRest: false, on, positions: { TL: "down", KN: 1510 } };
  expect(stateMarks({ ...fullSwitches, state: moved })).toEqual([
    { at: at(2), words: "on: arm, as TL is down in the panel" },
    { at: at(4), words: "on: arm, as TL is down in the panel" },
    { at: at(5), words: "on: altitude-hold, as KN is at 1510 us in the panel" },
    { at: at(6), words: "on: lamp, wherever the panel's controls are" },
  ]);
});

test("moves in words", () => {
  expect(
    movesInWords([
      { name: "TL", to: "down" },
      { name: "KN", to: 1700 },
    ]),
  ).toBe("TL to down and KN to 1700 us");
});

test("names wrap between, never within, names", () => {
  expect(wrapped(["return-home", "lights-off", "a"], 80, 12)).toEqual(["return-home,", "lights-off,", "a"]);
  expect(wrapped(["arm", "level", "recorder"], 400, 12)).toEqual(["arm, level, recorder"]);
  expect(wrapped([], 80, 12)).toEqual([]);
});
