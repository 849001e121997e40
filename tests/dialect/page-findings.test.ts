/** The examples of the pages about dialects have exactly the findings that the pages say. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { readDialect } from "../../shared/dialect/read-dialect.ts";
import type { DialectPage } from "../../shared/ide/reference/dialect/example.ts";
import * as pages from "../../shared/ide/reference/dialect/pages.ts";
import { parse } from "../../shared/syntax/parse.ts";

const catalogue = makeCatalogue();
const all = (pages as unknown as { dialectPages: readonly DialectPage[] }).dialectPages;
const examples = all.flatMap(({ name, parts }) =>
  parts.flatMap((part) => (typeof part === "string" ? [] : [{ name, ...part }])),
);

test.each(examples)("$name: $dialect", ({ dialect, finds }) => {
  const { issues } = readDialect("/kiln.fettle", parse(dialect), catalogue);
  const told = issues.map(({ code, message, span }) => `${code} in line ${span.line + 1}: ${message}`);
  expect(
    issues.map(({ code }) => code),
    told.join("\n"),
  ).toEqual(finds);
});
