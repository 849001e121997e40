/** The picture in the goggles: pages, moments, what can be added, whom a move concerns, and previews. */
import { expect, test } from "vitest";
import { type GogglesQuery, gogglesOf } from "../../../shared/ide/panel/goggles.ts";
import { SCENARIOS } from "../../../shared/protocol/osd.ts";
import type { GogglesPicture } from "../../../shared/protocol/panel.ts";
import { atCursor } from "../cursor.ts";

const craft = `craft "Jug"
use "wheel.fettle"
use "wide.fettle"

pack
  cells 6
  warn-at 3.5 V/cell
  land-at 3.3 V/cell

modes
  arm when TL is down
  osd-second when TR is down

osd
  craft at centre, top

osd-second
  latitude at 2, 2
`;
const layer = `layer "Wide"
osd
  grid 53 x 20
  cell-volts at left+2, bottom-1
  flight-time at right-2, bottom-1
  alerts at centre, bottom-4
`;

function goggles(ask: GogglesQuery = {}, text = craft, more: Record<string, string> = {}): GogglesPicture {
  const { workspace, file } = atCursor(text, { "wide.fettle": layer, ...more });
  return gogglesOf(workspace.craft(file)!, workspace, ask)!;
}
const named = (picture: GogglesPicture, name: string) => picture.elements.find((each) => each.name === name);

test("the pages that are laid out; the first of them in place of one that is not", () => {
  expect(goggles()).toMatchObject({ page: "osd", pages: ["osd", "osd-second"] });
  const second = goggles({ page: "osd-second" });
  expect(second.page).toBe("osd-second");
  expect(second.elements).toMatchObject([{ name: "latitude", column: 2, row: 2, text: ["56.00013"] }]);
  // The scenery is that of the moment, also where no element shows how the craft leans.
  expect(second.attitude).toEqual({ pitchDeg: -12, rollDeg: 8 });
  expect(goggles({ scenario: "fresh-pack" }).attitude).toEqual({ pitchDeg: -2, rollDeg: 1 });
  const alone = craft.replace(/osd-second\n {2}latitude.*\n/, "");
  expect(goggles({ page: "osd-second" }, alone)).toMatchObject({ page: "osd", pages: ["osd"] });
});

test("each moment that the panel offers has its own readings, and what is past a threshold flashes", () => {
  const shown = SCENARIOS.map(({ name }) => {
    const picture = goggles({ scenario: name });
    const flashing = picture.elements.filter((each) => each.flashes).map((each) => each.name);
    const alerts = named(picture, "alerts");
    return [picture.scenario, named(picture, "cell-volts")?.text[0], alerts?.text[0], alerts?.blank, flashing];
  });
  expect(shown).toEqual([
    ["fresh-pack", "4.11V", "ALERTS", true, []],
    ["mid-flight", "3.70V", "ALERTS", true, []],
    ["low-pack", "3.27V", "PACK EMPTY", false, ["cell-volts", "alerts"]],
    ["link-fading", "3.67V", "ALERTS", true, []],
    ["signal-lost", "3.66V", "SIGNAL LOST", false, ["alerts"]],
  ]);
});

test("an unknown moment is shown as the middle of a flight", () => {
  expect(goggles({ scenario: "take-off" as never }).scenario).toBe("mid-flight");
});

test("a page can be hidden where some state of the controls hides it", () => {
  expect(goggles().canHide).toBe(false);
  const hiding = (when: string) => craft.replace("modes\n", `modes\n  osd-hide when ${when}\n`);
  expect(goggles({}, hiding("TR is mid")).canHide).toBe(true);
  expect(goggles({ page: "osd-second" }, hiding("TR is mid")).canHide).toBe(false);
  expect(goggles({}, hiding("TR is down")).canHide).toBe(false);
  expect(goggles({}, hiding("TR is mid and TR is up")).canHide).toBe(false);
  expect(goggles({}, hiding("TZ is up")).canHide).toBe(false);
});

test("what can be added is what the page does not have, with its size", () => {
  const { addable } = goggles();
  const names = addable.map(({ name }) => name);
  expect(names).toContain("latitude");
  expect(names).not.toContain("cell-volts");
  expect(addable.find(({ name }) => name === "horizon-line")).toMatchObject({ width: 14, height: 7 });
  expect(goggles({ page: "osd-second" }).addable.map(({ name }) => name)).toContain("cell-volts");
});

test("a line of a layer names the other craft that it places the element on, and no others", () => {
  const more = {
    "bowl.fettle": 'craft "Bowl"\nuse "wide.fettle"\n',
    "cup.fettle": 'craft "Cup"\nuse "wide.fettle"\nosd\n  cell-volts at 2, 2\n  drop alerts\n',
    "dish.fettle": 'craft "Dish"\n',
  };
  const picture = goggles({}, craft, more);
  expect(named(picture, "flight-time")?.sharedWith).toEqual({ named: ["Bowl", "Cup"], more: 0 });
  expect(named(picture, "cell-volts")?.sharedWith).toEqual({ named: ["Bowl"], more: 0 });
  expect(named(picture, "alerts")?.sharedWith).toEqual({ named: ["Bowl"], more: 0 });
  expect(named(picture, "craft")?.sharedWith).toEqual({ named: [], more: 0 });
});

test("a preview stands on the other grid, says how each place would be written, and names what has no room", () => {
  const picture = goggles({ fit: { columns: 30, rows: 16 } });
  expect(picture).toMatchObject({ columns: 30, rows: 16, preview: { columns: 30, rows: 16, unplaced: [] } });
  expect(named(picture, "flight-time")).toMatchObject({ column: 22, row: 14, placed: "right-2, bottom-1" });
  expect(goggles({ fit: { columns: 6, rows: 1 } }).preview?.unplaced).toEqual(["cell-volts", "flight-time", "alerts"]);
  expect(goggles().preview).toBeNull();
});

test("the viewer's own grid is named where the craft says it", () => {
  const viewer = (video: string) => goggles({}, craft + video).viewerGrid;
  expect(viewer("")).toBeNull();
  expect(viewer("video\n  viewer-grid 40 x 19\n  standard pal\n")).toEqual({ columns: 40, rows: 19 });
  expect(viewer("video\n  viewer-grid same\n")).toEqual({ columns: 53, rows: 20 });
  expect(viewer("video\n  standard ntsc\n")).toEqual({ columns: 30, rows: 13 });
  expect(viewer("video\n  viewer-grid wide\n  standard pal\n")).toBeNull();
});

test("a grid that no display has is brought to the nearest that one could have", () => {
  expect(goggles({ fit: { columns: 5000, rows: -3 } })).toMatchObject({ columns: 64, rows: 1 });
  expect(goggles({ fit: { columns: Number.NaN, rows: 16.5 } })).toMatchObject({ columns: 1, rows: 16 });
});
