import { expect, test } from "vitest";
import { osdEditOf } from "../../../shared/ide/edits/osd-edit.ts";
import { after, answerTo, cellOf, JUG, shed } from "./scripts-edited.ts";

const WIDE = "/shed/wide.fettle";
const MUG = "/shed/mug.fettle";
const wide = `layer "Wide"

osd
  grid         30 x 16
  # the eye falls there first
  cell-volts   at left+2, bottom-1
  alerts       at centre, bottom-4   # three above the volts
  amps         at left + 2, bottom - 2
`;
const jug = `craft "Jug"

use "wide.fettle"

osd
  flight-time  at right-3, bottom-1  # counted from arming
  pack-volts   at 3, 12
`;
const mug = 'craft "Mug"\nuse "wide.fettle"\n';
const alone = { [JUG]: jug, [WIDE]: wide };
const both = { ...alone, [MUG]: mug };
const move = (element: string, column: number, row: number) => ({ kind: "move" as const, element, column, row });
const add = (element: string, column: number, row: number) => ({ kind: "add" as const, element, column, row });
const remove = (element: string) => ({ kind: "remove" as const, element });
/** A craft of its own, with that section `osd`. */
const own = (osd: string) => ({ [JUG]: `craft "Jug"\n\nosd\n${osd}` });

test("a move changes the offset behind the anchor, and nothing else on the line or off it", () => {
  // flight-time is six cells wide: right-5 begins in column 19 of 30.
  expect(after(alone, move("flight-time", 19, 14))).toEqual({
    ...alone,
    [JUG]: jug.replace("right-3, bottom-1", "right-5, bottom-1"),
  });
  expect(after(alone, move("flight-time", 24, 15))[JUG]).toContain("at right, bottom  # counted from arming");
  expect(after(alone, move("pack-volts", 4, 11))[JUG]).toContain("  pack-volts   at 4, 11\n");
});

test("no anchor is flipped, however far the element goes", () => {
  expect(after(alone, move("flight-time", 0, 0))[JUG]).toContain("at right-24, bottom-15  #");
  expect(after(own("  grid pal\n  amps at left+2, top+1\n"), move("amps", 24, 15))[JUG]).toContain(
    "at left+24, top+15\n",
  );
  const centred = own("  grid pal\n  amps at centre-4, middle\n");
  expect(after(centred, move("amps", 0, 9))[JUG]).toContain("at centre-12, middle+2\n");
});

test("blanks around a sign stay as they are", () => {
  const spaced = own("  grid pal\n  amps at right - 3 , top+ 2 # A\n");
  expect(after(spaced, move("amps", 20, 4))[JUG]).toContain("  amps at right - 4 , top+ 4 # A\n");
  expect(after(own("  grid pal\n  amps at right, top + 2\n"), move("amps", 20, 2))[JUG]).toContain(
    "at right - 4, top + 2",
  );
});

test("moving an element to its own place is no edit", () => {
  expect(answerTo(alone, move("flight-time", 21, 14))).toEqual({ kind: "edits", files: [] });
});

test("a line of a layer is asked about, with the names of the other craft that have it", () => {
  expect(answerTo(both, move("alerts", 2, 2))).toEqual({ kind: "choose", layer: "Wide", sharedWith: ["Mug"] });
  expect(answerTo(alone, move("alerts", 2, 2))).toEqual({ kind: "choose", layer: "Wide", sharedWith: [] });
  expect(answerTo(both, remove("alerts"))).toMatchObject({ kind: "choose" });
  // Whoever looks at a layer that no other craft has means that layer.
  expect(answerTo(alone, move("alerts", 2, 2), { file: WIDE })).toMatchObject({
    kind: "edits",
    files: [{ file: WIDE }],
  });
  expect(answerTo(both, move("alerts", 2, 2), { file: WIDE, craft: JUG })).toMatchObject({ kind: "choose" });
});

test("there: the layer's own line is changed", () => {
  expect(after(both, move("amps", 3, 13), { where: "there" })).toEqual({
    ...both,
    [WIDE]: wide.replace("at left + 2, bottom - 2", "at left + 3, bottom - 2"),
  });
});

