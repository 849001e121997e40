/** The scripts that can be chosen for a `use` line. */
import { expect, test } from "vitest";
import { filesInMemory, startSession } from "./session.ts";

test("a script to be used has its address, its name and its path from the craft", async () => {
  const session = await startSession(
    filesInMemory({
      "/shed/craft/jug.fettle": 'craft "Jug"\n',
      "/shed/wheel.fettle": 'handset "Wheel"\n',
      "/shed/base.fettle": 'layer "Base"\n',
    }),
  );
  const uri = "file:///shed/craft/jug.fettle";
  expect(await session.client.sendRequest("fettle/scripts", { uri, kind: "handset" })).toEqual([
    { uri: "file:///shed/wheel.fettle", name: "Wheel", path: "../wheel.fettle" },
  ]);
  session.end();
});

test("a use line of a script where nothing is listed is written, and one of a file that is not there is not", async () => {
  const session = await startSession(
    filesInMemory({ "/shed/jug.fettle": 'craft "Jug"\n', "/shed/.old/base.fettle": 'layer "Base"\n' }),
  );
  const use = (name: string) =>
    session.client.sendRequest("fettle/insert", {
      uri: "file:///shed/jug.fettle",
      insert: { kind: "use", uri: `file:///shed/${name}` },
    });
  expect(await use(".old/base.fettle")).toMatchObject({
    files: [{ edits: [{ text: expect.stringContaining('use ".old/base.fettle"') }] }],
  });
  expect(await use(".old/none.fettle")).toMatchObject({ kind: "refused" });
  session.end();
});
