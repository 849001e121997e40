/** What a later file overrode, and what a drop removed. */
import { expect, test } from "vitest";
import { craftOf } from "./effective.ts";

const FILES = {
  "low.fettle": 'layer "Low"\ngains\n  roll p 1 d 0.4\nfilters\n  smooth-d cut 100 Hz\n  smooth-yaw 90 Hz\n',
  "mid.fettle": 'layer "Mid"\nuse "low.fettle"\ngains\n  roll d 0.6\nfilters\n  drop smooth-d\n',
};
const craft = (...lines: string[]) =>
  craftOf({ "jug.fettle": ['craft "Jug"', 'use "mid.fettle"', ...lines].join("\n"), ...FILES });
const short = (text: string | undefined) => text?.replaceAll(/ +/g, " ");

test("each setting has its values in earlier files", () => {
  const roll = craft("gains", "  roll p 2", "  roll d 0.7").settings.get("gains")!.get("roll")!;
  expect(short(roll.text)).toBe("p 2 d 0.7");
  expect(short(roll.before?.text)).toBe("p 1 d 0.6");
  expect(short(roll.before?.before?.text)).toBe("p 1 d 0.4");
  expect(roll.before?.before?.before).toBeNull();
});

test("also over a drop, in its own file or an earlier one", () => {
  const filters = craft("filters", "  drop smooth-yaw", "  smooth-yaw 120 Hz", "  smooth-d cut 150 Hz").settings.get(
    "filters",
  )!;
  expect(filters.get("smooth-yaw")?.before?.text).toBe("90 Hz");
  expect(filters.get("smooth-d")?.before?.text).toBe("cut 100 Hz");
});

test("what was dropped and not set again is kept, with the word that dropped it", () => {
  const taken = craft("filters", "  drop smooth-yaw").removedByDrop;
  expect([...taken.keys()]).toEqual(["filters.smooth-d", "filters.smooth-yaw"]);
  expect(taken.get("filters.smooth-yaw")).toMatchObject({
    setting: { text: "90 Hz" },
    source: { file: "jug.fettle", line: 3 },
    start: 7,
    end: 17,
  });
  expect([...craft("gains", "  drop all").removedByDrop.keys()]).toEqual(["filters.smooth-d", "gains.roll"]);
  expect([...craft("filters", "  smooth-d cut 80 Hz").removedByDrop.keys()]).toEqual([]);
});
