/** File rules that look beyond one line: uses, sections out of place, repeated entries, controls of a handset. */
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { check, codesOf } from "../check.ts";

describe("use lines", () => {
  test("missing, absolute, above the root, of a craft", () => {
    check(
      `
      craft "Jug"
      use "none.fettle"
          ^^^^^^^^^^^^^ use-missing
      use "/bowl.fettle"
          ^^^^^^^^^^^^^^ use-missing
      use "../../../bowl.fettle"
          ^^^^^^^^^^^^^^^^^^^^^^ use-missing
      use "layers\\\\habits.fettle"
          ^^^^^^^^^^^^^^^^^^^^^^^ use-missing
      use "bowl.fettle"
          ^^^^^^^^^^^^^ use-kind
      use ""
          ^^ use-missing
    `,
      { "bowl.fettle": 'craft "Bowl"\n' },
    );
  });

  test.each([
    ["layers/gone.fettle", []],
    ["layers/habtis.fettle", ["layers/habits.fettle"]],
    ["habits.fettle", ["layers/habits.fettle"]],
    ["layers/Habits", ["layers/habits.fettle"]],
    ["layers/osd", ["layers/osd-wide.fettle"]],
    ["layers", ["layers/habits.fettle", "layers/osd-wide.fettle", "layers/tune.fettle"]],
    ["", []],
  ])(
    "of “%s” only files are offered that may have been meant, and folders in common do not count",
    (path, expected) => {
      const layers = ["habits", "osd-wide", "tune"].map((name) => [`layers/${name}.fettle`, `layer "${name}"\n`]);
      const files = { "jug.fettle": `craft "Jug"\nuse "${path}"\n`, ...Object.fromEntries(layers) };
      const [finding] = findingsOf(makeCore(makeCatalogue()).at(memoryFiles(files)), "jug.fettle");
      expect(finding!.fixes.map(({ title }) => title)).toEqual(expected.map((each) => `Write "${each}"`));
    },
  );

  test("a handset uses handsets only, a layer uses both", () => {
    check(
      `
      handset "Other"
      use "base.fettle"
          ^^^^^^^^^^^^^ use-kind
      use "wheel.fettle"
      === habits.fettle
      layer "Habits"
      use "base.fettle"
      use "wheel.fettle"
    `,
      { "base.fettle": 'layer "Base"\n' },
    );
  });

  test("outside the workspace and unreadable, with the reason", () => {
    const files = memoryFiles({ "a.fettle": 'craft "A"\nuse "../far.fettle"\nuse "huge.fettle"\n' });
    const core = makeCore(makeCatalogue());
    const view = {
      ...files,
      realPath: (path: string) => path,
      read: (path: string) => {
        if (path.includes("huge")) return { kind: "unreadable", why: "it is 5.0 MB" } as const;
        return path === "/ws/a.fettle" ? files.read("a.fettle") : ({ kind: "outside" } as const);
      },
    };
    const findings = findingsOf(core.at(view), "/ws/a.fettle");
    expect(findings.map(({ code }) => code)).toEqual(["use-missing", "use-missing"]);
    expect(findings[0]!.message).toContain("outside the workspace");
    expect(findings[1]!.message).toContain("5.0 MB");
  });

  test("a circle is reported in each file of it, and as broken in a file that only uses it", () => {
    check(`
      craft "Jug"
      use "a.fettle"
          ^^^^^^^^^^ use-broken
      === a.fettle
      layer "A"
      use "b.fettle"
          ^^^^^^^^^^ use-cycle
      === b.fettle
      layer "B"
      use "a.fettle"
          ^^^^^^^^^^ use-cycle
      use "b.fettle"
          ^^^^^^^^^^ use-cycle
    `);
  });

  test("errors of a used file are one finding, also through other files; warnings and hints are none", () => {
    check(`
      craft "Jug"
      use "a.fettle"
          ^^^^^^^^^^ use-broken
      use "c.fettle"
      === a.fettle
      layer "A"
      use "b.fettle"
          ^^^^^^^^^^ use-broken
      === b.fettle
      layer "B"
      pack
        cells 4.5
              ^^^ wrong-type
        capacity 850
                 ^^^ missing-unit
      === c.fettle
      layer "C"
      pack
        cells 4
        cells 6
        ^^^^^ duplicate-entry
    `);
  });

  test("an error that a note accepts breaks no file", () => {
    check(`
      craft "Jug"
      use "a.fettle"
      === a.fettle
      layer "A"
      pack
        cells 99 # allow out-of-range: a bench supply
    `);
  });

  test("a use of a newer edition is broken", () => {
    check(`
      craft "Jug"
      use "a.fettle"
          ^^^^^^^^^^ use-broken
      === a.fettle
      layer "A" edition 4
                ^^^^^^^^^ edition-newer
    `);
  });

  test("a file named twice, also by another path", () => {
    const findings = check(
      `
      craft "Jug"
      use "base.fettle"
      use "./base.fettle"
          ^^^^^^^^^^^^^^^ duplicate-entry
    `,
      { "base.fettle": 'layer "Base"\n' },
    );
    expect(findings[0]!.related.map(({ range }) => range.start.line)).toEqual([1]);
  });

  test("many files that use many others come to an end", () => {
    const files: Record<string, string> = { "jug.fettle": 'craft "Jug"\nuse "l0.fettle"\n' };
    for (let i = 0; i < 60; i++)
      files[`l${i}.fettle`] = `layer "L${i}"\nuse "l${i + 1}.fettle"\nuse "l${i + 2}.fettle"\n`;
    files["l60.fettle"] = 'layer "L60"\nuse "l61.fettle"\n';
    files["l61.fettle"] = 'layer "L61"\n';
    const workspace = makeCore(makeCatalogue()).at(memoryFiles(files));
    expect(findingsOf(workspace, "jug.fettle")).toEqual([]);
    expect(workspace.craft("jug.fettle")!.scripts).toHaveLength(63);
  });
});

