/** Objects of git's store, many at once. */
import type { FileAnswer } from "../../../shared/model/files.ts";
import { MOST_BYTES, scriptAnswer, tooLarge } from "../../../shared/model/script-limits.ts";
import { textAnswer } from "../../../shared/model/text-answer.ts";
import { asking, type GitSteps, NoRevision } from "./git.ts";

/** So much is read at once. */
const MOST_AT_ONCE = 32 * 1024 * 1024;

/** What was read of the store, by the names of its objects, each as a script. */
export interface Blobs {
  get(id: string): FileAnswer | undefined;
  /** Reads those that were not read yet. */
  read(ids: Iterable<string>): GitSteps<void>;
}

const NOT_HERE: FileAnswer = { kind: "unreadable", why: "git does not have its text here" };

/** Nothing read yet. */
export function makeBlobs(): Blobs {
  const known = new Map<string, FileAnswer>();
  return {
    get: (id) => known.get(id),
    *read(ids) {
      const due = [...new Set(ids)].filter((id) => !known.has(id));
      let batch: string[] = [];
      let bytes = 0;
      for (const [id, size] of yield* sizesOf(due)) {
        if (size === null) known.set(id, NOT_HERE);
        else if (size > MOST_BYTES) known.set(id, tooLarge(size));
        else {
          if (bytes + size > MOST_AT_ONCE) {
            yield* readBatch(batch, known);
            batch = [];
            bytes = 0;
          }
          batch.push(id);
          bytes += size;
        }
      }
      yield* readBatch(batch, known);
    },
  };
}

/** How many bytes each has; null for what is not in the store, as in a clone that left it out. */
function* sizesOf(ids: readonly string[]): GitSteps<ReadonlyMap<string, number | null>> {
  if (ids.length === 0) return new Map();
  const format = "%(objectname) %(objecttype) %(objectsize)";
  const ran = yield* asking(["cat-file", `--batch-check=${format}`], { input: lines(ids) });
  if (ran.status !== 0) throw new NoRevision(`git cannot read its store: ${ran.error}`);
  const told = ran.out.toString("utf8").split("\n");
  return new Map(
    ids.map((id, i) => {
      const [, type, size] = (told[i] ?? "").split(" ");
      return [id, type === "blob" && /^\d+$/.test(size ?? "") ? Number(size) : null];
    }),
  );
}

/**
 * The contents as git prints them one after another: `ID TYPE SIZE`, a line end, so many bytes, a line end. Of what is not
 * there it prints `ID missing` and a line end.
 */
function* readBatch(ids: readonly string[], known: Map<string, FileAnswer>): GitSteps<void> {
  if (ids.length === 0) return;
  const ran = yield* asking(["cat-file", "--batch"], { mostBytes: 2 * MOST_AT_ONCE, input: lines(ids) });
  if (ran.status !== 0) throw new NoRevision(`git cannot read its store: ${ran.error}`);
  for (let at = 0; at < ran.out.length; ) {
    const end = ran.out.indexOf(0x0a, at);
    const head = /^([0-9a-f]+) (?:blob (\d+)|.*)$/.exec(ran.out.toString("latin1", at, end < 0 ? at : end));
    // What breaks off here, or goes on with something else, tells nothing of what comes after it.
    if (!head) break;
    const [, id = "", size] = head;
    at = end + 1;
    if (size === undefined) continue;
    const behind = at + Number(size);
    if (behind >= ran.out.length) break;
    known.set(id, scriptAnswer(textAnswer(ran.out.subarray(at, behind))));
    at = behind + 1;
    yield;
  }
  // An object may go, as git tidies its store, after it was asked for its size.
  for (const id of ids) if (!known.has(id)) known.set(id, NOT_HERE);
}

function lines(ids: readonly string[]): string {
  return ids.map((id) => `${id}\n`).join("");
}
