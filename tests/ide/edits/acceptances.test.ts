/** Notes that accept a finding, offered where it stands: each of them, with a reason written, silences it. */
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { acceptancesAt, type OfferedNote, type Reach } from "../../../shared/ide/edits/acceptances.ts";
import { makeCore, type Workspace } from "../../../shared/model/workspace.ts";
import type { Finding } from "../../../shared/protocol/findings.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { rules } from "../../../shared/rules/engine/registry.generated.ts";
import { unmarked, WHEEL, workspaceOf } from "../../rules/check.ts";
import { exampleView } from "../../rules/example-view.ts";
import { scriptsIn } from "../../rules/fixtures.ts";
import { atCursor } from "../cursor.ts";
import { edited, type Texts } from "./scripts-edited.ts";

const core = makeCore(makeCatalogue());

/** What is offered at the cursor, and the text of the file after each. */
function offeredAt(marked: string, more: Texts = {}): (readonly [title: string, text: string])[] {
  const { workspace, file, position: at } = atCursor(marked, more);
  const texts = { ...more, [file]: marked.replace("|", "") };
  return acceptancesAt(workspace, file, { start: at, end: at }).map((note) => [note.title, after(texts, note)[file]!]);
}

/** The files after a note, with the reason left out. */
function after(texts: Texts, { edits, creates }: Pick<OfferedNote, "edits" | "creates">): Texts {
  const begun: Texts = creates === null ? texts : { ...texts, [creates]: "" };
  return Object.fromEntries(
    Object.entries(begun).map(([file, text]) => [
      file,
      edited(
        text,
        edits.filter((each) => each.file === file),
      ),
    ]),
  );
}

/** The files after a note, with a reason written where the cursor is put. */
function reasoned(texts: Texts, note: OfferedNote): Texts {
  const { file, position } = note.reasonAt;
  const written = after(texts, note);
  return {
    ...written,
    [file]: edited(written[file]!, [{ range: { start: position, end: position }, text: "meant so" }]),
  };
}

test("on its line, in its section, in the craft and in a new layer, with the reason left to be written", () => {
  const offered = offeredAt('craft "Jug"\n\npack "Old"\n\n  # the heavy one\n  cells 9|9\n');
  const head = 'craft "Jug"\n\n';
  expect(offered).toEqual([
    [
      "Accept this here, because… (out-of-range)",
      `${head}pack "Old"\n\n  # the heavy one\n  # allow out-of-range: \n  cells 99\n`,
    ],
    [
      "Accept it in all of pack/Old, because… (out-of-range)",
      `${head}# allow out-of-range: \npack "Old"\n\n  # the heavy one\n  cells 99\n`,
    ],
    [
      "Accept it in this whole craft, because… (out-of-range)",
      `# allow out-of-range: \n${head}pack "Old"\n\n  # the heavy one\n  cells 99\n`,
    ],
    [
      "Accept it in a new layer, layers/habits.fettle, because… (out-of-range)",
      `${head}use "layers/habits.fettle"\n\npack "Old"\n\n  # the heavy one\n  cells 99\n`,
    ],
  ]);
  for (const [, text] of offered.slice(0, 3)) {
    const found = findingsOf(workspaceOf({ "jug.fettle": text }), "jug.fettle").map(({ code }) => code);
    expect(found).toEqual(["allow-unexplained"]);
  }
});

test("in the layers of the craft, the one that reaches fewest craft first", () => {
  const layers = {
    "habits.fettle": '# ours\nlayer "Habits"\n',
    "mine.fettle": 'layer "Mine"\n',
    "wheel.fettle": WHEEL,
  };
  const bowl = { "bowl.fettle": 'craft "Bowl"\nuse "habits.fettle"\n' };
  const jug = 'craft "Jug"\nuse "wheel.fettle"\nuse "habits.fettle"\nuse "mine.fettle"\npack\n  cells 9|9\n';
  const { workspace, file, position: at } = atCursor(jug, { ...layers, ...bowl });
  const offered = acceptancesAt(workspace, file, { start: at, end: at }).filter(({ reach }) => /layer/.test(reach));
  expect(offered.map(({ title, place, edits }) => [title, place, edits[0]!.file, edits[0]!.range.start.line])).toEqual([
    [
      "Accept it in the layer “Mine”, on this craft, because… (out-of-range)",
      "Mine (mine.fettle)",
      "/shed/mine.fettle",
      0,
    ],
    [
      "Accept it in the layer “Habits”, on the 2 craft that use it, because… (out-of-range)",
      "Habits (habits.fettle)",
      "/shed/habits.fettle",
      1,
    ],
    [
      "Accept it in a new layer, habits-2.fettle, because… (out-of-range)",
      "a new layer, habits-2.fettle",
      "/shed/habits-2.fettle",
      0,
    ],
  ]);
});

