/** Long work over files that change while it is done: no step is taken over texts of two moments. */
import { expect, test } from "vitest";
import { inSlices, inSlicesAtOnce, inSlicesOver } from "../../server/src/lsp/slices.ts";
import { takeTurns } from "../../server/src/lsp/turns.ts";
import { warmUpOnce } from "../../server/src/lsp/warm-up.ts";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../shared/model/workspace.ts";
import type { Steps } from "../../shared/text/steps.ts";

const core = makeCore(makeCatalogue());
const CRAFT = 'craft "Jug"\n';

/** Longer than a slice, so that what else there is to do has its turn. */
function wait(): void {
  for (const until = Date.now() + 20; Date.now() < until; );
}

/** One file, whose text is another from the next turn on; each text is taken once. */
function typedInto(...texts: string[]) {
  const next = () => core.at(memoryFiles({ "/shed/jug.fettle": texts.shift()! }));
  let now = next();
  const type = () => {
    if (texts.length > 0) setImmediate(() => (now = next()));
  };
  return { now: () => now, type };
}

function* nameOf(now: Workspace, type: () => void, seen: string[]): Steps<string> {
  type();
  wait();
  yield;
  // As in any long work: what was a craft when it began is taken to be one.
  const { name } = now.craft("/shed/jug.fettle")!;
  seen.push(name);
  return name;
}

test("what began over a craft that is none by now goes no further, and is begun anew", async () => {
  const { now, type } = typedInto(CRAFT, "craf", 'craft "Mug"\n');
  const seen: string[] = [];
  const documents = { now };
  expect(await inSlicesAtOnce(documents, (at) => nameOf(at, type, seen))).toBeNull();
  expect(now().craft("/shed/jug.fettle")).toBeNull();
  type();
  await expect.poll(() => now().craft("/shed/jug.fettle")?.name).toBe("Mug");
  expect(await inSlicesOver(documents, (at) => nameOf(at, type, seen))).toBe("Mug");
  expect(seen).toEqual(["Mug"]);
});

test("texts that change a few times have their answer, and texts that change without end are refused", async () => {
  const few = typedInto(...Array.from({ length: 4 }, (_, i) => `craft "Jug ${i}"\n`));
  expect(await inSlicesOver(few, (at) => nameOf(at, few.type, []))).toBe("Jug 3");
  const endless = typedInto(...Array.from({ length: 1000 }, (_, i) => `craft "Jug ${i}"\n`));
  await expect(inSlicesOver(endless, (at) => nameOf(at, endless.type, []))).rejects.toThrow(
    "The scripts change faster than this can be worked out.",
  );
});

test("while somebody waits for an answer in slices, neither the warm-up nor work in the background goes on", async () => {
  const done: string[] = [];
  const turns = takeTurns();
  function* answer(): Steps<void> {
    for (let slice = 0; slice < 6; slice++) {
      wait();
      yield;
    }
    done.push("answer");
  }
  const failed: unknown[] = [];
  const message = warmUpOnce(async function* () {
    for (let key = 1; key <= 3; key++) {
      done.push(`key ${key}`);
      if (key === 1) {
        void inSlices(answer());
        void turns.giveWay().then(() => done.push("background"));
      }
      yield key;
    }
  })((error) => failed.push(error));
  message();
  await expect.poll(() => done.length, { timeout: 20_000 }).toBe(5);
  expect(done.slice(0, 2)).toEqual(["key 1", "answer"]);
  expect(failed).toEqual([]);
});
