/** What git prints, made at random: commits with what they changed, records of a log, names and paths. */
import type { GitCall, GitSteps } from "../../../server/src/node/git.ts";
import type { LoggedChange, LoggedCommit } from "../../../server/src/node/git-log.ts";
import type { Random } from "../random.ts";

export function hexText(random: Random): string {
  return random
    .below(2 ** 31 - 1)
    .toString(16)
    .padStart(8, "0")
    .repeat(5);
}

export function pathText(random: Random): string {
  return random.oneOf([
    "craft/jug.fettle",
    "jug.fettle",
    "layers/ä ö.fettle",
    'a"b.fettle',
    "tab\there.fettle",
    "line\nend.fettle",
    ":x.fettle",
    "deep/er/and/er/jug.fettle",
    "./jug.fettle",
    "../jug.fettle",
    "\u0001x.fettle",
  ]);
}

function madeChange(random: Random): LoggedChange[] {
  // What begins a commit in a log cannot begin a path there.
  const path = pathText(random).replace("\u0001", "_");
  const entry = { kind: "file", id: hexText(random) } as const;
  const kind = random.below(5);
  if (kind === 0) return [{ path, renamedFrom: null, entry: null }];
  if (kind > 1) return [{ path, renamedFrom: null, entry }];
  const from = `old/${path}`;
  return [
    { path: from, renamedFrom: null, entry: null },
    { path, renamedFrom: from, entry },
  ];
}

export function madeLog(random: Random): LoggedCommit[] {
  const ids = random.some(random.below(7), () => hexText(random));
  return ids.map((id, i) => ({
    id,
    parents: ids.slice(i + 1, i + 1 + random.below(3)),
    author: random.oneOf(["Potter", "Ä Ö", "", "a <b@c>", "\u202eabc"]),
    date: random.oneOf(["2026-04-18T10:30:00+02:00", "", "1970-01-01T00:00:00Z"]),
    committedOn: "2026-04-18T10:30:00+02:00",
    subject: random.oneOf(["Change it", "", ":100644 100644 a b M", "with\ttab", "ö".repeat(40)]),
    changes: random.some(random.below(4), () => madeChange(random)).flat(),
  }));
}

/** The same as git prints it with `-z`. */
export function recordsText(random: Random, commits: readonly LoggedCommit[]): string {
  return commits
    .map(({ id, parents, author, date, committedOn, subject, changes }) => {
      const fields = [`\u0001${id}`, parents.join(" "), author, date, committedOn, subject].join("\0");
      const raw = changes.flatMap(({ path, renamedFrom, entry }, i) => {
        const zeros = "0".repeat(40);
        if (entry === null)
          return changes[i + 1]?.renamedFrom === path ? [] : [`:100644 000000 ${zeros} ${zeros} D\0${path}\0`];
        const names = renamedFrom === null ? path : `${renamedFrom}\0${path}`;
        return [`:100644 100644 ${zeros} ${entry.id} ${renamedFrom === null ? "M" : "R087"}\0${names}\0`];
      });
      return `${fields}\0${raw.length > 0 && random.onceIn(2) ? "\n" : ""}${raw.join("")}`;
    })
    .join(random.onceIn(2) ? "\0" : "");
}

/** What work that asks git comes to, where git answers so. */
export function answered<T>(steps: GitSteps<T>, answer: (call: GitCall) => Buffer): T {
  for (let next = steps.next(); ; ) {
    if (next.done) return next.value;
    const call = next.value;
    next = steps.next(call && { status: 0, out: answer(call), error: "", isTooMuch: false });
  }
}

/** Bytes cut, doubled, or with others in their place. */
export function spoiledBytes(random: Random, bytes: Buffer): Buffer {
  const at = random.between(0, bytes.length);
  const to = random.between(at, Math.min(bytes.length, at + 12));
  const kind = random.below(4);
  if (kind === 0) return bytes.subarray(0, at);
  if (kind === 1) return Buffer.concat([bytes.subarray(0, at), bytes.subarray(to)]);
  if (kind === 2) return Buffer.concat([bytes.subarray(0, to), bytes.subarray(at)]);
  const put = random.oneOf([
    [0xff],
    [0xc3],
    [0xc3, 0x28],
    [0xed, 0xa0, 0x80],
    [0xf5, 0x80, 0x80, 0x80],
    [0],
    [0xff, 0xfe],
    [0xfe, 0xff],
    [0xef, 0xbb, 0xbf],
    [0x0a],
  ]);
  return Buffer.concat([bytes.subarray(0, at), Buffer.from(put), bytes.subarray(at)]);
}
