/** Statements: header, use, sections, entries, drops, kept lines, merges; and what is wrong with each. */
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import type { FileView } from "../../shared/model/files.ts";
import { makeCore } from "../../shared/model/workspace.ts";
import { findingsOf } from "../../shared/rules/engine/engine.ts";
import { parse } from "../../shared/syntax/parse.ts";
import { check, codesOf } from "../rules/check.ts";

const kinds = (text: string) => parse(text).lines.map(({ node }) => node.kind);

describe("what a line is", () => {
  test("each kind of statement", () => {
    const text = `# note\ncraft "Jug" edition 1 # one\n\nuse "a.fettle"\npack "6S"\n\tcells 6\n drop capacity\nverbatim "d"\n  | a # b\n`;
    expect(kinds(text)).toEqual([
      "comment",
      "header",
      "blank",
      "use",
      "section",
      "entry",
      "drop",
      "section",
      "kept",
      "blank",
    ]);
  });

  test("a comment begins at a # outside a string", () => {
    const { lines } = parse('craft "a # b" # c\nboard\n  note "say \\"#\\" " # d\n');
    expect(lines.map(({ text, comment }) => comment && text.slice(comment.start))).toEqual(["# c", null, "# d", null]);
  });

  test("a string says its quotes and backslashes", () => {
    expect(parse('craft "a \\"b\\" \\\\"').name).toBe('a "b" \\');
  });

  test("a comment ends nothing, at any indent", () => {
    const { sections } = parse('craft "Jug"\npack\n# left\n      # right\n  cells 4\n');
    expect(sections.map(({ entries }) => entries)).toEqual([[4]]);
  });

  test("LF, CRLF and CR end a line, and are kept", () => {
    const tree = parse('\uFEFFcraft "Jug"\r\npack\r  cells 4\n\n');
    expect(tree.bom).toBe(true);
    expect(tree.ends).toEqual(["\r\n", "\r", "\n", "\n", ""]);
    expect(tree.lines[2]!.text).toBe("  cells 4");
  });

  test("kept lines keep everything after the bar", () => {
    const { lines } = parse('craft "Jug"\nverbatim "d"\n  |  a "b # c\t\n');
    expect(lines[2]!.node).toMatchObject({ kind: "kept", text: '  a "b # c\t' });
  });
});

describe("headers", () => {
  test("no header: one finding on the first line, and the file is read as a layer", () => {
    const text = "pack\n  cells 4\n";
    check(`
      pack
      ^^^^ syntax
        cells 4
    `);
    expect(parse(text).kind).toBe("layer");
  });

  test("an empty file has no header", () => expect(codesOf("")).toEqual(["syntax"]));

  test("a header that is not the first statement", () => {
    check(`
      pack
        cells 4
      craft "Jug"
      ^^^^^^^^^^^ syntax
    `);
  });

  test("a second header is ignored", () => {
    check(`
      craft "Jug"
      layer "Habits"
      ^^^^^ syntax
      pack
        cells 4
    `);
    expect(parse('craft "Jug"\nlayer "Habits"\n').kind).toBe("craft");
  });

  test("a header without a name, with a broken name, with more than a name", () => {
    expect(codesOf("craft\n")).toEqual(["syntax"]);
    expect(codesOf('craft "Jug\n')).toEqual(["syntax"]);
    expect(codesOf('craft "Jug\\n"\n')).toEqual(["syntax"]);
    check(`
      craft "Jug" of mine
                  ^^^^^^^ syntax
    `);
    check(`
      craft "Jug" edition one
                  ^^^^^^^^^^^ syntax
    `);
    check(`
      craft "Jug" edition 0
                          ^ syntax
    `);
  });

  test("a newer edition is one finding, and nothing else is read", () => {
    check(`
      craft "Jug" edition 2
                  ^^^^^^^^^ edition-newer
      use "nowhere.fettle"
      pakc
        cells 99 V
      <<<<<<< ours
    `);
    expect(parse('craft "Jug" edition 2\nuse "a.fettle"\npack\n')).toMatchObject({
      newer: true,
      uses: [],
      sections: [],
    });
  });

  test("a newer edition of text that is no UTF-8 is still one finding", () => {
    expect(invalid('craft "\uFFFD" edition 9\n')).toEqual(["edition-newer"]);
  });
});

