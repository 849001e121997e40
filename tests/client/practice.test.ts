/** The practice craft teaches what its notes say: two findings, each gone by what its note asks for. */
import { expect, test } from "vitest";
import { CLASHING, FRIENDS_TEXT, PRACTICE_SCRIPT, PRACTISED } from "../../client/src/practice-script.ts";
import { offerOf } from "../../shared/ide/review/offer.ts";
import { reviewOf } from "../../shared/ide/review/review.ts";
import { findingsOf } from "../../shared/rules/engine/engine.ts";
import { workspaceOf } from "../rules/check.ts";

const findingsIn = (text: string) => findingsOf(workspaceOf({ "practice.fettle": text }), "practice.fettle");
const codesIn = (text: string) => findingsIn(text).map(({ code }) => code);
const MENDED_CLASH = PRACTICE_SCRIPT.replace("when TR is not up", "when TR is mid");

test("it has one clash and one element over another, and nothing else", () => {
  expect(codesIn(PRACTICE_SCRIPT).sort()).toEqual(Object.values(PRACTISED).sort());
});

test("the clash is there in the positions in which the switches are shown", () => {
  const clash = findingsIn(PRACTICE_SCRIPT).find(({ code }) => code === PRACTISED.clash);
  expect(clash?.witness).toMatchObject(CLASHING);
});

test("each is gone once its note is followed", () => {
  expect(codesIn(MENDED_CLASH)).toEqual([PRACTISED.osd]);
  expect(codesIn(MENDED_CLASH.replace(/(flight-time +at) .*/, "$1 right-3, bottom-2"))).toEqual([]);
});

test("the friend's text says of every class what the page beside it tells, and what is chosen brings nothing new", () => {
  const workspace = workspaceOf({ "practice.fettle": PRACTICE_SCRIPT });
  const offered = offerOf(workspace, FRIENDS_TEXT, "a friend's text");
  if (offered.kind !== "offer") throw new Error(offered.kind);
  const query = { purpose: "review", chosen: null, mapping: {}, into: null, dialect: "" } as const;
  const { rows, outcome } = reviewOf(workspace, workspace.craft("practice.fettle")!, offered.offer, query);
  expect(rows.map((row) => `${row.class} ${row.what}${row.chosen ? ", chosen" : ""}`)).toEqual([
    "dangerous failsafe.hold-for",
    "dangerous modes.arm",
    "differs pack.capacity",
    "differs pack.warn-at, chosen",
    "differs osd.link-quality, chosen",
    "differs osd.craft, chosen",
    "same pack.cells",
    "same modes.level",
    "same osd.pack-volts",
    "unknown line 19",
  ]);
  expect(rows.find(({ what }) => what === "modes.arm")?.words).toContain("before the link is up");
  expect(outcome.findings.filter(({ isNew }) => isNew)).toEqual([]);
});
