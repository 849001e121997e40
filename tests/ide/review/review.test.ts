/** Pastes of every shape, held against one craft: the class of each line, and what is chosen. */
import { describe, expect, test } from "vitest";
import { offerOf } from "../../../shared/ide/review/offer.ts";
import { type ReviewQuery, reviewOf } from "../../../shared/ide/review/review.ts";
import { readPastes } from "./pastes.ts";
import { JUG, shed } from "./shed.ts";

const QUERY: ReviewQuery = { purpose: "review", chosen: null, mapping: {}, into: null, dialect: "" };

/** “+differs pack.warn-at”, a line for each row, in the order of the text; “unknown line 3”, one for each of its lines. */
function classes(text: string): readonly string[] {
  const workspace = shed();
  const offered = offerOf(workspace, text, "Evenings");
  if (offered.kind === "no-script") return [`no-script ${offered.looksLike}`];
  if (offered.kind === "refused") return ["refused"];
  const { rows } = reviewOf(workspace, workspace.craft(JUG)!, offered.offer, QUERY);
  return [...rows]
    .sort((a, b) => a.lines[0]! - b.lines[0]!)
    .flatMap((row) => {
      const name = `${row.chosen ? "+" : ""}${row.class}`;
      return row.unknown ? row.lines.map((line) => `${name} line ${line + 1}`) : [`${name} ${row.what}`];
    });
}

describe("each line of a paste", () => {
  test.each(readPastes().map(({ title, text, expected }) => [title, text, expected] as const))(
    "%s",
    (_, text, expected) => {
      const found = classes(text);
      const isNoScript = expected[0]?.startsWith("no-script");
      // Of a text that is no script the sentence must hold the word.
      if (isNoScript) expect(found[0]).toContain(expected[0]!.slice("no-script ".length));
      else expect([...found].sort()).toEqual([...expected].sort());
    },
  );
});
