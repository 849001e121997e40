/** Notes: which comments belong to a line, and which findings they accept. */
import { describe, expect, test } from "vitest";
import { check, workspaceOf } from "../rules/check.ts";

/** The note of the line that holds a text. */
function noteOf(text: string, on: string) {
  const script = workspaceOf({ "jug.fettle": text }).script("jug.fettle")!;
  return script.noteOf(script.tree.lines.findIndex((line) => line.text.includes(on)));
}

describe("what belongs to a note", () => {
  test("whole-line comments directly above, at any indent, and the one at the end", () => {
    const text = 'craft "Jug"\npack\n  # far\n\n# near\n    #   nearer\n  cells 4 # own\n  # below\n';
    expect(noteOf(text, "cells").text).toBe("near\nnearer\nown");
    expect(noteOf(text, "cells").lines).toEqual([4, 5]);
  });

  test("above a section's name it is the section's, above the header the file's", () => {
    const text = '# the tall one\ncraft "Jug"\n# by the shed door\npack # two of them\n  cells 4\n';
    expect(noteOf(text, "pack").text).toBe("by the shed door\ntwo of them");
    expect(noteOf(text, "craft").text).toBe("the tall one");
    expect(noteOf(text, "cells").text).toBe("");
  });

  test("lines that parse as an entry of that section are no note", () => {
    const text =
      'craft "Jug"\npack\n  # the heavy one\n  # cells 6\n  #capacity 850 mAh # old\n  # drop cells\n  # cells are new\n  # drop the old ones\n  cells 4\n';
    expect(noteOf(text, "  cells 4").text).toBe("the heavy one\ncells are new\ndrop the old ones");
  });

  test("a sentence about an output is a note, though any name would do there", () => {
    const text = 'craft "Jug"\noutputs\n  # drop the lamp\n  # nose when TL is up\n  nose when TR is up\n';
    expect(noteOf(text, "TR").text).toBe("drop the lamp");
  });

  test("a comment that accepts is no part of the text", () => {
    const text =
      'craft "Jug"\npack\n  # bench\n  # allow out-of-range: a supply\n  cells 99 # allow unusual-value\n  # allow time\n  capacity 5 Ah\n';
    expect(noteOf(text, "99").text).toBe("bench");
    expect(noteOf(text, "capacity").text).toBe("allow time");
  });

  test("an accepting comment knows its code, its reason, and for what it holds", () => {
    const text = `# allow arm-missing: a bench
craft "Jug" # allow mode-clash: so
# allow osd-overlap: nothing follows

pack "Old" # allow pack-order : flown once more 
  # allow cells-ambiguous
  # capacity 850 mAh
  cells 99 # allow out-of-range: a supply
  # allow syntax`;
    const { allowances } = workspaceOf({ "jug.fettle": text }).script("jug.fettle")!;
    expect(allowances.map(({ code, reason, holds, line, section }) => [code, reason, holds, line, section])).toEqual([
      ["arm-missing", "a bench", "file", 1, null],
      ["mode-clash", "so", "file", 1, null],
      ["osd-overlap", "nothing follows", "nothing", 3, null],
      ["pack-order", "flown once more", "section", 4, "pack/Old"],
      ["cells-ambiguous", "", "line", 7, null],
      ["out-of-range", "a supply", "line", 7, null],
      ["syntax", "", "nothing", 9, null],
    ]);
    const lines = text.split("\n");
    for (const { code, codeSpan, span } of allowances) {
      expect(lines[codeSpan.line]!.slice(codeSpan.start, codeSpan.end)).toBe(code);
      expect(lines[span.line]!.slice(span.start, span.end)).toMatch(/^# allow/);
    }
  });
});

describe("accepted findings", () => {
  test("above the line, at its end, without a reason", () => {
    check(`
      craft "Jug"
      pack
        # allow out-of-range: a bench supply
        cells 99
        capacity 99999999 mAh # allow out-of-range
                              ^^^^^^^^^^^^^^^^^^^^ allow-unexplained
        # allow unusual-value: another code
        adc-bits 99
                 ^^ out-of-range
    `);
  });

  test("what was not understood cannot be accepted", () => {
    check(`
      craft "Jug"
      # allow use-missing: not here
      use "none.fettle"
          ^^^^^^^^^^^^^ use-missing
      pack
        # allow syntax: so be it
        cells 4 5
                ^ syntax
        # allow unknown-name: so be it
        celsl 5
        ^^^^^ unknown-name
    `);
    check(`
      # allow edition-newer: so be it
      craft "Jug" edition 3
                  ^^^^^^^^^ edition-newer
    `);
  });

  test("a finding of a craft is accepted in the layer that says the line, or on the use line", () => {
    const layer = (note: string) => `
      === base.fettle
      layer "Base"
      modes
        ${note}
        arm when TL is up`;
    const craft = (note: string) => `
      craft "Jug"
      use "wheel.fettle"
      ${note}
      use "base.fettle"`;
    const mark = "\n          ^^^^^^^^^^^^^ arm-at-rest";
    check(craft("# plain") + mark + layer("# plain"));
    check(craft("# plain") + layer("# allow arm-at-rest: the arm-permit is a plug"));
    check(craft("# allow arm-at-rest: the arm-permit is a plug") + layer("# plain"));
    check(craft("# allow arm-missing: another") + mark + layer("# allow arm-missing: another"));
  });

  test("accepted on either of two lines that make a finding together", () => {
    const craft = (first: string, second: string) => `
      craft "Jug"
      use "wheel.fettle"
      modes
        arm when TL is down
        video-low when TL is up ${first}
        video-high when TR is up ${second}`;
    check(craft("# allow mode-clash: the board decides", "#"));
    check(craft("#", "# allow mode-clash: the board decides"));
    const [finding] = check(`${craft("#", "#")}\n                   ^^^^^^^^^^^^^ mode-clash`);
    expect(finding!.related.map(({ range }) => range.start.line)).toEqual([4]);
  });
});
