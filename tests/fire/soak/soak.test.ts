/**
 * Typing for a long time in a fleet, every feature asked in turn: memory stays flat, and at the end the findings of all
 * scripts equal those of a server that begins with the same texts. `npm run fire -- soak --minutes 60` types an hour in
 * a thousand craft, and prints a line of figures each minute.
 */
import { readFileSync } from "node:fs";
import { beforeAll, expect, test } from "vitest";
import { CancellationTokenSource } from "vscode-languageserver/node";
import { inProject } from "../../../.dev/say.mjs";
import { makeRepository, type Repository } from "../../cli/repository.ts";
import { announced } from "../../server/conformance/methods.ts";
import { fleetTexts } from "../../server/conformance/questions.ts";
import type { Document } from "../../server/conformance/table.ts";
import { ownRequests } from "../../server/recorder.ts";
import { lastsMsOr, SEED } from "../amount.ts";
import { type Random, randomOf } from "../random.ts";
import { type Asked, documentOf, makeAsker, STAYS_OPEN } from "./asks.ts";
import { type Editor, makeEditor } from "./editor.ts";
import { figuresOf } from "./figures.ts";
import { type FindingsPuller, makeFindingsPuller } from "./findings.ts";
import { growthOf } from "./memory.ts";
import { phrasesFor } from "./phrases.ts";
import { buildServer, type Served, serve } from "./served.ts";
import { keysOf } from "./typist.ts";

const LASTS_MS = lastsMsOr(15);
const MINUTE_MS = 60_000;
/** In less nothing can be said of memory: caches fill, and code is compiled. */
const LONG_MS = 8 * MINUTE_MS;
const IS_LONG = LASTS_MS >= LONG_MS;
const CRAFT = IS_LONG ? 1000 : 100;
/** A pilot presses five to ten keys a second. */
const BETWEEN_KEYS_MS = [100, 200];
const BETWEEN_REQUESTS_MS = IS_LONG ? 300 : 0;
/** What looks at the whole fleet begins anew with each key, so a pilot who goes on typing gives up waiting for it. */
const PATIENCE_MS = IS_LONG ? 5000 : 500;
const BETWEEN_LOOKS_MS = 5000;
const MOST_GROWTH = 0.05;

const WORDS = ["words/kiln-lamp.catalogue.json", "words/shed.aliases.json"];
/** What is open all the time; each as often as it is typed in. */
const TYPED = [
  "typed.fettle",
  "typed.fettle",
  "layers/habits.fettle",
  "layers/osd.fettle",
  "handsets/wheel.fettle",
  "loom.fettle",
  "long.fettle",
  ...WORDS,
];
const craftAt = (number: number) => `shelf-${Math.floor(number / 50)}/craft-${number}.fettle`;

let server: string;
beforeAll(async () => {
  server = await buildServer();
});

const pause = (delayMs: number) => new Promise((resolve) => setTimeout(resolve, delayMs));

function textsOfFolder(): Map<string, string> {
  const words = WORDS.map((path) => [path, readFileSync(inProject(`examples/${path}`), "utf8")]);
  return new Map(Object.entries({ ...fleetTexts(CRAFT), ...Object.fromEntries(words) }));
}

/** Asks one question after another until it is ended, and remembers which methods were asked. */
function askOn(served: Served, editor: Editor) {
  const asker = makeAsker(served.root);
  const asked = new Set<string>();
  const faults: string[] = [];
  let count = 0;
  let isOver = false;
  /** Refused in words, changed meanwhile, or nothing there to be done: all but a fault of the server's. */
  const FINE = new Set([-32800, -32801, -32802, -32803]);
  const documents = (): Document[] =>
    editor.opened().map(({ path, text }) => ({ uri: `${served.root}/${path}`, text }));
  const ask = async (question: Asked): Promise<void> => {
    asked.add(question.method);
    count++;
    const document = documentOf(question, documents());
    const withdrawal = new CancellationTokenSource();
    const patience = setTimeout(() => withdrawal.cancel(), PATIENCE_MS);
    try {
      const result: unknown = await served.client.sendRequest(question.method, question.params, withdrawal.token);
      for (const next of asker.following(question, result, document)) await ask(next);
    } catch (error) {
      if (!FINE.has((error as { code: number }).code)) faults.push(`${question.method}: ${error}`);
    } finally {
      clearTimeout(patience);
    }
  };
  const run = async () => {
    for (let number = 0; !isOver; number++) {
      for (const question of asker.next(documents(), randomOf(SEED, -1 - number))) {
        await ask(question);
        await pause(BETWEEN_REQUESTS_MS);
      }
    }
  };
  const running = run();
  return {
    faults,
    asked,
    isThrough: () => asker.methods.every((method) => asked.has(method)),
    count: () => count,
    end() {
      isOver = true;
      return running;
    },
  };
}

