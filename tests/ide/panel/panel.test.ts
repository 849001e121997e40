import { expect, test } from "vitest";
import { type PanelQuery, panelOf } from "../../../shared/ide/panel/panel.ts";
import { atCursor } from "../cursor.ts";

const craft = `craft "Jug"
use "wheel.fettle"

pack
  chemistry lipo
  cells 6
  capacity 1000 mAh
  hover-current 5 A

modes
  arm when TL is down
  level when TR is mid
  lights when KN above 1500 us
outputs
  # the lamp under the nose
  lamp when TR is down

video
  signal analogue

osd
  grid 30 x 16
  pack-volts at left+2, bottom-1
  alerts at centre, top
  cell-volts at left+4, bottom-1
  sight at centre, middle
`;
const model = (text: string, ask: PanelQuery = {}, more: Record<string, string> = {}) => {
  const { workspace, file } = atCursor(text, more);
  return panelOf(workspace, file, 7, ask);
};

test("the goggles: cells, sample texts, what is placed, what collides, the safe area", () => {
  const { goggles, noGoggles } = model(craft);
  expect(noGoggles).toBeNull();
  // 90 % of 30 x 16 (BKSTS Illustrated Dictionary, 4th ed., App. B) is 27 x 14.4: whole cells 2 to 27 and 1 to 14.
  expect(goggles).toMatchObject({
    columns: 30,
    rows: 16,
    aspect: 4 / 3,
    safe: { left: 2, top: 1, right: 27, bottom: 14 },
  });
  expect(goggles?.elements).toMatchObject([
    {
      name: "pack-volts",
      column: 2,
      row: 14,
      width: 5,
      height: 1,
      drawn: "text",
      text: ["22.2V"],
      placed: "left+2, bottom-1",
      at: { file: "/shed/jug.fettle", line: 22 },
      clashing: [
        [4, 14],
        [5, 14],
        [6, 14],
      ],
    },
    { name: "alerts", text: ["ALERTS"], flashes: false },
    { name: "cell-volts", text: ["3.70V"] },
    { name: "sight", drawn: "sight", text: [] },
  ]);
});

test("the switches: at rest, and with controls moved", () => {
  const { switches } = model(craft);
  expect(switches?.handset).toBe("Wheel");
  expect(switches?.controls.map(({ name, rest }) => [name, rest])).toEqual([
    ["TL", "up"],
    ["TR", "mid"],
    ["KN", null],
  ]);
  expect(switches?.controls[1]?.positions.map(({ name, modes }) => [name, modes])).toEqual([
    ["up", []],
    ["mid", ["level"]],
    ["down", ["outputs.lamp"]],
  ]);
  expect(switches?.state).toMatchObject({ armed: "no", positions: { TL: "up", TR: "mid" } });
  expect(switches?.state.on.map(({ name }) => name)).toEqual(["level"]);
  expect(switches?.state.possible.map(({ name }) => name)).toEqual(["lights"]);
  const moved = model(craft, { positions: { TL: "down", TR: "down", KN: 1700, TX: "gone", ch9: "odd" } }).switches
    ?.state;
  expect(moved).toMatchObject({ armed: "yes", positions: { TL: "down", TR: "down", KN: 1700 } });
  expect(moved?.on).toMatchObject([
    { name: "arm", lines: [{ line: 10 }] },
    { name: "lights" },
    { name: "outputs.lamp", what: "the lamp under the nose" },
  ]);
});

test("a pulse that a dial or channel no longer sends is forgotten, and readiness does not go by it", () => {
  const here = model(craft.replace("level when TR is mid", "level when ch12 above 1500 us"), {
    positions: { TL: "up", KN: 2400, ch12: 300 },
  }).switches!;
  expect(here.state.positions).toEqual({ TL: "up", TR: "mid" });
  expect(here.state.atRest).toBe(true);
  expect(here.ready.obstacles).toMatchObject([{ state: "stands" }]);
});

test("at rest until a control is moved, also a dial", () => {
  const atRest = (positions?: Record<string, string | number>) => model(craft, { positions }).switches?.state.atRest;
  expect(atRest()).toBe(true);
  expect(atRest({ TL: "up", TR: "mid" })).toBe(true);
  expect(atRest({ TL: "down" })).toBe(false);
  expect(atRest({ KN: 1500 })).toBe(false);
});

