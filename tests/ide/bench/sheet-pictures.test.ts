import { expect, test } from "vitest";
import { sheetPictures } from "../../../shared/ide/bench/sheet-pictures.ts";
import { WHEEL, workspaceOf } from "../../rules/check.ts";

function picturesOf(craft: string, wheel = WHEEL) {
  const workspace = workspaceOf({ "jug.fettle": `craft "Jug"\n\nuse "wheel.fettle"\n${craft}`, "wheel.fettle": wheel });
  return sheetPictures(workspace.craft("jug.fettle")!, workspace);
}

const OSD = "\nosd\n  grid        30 x 16\n  pack-volts  at left+2, bottom-1\n";
const SECOND = "\nosd-second\n  flight-time  at left, top\n";

test("a craft without OSD, handset and motors has no picture", () => {
  const workspace = workspaceOf({ "jug.fettle": 'craft "Jug"\n' });
  expect(sheetPictures(workspace.craft("jug.fettle")!, workspace)).toEqual({
    osd: null,
    "osd-second": null,
    switches: null,
    motors: null,
  });
});

test("both pages of the OSD are drawn with their words, and a page that the craft does not have is not", () => {
  const both = picturesOf(OSD + SECOND);
  expect(both.osd?.words).toMatch(/^30 by 16 cells\. pack-volts shows .* at left\+2, bottom-1/);
  expect(both["osd-second"]?.words).toContain("flight-time shows");
  expect(picturesOf(OSD)["osd-second"]).toBeNull();
});

test("they are black on white, and nothing in them moves", () => {
  const { osd, switches } = picturesOf(`${OSD}\nmodes\n  arm  when TL is down\n`);
  for (const svg of [...osd!.svgs, ...switches!.svgs]) {
    expect(svg).not.toMatch(/animation|@keyframes/);
    const colours = new Set(svg.match(/#[0-9a-f]{6}\b|#[0-9a-f]{3}\b/g));
    for (const colour of colours) expect(colour).toMatch(/^#(.)(?:\1\1|\1{5}|(.)(?:\1\2){2})$/);
  }
  expect(switches?.words).toContain("TL");
  expect(switches?.words).toContain("arm");
});

test("a handset with more controls than go on a page is drawn in parts, each control in one", () => {
  const names = Array.from({ length: 60 }, (_, index) => `S${index + 1}`);
  const lines = names.map((name, index) => `  ${name}  switch  ch${5 + (index % 12)}  up 1000 us  down 2000 us`);
  const { svgs, words } = picturesOf("", `handset "Wide"\n\ncontrols\n${lines.join("\n")}\n`).switches!;
  expect(svgs).toHaveLength(4);
  const drawn = svgs.flatMap((svg) => [...svg.matchAll(/data-head="([^"]*)"/g)].map(([, name]) => name));
  expect(drawn.toSorted()).toEqual(names.toSorted());
  for (const name of names) expect(words).toContain(`${name},`);
});
