/** What holds of every SARIF log: it is valid, its fingerprints are lasting and distinct, and its fixes are the editor's. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { formatted } from "../../../shared/ide/format/format.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { rules } from "../../../shared/rules/engine/registry.generated.ts";
import { parse } from "../../../shared/syntax/parse.ts";
import { diceOf } from "../../ide/compare/made-lines.ts";
import { expectOfPairs, madePair } from "../../ide/compare/made-pairs.ts";
import { edited, faultsOf, logOf, printOf, type SarifRegion } from "./valid.ts";

const catalogue = makeCatalogue();
const core = makeCore(catalogue);
const workspaceOf = (texts: Readonly<Record<string, string>>) => core.at(memoryFiles(texts));

/** The text with its lines in another place: in wide columns, and its sections in another order below a comment. */
function moved(text: string): string {
  const [head = "", ...sections] = text.split(/^(?=[a-z])/m);
  const isSection = (part: string) => !/^(craft|layer|handset|use)\b/.test(part);
  const first = sections.filter((part) => !isSection(part));
  const rest = sections.filter(isSection).reverse();
  const lines = [head, ...first, "\n# moved\n\n", ...rest.map((part) => `${part.trimEnd()}\n\n`)].join("");
  return lines.replace(/^( +)(\S+) +(?=\S)/gm, "    $2      ");
}

test("the log of each rule's own example is valid", () => {
  for (const { examples } of rules) {
    const texts = Object.fromEntries(Object.entries(examples.bad).map(([path, text]) => [`/shed/${path}`, text]));
    const log = logOf(workspaceOf(texts), Object.keys(texts), "/shed");
    expect(faultsOf(log)).toEqual([]);
    expect(log.runs[0].results.length).toBeGreaterThan(0);
  }
});

test("the logs of 300 craft made at random are valid, and no two findings have one fingerprint", () => {
  expect.assertions(1);
  let tried = 0;
  expectOfPairs(150, ({ texts }) => {
    tried++;
    const log = logOf(workspaceOf(texts), Object.keys(texts), "/shed");
    const [fault] = faultsOf(log);
    if (fault !== undefined) return `invalid ${fault}`;
    const prints = log.runs[0].results.map((each) => `${each.ruleId} ${printOf(each)}`);
    const twice = prints.find((each, i) => prints.indexOf(each) !== i);
    return twice === undefined ? null : `twice ${twice}`;
  });
  expect(tried).toBe(150);
}, 120_000);

test("a fingerprint stays where lines move and are laid out anew", () => {
  for (const { code, examples } of rules) {
    // Where the line stands is what these are about.
    if (["duplicate-entry", "line-beaten", "hidden-text", "syntax", "lines-alike"].includes(code)) continue;
    const [path = "", text = ""] = Object.entries(examples.bad)[0]!;
    if (/^dialect|verbatim/m.test(text)) continue;
    const printsOf = (of: string) =>
      logOf(workspaceOf({ ...examples.bad, [path]: of }), [path], "/shed")
        .runs[0].results.filter(({ ruleId }) => ruleId === code)
        .map(printOf);
    expect([code, printsOf(moved(text))]).toEqual([code, printsOf(text)]);
  }
});

/** Every fingerprint of some files, with the code. */
function printsOf(texts: Readonly<Record<string, string>>): string[] {
  const { results } = logOf(workspaceOf(texts), Object.keys(texts), "/shed").runs[0];
  return results.map((each) => `${each.ruleId} ${printOf(each)}`).sort();
}

const laidOut = (text: string) => formatted(parse(text), catalogue);
/** Comments above the header move every line, and are in no note. */
const pushedDown = (text: string) => `# one\n# two\n\n${text.replace(/^\ufeff/, "")}`;

test("no fingerprint changes by the canonical layout, nor by lines above", () => {
  for (const { code, examples } of rules) {
    const texts = Object.fromEntries(Object.entries(examples.bad).map(([path, text]) => [`/shed/${path}`, text]));
    for (const change of [laidOut, pushedDown]) {
      const changed = Object.fromEntries(Object.entries(texts).map(([path, text]) => [path, change(text)]));
      expect([code, printsOf(changed)]).toEqual([code, printsOf(texts)]);
    }
  }
  let tried = 0;
  expectOfPairs(40, ({ texts }) => {
    tried++;
    const changed = Object.fromEntries(Object.entries(texts).map(([path, text]) => [path, laidOut(text)]));
    const [before, after] = [printsOf(texts), printsOf(changed)];
    const lost = before.find((each) => !after.includes(each));
    return lost === undefined ? null : `lost ${lost}`;
  });
  expect(tried).toBe(40);
});

test("two findings of one kind have two fingerprints, also in two files", () => {
  const texts = {
    "/shed/a.fettle":
      'craft "A"\n\npack\n  cells  99\n\npack "big"\n  cells  99\n\nfilters\n  notch  at 1 Hz\n  notch  at 1 Hz\n',
    "/shed/b.fettle": 'craft "A"\n\npack\n  cells  99\n',
  };
  const { results } = logOf(workspaceOf(texts), Object.keys(texts), "/shed").runs[0];
  expect(results.length).toBeGreaterThan(4);
  expect(new Set(results.map(printOf)).size).toBe(results.length);
});

const rangeOf = ({ startLine, startColumn, endLine, endColumn }: SarifRegion) => ({
  start: { line: startLine - 1, character: startColumn - 1 },
  end: { line: endLine - 1, character: endColumn - 1 },
});

test("each fix of a log gives the text that the editor's quick fix gives", () => {
  let tried = 0;
  const compare = (texts: Readonly<Record<string, string>>) => {
    const workspace = workspaceOf(texts);
    for (const file of Object.keys(texts)) {
      const { results } = logOf(workspace, [file], "/shed").runs[0];
      const fixes = results.flatMap((each) => each.fixes ?? []);
      const expected = findingsOf(workspace, file).flatMap((each) =>
        each.fixes.filter(({ edits }) => edits.length > 0),
      );
      expect(fixes.map(({ description }) => description.text).sort()).toEqual(
        expected.map(({ title }) => title).sort(),
      );
      const textsOfLog = fixes.map(({ artifactChanges }) =>
        artifactChanges.map(({ artifactLocation, replacements }) => {
          const path = `/shed/${decodeURIComponent(artifactLocation.uri)}`;
          const edits = replacements.map(({ deletedRegion, insertedContent }) => ({
            range: rangeOf(deletedRegion),
            text: insertedContent?.text ?? "",
          }));
          return edited(texts[path]!, edits);
        }),
      );
      const textsOfEditor = expected.map(({ edits }) =>
        [...new Set(edits.map((each) => each.file))].map((path) =>
          edited(
            texts[path]!,
            edits.filter((each) => each.file === path),
          ),
        ),
      );
      expect(textsOfLog.map(String).sort()).toEqual(textsOfEditor.map(String).sort());
      tried += fixes.length;
    }
  };
  for (const { examples } of rules)
    compare(Object.fromEntries(Object.entries(examples.bad).map(([path, text]) => [`/shed/${path}`, text])));
  const dice = diceOf(14);
  for (let i = 0; i < 40; i++) compare(madePair(dice.below(2 ** 30)).texts);
  expect(tried).toBeGreaterThan(60);
});
