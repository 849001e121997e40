/** What a note accepts, and where: on a line, in a section, in a file, and in every craft that uses it. */
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { WHEEL, workspaceOf } from "../check.ts";

type Files = Readonly<Record<string, string>>;

/** The codes found in a file, of those that the cases are about, each as CODE or CODE at its line from 1. */
function found(files: Files, file = "jug.fettle", workspace = workspaceOf({ "wheel.fettle": WHEEL, ...files })) {
  return findingsOf(workspace, file)
    .filter(({ code }) =>
      /^(allow-|arm-at-rest|osd-overlap|out-of-range|unusual-value|pack-order|use-broken)/.test(code),
    )
    .map(({ code, range }) => `${code} ${range.start.line + 1}`);
}

/** A craft with one finding in each of two sections: `osd-overlap` in the last line, `pack-order` before. */
const craft = (notes: { header?: string; pack?: string; osd?: string; line?: string; use?: string } = {}) =>
  `${notes.header ?? "#"}
craft "Jug"
use "wheel.fettle" ${notes.use ?? "#"}
${notes.pack ?? "#"}
pack
  chemistry lipo
  warn-at 3.3 V/cell
  land-at 3.4 V/cell
${notes.osd ?? "#"}
osd
  grid 30 x 16
  pack-volts at 2, 2
${notes.line ?? "#"}
  amps at 2, 2
`;

describe("where a note accepts", () => {
  const plain = ["pack-order 8", "osd-overlap 14"];

  test("without one, both are found", () => expect(found({ "jug.fettle": craft() })).toEqual(plain));

  test.each([
    ["the line", { line: "# allow osd-overlap: in races only" }, ["pack-order 8"]],
    ["the section", { osd: "# allow osd-overlap: in races only" }, ["pack-order 8"]],
    ["the file", { header: "# allow osd-overlap: in races only" }, ["pack-order 8"]],
    ["the section of the other", { pack: "# allow osd-overlap: in races only" }, [...plain, "allow-unused 4"]],
    ["the section of the first", { pack: "# allow pack-order: a bench supply" }, ["osd-overlap 14"]],
    ["the line of another", { use: "# allow osd-overlap: in races only" }, [...plain, "allow-unused 3"]],
  ])("%s", (_, notes, codes) => {
    expect(found({ "jug.fettle": craft(notes) }).sort()).toEqual([...codes].sort());
  });

  test("a section that is named twice is one, and a named pack is another than the plain", () => {
    const text = (first: string, second: string) =>
      `craft "Jug"\npack ${first}\n  cells 99\npack\n  capacity 900 Ah\npack "Old" ${second}\n  cells 77\n`;
    const allow = "# allow out-of-range: a bench supply";
    expect(found({ "jug.fettle": text("", "") })).toEqual(["out-of-range 3", "out-of-range 5", "out-of-range 7"]);
    expect(found({ "jug.fettle": text(allow, "") })).toEqual(["out-of-range 7"]);
    expect(found({ "jug.fettle": text("", allow) })).toEqual(["out-of-range 3", "out-of-range 5"]);
  });

  test("a `use` below a section is no line of it", () => {
    const layer = 'layer "Base"\nmodes\n  arm when TL is up\n';
    const text = (note: string) => `craft "Jug"\nuse "wheel.fettle"\nboard ${note}\n  model "x"\nuse "base.fettle"\n`;
    expect(found({ "jug.fettle": text("# allow arm-at-rest: a plug"), "base.fettle": layer })).toEqual([
      "allow-unused 3",
      "arm-at-rest 5",
    ]);
  });
});