test("every mode comes with its lines and what turns it on", () => {
  expect(model(craft).switches?.modes).toMatchObject([
    { name: "arm", ways: ["TL down"], lines: [{ line: 10 }] },
    { name: "level", ways: ["TR mid"] },
    { name: "lights", ways: ["KN from 1501 us to 2000 us"] },
    { name: "outputs.lamp", what: "the lamp under the nose", ways: ["TR down"] },
  ]);
  const never = craft.replace("level when TR is mid", "level when TR is mid and TR is up");
  expect(model(never).switches?.modes[1]).toMatchObject({ name: "level", ways: [] });
});

test("a mode whose line has an error is not known, and neither is arming, unless its permit is off", () => {
  const faulty = (permit = "") =>
    model(
      craft
        .replace("arm when TL is down", `arm when TL is dwn${permit}`)
        .replace("level when TR is mid", "level when arm"),
    ).switches!;
  expect(faulty().state).toMatchObject({ armed: "unknown", unknown: ["arm", "level"] });
  expect(faulty().modes).toMatchObject([
    { name: "arm", ways: null },
    { name: "level", ways: null },
    { name: "lights", ways: ["KN from 1501 us to 2000 us"] },
    {},
  ]);
  expect(faulty("\n  arm-permit when TL is down").state).toMatchObject({ armed: "no", unknown: ["arm", "level"] });
});

test("signal loss: kept where the receiver holds, settled where it sends presets, open where nobody says", () => {
  const lost = (link: string) => {
    const loss = model(`${craft}link\n${link}`).switches?.loss;
    return [loss?.receiver, loss?.armed, ...(loss?.modes ?? []).map(({ name, becomes }) => `${name} ${becomes}`)];
  };
  expect(lost("  on-loss hold\n")).toEqual([
    "hold",
    "kept",
    "arm kept",
    "level kept",
    "lights kept",
    "outputs.lamp kept",
  ]);
  expect(lost("  channels 16\n").slice(0, 2)).toEqual([null, "either"]);
});

test("what prevents arming at the controls' positions, and the shortest way to arm", () => {
  expect(model(craft).switches?.ready).toMatchObject({
    obstacles: [{ state: "stands", message: expect.stringContaining("arm is off here"), at: { line: 10 } }],
    moves: [{ name: "TL", to: "down" }],
  });
  expect(model(craft, { positions: { TL: "down" } }).switches?.ready).toEqual({ obstacles: [], moves: [] });
});

test("a layer or a handset is drawn for a craft that uses it, the chosen one if there are several", () => {
  const layer = 'layer "Habits"\nmodes\n  arm when TL is down\n';
  const more = {
    "a.fettle": 'craft "Amphora"\nuse "wheel.fettle"\nuse "jug.fettle"\n',
    "b.fettle": 'craft "Bowl"\nuse "wheel.fettle"\nuse "jug.fettle"\n',
  };
  expect(model(layer, {}, more)).toMatchObject({
    craft: "Amphora",
    alsoIn: [{ file: "/shed/b.fettle", name: "Bowl" }],
  });
  expect(model(layer, { craft: "/shed/b.fettle" }, more)).toMatchObject({
    craft: "Bowl",
    alsoIn: [{ name: "Amphora" }],
  });
  expect(model(layer)).toMatchObject({
    craft: "",
    goggles: null,
    switches: null,
    empty: expect.stringContaining("No craft of this workspace uses this layer"),
  });
});

test("where there is nothing to draw, it says what to do", () => {
  const bare = model('craft "Jug"\npack\n  cells 4\n');
  expect(bare.empty).toBeNull();
  expect(bare).toMatchObject({ noGoggles: "Nothing is placed on the OSD yet.", begin: { lacks: "page" } });
  expect(bare.noSwitches).toContain("name the pilot's with a “use” line");
  const gridless = model('craft "Jug"\nosd\n  amps at left, top\n');
  expect(gridless).toMatchObject({ noGoggles: expect.stringContaining("no grid yet"), begin: { lacks: "grid" } });
});

test("findings of the craft come with the positions that show them", () => {
  const clash = craft.replace(
    "  lights when",
    "  video-low when TL is down\n  video-high when TL is down\n  lights when",
  );
  const finding = model(clash).findings.find(({ code }) => code === "mode-clash");
  expect(finding).toMatchObject({ severity: "error", witness: { TL: "down" } });
});