/** Takes down memory and figures while it goes on, and prints them minute by minute. */
function watch(served: Served, puller: FindingsPuller, requests: () => number) {
  const series: number[] = [];
  const begun = performance.now();
  let keys = 0;
  let before = { keys: 0, requests: 0, looks: 0 };
  const print = () => {
    const minute = ((performance.now() - begun) / MINUTE_MS).toFixed(1);
    const delaysMs = puller.takeDelaysMs();
    const residentMb = series.slice(before.looks);
    const figures = { keys: keys - before.keys, requests: requests() - before.requests, delaysMs, residentMb };
    before = { keys, requests: requests(), looks: series.length };
    console.log(`minute ${minute}: ${figuresOf(figures)}`);
  };
  const look = () => {
    series.push(served.residentMb());
    if (series.length % (MINUTE_MS / BETWEEN_LOOKS_MS) === 0) print();
  };
  const timer = setInterval(look, BETWEEN_LOOKS_MS);
  return {
    pressed: () => keys++,
    series,
    end() {
      clearInterval(timer);
      look();
      print();
    },
  };
}

/** What happens between two stretches of typing: another craft is taken up, a file is saved, the work committed. */
function between(editor: Editor, files: ReadonlyMap<string, string>, repository: Repository, random: Random): void {
  const visited = editor.opened().filter(({ path }) => path.startsWith("shelf-"));
  // What grew too long is taken back to what was saved, all at once.
  for (const { path, text } of editor.opened())
    if (text.length > files.get(path)!.length * 1.2 + 2000) editor.replace(path, files.get(path)!);
  if (random.onceIn(3)) {
    for (const { path } of visited.slice(0, Math.max(0, visited.length - 2))) {
      if (random.onceIn(2)) editor.save(path);
      editor.close(path);
    }
    const path = craftAt(random.below(CRAFT));
    if (!editor.opened().some((each) => each.path === path)) editor.open(path);
  }
  if (random.onceIn(60)) repository.commit({}, "as flown today");
}

test("typing on and on", async () => {
  const files = textsOfFolder();
  /** As it all began: what is saved may grow, but from here. */
  const first = new Map(files);
  const repository = makeRepository(Object.fromEntries(files));
  const { folder } = repository;
  const served = await serve(server, folder);
  served.listen();
  const editor = makeEditor(served, folder, files);
  for (const path of new Set([...TYPED, craftAt(0)])) editor.open(path);
  const puller = makeFindingsPuller(served);
  const asking = askOn(served, editor);
  const watching = watch(served, puller, asking.count);

  const end = performance.now() + LASTS_MS;
  // A busy machine has a while more to ask for everything once.
  const isOver = () => performance.now() > (asking.isThrough() ? end : end + 2 * MINUTE_MS);
  for (let stretch = 0; !isOver(); stretch++) {
    const random = randomOf(SEED, stretch);
    between(editor, first, repository, random);
    const visited = editor.opened().filter(({ path }) => path.startsWith("shelf-"));
    const path = stretch % 2 === 0 ? random.oneOf(visited).path : TYPED[Math.floor(stretch / 2) % TYPED.length]!;
    const document = editor.opened().find((each) => each.path === path)!;
    for (const key of keysOf(document, phrasesFor(path), random)) {
      editor.press(path, key);
      puller.typed(path);
      watching.pressed();
      await pause(random.between(BETWEEN_KEYS_MS[0]!, BETWEEN_KEYS_MS[1]!));
    }
  }
  await asking.end();
  await puller.settled();
  watching.end();

  const offered = [...announced(served.offers), ...ownRequests()].filter((method) => method !== STAYS_OPEN);
  expect(offered.filter((method) => !asking.asked.has(method))).toEqual([]);
  expect([...asking.faults, ...puller.faults, ...served.errors]).toEqual([]);

  const fresh = await serve(server, folder);
  for (const { path, text, version } of editor.opened()) fresh.open(path, text, version);
  for (const { path } of editor.opened()) expect(await served.pull(path), path).toEqual(await fresh.pull(path));
  const all = await fresh.pullAll();
  expect(all.size).toBeGreaterThan(CRAFT - 10);
  await expect.poll(() => shownOf(served, all), { timeout: MINUTE_MS, interval: 500 }).toEqual(all);
  expect(await served.pullAll()).toEqual(all);
  expect([await served.end(), await fresh.end()]).toEqual([0, 0]);
  expect(fresh.errors).toEqual([]);
  if (IS_LONG) expect(growthOf(watching.series)).toBeLessThan(MOST_GROWTH);
});

/** What an editor shows by now of these scripts, as it was told in parts. */
function shownOf({ closed }: Served, of: ReadonlyMap<string, unknown>) {
  return new Map([...of.keys()].map((uri) => [uri, closed.get(uri)]));
}
