/** Adopting: all of a paste, some, one line; into the craft, a layer or a new one; what is written and what stays. */
import { describe, expect, test } from "vitest";
import { differencesOf } from "../../../shared/ide/compare/compare.ts";
import { offerOf } from "../../../shared/ide/review/offer.ts";
import { type Review, type ReviewQuery, reviewOf } from "../../../shared/ide/review/review.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { edited } from "../edits/scripts-edited.ts";
import { HABITS, JUG, SHED, shed } from "./shed.ts";

const QUERY: ReviewQuery = { purpose: "review", chosen: null, mapping: {}, into: null, dialect: "kiln" };

function reviewed(paste: string, query: Partial<ReviewQuery> = {}, texts = SHED): Review {
  const workspace = shed(texts);
  const offered = offerOf(workspace, paste, "Evenings");
  if (offered.kind !== "offer") throw new Error(JSON.stringify(offered));
  return reviewOf(workspace, workspace.craft(JUG)!, offered.offer, { ...QUERY, ...query });
}

/** The texts after the edits are made; new files with them. */
function written({ adopted }: Review, texts = SHED): Record<string, string> {
  const made: Record<string, string> = { ...texts };
  for (const { file, edits } of adopted.files) made[file] = edited(texts[file]!, edits);
  for (const { file, text } of adopted.creates) {
    expect(made[file]).toBeUndefined();
    made[file] = text;
  }
  return made;
}

/** The lines that are new or changed, and those that are gone, as a diff shows them. */
function changes(before: string, now: string): readonly string[] {
  const [old, fresh] = [before.split("\n"), now.split("\n")];
  const left = [...old];
  const added: string[] = [];
  for (const line of fresh) {
    const at = left.indexOf(line);
    if (at < 0) added.push(`+ ${line}`);
    else left.splice(at, 1);
  }
  return [...left.map((line) => `- ${line}`), ...added];
}

const FRIEND = `hey, this is mine

pack
  # sags less since the new plug
  warn-at  3.6 V/cell
modes
  # both hands stay on the sticks
  level  when TR is down
  arm    when TL is up
motors
  poles  14
lamp_mode = 3
`;

