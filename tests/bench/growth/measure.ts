/** What one size costs: the first findings, those after an edit, and the memory that is held then. */
import { setImmediate as nextJob } from "node:timers/promises";
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import type { Catalogue } from "../../../shared/catalogue/catalogue.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { type Core, makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { spreadOf } from "../peer/ratios.ts";
import type { Subject, Texts } from "./subjects.ts";

export interface Cost {
  readonly size: number;
  /** Everything read and judged that was not known before. */
  readonly firstMs: number;
  /** After one edit of one file: the craft that it belongs to read and judged again. */
  readonly editMs: number;
  readonly memoryMB: number;
}

/** At least so long, and at most so often, is a thing repeated whose median is taken. */
const REPEAT_MS = 300;
const MOST_TIMES = 9;
const EDITS = 21;
const SMALL = "/shed/jug.fettle";
const JUG = 'craft "Jug"\n\nframe\n  mass  300 g\n';

setFlagsFromString("--expose-gc");
const collect: () => void = runInNewContext("gc");

async function heapMB(): Promise<number> {
  // What a weak reference gave is held until the job ends.
  await nextJob();
  collect();
  await nextJob();
  collect();
  return process.memoryUsage().heapUsed / 1024 ** 2;
}

function judged(core: Core, texts: Texts, craft: readonly string[]): void {
  const workspace = core.at(memoryFiles(texts));
  for (const file of craft) findingsOf(workspace, file);
}

/** What a core holds that has judged all of it, and the edits after that. */
async function memoryAndEdits(subject: Subject, texts: Texts, catalogue: Catalogue) {
  const craft = subject.craft(texts);
  // What is remembered of the last text that was read is then no longer that of the size before.
  for (const file of [SMALL, `${SMALL}x`]) judged(makeCore(catalogue), { [file]: JUG }, [file]);
  const before = await heapMB();
  const core = makeCore(catalogue);
  judged(core, texts, craft);
  const memoryMB = (await heapMB()) - before;
  const edits = Array.from({ length: EDITS }, (_, i) => {
    const [file, text] = subject.edited(texts, i);
    if (text === texts[file]) throw new Error(`${subject.name}: the edit changes nothing`);
    const begun = performance.now();
    judged(core, { ...texts, [file]: text }, [file]);
    return performance.now() - begun;
  });
  return { memoryMB, editMs: spreadOf(edits).median };
}

function firstOf(texts: Texts, craft: readonly string[], catalogue: Catalogue): number {
  collect();
  const begun = performance.now();
  judged(makeCore(catalogue), texts, craft);
  return performance.now() - begun;
}

/** The cost at one size: medians in milliseconds of wall time, and MB (2^20 bytes) of heap after a collection. */
export async function costOf(subject: Subject, size: number, catalogue: Catalogue): Promise<Cost> {
  const texts = subject.files(size, catalogue);
  // First, while nothing of this size was read: a run that waits holds what it read last.
  const { memoryMB, editMs } = await memoryAndEdits(subject, texts, catalogue);
  const firsts: number[] = [];
  for (let spent = 0; firsts.length < 3 || (spent < REPEAT_MS && firsts.length < MOST_TIMES); spent += firsts.at(-1)!) {
    // What one run left behind is not collected in the next one's time.
    await nextJob();
    firsts.push(firstOf(texts, subject.craft(texts), catalogue));
  }
  return { size, firstMs: spreadOf(firsts).median, editMs, memoryMB };
}
