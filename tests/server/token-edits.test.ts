/** Tokens of some lines, and what changed between two answers, held to the whole answer. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { expect, test } from "vitest";
import { tokenEdits } from "../../server/src/lsp/token-edits.ts";
import { packTokens } from "../../server/src/lsp/tokens-to-lsp.ts";
import { tokensOf } from "../../shared/ide/editor/tokens.ts";
import { atCursor } from "../ide/cursor.ts";

const examples = join(import.meta.dirname, "../../examples");
const texts = readdirSync(examples, { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".fettle"))
  .map((name) => readFileSync(join(examples, name), "utf8").replaceAll("|", "!"));

const dataOf = (text: string) => {
  const { workspace, file } = atCursor(text);
  return packTokens(tokensOf(workspace.script(file)!, workspace.catalogue));
};

/** The data of an answer with edits made, as a client makes them. */
const changed = (before: readonly number[], edits: ReturnType<typeof tokenEdits>) =>
  edits.reduceRight(
    (data, { start, deleteCount, data: more = [] }) => data.toSpliced(start, deleteCount, ...more),
    [...before],
  );

const edit = fc.tuple(
  fc.nat(3000),
  fc.nat(30),
  fc.constantFrom("", " ", "\n", "7", "  cells 6\n", "# so", '"', "arm "),
);
const typed = fc.tuple(fc.constantFrom(...texts), fc.array(edit, { maxLength: 4 }));
const edited = ([text, edits]: [string, [number, number, string][]]) =>
  edits.reduce((made, [at, length, said]) => made.slice(0, at) + said + made.slice(at + length), text);

test("what changed makes the new answer of the old one, and is no more than what differs", () => {
  fc.assert(
    fc.property(typed, (change) => {
      const [before, after] = [dataOf(change[0]), dataOf(edited(change))];
      const edits = tokenEdits(before, after);
      expect(changed(before, edits)).toEqual(after);
      for (const { start, deleteCount, data = [] } of edits) {
        expect([start % 5, deleteCount % 5, data.length % 5]).toEqual([0, 0, 0]);
        expect(before.slice(start, start + 5)).not.toEqual(
          deleteCount > 0 && data.length > 0 ? data.slice(0, 5) : null,
        );
      }
    }),
    { seed: 13, numRuns: 300 },
  );
});

test("one word changes one token, and the same text none", () => {
  const text = 'craft "Jug"\n\npack\n  cells 6\n  capacity 1100 mAh\n';
  expect(tokenEdits(dataOf(text), dataOf(text))).toEqual([]);
  const [longer] = tokenEdits(dataOf(text), dataOf(text.replace("cells 6", "cells 16")));
  expect(longer).toMatchObject({ deleteCount: 5, data: { length: 5 } });
  const added = tokenEdits(dataOf(text), dataOf(`${text}  warn-at 3.5 V/cell\n`));
  expect(added).toMatchObject([{ deleteCount: 0, data: { length: 15 } }]);
});

test("of answers of any numbers too", () => {
  const data = fc
    .array(fc.array(fc.nat(2), { minLength: 5, maxLength: 5 }), { maxLength: 12 })
    .map((all) => all.flat());
  fc.assert(
    fc.property(data, data, (before, after) => {
      expect(changed(before, tokenEdits(before, after))).toEqual(after);
    }),
  );
});

test("tokens of some lines are those of the whole script on these lines", () => {
  fc.assert(
    fc.property(typed, fc.nat(120), fc.nat(60), (change, first, more) => {
      const { workspace, file } = atCursor(edited(change));
      const script = workspace.script(file)!;
      const whole = tokensOf(script, workspace.catalogue);
      const some = tokensOf(script, workspace.catalogue, { first, last: first + more });
      expect(some).toEqual(whole.filter(({ line }) => line >= first && line <= first + more));
    }),
    { seed: 13, numRuns: 300 },
  );
});
