/**
 * The order of magnitude of what an editor asks, so that nothing becomes slow unnoticed: the figures themselves come
 * from `npm run bench -- language`, as a machine that runs tests has other work.
 */
import { afterAll, beforeAll, expect, test } from "vitest";
import { percentile } from "../bench/figures.ts";
import {
  askEach,
  askEverywhere,
  type Question,
  questionsOfFleet,
  questionsOfText,
  type Timing,
} from "../bench/language-asks.ts";
import { craftOf, fleetOf } from "../bench/scripts.ts";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

/** How many times slower than promised is still put down to the machine. */
const FACTOR = 10;
/** Where nothing is promised, at 10,000 lines or a thousand craft. */
const USUAL_MS = 100;

const craft = "shelf-0/craft-0.fettle";
const handset = "handsets/wheel.fettle";
const fleet = fleetOf(1000);
const long = craftOf(10_000);
const uriOf = (path: string) => `file:///shed/${path}`;

let session: Session;
beforeAll(async () => {
  const texts = Object.entries(fleet).map(([path, text]) => [`/shed/${path}`, text]);
  session = await startSession(filesInMemory(Object.fromEntries(texts)), {
    ...PULLING,
    workspace: { workspaceEdit: { documentChanges: true, resourceOperations: ["rename"] } },
  });
  for (const path of [craft, handset]) await session.open(uriOf(path), fleet[path]!);
  await session.open(uriOf("tankard.fettle"), long);
  await session.pull(uriOf("tankard.fettle"));
});
afterAll(() => session.end());

const late = (timings: readonly Timing[]) =>
  timings
    .filter(({ spent, targetMs }) => spent.length > 0 && percentile(spent, 0.9) > FACTOR * (targetMs ?? USUAL_MS))
    .map(({ name, spent }) => `${name}: ${percentile(spent, 0.9).toFixed(0)} ms`);

const fewer = (questions: readonly Question[]) => questions.map((question) => ({ ...question, times: 5 }));

test("completion and hover at the places of a script of 10,000 lines", async () => {
  const timings = await askEverywhere(session, new Map([[uriOf("tankard.fettle"), long]]), 200);
  expect(timings.map(({ spent }) => spent.length)).toEqual([200, 200]);
  expect(late(timings)).toEqual([]);
});

test("what is asked of a script of 10,000 lines as a whole", async () => {
  const timings = await askEach(session, fewer(questionsOfText(uriOf("tankard.fettle"), long)));
  expect(timings.filter(({ spent }) => spent.length > 0).length).toBeGreaterThan(5);
  expect(late(timings)).toEqual([]);
});

test("what is asked of a thousand craft", async () => {
  const questions = questionsOfFleet(uriOf(craft), fleet[craft]!, uriOf(handset), fleet[handset]!);
  const timings = await askEach(session, fewer(questions));
  expect(timings.filter(({ spent }) => spent.length > 0).length).toBeGreaterThan(1);
  expect(late(timings)).toEqual([]);
});
