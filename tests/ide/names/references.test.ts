/** Where the thing under the cursor is named, on the cases of `references.txt`. */
import { describe, expect, test } from "vitest";
import { highlightsAt, referencesAt } from "../../../shared/ide/names/references.ts";
import { finish } from "../../../shared/text/steps.ts";
import { workspaceOf } from "../../rules/check.ts";
import { casesIn } from "./cases.ts";

const cases = casesIn("references.txt");

test("there are more than sixty of them", () => {
  expect(cases.length).toBeGreaterThan(60);
});

describe.each(cases)("$title", ({ texts, file, position, expected }) => {
  const workspace = workspaceOf(texts);
  const nameOf = (path: string) => path.slice("/shed/".length, -".fettle".length);

  test("everywhere", () => {
    const places = finish(referencesAt(workspace, file, position, "with"));
    const found = places.map((each) => `${nameOf(each.file)}:${each.line + 1}${each.does === "defines" ? "!" : ""}`);
    expect(found.join(" ") || "none").toBe(expected);
  });

  test("without what says it", () => {
    const places = finish(referencesAt(workspace, file, position, "without"));
    const found = places.map((each) => `${nameOf(each.file)}:${each.line + 1}`);
    const others = expected.split(" ").filter((each) => !each.endsWith("!"));
    expect(found.join(" ") || "none").toBe(others.join(" ") || "none");
  });

  test("in its own file, at once", () => {
    const own = finish(referencesAt(workspace, file, position, "with")).filter((each) => each.file === file);
    expect(highlightsAt(workspace, file, position).map((each) => [each.line, each.start])).toEqual(
      own.map((each) => [each.line, each.start]),
    );
  });

  test("line ends of another system, and a mark before the text, change nothing", () => {
    const other = Object.fromEntries(
      Object.entries(texts).map(([path, text]) => [path, `\uFEFF${text.replaceAll("\n", "\r\n")}`]),
    );
    expect(finish(referencesAt(workspaceOf(other), file, position, "with"))).toEqual(
      finish(referencesAt(workspace, file, position, "with")),
    );
  });
});
