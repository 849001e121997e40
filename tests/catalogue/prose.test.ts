/** What the prose of a setting must say where it can hurt, and that no setting speaks another's words. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";

const catalogue = makeCatalogue();
const settings = catalogue.sections.flatMap((section) =>
  section.settings.map((setting) => ({ path: `${section.name}.${setting.name}`, setting })),
);

/** Trials for which the pack is in, the sticks move or the craft is in the hand. */
const onTheBench = `
  bench.order-checked · bench.motors-checked · bench.mount-checked · bench.failsafe-checked · bench.range-checked
  bench.yaw · bench.pack-volts-read · bench.rest-current
  link.order · link.reversed · link.on-loss · link.preset-channels · gains.grip-from · finder.motors · lights.most-current`;

test.each(onTheBench.trim().split(/[\s·]+/))("%s mentions the propellers before the trial", (path) => {
  expect(settings.find((one) => one.path === path)?.setting.hazard).toMatch(/propellers/i);
});

// Seven words in a row that three settings share are a stock phrase: each should say what is particular to it.
test("no phrase of seven words occurs in three settings", () => {
  const places = new Map<string, Set<string>>();
  for (const { path, setting } of settings) {
    const words =
      [setting.what, setting.why, setting.hazard]
        .join(" ")
        .toLowerCase()
        .match(/[a-z0-9']+/g) ?? [];
    for (let i = 0; i + 7 <= words.length; i++) {
      const phrase = words.slice(i, i + 7).join(" ");
      places.set(phrase, (places.get(phrase) ?? new Set()).add(path));
    }
  }
  expect([...places].filter(([, paths]) => paths.size > 2).map(([phrase]) => phrase)).toEqual([]);
});
