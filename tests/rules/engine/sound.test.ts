/**
 * Sound craft of all kinds that fly, in three rooms that were written apart from one another and from the rules: tiny
 * ducted ones of one and two cells, light ones, five-inch for free flight and races, far flyers, lifters of four, six
 * and eight motors, a tri, stacked pairs, motors that turn both ways, brushed ones, with and without satellites.
 * Nothing is found in any of them. Values: common practice, no source.
 */
import { describe, expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { strangersOf, understood } from "../check.ts";
import { scriptsIn } from "../fixtures.ts";

/** What is told of a sound craft without asking anything of its pilot, with the reason. */
const TOLD: Readonly<Record<string, readonly string[]>> = {
  // Six keys, of which the craft uses four: KY does the same at “three” and at “four”.
  "sound/rack/carboy.fettle": ["control-idle"],
  // A selector of five positions, of which the craft tells four apart.
  "sound/kitchen/apron.fettle": ["control-idle"],
};

const rooms = ["rack", "kitchen", "field"].map((room) => {
  const files = scriptsIn(`sound/${room}`);
  return { room, files, workspace: strangersOf(files) };
});

describe.each(rooms)("$room", ({ files, workspace }) => {
  test.each(Object.keys(files))("%s", (file) => {
    const found = understood(findingsOf(workspace, file));
    const told = found.filter(({ severity }) => severity === "info");
    expect(found.filter(({ severity }) => severity !== "info")).toEqual([]);
    expect(told.map(({ code }) => code)).toEqual(TOLD[file] ?? []);
  });
});

test("they are 68 craft, and every handset and layer beside them is used by one", () => {
  const craft = rooms.flatMap(({ files }) => Object.values(files).filter((text) => /^craft /m.test(text)));
  expect(craft).toHaveLength(68);
  for (const { files } of rooms) {
    const texts = Object.values(files).join("\n");
    const shared = Object.keys(files).filter((file) => !/^craft /m.test(files[file]!));
    expect(shared.filter((file) => !texts.includes(`use "${file.split("/").at(-1)}"`))).toEqual([]);
  }
});