describe("sections out of place", () => {
  test("a handset holds only its own; transmitter only a handset", () => {
    check(`
      handset "Other"
      pack
      ^^^^ section-misplaced
        cells 99
      === habits.fettle
      layer "Habits"
      transmitter
      ^^^^^^^^^^^ section-misplaced
        band 9 V
    `);
  });
});

describe("entries said twice", () => {
  test("the later line has the finding, and the first is related", () => {
    const [finding] = check(`
      craft "Jug"
      pack
        cells 4
      pack
        cells 6
        ^^^^^ duplicate-entry
      pack "6S"
        cells 6
      osd
        sight at 1, 1
        sight at 2, 2
        ^^^^^ duplicate-entry
      gains
        roll p 0.9
        roll i 0.8
        roll d 0.3 p 0.7
                   ^ duplicate-entry
      filters
        notch at 100 Hz width 10 Hz
        notch at 200 Hz width 20 Hz
    `);
    expect(finding!.related.map(({ range }) => range.start)).toEqual([{ line: 2, character: 2 }]);
  });

  test("lines of one mode join, a control does not", () => {
    check(`
      craft "Jug"
      use "wheel.fettle"
      modes
        arm when TL is down
        arm when TR is down
      controls
        TL switch ch5 up 1000 us down 2000 us
        TL switch ch8 up 1000 us down 2000 us
        ^^ duplicate-entry
    `);
  });
});

describe("controls that cannot be distinguished", () => {
  test("in a handset by itself", () => {
    check(`
      handset "Other"
      controls
        A switch ch5 up 1000 us down 1000 us
                                ^^^^^^^^^^^^ positions-alike
        B button ch5 rest 1000 us held 2000 us
                 ^^^ channel-shared
    `);
  });

  test("in a craft, where the craft or a layer has a part in it", () => {
    check(`
      craft "Jug"
      use "wheel.fettle"
      controls
        TL switch ch8 up 1000 us down 2000 us
        ZZ switch ch9 up 1000 us down 2000 us
                  ^^^ channel-shared
    `);
  });

  test("a handset's own fault is reported there, and once", () => {
    check(`
      craft "Jug"
      use "other.fettle"
          ^^^^^^^^^^^^^^ use-broken
      === other.fettle
      handset "Other"
      controls
        A switch ch5 up 1000 us down 2000 us
        B button ch5 rest 1000 us held 2000 us
                 ^^^ channel-shared
    `);
  });
});

describe("bench and band", () => {
  /** Common practice, no source: within 10 us of the end points needs no change, 12 us beyond is harmless. */
  test.each([
    ["1010 us to 1990 us", []],
    ["1011 us to 2000 us", ["endpoints-off"]],
    ["1000 us to 1989 us", ["endpoints-off"]],
    ["990 us to 2010 us", []],
    ["975 us to 2025 us", []],
    ["974 us to 2000 us", ["endpoints-off"]],
    ["1000 us to 2026 us", ["endpoints-off"]],
  ])("throttle %s", (range, codes) => expect(codesOf(`craft "Jug"\nbench\n  throttle ${range}\n`)).toEqual(codes));

  test("held to the link's own end points, where it says them", () => {
    expect(codesOf('craft "Jug"\nlink\n  endpoints 1100 us to 1900 us\nbench\n  roll 1095 us to 1905 us\n')).toEqual(
      [],
    );
  });

  /** Common practice, no source: a module and a receiver on different bands never bind. */
  test.each([
    ["2.4 GHz", "2.4 GHz", []],
    ["2.4 GHz", "2450 MHz", []],
    ["868 MHz", "863 MHz", []],
    ["915 MHz", "868 MHz", ["band-mismatch"]],
    ["2.4 GHz", "915 MHz", ["band-mismatch"]],
  ])("receiver on %s, module on %s", (craft, handset, codes) => {
    const text = `craft "Jug"\nuse "other.fettle"\nlink\n  band ${craft}\n`;
    const files = { "jug.fettle": text, "other.fettle": `handset "Other"\ntransmitter\n  band ${handset}\n` };
    const workspace = makeCore(makeCatalogue()).at(memoryFiles(files));
    expect(findingsOf(workspace, "jug.fettle").map(({ code }) => code)).toEqual(codes);
  });
});
