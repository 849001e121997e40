/** The practice craft teaches what its notes say: two findings, each gone by what its note asks for. */
import { expect, test } from "vitest";
import { CLASHING, PRACTICE_SCRIPT, PRACTISED } from "../../client/src/practice-script.ts";
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