test("override: the craft sets it again, with the layer's anchors, aligned with its neighbours", () => {
  expect(after(both, move("alerts", 3, 11), { where: "override" })[JUG]).toBe(
    `${jug}  alerts       at centre-2, bottom-4\n`,
  );
  expect(after(both, move("amps", 4, 10), { where: "override" })[JUG]).toBe(
    `${jug}  amps         at left + 4, bottom - 5\n`,
  );
  expect(after(both, move("amps", 4, 10), { where: "override" })[WIDE]).toBe(wide);
  // What is the craft's own already is changed where it stands.
  expect(after(both, move("pack-volts", 3, 11), { where: "override" })[JUG]).toBe(jug.replace("3, 12", "3, 11"));
});

test.each([
  ["a file that ends in a line end", "\n", "\n\nosd\n  amps  at left+3, bottom - 2\n"],
  ["one that does not", "", "\n\nosd\n  amps  at left+3, bottom - 2"],
  ["one that ends in a blank line", "\n\n", "\n\nosd\n  amps  at left+3, bottom - 2\n"],
  ["one that ends in blanks", "\n  ", "\n  \nosd\n  amps  at left+3, bottom - 2"],
])("a section that the craft does not have is added at the end of %s", (_, before, behind) => {
  const texts = { [JUG]: `craft "Jug"\nuse "wide.fettle"${before}`, [WIDE]: wide.replace("left + 2", "left+2") };
  const result = after(texts, move("amps", 3, 13), { where: "override" })[JUG];
  expect(result).toBe(`craft "Jug"\nuse "wide.fettle"${behind}`);
  expect(cellOf({ ...texts, [JUG]: result! }, "amps")).toEqual([3, 13]);
});

test("CRLF, CR and a byte-order mark are kept", () => {
  for (const end of ["\r\n", "\r"]) {
    const texts = { [JUG]: `\uFEFF${jug.replaceAll("\n", end)}`, [WIDE]: wide };
    const result = after(texts, add("mode", 2, 1))[JUG];
    expect(result).toBe(`\uFEFF${`${jug}  mode         at left+2, top+1\n`.replaceAll("\n", end)}`);
  }
});

test("an added element is placed as a pilot would write it", () => {
  const placed = (element: string, column: number, row: number) =>
    after(own("  grid 30 x 16\n"), add(element, column, row))
      [JUG]!.split("\n")
      .at(-2)!
      .trim();
  // pack-volts is five cells wide, the sight three by one.
  expect(placed("pack-volts", 2, 14)).toBe("pack-volts at left+2, bottom-1");
  expect(placed("pack-volts", 25, 0)).toBe("pack-volts at right, top");
  expect(placed("pack-volts", 22, 15)).toBe("pack-volts at right-3, bottom");
  expect(placed("pack-volts", 12, 7)).toBe("pack-volts at centre, middle");
  expect(placed("pack-volts", 13, 6)).toBe("pack-volts at centre+1, middle-1");
});

test("an element added to the picture of a layer is asked about, and goes into the layer if that is chosen", () => {
  const drawnFor = { file: WIDE, craft: JUG } as const;
  expect(answerTo(both, add("mode", 2, 1), drawnFor)).toEqual({ kind: "choose", layer: "Wide", sharedWith: ["Mug"] });
  const there = after(both, add("mode", 2, 1), { ...drawnFor, where: "there" });
  expect(there[WIDE]).toBe(`${wide}  mode         at left+2, top+1\n`);
  expect(there[JUG]).toBe(jug);
  const override = after(both, add("mode", 2, 1), { ...drawnFor, where: "override" });
  expect(override[WIDE]).toBe(wide);
  expect(override[JUG]).toBe(`${jug}  mode         at left+2, top+1\n`);
});

test("a layer that no other craft uses takes an added element without a question", () => {
  expect(after(alone, add("mode", 2, 1), { file: WIDE })[WIDE]).toContain("  mode         at left+2, top+1\n");
  const handset = {
    ...alone,
    "/shed/wheel.fettle": 'handset "Wheel"\n',
    [JUG]: jug.replace("use", 'use "wheel.fettle"\nuse'),
  };
  expect(after(handset, add("mode", 2, 1), { file: "/shed/wheel.fettle" })[JUG]).toContain("mode ");
});

test("a craft that says its own, or drops it, is not changed by what is added to the layer", () => {
  const others = {
    ...both,
    [MUG]: `${mug}osd\n  mode at 1, 1\n`,
    "/shed/vase.fettle": 'craft "Vase"\nuse "wide.fettle"\nosd\n  drop mode\n',
  };
  expect(after(others, add("mode", 2, 1), { file: WIDE, craft: JUG })[WIDE]).toContain("  mode         at");
  // If the drawn craft itself drops it, only a line of its own can show it.
  const vase = after(others, add("mode", 2, 1), { file: WIDE, craft: "/shed/vase.fettle" });
  expect(vase[WIDE]).toBe(wide);
  expect(vase["/shed/vase.fettle"]).toMatch(/\n {2}mode +at left\+2, top\+1\n/);
});

