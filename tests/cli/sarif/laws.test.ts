/** What holds of every SARIF log: it is valid, its fingerprints are lasting and distinct, and its fixes are the editor's. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { formatted } from "../../../shared/ide/format/format.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { rules } from "../../../shared/rules/engine/registry.generated.ts";
import { withHabits } from "../../../shared/rules/lib/fleet-habits.ts";
import { viewTogether } from "../../../shared/rules/lib/flown.ts";
import { parse } from "../../../shared/syntax/parse.ts";
import { diceOf } from "../../ide/compare/made-lines.ts";
import { madePair } from "../../ide/compare/made-pairs.ts";
import { edited, faultsOf, logOf, printOf, type SarifRegion, type SarifResult } from "./valid.ts";

type Texts = Readonly<Record<string, string>>;

const catalogue = makeCatalogue();
const core = makeCore(catalogue);

/** Several workspaces as folders of one, since a log says all its rules. */
function together(all: Readonly<Record<string, Texts>>): Texts {
  const files = Object.entries(all).flatMap(([folder, texts]) =>
    Object.entries(texts).map(([path, text]) => [`/shed/${folder}/${path.replace(/^\/shed\//, "")}`, text]),
  );
  return Object.fromEntries(files);
}

/** Every rule's bad example, in a folder named by the rule. */
const examples = together(Object.fromEntries(rules.map((rule) => [rule.code, rule.examples.bad])));

/** Two craft each, with layers and handsets. */
function madeTogether(seed: number, count: number): Texts {
  const dice = diceOf(seed);
  const pairs = Array.from({ length: count }, () => madePair(dice.below(2 ** 30)));
  return together(Object.fromEntries(pairs.map((pair) => [`seed-${pair.seed}`, pair.texts])));
}

function resultsOf(texts: Texts): readonly SarifResult[] {
  return logOf(core.at(memoryFiles(texts)), Object.keys(texts), "/shed").runs[0].results;
}

/** Code, folder and fingerprint of each result. */
function printsOf(texts: Texts): string[] {
  return resultsOf(texts)
    .map((each) => {
      const [folder] = each.locations[0]!.physicalLocation.artifactLocation.uri.split("/");
      return `${each.ruleId} ${folder} ${printOf(each)}`;
    })
    .sort();
}

const changed = (texts: Texts, change: (text: string) => string): Texts =>
  Object.fromEntries(Object.entries(texts).map(([path, text]) => [path, change(text)]));
const laidOut = (text: string) => formatted(parse(text), catalogue);
/** Comments above the header move every line, and are in no note. */
const pushedDown = (text: string) => `# one\n# two\n\n${text.replace(/^\ufeff/, "")}`;

/** The text with its lines in another place: in wide columns, and its sections in another order below a comment. */
function moved(text: string): string {
  const [head = "", ...sections] = text.split(/^(?=[a-z])/m);
  const isSection = (part: string) => !/^(craft|layer|handset|use)\b/.test(part);
  const first = sections.filter((part) => !isSection(part));
  const rest = sections.filter(isSection).reverse();
  const lines = [head, ...first, "\n# moved\n\n", ...rest.map((part) => `${part.trimEnd()}\n\n`)].join("");
  return lines.replace(/^( +)(\S+) +(?=\S)/gm, "    $2      ");
}

test("the log of each rule's own example is valid, and has its finding", () => {
  const plain = memoryFiles(examples);
  const flown = rules.flatMap(({ code, examples }) => examples.together?.map((path) => `/shed/${code}/${path}`) ?? []);
  const view = viewTogether(withHabits(plain, core, plain.list), core, flown);
  const log = logOf(core.at(view), Object.keys(examples), "/shed");
  expect(faultsOf(log)).toEqual([]);
  const found = new Set(log.runs[0].results.map(({ ruleId }) => ruleId));
  expect(rules.map(({ code }) => code).filter((code) => !found.has(code))).toEqual([]);
});

