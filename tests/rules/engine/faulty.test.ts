/**
 * Craft with one fault each, of the kinds that pilots make, in three rooms that were written apart from one another and
 * from the rules. The first comment of each says its fault; under its lines stand the findings, as in `check.ts`, so a
 * fixture is no valid script until its marks are taken out.
 */
import { describe, expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { inOrder, strangersOf, understood, unmarked, withMarks } from "../check.ts";
import { scriptsIn } from "../fixtures.ts";

const FAULT = /^# Fault: \S.*\.\n/;

/** The faults of which nothing is said yet, each with what keeps the rules from it. */
const UNSAID: Readonly<Record<string, string>> = {
  "faulty/kitchen/hosepipe.fettle": "How many channels a mount takes is said nowhere.",
  "faulty/kitchen/pitchfork.fettle": "Turtle on the way to the position that arms is not told from turtle beside it.",
  "faulty/kitchen/nettle.fettle": "Low power in flight may be meant, to spare the others of a race.",
  "faulty/kitchen/dandelion.fettle": "Whether a lap is marked by a press or by each change is the board's own affair.",
  "faulty/kitchen/compost.fettle": "What the eighth port is good for is a fact of one board.",
  "faulty/field/bramble.fettle":
    "The middle of a lever may be meant for the way home, and to pass it lasts an instant.",
};

const rooms = ["rack", "kitchen", "field"].map((room) => {
  const files = scriptsIn(`faulty/${room}`);
  const plain = Object.fromEntries(Object.entries(files).map(([file, text]) => [file, unmarked(text)]));
  // Handsets and layers that sound craft use as well stand with those.
  return { room, files, plain, workspace: strangersOf({ ...scriptsIn(`sound/${room}`), ...plain }) };
});
const faulty = rooms.flatMap(({ files, plain }) =>
  Object.keys(files)
    .filter((file) => /^craft /m.test(files[file]!))
    .map((file) => ({ file, plain: plain[file]!, marks: files[file]!.match(/^ *\^+ [a-z-]+$/gm) ?? [] })),
);

describe.each(rooms)("$room", ({ files, plain, workspace }) => {
  test.each(Object.keys(files))("%s", (file) => {
    const found = findingsOf(workspace, file).filter(({ severity }) => severity !== "info");
    expect(withMarks(plain[file]!, found)).toBe(inOrder(files[file]!));
    understood(found);
  });
});

test("they are 190 craft, each of which says its fault first", () => {
  expect(faulty).toHaveLength(190);
  expect(faulty.filter((each) => !FAULT.test(each.plain)).map(({ file }) => file)).toEqual([]);
});

test("of more than nine in ten something is said, and of the others it is known why not", () => {
  const silent = faulty.filter(({ marks }) => marks.length === 0).map(({ file }) => file);
  expect(silent.sort()).toEqual(Object.keys(UNSAID).sort());
  expect(silent.length).toBeLessThan(faulty.length / 10);
});