test("what is added goes below the last entry, before what follows", () => {
  const texts = own("  grid   pal\n  # drop amps\n  mode   at left, top\n  # no entry\n\nvideo\n  signal analogue\n");
  expect(after(texts, add("amps", 2, 1))[JUG]).toBe(
    texts[JUG]!.replace("left, top\n", "left, top\n  amps   at left+2, top+1\n"),
  );
  const tabs = own("\tgrid\tpal\n\tmode\tat left, top\n");
  expect(after(tabs, add("amps", 2, 1))[JUG]).toBe(`${tabs[JUG]}\tamps\tat left+2, top+1\n`);
  const long = own("  grid  pal\n  mode  at left, top\n");
  expect(after(long, add("flight-time", 2, 1))[JUG]).toContain("  flight-time  at left+2, top+1\n");
  expect(after(own("  grid pal\n"), add("amps", 2, 1), { page: "osd-second" })[JUG]).toBe(
    `craft "Jug"\n\nosd\n  grid pal\n\nosd-second\n  amps  at left+2, top+1\n`,
  );
});

test("a removed line takes its note with it, but not the comment above a group", () => {
  const texts = own(`  grid pal

  # top left: the link
  # allow osd-overlap: seen it
  mode  at left, top
  # in amps
  amps  at left, top+1  # at most 99

  # alone
  sight at centre, middle

  drop lap
`);
  const text = texts[JUG]!;
  expect(after(texts, remove("amps"))[JUG]).toBe(
    text.replace("  # in amps\n  amps  at left, top+1  # at most 99\n", ""),
  );
  expect(after(texts, remove("mode"))[JUG]).toBe(
    text.replace("  # allow osd-overlap: seen it\n  mode  at left, top\n", ""),
  );
  expect(after(texts, remove("sight"))[JUG]).toBe(text.replace("  # alone\n  sight at centre, middle\n", ""));
});

test("all lines of the element are removed, also a last one without a line end", () => {
  const texts = own("  grid pal\n  mode at left, top\n  amps at left, top+1\n  mode at left, top+2");
  expect(after(texts, remove("mode"))[JUG]).toBe('craft "Jug"\n\nosd\n  grid pal\n  amps at left, top+1');
  expect(after(own("  grid pal\n  mode at 1, 1"), remove("mode"))[JUG]).toBe('craft "Jug"\n\nosd\n  grid pal');
});