describe("what a layer accepts is accepted in every craft that uses it", () => {
  const opinions = (header: string, section: string, modes = "") =>
    `${header}\nlayer "Opinions"\n${section}\nosd\n  pilot-name "Ada"\n${modes}`;
  const users = (layer: string) => ({
    "jug.fettle": craft({ use: "" }).replace('use "wheel.fettle"', 'use "wheel.fettle"\nuse "opinions.fettle"'),
    "opinions.fettle": layer,
  });

  test.each([
    ["nothing", "#", "#", ["pack-order 9", "osd-overlap 15"]],
    ["in its header", "# allow pack-order: I land by the clock", "#", ["osd-overlap 15"]],
    ["in a section", "#", "# allow osd-overlap: the timer is off in races", ["pack-order 9"]],
    ["in a section, of another", "#", "# allow pack-order: by the clock", ["pack-order 9", "osd-overlap 15"]],
  ])("%s", (_, header, section, codes) => {
    expect(found(users(opinions(header, section)))).toEqual(codes);
  });

  test("in the note of its own entry, wherever that takes effect", () => {
    const layer = (note: string) => `layer "Opinions"\nmodes\n  arm when TL is up ${note}\n`;
    expect(found(users(layer("")))).toContain("arm-at-rest 4");
    expect(found(users(layer("# allow arm-at-rest: the permit is a plug")))).not.toContain("arm-at-rest 4");
    expect(found(users(layer("# allow arm-at-rest: the permit is a plug")), "opinions.fettle")).toEqual([]);
  });

  test("but not in another layer, nor for a file that it breaks", () => {
    const files = {
      ...users(opinions("# allow out-of-range: a bench supply", "#")),
      "other.fettle": 'layer "Other"\npack\n  cells 99\n',
    };
    const both = { ...files, "jug.fettle": files["jug.fettle"].replace("use ", 'use "other.fettle"\nuse ') };
    expect(found(both)).toContain("use-broken 3");
    expect(found(both, "other.fettle")).toEqual(["out-of-range 3"]);
  });
});

describe("what accepts nothing", () => {
  test("a code that no rule has: the nearest is offered", () => {
    const files = { "jug.fettle": 'craft "Jug"\npack\n  cells 99 # allow out-of-rage: a supply\n' };
    const [finding] = findingsOf(workspaceOf(files), "jug.fettle").filter(({ code }) => code === "allow-unknown");
    expect(finding!.message).toContain("Did you mean “out-of-range”?");
    expect(finding!.fixes).toEqual([
      {
        title: "Write out-of-range",
        edits: [
          {
            file: "jug.fettle",
            range: { start: { line: 2, character: 19 }, end: { line: 2, character: 30 } },
            text: "out-of-range",
          },
        ],
      },
    ]);
    expect(found(files)).toEqual(["out-of-range 3", "allow-unknown 3"]);
    // Of such a code no reason is asked for: it is to be corrected first.
    expect(found({ "jug.fettle": 'craft "Jug"\npack\n  cells 99 # allow out-of-rage\n' })).toContain("allow-unknown 3");
    expect(found({ "jug.fettle": 'craft "Jug"\npack\n  cells 4 # allow wind\n' })).toEqual([]);
  });

  test.each(["syntax", "unknown-name", "use-missing", "edition-newer", "allow-unused", "allow-unexplained"])(
    "%s cannot be accepted, and a finding says so",
    (code) => {
      const files = { "jug.fettle": `craft "Jug"\npack\n  cells 6 # allow ${code}: so be it\n` };
      expect(found(files)).toEqual(["allow-unused 3"]);
      const [finding] = findingsOf(workspaceOf(files), "jug.fettle").filter((each) => each.code === "allow-unused");
      expect(finding!.message).toContain(`No note can accept ${code}`);
      expect(finding!.fixes[0]!.edits).toEqual([
        {
          file: "jug.fettle",
          range: { start: { line: 2, character: 9 }, end: { line: 2, character: 9 + 19 + code.length } },
          text: "",
        },
      ]);
    },
  );

  test("a comment above a blank line or at the end belongs to no line", () => {
    expect(found({ "jug.fettle": 'craft "Jug"\n# allow out-of-range: a supply\n\npack\n  cells 99\n' })).toEqual([
      "allow-unused 2",
      "out-of-range 5",
    ]);
    expect(found({ "jug.fettle": 'craft "Jug"\npack\n  cells 99\n  # allow out-of-range: a supply' })).toEqual([
      "out-of-range 3",
      "allow-unused 4",
    ]);
  });

  test("what has been put right: the line of the comment is taken out whole", () => {
    const files = { "jug.fettle": 'craft "Jug"\npack\n  # allow out-of-range: a supply\n  cells 6\n' };
    const [finding] = findingsOf(workspaceOf(files), "jug.fettle").filter(({ code }) => code === "allow-unused");
    expect(finding!.severity).toBe("hint");
    expect(finding!.fixes[0]!.edits[0]!.range).toEqual({
      start: { line: 2, character: 0 },
      end: { line: 3, character: 0 },
    });
  });
});

