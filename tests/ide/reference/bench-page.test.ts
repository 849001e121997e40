/** The page about the bench list says what the list does. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { benchList } from "../../../shared/ide/bench/bench-list.ts";
import { PARTS_IN_ORDER } from "../../../shared/ide/reference/bench/bench-list.ts";
import { referencePage } from "../../../shared/ide/reference/page.ts";
import { BENCH_CHECKS } from "../../../shared/rules/lib/bench-checks.ts";
import { WHEEL, workspaceOf } from "../../rules/check.ts";

const page = referencePage(makeCatalogue(), "bench-list")!;

/** A craft that has something to check in every part. */
const JUG = `craft "Jug"

use "wheel.fettle"

modes
  arm     when TL is down
  level   when TR is mid
  finder  when TL is up

pack
  cells      6
  capacity   1100 mAh
  chemistry  lipo

adjust
  overall  follows KN from 0.9 to 1.1

video
  signal     digital
  frequency  5806 MHz

osd
  grid        53 x 20
  pack-volts  at left+3, bottom-2
`;

test("it has the parts of the list, in their order", () => {
  const workspace = workspaceOf({ "jug.fettle": JUG, "wheel.fettle": WHEEL });
  const { phases } = benchList(workspace.craft("jug.fettle")!, workspace);
  const titles = phases.map(({ title }) => title);
  expect(titles.length).toBeGreaterThanOrEqual(12);
  expect(PARTS_IN_ORDER.map(([title]) => title).filter((title) => titles.includes(title))).toEqual(titles);
  for (const [title, why] of PARTS_IN_ORDER) expect(page).toContain(`- *${title}*: ${why}.`);
});

test("what it says that the checks cover is what they cover", () => {
  const covered = (name: string) => BENCH_CHECKS.find((check) => check.name === `bench.${name}`)!;
  expect(page).toContain("`mount-checked` how the board and the compass sit");
  expect(covered("mount-checked").settings).toEqual(
    expect.arrayContaining(["sensors.mount-roll", "sensors.mount-yaw", "sensors.compass-yaw"]),
  );
  expect(page).toContain("`motors-checked` the corner, direction and output of each motor");
  expect(covered("motors-checked").motorFields).toEqual(["place", "direction", "output"]);
});
