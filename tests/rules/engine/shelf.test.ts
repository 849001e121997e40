/** Thirty craft of all kinds, as pilots write them, from a few lines to a hundred: nothing wrong is found in any. Values: common practice, no source. */
import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { strangersOf } from "../check.ts";

const FOLDER = inProject("tests/fixtures/shelf");
const files = Object.fromEntries(
  readdirSync(FOLDER).map((name) => [name, readFileSync(`${FOLDER}/${name}`, "utf8")] as const),
);
const workspace = strangersOf(files);

/** What a pilot may do well to hear of a craft that flies. */
const HINTS: Readonly<Record<string, string>> = {
  // A digital picture outside the band of pictures.
  "beaker.fettle": "video-band",
};

test.each(Object.keys(files))("%s: no error, no warning, and no hint but a welcome one", (file) => {
  const found = findingsOf(workspace, file);
  expect(found.filter(({ severity }) => severity !== "hint")).toEqual([]);
  expect(found.map(({ code }) => code)).toEqual(HINTS[file] === undefined ? [] : [HINTS[file]]);
});
