import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { mergeTexts } from "../../../shared/ide/merge/merge.ts";
import { CLASH, NEIGHBOURS } from "../../../shared/ide/reference/git/merging.ts";
import { referencePage } from "../../../shared/ide/reference/page.ts";

test.each([NEIGHBOURS, CLASH])("the page about merges shows what comes of them", ({ base, ours, theirs, merged }) => {
  expect(mergeTexts(base, ours, theirs, { ours: "ours", base: "base", theirs: "theirs" }).text).toBe(merged);
  expect(referencePage(makeCatalogue(), "git-merge")).toContain(merged);
});
