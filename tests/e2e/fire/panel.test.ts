/** Pages of the extension under random hands: see `case.ts` for what is held to. */
import { readFileSync } from "node:fs";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { casesOr, lastsMsOr, ONLY, SEED } from "../../fire/amount.ts";
import type { Frames, Place } from "./case.ts";
import { differenceFromFresh } from "./drawn.ts";
import { openFrame } from "./page-in-view.ts";

vi.mock("vscode", () => import("./memory-editor.ts"));
const { counts, runCase } = await import("./case.ts");
const { panelPage } = await import("../../../client/src/panel-page.ts");
const { Uri } = await import("./memory-editor.ts");

const EXTENSION = Uri.file(inProject("")) as never;

/** The shed of the demo, without its boards' texts. */
const PATHS = [
  ...["amphora", "eggcup", "gravy-boat", "pipkin", "tankard", "wobbly-jug"].map((name) => `craft/${name}`),
  ...["habits", "maker-base", "osd-narrow", "osd-wide", "tune-five"].map((name) => `layers/${name}`),
  ...["bellows", "wheel"].map((name) => `handsets/${name}`),
];
const files = new Map(
  PATHS.map((path) => [`file:///shed/${path}.fettle`, readFileSync(inProject("examples", `${path}.fettle`), "utf8")]),
);
/** The panel most of all. */
const PLACES: readonly Place[] = [
  "panel",
  "panel",
  "panel",
  "comparison",
  "panel",
  "panel",
  "review",
  "panel",
  "fleet",
  "panel",
  "fleet-change",
];

/** One fault comes again and again: a few cases show it. */
const MOST_FAILURES = 5;

/** A page that is loaded goes through all that its clock was ever told: after so many cases another one takes its place. */
const CASES_A_FRAME = 20;

let frames: Frames;
beforeAll(openFrames);
afterAll(closeFrames);

async function openFrames(): Promise<void> {
  frames = { shown: await openFrame(), fresh: await openFrame() };
}

async function closeFrames(): Promise<void> {
  for (const { page } of Object.values(frames ?? {})) await page.close();
}

test("a page that was not told what a fresh one was is found", async () => {
  const listed = (name: string) => ({
    kind: "craft-list",
    craft: [{ file: "file:///shed/jug.fettle", name, aside: "" }],
  });
  const html = panelPage({ asWebviewUri: (uri: unknown) => uri, cspSource: "file:" } as never, EXTENSION, "side");
  await frames.shown.load(html, null);
  await frames.shown.post([listed("Jug")]);
  expect(await differenceFromFresh(frames.shown, frames.fresh, html, [listed("Jug")])).toBeNull();
  expect(await differenceFromFresh(frames.shown, frames.fresh, html, [listed("Jar")])).toMatch(
    /drawn:.*Jug[\s\S]*fresh:.*Jar/,
  );
});

test("no hand on a page brings it out of step with the scripts, or changes a line that is not meant", {
  timeout: 0,
}, async () => {
  const untilMs = performance.now() + lastsMsOr(22);
  const most = casesOr(10_000);
  const failures: string[] = [];
  const goesOn = () => performance.now() < untilMs && failures.length < MOST_FAILURES;
  for (let number = ONLY ?? 0; number < (ONLY === null ? most : ONLY + 1) && goesOn(); number++) {
    if (number % CASES_A_FRAME === CASES_A_FRAME - 1) {
      await closeFrames();
      await openFrames();
    }
    const running = runCase(frames, files, { seed: SEED, number, place: PLACES[number % PLACES.length]! });
    await running.catch((error: Error) => failures.push(error.message));
  }
  console.log(
    `seed ${SEED}: ${Object.entries(counts)
      .map(([name, count]) => `${count} ${name}`)
      .join(", ")}`,
  );
  expect(failures.join("\n\n")).toBe("");
  expect(counts.compared).toBeGreaterThan(counts.cases);
});
