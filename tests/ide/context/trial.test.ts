import { expect, test } from "vitest";
import { collectAll } from "../../../server/src/node/free-memory.ts";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { withFile } from "../../../shared/ide/context/trial.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";

const workspace = makeCore(makeCatalogue()).at(memoryFiles({ "/jug.fettle": 'craft "Jug"\n' }));

function triedAt(file: string): Craft {
  return withFile(workspace, file, `craft "Tried at ${file}"\n`).craft(file)!;
}

test("what is tried is seen beside the files as they are", () => {
  const tried = withFile(workspace, "/mug.fettle", 'craft "Mug"\n');
  expect(tried.view.list().map((file) => tried.craft(file)!.name)).toEqual(["Jug", "Mug"]);
  expect(workspace.view.list()).toEqual(["/jug.fettle"]);
});

test("what was tried long ago is not kept", async () => {
  const first = new WeakRef(triedAt("/first.fettle"));
  for (let number = 0; number < 60; number++) triedAt(`/${number}.fettle`);
  // A reference that is weak holds until the engine has had a turn.
  await new Promise((resolve) => setTimeout(resolve, 0));
  await collectAll();
  expect(first.deref()).toBeUndefined();
});
