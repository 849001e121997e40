/** `fettle/history`: by the host's own git, and by a client that knows commits. */
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { expect, test } from "vitest";
import { diskFiles } from "../../server/src/node/disk-files.ts";
import { withGit } from "../../server/src/node/git-files.ts";
import { asUri } from "../../shared/protocol/addresses.ts";
import type { RevisionParams, RevisionResult } from "../../shared/protocol/compare.ts";
import type { HistoryParams, HistoryResult, LogResult } from "../../shared/protocol/history.ts";
import { otherTextIn } from "../../shared/protocol/other-texts.ts";
import { historiesIn, repositoryOf } from "../fixtures/histories/histories.ts";
import { filesInMemory, PULLING, type Session, startSession } from "./session.ts";

const habits = (warn: string) => `layer "Habits"\npack\n  # cold packs sag\n  warn-at  ${warn}\n`;
const jug = 'craft "Jug"\nuse "habits.fettle"\npack\n  cells  4\n';
const [written] = historiesIn(`== Jug
@a 2026-02-01 Anna: Begin
file old.fettle
  layer "Habits"

  pack
    # cold packs sag
    warn-at  3.4 V/cell
file jug.fettle
  craft "Jug"
  use "old.fettle"
  pack
    cells  4
@b 2026-02-02 Mo: A better name
move old.fettle habits.fettle
file jug.fettle
  craft "Jug"
  use "habits.fettle"
  pack
    cells  4
@c 2026-02-03 Mo: Earlier
file habits.fettle
  layer "Habits"

  pack
    # cold packs sag
    warn-at  3.5 V/cell
`);

async function asked(session: Session, uri: string, line: number): Promise<HistoryResult> {
  const params: HistoryParams = { uri: asUri(uri), position: { line, character: 4 } };
  return session.client.sendRequest<HistoryResult>("fettle/history", params);
}

function inShort(result: HistoryResult) {
  if (result.kind === "refused") return result.message;
  return result.rows.map(({ day, author, subject, words, at, before }) => {
    const texts = [before, at?.file ?? null].map((address) => {
      const text = address && otherTextIn(decodeURIComponent(address.split("?")[1] ?? ""));
      return text && "uri" in text ? text.uri.replace(/^.*\//, "") : address?.replace(/^.*\//, "");
    });
    return [day, author, subject, words, `${texts.join(" ↔ ")}:${at?.line}`].join(" | ");
  });
}

test("a host with git follows renamed files, with what is not committed first; a layer is looked at on a craft", async () => {
  const { folder } = repositoryOf(written!);
  const session = await startSession(withGit(diskFiles));
  const uri = pathToFileURL(join(folder, "habits.fettle")).href;
  await session.open(uri, habits("3.6 V/cell"));
  await session.open(pathToFileURL(join(folder, "jug.fettle")).href, jug);
  const found = await asked(session, uri, 3);
  expect(found).toMatchObject({
    kind: "history",
    what: "pack.warn-at",
    craft: { name: "Jug" },
    now: "3.6 V/cell",
    notes: [],
  });
  expect(inShort(found)).toEqual([
    " |  | not committed yet | 3.5 V/cell → 3.6 V/cell | habits.fettle ↔ habits.fettle:3",
    "2026-02-03 | Mo | Earlier | 3.4 V/cell → 3.5 V/cell | habits.fettle ↔ habits.fettle:4",
    "2026-02-01 | Anna | Begin | not said → 3.4 V/cell |  ↔ old.fettle:4",
  ]);
  expect(inShort(await asked(session, uri, 0))).toBe(
    "There is no name here: put the cursor on an entry, or on a word of a “drop”.",
  );
  session.end();
});

test("without git around the script it says so", async () => {
  const session = await startSession(withGit(diskFiles));
  await session.open("file:///nowhere/at/all/jug.fettle", jug);
  const said = inShort(await asked(session, "file:///nowhere/at/all/jug.fettle", 3));
  expect(said).toBe("There is no history to show: no git repository is around this script.");
  session.end();
});

/** Commits that a client tells of, with the texts that each has. */
const COMMITS: readonly { readonly id: string; readonly texts: Readonly<Record<string, string>> }[] = [
  { id: "3".repeat(40), texts: { "/jug.fettle": jug, "/habits.fettle": habits("3.5 V/cell") } },
  { id: "2".repeat(40), texts: { "/jug.fettle": jug, "/habits.fettle": habits("3.4 V/cell") } },
  { id: "1".repeat(40), texts: { "/jug.fettle": 'craft "Jug"\n' } },
];

async function toldByClient(log: LogResult | null): Promise<Session> {
  const files = filesInMemory({ "/jug.fettle": jug, "/habits.fettle": habits("3.5 V/cell") });
  const session = await startSession(files, PULLING, undefined, undefined, (client) => {
    if (log) client.onRequest<LogResult, void>("fettle/log", () => log);
    client.onRequest<RevisionResult, void>("fettle/revision", ({ uri, revision }: RevisionParams): RevisionResult => {
      const text = COMMITS.find(({ id }) => id.startsWith(revision))?.texts[uri.replace("file://", "")];
      return text === undefined ? { kind: "missing" } : { kind: "text", text };
    });
  });
  await session.open("file:///jug.fettle", jug);
  await session.open("file:///habits.fettle", habits("3.5 V/cell"));
  return session;
}

test("a server without git asks the client for commits and texts", async () => {
  const commits = COMMITS.map(({ id }, i) => ({
    id,
    author: "Mo",
    date: `2026-02-0${3 - i}`,
    subject: `Flight ${3 - i}`,
  }));
  const session = await toldByClient({ kind: "commits", commits });
  expect(inShort(await asked(session, "file:///habits.fettle", 3))).toEqual([
    "2026-02-03 | Mo | Flight 3 | 3.4 V/cell → 3.5 V/cell | habits.fettle ↔ habits.fettle:3",
    "2026-02-02 | Mo | Flight 2 | not said → 3.4 V/cell | jug.fettle ↔ habits.fettle:3",
  ]);
  session.end();
});

test("a client that knows none says why, or says nothing at all", async () => {
  const none = await toldByClient({
    kind: "none",
    why: "This file lies in no git repository that the editor has opened.",
  });
  expect(inShort(await asked(none, "file:///jug.fettle", 3))).toContain("no git repository that the editor has opened");
  none.end();
  const silent = await toldByClient(null);
  expect(inShort(await asked(silent, "file:///jug.fettle", 3))).toContain("“fettle history” does on the command line");
  silent.end();
});
