/**
 * What a stranger's text does in the answers to requests of our own: each string of them is text as it can be read, or
 * it is known who makes that of it, and tested there.
 */
import { expect, test } from "vitest";
import { OWN_TYPES, ownJudge } from "../../server/conformance/own-schemas.ts";
import { markdownFaults, unseenIn } from "./inspect.ts";
import { ownAsks } from "./own-asks.ts";
import { hostileRows } from "./rows.ts";
import { type Answer, servedShed } from "./served-shed.ts";

/** Fields with the pilot's own bytes, which are written into a file or shown as a document of their own. */
const BYTES = [
  "boardRead.text",
  "boardWrite.changes",
  "boardWrite.text",
  "effective.text",
  "nameLine.offers.adopt.files.edits.text",
  "page.asked",
  "relocate.creates.text",
  "relocate.files.edits.text",
  "share.text",
];
/** What lists and messages of the editor show: `client/src/shown-window.ts`, in `tests/client/shown-window.test.ts`. */
const TOLD = [
  "boardMoved.moved.after.text",
  "boardMoved.moved.before.text",
  "boardNames.names.value",
  "history.rows.author",
  "history.rows.note",
  "history.rows.subject",
  "insert.message",
  "motorEdit.message",
  "nameLine.offers.fact",
  "newCraft.problem",
  "origin.steps.note",
  "osdEdit.message",
];
/** What pages show: `client/panel/visible.ts`, in `tests/e2e/fire/hostile-panel.test.ts` and `hostile-tabs.test.ts`. */
const DRAWN = [
  "compare.message",
  "compare.notes",
  "compare.rows.mine",
  "compare.rows.theirs",
  "compare.rows.words",
  "compare.theirs.name",
  "fleet.fleet.texts",
  "makeAlike.craft.lines.after",
  "makeAlike.craft.lines.before",
  "makeAlike.craft.lines.words",
  "page.title",
  "panel.against.message",
  "panel.against.name",
  "panel.against.notes",
  "panel.bench.list.phases.steps.what",
  "panel.findings.message",
  "panel.past",
  "panel.switches.modes.what",
  "review.rows.mine",
  "review.rows.theirs",
  "review.rows.words",
  "review.rows.written",
  "review.theirs.name",
];

const BY_OTHERS = [...BYTES, ...TOLD, ...DRAWN];

/** Every string of an answer with the way to it, such as `compare.rows.words`. */
function stringsIn(answer: Answer, way: string): (readonly [string, string])[] {
  if (typeof answer === "string") return [[way, answer]];
  if (Array.isArray(answer)) return answer.flatMap((each) => stringsIn(each, way));
  if (typeof answer !== "object" || answer === null) return [];
  return Object.entries(answer).flatMap(([name, each]) => stringsIn(each, `${way}.${name}`));
}

const judge = ownJudge();
/** The requests that were answered by more than a refusal, and the fields in which something was left to others. */
const answered = new Set<string>();
const left = new Set<string>();

test.each(hostileRows())("case %i", async (_, text) => {
  const { shed, ask, told, end } = await servedShed(text);
  const faults: string[] = [];
  for (const [method, all] of Object.entries(ownAsks(shed, text)))
    for (const params of all) {
      expect(judge(method, "params", params)).toBeNull();
      const answer = await ask(method, params);
      if (answer !== null && answer.kind !== "refused") answered.add(method);
      for (const [way, said] of stringsIn(answer, method.replace("fettle/", ""))) {
        if (way.endsWith(".markdown")) faults.push(...markdownFaults(said).map((fault) => `${way}: ${fault}`));
        const unseen = unseenIn(said);
        if (unseen === null) continue;
        left.add(way);
        if (!BY_OTHERS.includes(way)) faults.push(`${way}: ${unseen}`);
      }
    }
  faults.push(...told.flatMap((line) => unseenIn(line) ?? []));
  expect(faults).toEqual([]);
  end();
});

test("every request was answered, and what is said to be left to others is", () => {
  expect([...answered].sort()).toEqual(Object.keys(OWN_TYPES).sort());
  expect([...left].sort()).toEqual([...BY_OTHERS].sort());
});
