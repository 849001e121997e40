/** Calibration from readings on the bench, held to the maker's dividers and shunt named beside each check. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { calibrationsAt } from "../../../shared/ide/edits/calibration.ts";
import { swapped } from "../../swapped.ts";
import { atCursor } from "../cursor.ts";

/** What is offered on the line at the cursor of a craft: titles, and each file after the edits. */
function offered(text: string, more: Record<string, string> = {}) {
  const { workspace, file, position } = atCursor(text, more);
  return calibrationsAt(workspace, file, { start: position, end: position }).map(({ title, files }) => {
    const after = files.map(({ file: changed, edits }) => {
      const lines = workspace.script(changed)!.tree.lines.map((line) => line.text);
      for (const { range, text: put } of edits)
        lines[range.start.line] =
          lines[range.start.line]!.slice(0, range.start.character) +
          put +
          lines[range.start.line]!.slice(range.end.character);
      return [changed.slice("/shed/".length), lines.join("\n")] as const;
    });
    return { title, files: Object.fromEntries(after), text: after.find(([name]) => name === file.slice(6))?.[1] };
  });
}

const divider = (top: string, bottom: string, read: number, shown: number) =>
  `craft "Jug"\n\npack\n  divider-top    ${top} # as printed\n  divider-bottom ${bottom}\n\nbench\n  pack-volts-read ${read}| V\n  pack-volts-shown ${shown} V\n`;

describe("the divider", () => {
  // Maker's tables of board supplies (read): 15k/10k takes 9 V to 3.6 V; 5.1k/10k takes 5.0 V to 3.31 V. A board that
  // supposes another upper resistor shows those pin volts times its own scale: 3.6 x 2.2 = 7.92 V and 3.31 x 1.5 = 4.965 V, computed.
  test.each([
    ["12 kohm", 9, 7.92, "15 kohm"],
    ["5 kohm", 5, 4.965, "5.106 kohm"],
    ["12000 ohm", 9, 7.92, "15000 ohm"],
  ])("a top of %s with %f V read and %f V shown becomes %s", (top, read, shown, becomes) => {
    const [action, ...others] = offered(divider(top, "10 kohm", read, shown));
    expect(others).toEqual([]);
    expect(action?.text).toContain(`  divider-top    ${becomes} # as printed\n`);
    expect(action?.title).toBe(
      `Set divider-top ${becomes} instead of ${top}: ${shown} V shown becomes ${read} V; these readings become comments, so take both again`,
    );
  });

  test("the readings become comments where they stand, and nothing else of the script changes", () => {
    const text = divider("10 kohm", "1 kohm", 16.4, 16.2);
    const [action] = offered(text);
    const after = `craft "Jug"

pack
  divider-top    10.14 kohm # as printed
  divider-bottom 1 kohm

bench
  # pack-volts-read 16.4 V
  # pack-volts-shown 16.2 V
`;
    expect(action?.text).toBe(after);
    // What is done once is not offered again, from any line.
    for (let line = 0; line < 9; line++)
      expect(offered(after.replace(new RegExp(`^(?:.*\\n){${line}}`), (before) => `${before}|`))).toEqual([]);
  });

  test("an earlier reading is not used instead of a faulty one", () => {
    const twice = divider("10 kohm", "1 kohm", 16.4, 16.2).replace("bench\n", "bench\n  pack-volts-shown 15.9 V\n");
    expect(offered(twice)[0]?.text).toContain(
      "  # pack-volts-shown 15.9 V\n  # pack-volts-read 16.4 V\n  # pack-volts-shown 16.2 V\n",
    );
  });

  test("with the new divider the craft would have shown what the meter read", () => {
    const kohm = fc.integer({ min: 5, max: 400 }).map((tenths) => tenths / 10);
    const volts = fc.integer({ min: 70, max: 260 }).map((tenths) => tenths / 10);
    fc.assert(
      fc.property(kohm, kohm, volts, fc.integer({ min: -9, max: 9 }), (top, bottom, shown, percent) => {
        const read = Number((shown * (1 + percent / 100)).toFixed(2));
        const [action] = offered(divider(`${top} kohm`, `${bottom} kohm`, read, shown));
        const becomes = Number(/divider-top {4}([\d.]+) kohm/.exec(action?.text ?? "")?.[1] ?? top);
        const pinV = shown / ((top + bottom) / bottom);
        // Four digits of the resistor are kept; where none is offered, none does better.
        const expected = bottom * (read / pinV - 1);
        if (expected >= 0.01)
          expect(becomes).toBeCloseTo(expected, expected < 1 ? 3 : expected < 10 ? 2 : expected < 100 ? 1 : 0);
        else expect(action).toBeUndefined();
      }),
    );
  });

  test("nothing beyond a factor of two, with one reading, without a divider, on another line, where they agree", () => {
    expect(offered(divider("10 kohm", "1 kohm", 16.4, 8.1))).toEqual([]);
    expect(offered(divider("10 kohm", "1 kohm", 8.1, 16.4))).toEqual([]);
    expect(offered(divider("10 kohm", "1 kohm", 16.4, 16.4))).toEqual([]);
    expect(offered(divider("10 kohm", "1 kohm", 16.4, 8.3))).toHaveLength(1);
    expect(offered(swapped(divider("10 kohm", "1 kohm", 16.4, 16.2), "  pack-volts-shown 16.2 V\n", ""))).toEqual([]);
    expect(offered(divider("10 kohm", "1 kohm", 16.4, 16.2).replace(/.*divider-top.*\n/, ""))).toEqual([]);
    expect(
      offered(swapped(divider("10 kohm", "1 kohm", 16.4, 16.2), "pack\n", "pack\n  volts-from esc-data\n")),
    ).toEqual([]);
    const elsewhere = divider("10| kohm", "1 kohm", 16.4, 16.2).replace("16.4|", "16.4");
    expect(offered(elsewhere)).toEqual([]);
  });
});