describe("what is written", () => {
  test("nothing where nothing is chosen", () => {
    const review = reviewed(FRIEND, { chosen: [] });
    expect(review.adopted.files).toEqual([]);
    expect(written(review)).toEqual(SHED);
  });

  test("the harmless taste where nobody has chosen: values in their lines, notes where there are none", () => {
    expect(changes(SHED[JUG]!, written(reviewed(FRIEND))[JUG]!)).toEqual([
      "-   warn-at    3.5 V/cell",
      "+   warn-at    3.6 V/cell",
      "+   # as pasted: both hands stay on the sticks",
      "+   level   when TR is down",
    ]);
  });

  test("one line", () => {
    expect(changes(SHED[JUG]!, written(reviewed(FRIEND, { chosen: ["modes.arm"] }))[JUG]!)).toEqual([
      "+   arm     when TL is up",
    ]);
  });

  test("hardware, if it is chosen", () => {
    expect(changes(SHED[JUG]!, written(reviewed(FRIEND, { chosen: ["motors.poles"] }))[JUG]!)).toEqual([
      "+   poles       14",
    ]);
  });

  test("into a layer of the craft", () => {
    const review = reviewed(FRIEND, { chosen: ["modes.arm"], into: HABITS });
    const made = written(review);
    expect(made[JUG]).toBe(SHED[JUG]);
    expect(changes(SHED[HABITS]!, made[HABITS]!)).toEqual([
      "-   arm       when TL is down",
      "+   arm       when TL is up",
    ]);
  });

  test("not into a layer over which the craft says it itself, and the row says why", () => {
    const review = reviewed(FRIEND, { chosen: ["pack.warn-at"], into: HABITS });
    expect(review.adopted.files).toEqual([]);
    expect(review.rows.find(({ what }) => what === "pack.warn-at")).toMatchObject({
      chosen: false,
      notTaken: expect.stringContaining("Jug"),
    });
  });

  test("into a new layer, which the craft then uses", () => {
    const review = reviewed(FRIEND, { chosen: ["modes.level", "motors.poles"], into: "/shed/layers/adopted.fettle" });
    const made = written(review);
    expect(made["/shed/layers/adopted.fettle"]).toBe(`layer "Adopted"

modes
  # as pasted: both hands stay on the sticks
  level  when TR is down

motors
  poles  14
`);
    expect(changes(SHED[JUG]!, made[JUG]!)).toEqual(['+ use "../layers/adopted.fettle"']);
    expect(shed(made).craft(JUG)!.modes.get("level")!.text).toBe("TR is down");
  });

  test("what was not understood is kept as it is, as text of the board that is named", () => {
    const made = written(reviewed(FRIEND, { chosen: ["line 12"] }));
    expect(made[JUG]!.slice(SHED[JUG]!.length)).toBe('\nverbatim "kiln"\n  | lamp_mode = 3\n');
    const again = written(reviewed("lamp_level = 4\npack\n  warn-at 3.6 V/cell", { chosen: ["line 1"] }, made), made);
    expect(again[JUG]!.slice(made[JUG]!.length - 1)).toBe("\n  | lamp_level = 4\n");
  });

  test("a line from mail is kept without the mark of mail, byte for byte", () => {
    const made = written(
      reviewed("> pack\n>   warn-at 3.6 V/cell\n> Lamp\t= “on”  # yes\u00a0 ", { chosen: ["line 3"] }),
    );
    expect(made[JUG]!).toContain("  | Lamp\t= “on”  # yes\u00a0 \n");
  });

  test("an accepted finding of theirs is none of mine", () => {
    const paste =
      "osd\n  # allow osd-overlap: they never show at once\n  # beside the other\n  cell-volts  at left+3, bottom-2\n";
    const review = reviewed(paste, { chosen: ["osd.cell-volts"] });
    expect(changes(SHED[JUG]!, written(review)[JUG]!)).toEqual([
      "+   # as pasted: beside the other",
      "+   cell-volts    at left+3, bottom-2",
    ]);
    expect(review.outcome.findings[0]).toMatchObject({ code: "osd-overlap", isNew: true, what: "osd.cell-volts" });
  });

  test("a note comes along without characters that do not show or turn the text", () => {
    const paste = "modes\n  # left \u202eshoulder\u202c, it\u200b says\n  level  when TR is down\n";
    const review = reviewed(paste);
    expect(changes(SHED[JUG]!, written(review)[JUG]!)).toEqual([
      "+   # as pasted: left shoulder, it says",
      "+   level   when TR is down",
    ]);
  });

  test("a text with a hidden character in it is dangerous, and shown", () => {
    const [row] = reviewed('osd\n  pilot-name  "Wr\u202een"\n').rows;
    expect(row).toMatchObject({ what: "osd.pilot-name", class: "dangerous", chosen: false });
    expect(row!.written).toContain("U+202E");
  });

  test("controls of theirs become those of the craft", () => {
    const paste =
      "controls\n  SA  switch  ch6  back 1000 us  half 1500 us  front 2000 us\nmodes\n  level  when SA is front\n";
    const review = reviewed(paste, { chosen: ["modes.level"] });
    expect(review.mapping.map(({ from, to, why }) => [from, to, why])).toEqual([["SA", "TR", "the same channel, ch6"]]);
    expect(changes(SHED[JUG]!, written(review)[JUG]!)).toEqual(["+   level   when TR is down"]);
    const other = reviewed(paste, { chosen: ["modes.level"], mapping: { SA: "FL" } });
    expect(changes(SHED[JUG]!, written(other)[JUG]!)).toEqual(["+   level   when FL is down"]);
    const whole = reviewed(paste, { chosen: ["modes.level", "controls.SA"] });
    expect(whole.mapping).toEqual([]);
    expect(changes(SHED[JUG]!, written(whole)[JUG]!)).toEqual(expect.arrayContaining(["+   level   when SA is front"]));
  });

  test("what is taken away", () => {
    const made = written(reviewed("modes\n  drop turtle recorder\n", { chosen: ["modes.turtle", "modes.recorder"] }));
    expect([...shed(made).craft(JUG)!.modes.keys()].sort()).toEqual(["arm", "level"]);
  });

  test("CRLF, a byte-order mark and a missing end stay", () => {
    const texts = { ...SHED, [JUG]: `\ufeff${SHED[JUG]!.trimEnd().replaceAll("\n", "\r\n")}` };
    const made = written(reviewed(FRIEND, { chosen: ["modes.level", "line 12"] }, texts), texts);
    expect(made[JUG]!.startsWith("\ufeff")).toBe(true);
    expect(made[JUG]!.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    expect(made[JUG]!.endsWith('verbatim "kiln"\r\n  | lamp_mode = 3')).toBe(true);
  });

  test("into a script of a newer edition, or with bytes that are no text, nothing", () => {
    const texts = { ...SHED, [JUG]: SHED[JUG]!.replace('craft "Jug"', 'craft "Jug" edition 9') };
    expect(reviewed(FRIEND, {}, texts).adopted).toMatchObject({ files: [], creates: [] });
  });
});

describe("what would come of it", () => {
  test("the findings that are new come first, each with the row that brings it", () => {
    const { outcome } = reviewed("pack\n  warn-at 2.6 V/cell\n  cells 4\n", { chosen: ["pack.warn-at", "pack.cells"] });
    const [first] = outcome.findings;
    expect(first).toMatchObject({ isNew: true, severity: "error", what: "pack.warn-at" });
    expect(first!.file).toBe(JUG);
    expect(first!.range.start.line).toBe(SHED[JUG]!.split("\n").findIndex((line) => line.includes("warn-at")));
  });

  test("what is only on another line is not new", () => {
    const texts = { ...SHED, [JUG]: `${SHED[JUG]}\nfinder\n  warmth  3\n` };
    const { outcome } = reviewed("modes\n  level when TR is down\nosd\n  craft at centre, top+2", {}, texts);
    expect(outcome.findings.filter(({ isNew }) => isNew)).toEqual([]);
    expect(outcome.findings.map(({ code }) => code)).toContain("unknown-name");
    expect(outcome.gone).toBe(0);
    const now = findingsOf(shed(texts), JUG).map(({ code, range }) => [code, range.start.line]);
    expect(outcome.findings.map(({ code, range }) => [code, range.start.line]).sort()).toEqual(now.sort());
  });

  test("a mended value takes its finding away", () => {
    const texts = { ...SHED, [JUG]: SHED[JUG]!.replace("3.5 V/cell", "2.6 V/cell") };
    expect(reviewed("pack\n  warn-at 3.5 V/cell\n", {}, texts).outcome.gone).toBeGreaterThan(0);
  });

  test("adopting all makes the craft the one that was shown", () => {
    const review = reviewed(FRIEND, { chosen: ["pack.warn-at", "modes.level", "modes.arm", "motors.poles"] });
    const workspace = shed(written(review));
    const again = offerOf(workspace, FRIEND, "Evenings");
    if (again.kind !== "offer") throw new Error("no offer");
    const now = workspace.craft(JUG)!;
    const laid = workspace.laidOver(now, again.offer.script);
    expect(differencesOf(now, laid, workspace.catalogue)).toEqual([]);
    const { rows } = reviewOf(workspace, now, again.offer, QUERY);
    expect(rows.filter((row) => row.class === "differs" || row.class === "dangerous")).toEqual([]);
  });
});
