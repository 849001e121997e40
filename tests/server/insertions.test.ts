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