describe("a layer is judged by all craft that use it", () => {
  const LAYER =
    'layer "Base"\nuse "wheel.fettle"\nmodes\n  arm when TL is up # allow arm-at-rest: the permit is a plug\n';
  const armed = 'craft "Jug"\nuse "base.fettle"\n';
  const restated = 'craft "Mug"\nuse "base.fettle"\nmodes\n  arm when TL is down\n';
  const unused = ["allow-unused 4"];

  test.each<[string, Files, readonly string[]]>([
    ["none uses it", {}, []],
    ["one has the finding", { "a.fettle": restated, "b.fettle": armed }, []],
    ["none has it", { "a.fettle": restated, "b.fettle": restated }, unused],
    [
      "one uses it by another layer",
      { "a.fettle": 'craft "Mug"\nuse "m.fettle"\n', "m.fettle": 'layer "M"\nuse "base.fettle"\n' },
      [],
    ],
    ["one cannot be read whole", { "a.fettle": restated, "b.fettle": `${restated}use "gone.fettle"\n` }, []],
    ["one has a line that is not understood", { "a.fettle": restated, "b.fettle": `${restated}  level when\n` }, []],
    [
      "one names a control that is none",
      { "a.fettle": restated, "b.fettle": `${restated}  level when QQ is up\n` },
      [],
    ],
    ["one is of a newer edition", { "a.fettle": restated, "b.fettle": 'craft "New" edition 7\n' }, []],
  ])("%s", (_, files, codes) => {
    expect(found({ "base.fettle": LAYER, ...files }, "base.fettle")).toEqual(codes);
  });

  const core = makeCore(makeCatalogue());
  const files = { "wheel.fettle": WHEEL, "base.fettle": LAYER, "a.fettle": restated };
  const view = memoryFiles(files);

  test("not while some craft may not be listed, nor while one has not been read", () => {
    expect(found(files, "base.fettle", core.at(view))).toEqual(unused);
    expect(found(files, "base.fettle", core.at({ ...view, listsUsersOf: () => false }))).toEqual([]);
    const unread = {
      ...view,
      list: () => [...view.list(), "later.fettle"],
      read: (path: string) => (path === "later.fettle" ? undefined : view.read(path)),
    };
    expect(found(files, "base.fettle", core.at(unread))).toEqual([]);
  });

  test("not where more craft use it than can be gone through with each key", () => {
    const fleet = (count: number) =>
      Object.fromEntries(Array.from({ length: count }, (_, i) => [`${i}.fettle`, restated]));
    expect(found({ "base.fettle": LAYER, ...fleet(40) }, "base.fettle")).toEqual(unused);
    expect(found({ "base.fettle": LAYER, ...fleet(41) }, "base.fettle")).toEqual([]);
  });

  test("a handset too, and its header counts for every craft", () => {
    const handset = (note: string) => `${note}\n${WHEEL}`;
    const jug = { "jug.fettle": 'craft "Jug"\nuse "wheel.fettle"\nmodes\n  arm when TL is up\n' };
    const allow = "# allow arm-at-rest: on this handset it lies under a guard";
    expect(found({ ...jug, "wheel.fettle": handset("#") })).toEqual(["arm-at-rest 4"]);
    expect(found({ ...jug, "wheel.fettle": handset(allow) })).toEqual([]);
    expect(found({ ...jug, "wheel.fettle": handset(allow) }, "wheel.fettle")).toEqual([]);
    const down = { "jug.fettle": jug["jug.fettle"].replace("is up", "is down") };
    expect(found({ ...down, "wheel.fettle": handset(allow) }, "wheel.fettle")).toEqual(["allow-unused 1"]);
  });
});

test("a craft with a condition too tangled to follow is not judged", () => {
  const row = Array.from({ length: 10 }, (_, i) => i + 1);
  const desk = `handset "Desk"\ncontrols\n${row.map((i) => `  A${i} switch ch${4 + i} up 1000 us mid 1500 us down 2000 us\n  B${i} switch ch${14 + i} up 1000 us mid 1500 us down 2000 us\n`).join("")}`;
  const beside = row.map((i) => `A${i} is down and B${i} is down`).join(" or ");
  const crosswise = row.map((i) => `A${i} is up and B${11 - i} is up`).join(" or ");
  const text = (lamp: string) =>
    `craft "Jug"\nuse "wheel.fettle"\nmodes\n  arm when A1 is down # allow arm-at-rest: a plug\noutputs\n  lamp when ${lamp}\n`;
  expect(found({ "wheel.fettle": desk, "jug.fettle": text("A1 is up") })).toEqual(["allow-unused 4"]);
  expect(found({ "wheel.fettle": desk, "jug.fettle": text(`(${beside}) and (${crosswise})`) })).toEqual([]);
});
