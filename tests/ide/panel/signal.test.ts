/** The lost signal in the panel's model: one state for all views, and the picture at each of its phases. */
import { expect, test } from "vitest";
import { type PanelQuery, panelOf } from "../../../shared/ide/panel/panel.ts";
import { atCursor } from "../cursor.ts";

const craft = (more: string) => `craft "Jug"
use "wheel.fettle"

modes
  arm when TL is down
  level when TR is mid

osd
  grid 53 x 20
  mode at left, top
  message at centre, bottom
  link-quality at right, top
  alerts at centre, middle
  throttle at left, bottom

${more}`;
const model = (more: string, ask: PanelQuery) => {
  const { workspace, file } = atCursor(craft(more));
  return panelOf(workspace, file, 1, ask);
};
const shown = (more: string, ask: PanelQuery = {}) => {
  const { goggles } = model(more, { scenario: "signal-lost", ...ask });
  return goggles!.elements.map(({ text, blank }) => (blank ? "–" : text.join("").trim())).join(" | ");
};

const failsafe = `link
  on-loss silent
  lost-after 1 s
failsafe
  hold-for 2 s
  hold-with level
  then return
  then-without-fix descend
  descend-throttle 26 %
  descend-for 20 s
navigation
  return-height 40 m
  arrival land
`;

test("there only while the signal is lost, also for a craft without a handset", () => {
  expect(model(failsafe, {}).signal).toBeUndefined();
  expect(model(failsafe, { scenario: "link-fading" }).signal).toBeUndefined();
  expect(model(failsafe, { scenario: "signal-lost" }).signal?.receiver).toBe("silent");
  const { workspace, file } = atCursor('craft "Jug"\n');
  expect(panelOf(workspace, file, 1, { scenario: "signal-lost" })).toMatchObject({
    switches: null,
    signal: { receiver: null, at: { course: 0, phase: 0 } },
  });
});

test("it begins when the loss is noticed, and a step that the script has not is the nearest that it has", () => {
  const at = (signal?: { course: number; phase: number }) =>
    model(failsafe, { scenario: "signal-lost", signal }).signal?.at;
  expect(at()).toEqual({ course: 0, phase: 1 });
  expect(at({ course: 1, phase: 2 })).toEqual({ course: 1, phase: 2 });
  expect(at({ course: 7, phase: 99 })).toEqual({ course: 1, phase: 3 });
  expect(at({ course: -1, phase: Number.NaN })).toEqual({ course: 0, phase: 0 });
});

test("every phase leads to its lines", () => {
  const { signal } = model(failsafe, { scenario: "signal-lost" });
  const descent = signal!.courses[1]!.phases[2]!;
  expect(descent.lines.map(({ name, text, at }) => [name, text, at.line])).toEqual([
    ["failsafe.then-without-fix", "descend", 22],
    ["failsafe.descend-throttle", "26 %", 23],
    ["failsafe.descend-for", "20 s", 24],
  ]);
  expect(descent.gaps.map(({ name }) => name)).toEqual(["failsafe.descend-level", "failsafe.resume-after"]);
});

test("the picture tells what the pilot can know in each phase", () => {
  const at = (course: number, phase: number) => shown(failsafe, { signal: { course, phase } });
  expect(at(0, 0)).toBe("LEVEL | – | LQ 52% | – | THR 41%");
  expect(at(0, 1)).toBe("FAILSAFE | SIGNAL LOST: RETURN | LQ 0% | SIGNAL LOST | THR 41%");
  expect(at(0, 2)).toBe("RETURN HOME | FLYING HOME | LQ 0% | SIGNAL LOST | THR 41%");
  expect(at(0, 3)).toBe("RETURN HOME | LANDING | LQ 0% | SIGNAL LOST | THR 41%");
  expect(at(1, 2)).toBe("FAILSAFE | DESCENDING | LQ 0% | SIGNAL LOST | THR 26%");
  expect(at(1, 3)).toBe("FAILSAFE | MOTORS STOPPED | LQ 0% | SIGNAL LOST | THR 0%");
});

test("where the board takes the link for a live one, the picture tells nothing of the loss", () => {
  expect(shown("link\n  on-loss hold\n")).toBe("LEVEL | – | LQ 52% | – | THR 41%");
  const presets = "link\n  on-loss preset\n  preset-channels 1500 us, 1500 us, 1400 us, 1500 us, 2000 us, 1500 us\n";
  expect(shown(presets)).toBe("LEVEL | – | LQ 52% | – | THR 41%");
});
