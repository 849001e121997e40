/** The shipped server under bursts of random and hostile work: it answers everything, and answers as one that begins anew. */
import { mkdtempSync, realpathSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import { casesOr, lastsMsOr, ONLY, SEED } from "../amount.ts";
import { randomOf } from "../random.ts";
import { noTally, runBurst } from "./burst.ts";
import { buildServer } from "./client.ts";

/** As many as the tests of every change have time for; with `--minutes` as many as those allow. */
const BURSTS = casesOr(lastsMsOr(0) > 0 ? Number.POSITIVE_INFINITY : 12);

let program: string;
beforeAll(async () => {
  program = await buildServer();
});

test("after each burst every answer is that of a fresh server, and every message is what its type says", async () => {
  const until = Date.now() + lastsMsOr(60);
  const tally = noTally();
  let bursts = 0;
  for (let i = ONLY ?? 0; i === (ONLY ?? i) && bursts < BURSTS && Date.now() < until; i++) {
    const folder = realpathSync(mkdtempSync(join(tmpdir(), "fettle-burst-")));
    const faults = await runBurst(program, folder, randomOf(SEED, i), tally);
    bursts++;
    expect.soft(faults, `npm run fire -- server --seed ${SEED} --only ${i}`).toEqual([]);
  }
  const { edits, requests, comparisons, kills, asked, offered } = tally;
  console.log(
    `Seed ${SEED}: ${bursts} bursts, ${edits} edits, ${requests} requests, ${comparisons} comparisons, ${kills} servers killed.`,
  );
  // One stays open from the first moment on, and one is asked where an earlier answer is at hand.
  const others = ["workspace/diagnostic", "textDocument/semanticTokens/full/delta"];
  expect([...offered].filter((method) => !asked.has(method) && !others.includes(method))).toEqual([]);
});