test("the logs of 300 craft made at random are valid, and no two findings have one fingerprint", () => {
  for (let seed = 1; seed <= 15; seed++) {
    const texts = madeTogether(seed, 10);
    expect(Object.keys(texts).filter((path) => path.endsWith("/jug.fettle"))).toHaveLength(20);
    const log = logOf(core.at(memoryFiles(texts)), Object.keys(texts), "/shed");
    expect(faultsOf(log)).toEqual([]);
    const { results } = log.runs[0];
    expect(results.length).toBeGreaterThan(100);
    expect(new Set(results.map(printOf)).size).toBe(results.length);
  }
}, 120_000);

test("no fingerprint changes by the canonical layout, nor by lines above", () => {
  for (const texts of [examples, madeTogether(2026, 12)])
    for (const change of [laidOut, pushedDown]) {
      const [before, after] = [printsOf(texts), printsOf(changed(texts, change))];
      expect(before.filter((each) => !after.includes(each))).toEqual([]);
      expect(after).toHaveLength(before.length);
    }
}, 60_000);

test("a fingerprint stays where sections go to other places", () => {
  // Where the line stands is what these are about; and lines of dialects are tried in their order.
  const byPlace = ["duplicate-entry", "line-beaten", "hidden-text", "syntax", "lines-alike"];
  const isHeld = ([path, text]: [string, string]) =>
    !byPlace.some((code) => path.startsWith(`/shed/${code}/`)) && !/^dialect|verbatim/m.test(text);
  const held = Object.fromEntries(Object.entries(examples).filter(isHeld));
  const ofRule = (texts: Texts) => printsOf(texts).filter((each) => /^(\S+) \1 /.test(each));
  expect(ofRule(changed(held, moved))).toEqual(ofRule(held));
  expect(ofRule(held).length).toBeGreaterThan(60);
});

test("two findings of one kind have two fingerprints, also in two files", () => {
  const results = resultsOf({
    "/shed/a.fettle":
      'craft "A"\n\npack\n  cells  99\n\npack "big"\n  cells  99\n\nfilters\n  notch  at 1 Hz\n  notch  at 1 Hz\n',
    "/shed/b.fettle": 'craft "A"\n\npack\n  cells  99\n',
  });
  expect(results.length).toBeGreaterThan(4);
  expect(new Set(results.map(printOf)).size).toBe(results.length);
});

const rangeOf = ({ startLine, startColumn, endLine, endColumn }: SarifRegion) => ({
  start: { line: startLine - 1, character: startColumn - 1 },
  end: { line: endLine - 1, character: endColumn - 1 },
});

test("each fix of a log gives the text that the editor's quick fix gives", () => {
  let tried = 0;
  for (const texts of [examples, madeTogether(14, 15)]) {
    const workspace = core.at(memoryFiles(texts));
    const files = Object.keys(texts);
    const ofLog = resultsOf(texts).flatMap(({ fixes = [] }) =>
      fixes.flatMap(({ description, artifactChanges }) =>
        artifactChanges.map(({ artifactLocation, replacements }) => {
          const path = `/shed/${decodeURIComponent(artifactLocation.uri)}`;
          const edits = replacements.map(({ deletedRegion, insertedContent }) => ({
            range: rangeOf(deletedRegion),
            text: insertedContent?.text ?? "",
          }));
          return `${description.text} ${path}\n${edited(texts[path]!, edits)}`;
        }),
      ),
    );
    const ofEditor = files
      .flatMap((file) => findingsOf(workspace, file).flatMap(({ fixes }) => fixes))
      .flatMap(({ title, edits }) =>
        [...new Set(edits.map(({ file }) => file))].map((path) => {
          const here = edits.filter(({ file }) => file === path);
          return `${title} ${path}\n${edited(texts[path]!, here)}`;
        }),
      );
    expect(ofLog.sort()).toEqual(ofEditor.sort());
    tried += ofLog.length;
  }
  expect(tried).toBeGreaterThan(60);
});