describe("the shunt", () => {
  const craft = (put: number, counted: number, shunt = "4 mohm") =>
    `craft "Jug"\n\npack\n  shunt ${shunt}\n  shunt-gain 20\n\nbench\n  charge-put-back ${put} mAh\n  charge-counted ${counted}| mAh\n`;

  // Maker's example (read): 5 mohm and gain 20 give 2.0 V at 20 A. A board that supposes 4 mohm takes that for 25 A, and counts
  // 1250 mAh where 1000 mAh were drawn, computed.
  test("charge counted against charge put back", () => {
    const [action] = offered(craft(1000, 1250));
    expect(action?.text).toContain("  shunt 5 mohm\n");
    expect(action?.title).toBe(
      "Set shunt 5 mohm instead of 4 mohm: 1250 mAh counted becomes 1000 mAh; these readings become comments, so take both again",
    );
    expect(offered(craft(1000, 2100))).toEqual([]);
    expect(offered(craft(1000, 1250, "1000 mohm"))).toEqual([]);
  });
});

describe("where the line stands", () => {
  const base = 'layer "Base"\n\npack\n  divider-top 10 kohm\n  divider-bottom 1 kohm\n';
  const bench = "bench\n  pack-volts-read 16.4| V\n  pack-volts-shown 16.2 V\n";
  const spent = "bench\n  # pack-volts-read 16.4 V\n  # pack-volts-shown 16.2 V\n";
  const jug = `craft "Jug"\n\nuse "base.fettle"\n\npack\n  cells    4\n  capacity 850 mAh\n\n${bench}`;
  const mug = 'craft "Mug"\n\nuse "base.fettle"\n';

  test("in a layer that only this craft uses, the layer is changed", () => {
    const [action, ...others] = offered(jug, { "base.fettle": base });
    expect(others).toEqual([]);
    expect(action?.title).toBe(
      "Set divider-top 10.14 kohm instead of 10 kohm, in “Base”: 16.2 V shown becomes 16.4 V; these readings become comments, so take both again",
    );
    expect(action?.files).toEqual({
      "base.fettle": base.replace("10 kohm", "10.14 kohm"),
      "jug.fettle": jug.replace(bench, spent),
    });
  });

  test("in a layer that other craft use, the craft overrides the layer", () => {
    const more = { "base.fettle": base, "mug.fettle": mug };
    const [action] = offered(jug, more);
    expect(action?.title).toBe(
      "Set divider-top 10.14 kohm instead of 10 kohm, over that of “Base”: 16.2 V shown becomes 16.4 V; these readings become comments, so take both again",
    );
    expect(action?.files).toEqual({
      "jug.fettle": jug.replace("850 mAh\n", "850 mAh\n  divider-top 10.14 kohm\n").replace(bench, spent),
    });
    const bare = jug.replace(/pack\n.*\n.*\n\n/, "");
    expect(offered(bare, more)[0]?.text).toBe(`${bare.replace(bench, spent)}\npack\n  divider-top  10.14 kohm\n`);
  });

  test("readings in a layer that other craft use give nothing, as their craft is not known", () => {
    const shared = `${base}\n${bench.replace("|", "")}`;
    const own = `craft "Jug"\n\nuse "base.fettle"\n\nbench\n  pack-volts-shown 16.1| V\n`;
    expect(offered(own, { "base.fettle": shared, "mug.fettle": mug })).toEqual([]);
    expect(Object.keys(offered(own, { "base.fettle": shared })[0]?.files ?? {})).toEqual(["base.fettle", "jug.fettle"]);
  });
});
