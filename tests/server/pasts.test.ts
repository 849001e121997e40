/** `stale-check` in the language server: what git knows is looked up in the background, and noticed anew. */
import { rmSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { expect, test, vi } from "vitest";
import { diskFiles } from "../../server/src/node/disk-files.ts";
import { withGit } from "../../server/src/node/git-files.ts";
import { makeRepository } from "../cli/repository.ts";
import { startSession } from "./session.ts";

const craft = (yaw: string, day = "2026-02-01") =>
  `craft "Jug"\n\nsensors\n  mount-yaw  ${yaw}\n\nbench\n  mount-checked  ${day}\n`;

async function codesIn(session: Awaited<ReturnType<typeof startSession>>, uri: string) {
  return (await session.pull(uri)).filter(({ code }) => code === "stale-check").map(({ message }) => message);
}

test("a check is stale as soon as git was asked, and fresh again once that is committed with its new day", async () => {
  const { folder, commit } = makeRepository({ "jug.fettle": craft("90 deg") });
  commit({ "jug.fettle": craft("180 deg") }, "Turned");
  commit({ "mug.fettle": 'craft "Mug"\n' }, "Another one");
  const session = await startSession(withGit(diskFiles));
  const uri = pathToFileURL(join(folder, "jug.fettle")).href;
  await session.open(uri, craft("90 deg"));
  // The day of the check is before that of all commits, as they are of today: the first commit that said it counts.
  await vi.waitFor(async () => expect(await codesIn(session, uri)).toEqual([]));
  await session.open(uri, craft("180 deg"));
  await vi.waitFor(async () => expect(await codesIn(session, uri)).toHaveLength(1), 8000);
  expect((await codesIn(session, uri))[0]).toMatch(
    /mount-yaw from 90 deg to 180 deg \(\d{4}-\d\d-\d\d, Potter, [0-9a-f]{8}\)/,
  );
  commit({ "jug.fettle": craft("180 deg", "2026-03-01") }, "Checked");
  await session.open(uri, craft("180 deg", "2026-03-01"));
  expect(await codesIn(session, uri)).toEqual([]);
  await session.client.sendNotification("fettle/committed");
  await session.open(uri, craft("270 deg", "2026-03-01"));
  await vi.waitFor(async () => expect(await codesIn(session, uri)).toHaveLength(1), 8000);
  expect((await codesIn(session, uri))[0]).toContain("mount-yaw from 180 deg to 270 deg (not committed yet)");
  // Without its repository nothing is known any more.
  rmSync(join(folder, ".git"), { recursive: true });
  await session.client.sendNotification("fettle/committed");
  await vi.waitFor(async () => expect(await codesIn(session, uri)).toEqual([]), 8000);
  session.end();
}, 30_000);

test("without git nothing is known, and a script is answered as ever", async () => {
  const { folder } = makeRepository({ "jug.fettle": craft("90 deg") });
  vi.stubEnv("PATH", "/nowhere");
  const session = await startSession(withGit(diskFiles));
  const uri = pathToFileURL(join(folder, "jug.fettle")).href;
  await session.open(uri, `${craft("90 deg")}\npack\n  cells  99\n`);
  await vi.waitFor(async () => expect((await session.pull(uri)).map(({ code }) => code)).toContain("out-of-range"));
  expect(await codesIn(session, uri)).toEqual([]);
  session.end();
  vi.unstubAllEnvs();
});