test("a new layer lies where the layers of the workspace lie, or beside the folder of the craft", () => {
  const begunWith = (craft: string, others: Texts) => {
    const texts = { ...others, [craft]: 'craft "Jug"\r\npack\r\n  cells 99\r\n' };
    const at = { line: 2, character: 8 };
    return acceptancesAt(workspaceOf(texts), craft, { start: at, end: at }).find(({ creates }) => creates !== null);
  };
  const handset = { "/shed/handsets/wheel.fettle": WHEEL };
  const parts = { "/shed/parts/tune.fettle": 'layer "Tune"\n' };
  expect(begunWith("/shed/craft/jug.fettle", handset)?.creates).toBe("/shed/layers/habits.fettle");
  expect(begunWith("/shed/craft/jug.fettle", { ...handset, ...parts })?.creates).toBe("/shed/parts/habits.fettle");
  expect(begunWith("/shed/jug.fettle", handset)?.creates).toBe("/shed/layers/habits.fettle");
  expect(begunWith("/shed/craft/jug.fettle", {})?.creates).toBe("/shed/craft/layers/habits.fettle");
  expect(begunWith("/jug.fettle", {})?.creates).toBe("/layers/habits.fettle");
  expect(begunWith("/shed/jug.fettle", handset)?.edits.map(({ file, text }) => [file, text])).toEqual([
    ["/shed/layers/habits.fettle", '# allow out-of-range: \r\nlayer "Habits"\r\n'],
    ["/shed/jug.fettle", '\r\n\r\nuse "layers/habits.fettle"\r\n'],
  ]);
});

test("at a section's name in the section and in the file, and once where several on a line are of one code", () => {
  expect(
    offeredAt('craft "Jug"\nmod|es\n  level when always\n')
      .map(([title]) => title)
      .slice(0, 2),
  ).toEqual([
    "Accept it in all of modes, because… (arm-missing)",
    "Accept it in this whole craft, because… (arm-missing)",
  ]);
  const { workspace, file } = atCursor('craft "Jug"\nrates\n  roll slope 9999 deg/s end 9999 deg/s\n');
  const line = { start: { line: 2, character: 0 }, end: { line: 2, character: 40 } };
  expect(findingsOf(workspace, file).filter(({ code }) => code === "out-of-range")).toHaveLength(2);
  expect(acceptancesAt(workspace, file, line).filter(({ title }) => title.includes("out-of-range"))).toHaveLength(4);
});

test("none of what cannot be accepted, nor for a stretch of several lines", () => {
  expect(offeredAt('craft "Jug"\npack\n  cel|ls 4.5.6\n')).toEqual([]);
  const { workspace, file } = atCursor('craft "Jug"\npack\n  cells 9|9\n');
  const range = { start: { line: 0, character: 0 }, end: { line: 2, character: 9 } };
  expect(acceptancesAt(workspace, file, range)).toEqual([]);
});

test("of a layer by itself only in the layer: another file has no say in it", () => {
  const reaches = offeredAt('layer "Tune"\npack\n  cells 9|9\n').map(([title]) => title.replace(/,.*/, ""));
  expect(reaches).toEqual(["Accept this here", "Accept it in all of pack", "Accept it in this whole layer"]);
});

/** Every place offered for every finding of a file, and the findings that it does not silence. */
function tried(
  texts: Texts,
  file: string,
  read: (texts: Texts) => Workspace = workspaceOf,
): { readonly reaches: Reach[]; readonly failed: string[] } {
  const workspace = read(texts);
  const reaches: Reach[] = [];
  const failed: string[] = [];
  for (const finding of findingsOf(workspace, file)) {
    for (const note of acceptancesAt(workspace, file, finding.range)) {
      if (!isSame(note.finding, finding)) continue;
      reaches.push(note.reach);
      const changed = reasoned(texts, note);
      const left = findingsOf(read(changed), file).filter((each) => isSame(each, finding));
      const before = findingsOf(workspace, file).filter((each) => isSame(each, finding));
      // A second finding in the same words may stand on another line.
      if (left.length >= before.length) failed.push(`${file}, ${finding.code}: ${note.title}`);
      const faults = findingsOf(read(changed), file).filter(({ code }) => /^(use|allow|syntax)/.test(code));
      const known = findingsOf(workspace, file).filter(({ code }) => /^(use|allow|syntax)/.test(code));
      if (faults.length > known.length) failed.push(`${file}, ${note.title}: ${faults.map(({ message }) => message)}`);
    }
  }
  return { reaches, failed };
}

/** Whether two findings are the same but for the numbers of lines, which a note above them moves. */
function isSame(a: Finding, b: Finding): boolean {
  const words = ({ message }: Finding) => message.replaceAll(/\blines? [\d, and]+/g, "line");
  return a.code === b.code && words(a) === words(b);
}

describe("each place that is offered silences the finding", () => {
  test.each(rules.filter((rule) => rule.acceptable !== false).map((rule) => [rule.code, rule] as const))(
    "%s",
    (_, rule) => {
      const { bad } = rule.examples;
      const { reaches, failed } = tried(bad, Object.keys(bad)[0]!, (texts) => core.at(exampleView(rule, texts, core)));
      expect(failed).toEqual([]);
      expect(reaches.length).toBeGreaterThan(0);
    },
  );

  test("of craft with one fault each, with their layers", () => {
    const faulty = Object.fromEntries(
      Object.entries({ ...scriptsIn("faulty/rack"), ...scriptsIn("faulty/kitchen") }).map(([file, text]) => [
        file,
        unmarked(text),
      ]),
    );
    const texts = { ...scriptsIn("sound/rack"), ...scriptsIn("sound/kitchen"), ...faulty };
    const crafts = Object.keys(faulty).filter((file, i) => /^craft /m.test(faulty[file]!) && i % 5 === 0);
    const all = crafts.map((file) => tried(texts, file));
    expect(all.flatMap(({ failed }) => failed)).toEqual([]);
    expect(new Set(all.flatMap(({ reaches }) => reaches))).toEqual(
      new Set(["line", "section", "file", "layer", "new-layer"]),
    );
  });
});