test("removed from a layer: there, or by a drop in the craft", () => {
  expect(after(both, remove("cell-volts"), { where: "there" })).toEqual({
    ...both,
    [WIDE]: wide.replace(/ {2}# the eye.*\n.*\n/, ""),
  });
  expect(after(both, remove("cell-volts"), { where: "override" })).toEqual({
    ...both,
    [JUG]: jug.replace("osd\n", "osd\n  drop cell-volts\n"),
  });
  const dropped = jug.replace("osd\n", "osd\n  drop alerts\n");
  expect(after({ ...both, [JUG]: dropped }, remove("amps"), { where: "override" })[JUG]).toBe(
    dropped.replace("drop alerts\n", "drop alerts\n  drop amps\n"),
  );
  const without = { [JUG]: mug, [WIDE]: wide };
  const result = after(without, remove("amps"), { where: "override" });
  expect(result[JUG]).toBe(`${mug}\nosd\n  drop amps\n`);
  expect(cellOf(result, "amps")).toBeNull();
});

test("an element that would show through from a layer is dropped where it stood", () => {
  const texts = { ...both, [JUG]: `${jug}  # lower here\n  amps         at left + 2, bottom  # A\n` };
  const result = after(texts, remove("amps"));
  expect(result[JUG]).toBe(`${jug}  drop amps\n`);
  expect(cellOf(result, "amps")).toBeNull();
  // Dropped already, and then set again: the drop is enough.
  const afresh = { ...both, [JUG]: `${jug}  drop amps\n  amps at 1, 1\n` };
  expect(after(afresh, remove("amps"))[JUG]).toBe(`${jug}  drop amps\n`);
});

const fitTo = (columns: number, rows: number) => ({ kind: "fit" as const, columns, rows });

test("a fit writes the grid and the changed places, in every file, as one answer", () => {
  const gesture = fitTo(53, 20);
  expect(answerTo(both, gesture)).toEqual({ kind: "choose", layer: "Wide", sharedWith: ["Mug"] });
  // pack-volts at 3, 12 of 16 rows stands near the bottom, and keeps its distance to it.
  const ownPlaces = jug.replace("at 3, 12", "at 3, 16");
  expect(after(both, gesture, { where: "there" })).toEqual({
    ...both,
    [WIDE]: wide.replace("30 x 16", "53 x 20"),
    [JUG]: ownPlaces,
  });
  expect(after(both, gesture, { where: "override" })).toEqual({
    ...both,
    [JUG]: `${ownPlaces}  grid         53 x 20\n`,
  });
  expect(answerTo(both, fitTo(30, 16))).toEqual({ kind: "edits", files: [] });
});

test("a grid keeps the way in which it was written", () => {
  const grid = (said: string, columns: number, rows: number) =>
    after(own(`  grid ${said} # the chip's\n`), fitTo(columns, rows))[JUG]!.split("\n")[3];
  expect(grid("pal", 30, 13)).toBe("  grid ntsc # the chip's");
  expect(grid("pal", 53, 20)).toBe("  grid 53 x 20 # the chip's");
  expect(grid("53x20", 30, 16)).toBe("  grid 30x16 # the chip's");
});

test("both pages are fitted, since they share the grid", () => {
  const texts = { [JUG]: 'craft "Jug"\n\nosd\n  grid 53 x 20\n  amps at 40, 2\n\nosd-second\n  lap at 40, 18\n' };
  const result = after(texts, fitTo(30, 16), { page: "osd-second" });
  expect(cellOf(result, "amps")).toEqual([17, 2]);
  expect(cellOf(result, "lap", "osd-second")).toEqual([17, 14]);
});

test("what cannot be written is refused, in a sentence", () => {
  const why = (texts: Record<string, string>, gesture: Parameters<typeof answerTo>[1], more = {}) => {
    const answer = answerTo(texts, gesture, more);
    return answer.kind === "refused" ? answer.message : answer;
  };
  expect(why(alone, move("altimeter", 1, 1))).toContain("no element “altimeter”");
  expect(why(alone, move("lap", 1, 1))).toContain("does not stand on this page");
  expect(why(alone, remove("lap"))).toContain("does not stand on this page");
  expect(why(alone, add("amps", 1, 1))).toBe("amps stands on this page already, by line 8 of “Wide”.");
  expect(why(alone, move("pack-volts", -1, 1))).toContain("write it with an anchor");
  expect(why(alone, move("pack-volts", 1.5, 1))).toContain("whole cells");
  expect(why(alone, fitTo(0, 16))).toContain("at most 64 x 32");
  expect(why({ [JUG]: jug }, move("pack-volts", 1, 1))).toContain("has no grid");
  expect(why({ [WIDE]: wide }, move("amps", 1, 1), { file: WIDE })).toContain("No craft");
  expect(why({ [JUG]: jug.replace('"Jug"', '"Jug" edition 9'), [WIDE]: wide }, add("lap", 1, 1))).toContain(
    "newer edition",
  );
  expect(why(own("  grid pal\n  amps at left+\n"), move("amps", 1, 1))).toContain("cannot be read");
  const merge = own(
    "  grid pal\n<<<<<<< ours\n  amps at 1, 1\n=======\n  amps at 2, 2\n>>>>>>> theirs\n  lap at 3, 3\n",
  );
  expect(why(merge, move("amps", 4, 4))).toContain("Line 6 of “Jug” stands in an unresolved merge");
  expect(why(merge, remove("amps"))).toContain("unresolved merge");
  expect(after(merge, move("lap", 4, 3))[JUG]).toBe(merge[JUG]!.replace("lap at 3", "lap at 4"));
});

test("a file that is no UTF-8 is not rewritten", () => {
  const read = (path: string) =>
    path === JUG ? ({ kind: "text", text: jug, validUtf8: false } as const) : shed(alone).view.read(path);
  const workspace = shed(alone, { read });
  const ask = { page: "osd" as const, where: "override" as const };
  for (const gesture of [
    move("pack-volts", 1, 1),
    move("amps", 1, 1),
    remove("pack-volts"),
    remove("amps"),
    add("lap", 1, 1),
  ])
    expect(osdEditOf(workspace, JUG, { ...ask, gesture })).toMatchObject({
      kind: "refused",
      message: expect.stringContaining("no UTF-8"),
    });
});