describe("use and sections", () => {
  test("a use needs a name in quotes and nothing more", () => {
    check(`
      craft "Jug"
      use
        ^ syntax
      use wheel.fettle
          ^^^^^^^^^^^^ syntax
      use "wheel.fettle" first
                         ^^^^^ syntax
    `);
  });

  test("text after a section's name: the line is otherwise ignored", () => {
    check(`
      craft "Jug"
      frame
      motors 4
             ^ syntax
        propeller-diameter 5 in
    `);
    check(`
      craft "Jug"
      pack four cells
           ^^^^^^^^^^ syntax
        cells 4
        ^^^^^^^ syntax
    `);
    check(`
      craft "Jug"
      osd "front"
          ^^^^^^^ syntax
      pack "6S"
        cells 6
    `);
  });

  test("an entry outside a section", () => {
    check(`
      craft "Jug"
        cells 4
        ^^^^^^^ syntax
    `);
  });

  test("a line that begins no statement", () => {
    check(`
      craft "Jug"
      TL switch
      ^^ syntax
      42
      ^^ syntax
    `);
  });

  test("an unknown section: one finding, its entries are not checked", () => {
    const [finding] = check(`
      craft "Jug"
      pakc
      ^^^^ unknown-name
        cells 99 V
        nonsense
    `);
    expect(finding!.fixes[0]!.edits[0]!.text).toBe("pack");
  });

  test("an entry begins with a name or a control", () => {
    check(`
      craft "Jug"
      pack
        42 cells
        ^^ syntax
        | kept
        ^ syntax
    `);
  });
});

describe("drop", () => {
  test("drop alone, drop all with names, drop of what is no name", () => {
    check(`
      craft "Jug"
      use "base.fettle"
      pack
        drop
        ^^^^ syntax
        drop all cells
        ^^^^^^^^^^^^^^ syntax
        drop "cells"
             ^^^^^^^ syntax
        drop cells capacity
      === base.fettle
      layer "Base"
      pack
        cells 4
        capacity 850 mAh
    `);
  });
});

describe("verbatim", () => {
  test("needs a dialect", () => {
    check(`
      craft "Jug"
      verbatim
      ^^^^^^^^ syntax
        | a
    `);
  });

  test("holds only kept lines and drop all", () => {
    check(`
      craft "Jug"
      use "base.fettle"
      verbatim "plain"
        drop all
        # a comment
        | a = b
        cells 4
        ^^^^^^^ syntax
        drop a
        ^^^^^^ syntax
      === base.fettle
      layer "Base"
      verbatim "plain"
        | old
    `);
  });
});

describe("git's conflict markers", () => {
  test("one finding a conflict; the first side and the rest of the file are understood", () => {
    check(`
      craft "Jug"
      pack
      <<<<<<< ours
      ^^^^^^^^^^^^ syntax
        cells 4.5
              ^^^ wrong-type
      ||||||| base
        cells six
      =======
        cells seven
      >>>>>>> theirs
        capacity 850
                 ^^^ missing-unit
      <<<<<<<
      ^^^^^^^ syntax
      =======
        cells 6
      >>>>>>>
    `);
  });

  test("markers that were left behind are one finding", () => {
    check(`
      craft "Jug"
      pack
      <<<<<<< ours
      ^^^^^^^^^^^^ syntax
        cells 4
      =======
        capacity 850
                 ^^^ missing-unit
    `);
    check(`
      craft "Jug"
      pack
        cells 4
      =======
      ^^^^^^^ syntax
        capacity 850 mAh
      >>>>>>> theirs
    `);
  });

  test("a conflict that begins inside another is one of its own", () => {
    expect(codesOf('craft "Jug"\n<<<<<<< a\n<<<<<<< b\n=======\n>>>>>>> b\n')).toEqual(["syntax", "syntax"]);
  });

  test("eight of them, or an indent, are no marker", () => {
    expect(codesOf('craft "Jug"\nverbatim "d"\n  |=======\n# =======\n')).toEqual([]);
  });
});

test("bytes that are no UTF-8 are one finding, and the rest is read", () => {
  expect(invalid('craft "J\uFFFDg"\npack\n  cells 4.5\n')).toEqual(["syntax", "wrong-type"]);
});

/** Codes of a text that was read from bytes which are no UTF-8. */
function invalid(text: string): string[] {
  const view: FileView = {
    read: () => ({ kind: "text", text, validUtf8: false }),
    list: () => ["jug.fettle"],
    realPath: (path) => path,
    listsUsersOf: () => true,
  };
  return findingsOf(makeCore(makeCatalogue()).at(view), "jug.fettle").map(({ code }) => code);
}
