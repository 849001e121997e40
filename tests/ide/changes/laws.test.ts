/** What holds of the findings that a change brought, over craft made at random. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { findingsSince } from "../../../shared/ide/changes/since.ts";
import { formatted } from "../../../shared/ide/format/format.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import type { Finding } from "../../../shared/protocol/findings.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { parse } from "../../../shared/syntax/parse.ts";
import { diceOf } from "../compare/made-lines.ts";
import { expectOfPairs, type MadePair } from "../compare/made-pairs.ts";

type Texts = Readonly<Record<string, string>>;

const catalogue = makeCatalogue();
const core = makeCore(catalogue);
const workspaceOf = (texts: Texts) => core.at(memoryFiles(texts));
const brought = (before: Texts, now: Texts) =>
  findingsSince(workspaceOf(before), workspaceOf(now), Object.keys(now), undefined);
const allOf = (texts: Texts) => Object.keys(texts).flatMap((file) => findingsOf(workspaceOf(texts), file));
const changed = (texts: Texts, change: (text: string) => string): Texts =>
  Object.fromEntries(Object.entries(texts).map(([path, text]) => [path, change(text)]));
const told = ({ code, file, range, message }: Finding) => `${code} ${file}:${range.start.line + 1} ${message}`;

function holds(numRuns: number, fault: (pair: MadePair) => string | null): void {
  let tried = 0;
  expectOfPairs(numRuns, (pair) => {
    tried++;
    return fault(pair);
  });
  expect(tried).toBe(numRuns);
}

test("nothing comes of no change, of another layout, of lines above, of another name of a file", () => {
  const changes: Readonly<Record<string, (texts: Texts) => Texts>> = {
    nothing: (texts) => texts,
    layout: (texts) => changed(texts, (text) => formatted(parse(text), catalogue)),
    above: (texts) => changed(texts, (text) => `# one\n# two\n\n${text.replace(/^\ufeff/, "")}`),
    ends: (texts) => changed(texts, (text) => text.replace(/\r\n|\r|\n/g, "\r\n")),
    name: (texts) =>
      Object.fromEntries(
        Object.entries(texts).map(([path, text]) => [path.replace("/jug.fettle", "/mug.fettle"), text]),
      ),
  };
  holds(25, ({ texts }) => {
    for (const [name, change] of Object.entries(changes)) {
      const [first] = brought(texts, change(texts));
      if (first) return `${name} ${told(first)}`;
    }
    return null;
  });
}, 120_000);

test("all that is found is new where nothing was before", () => {
  holds(20, ({ texts }) => {
    const [found, all] = [brought({}, texts), allOf(texts)];
    return found.length === all.length ? null : `count ${found.length} of ${all.length}`;
  });
}, 120_000);

test("between any two states at least the findings that are more are new, and each is a finding of the later one", () => {
  holds(60, ({ texts, mine, theirs }) => {
    // The second craft in place of the first, as if it had been rewritten.
    const now = { ...texts, [mine]: texts[theirs]!.replaceAll("theirs/", "mine/") };
    const [was, is] = [allOf(texts).length, allOf(now)];
    const found = brought(texts, now);
    const known = new Set(is.map(told));
    const stray = found.find((each) => !known.has(told(each)));
    if (stray) return `stray ${told(stray)}`;
    return found.length >= is.length - was ? null : `few ${found.length} of ${is.length}, before ${was}`;
  });
}, 120_000);

test("a line that is put in brings what is found of it, and taking it out again brings nothing of its own kind", () => {
  const lines = ["pack\n  cells  99\n", "pack\n  capacity  850\n", "video\n  power  = 3\n", "mosdes\n  arm  x\n"];
  const dice = diceOf(7);
  holds(40, ({ texts, mine }) => {
    const line = dice.pick(lines);
    const [code] = findingsOf(workspaceOf({ "/a.fettle": `craft "A"\n\n${line}` }), "/a.fettle").map(
      (each) => each.code,
    );
    const with_ = { ...texts, [mine]: `${texts[mine]!.replace(/\s*$/, "\n")}\n${line}` };
    const count = (of: Texts) => findingsOf(workspaceOf(of), mine).filter((each) => each.code === code).length;
    // A fault above, or a header of another kind, may keep it from being found.
    if (count(with_) <= count(texts)) return null;
    const found = brought(texts, with_).filter((each) => each.file === mine && each.code === code);
    if (found.length < count(with_) - count(texts)) return `missed ${code}`;
    return brought(with_, texts).some((each) => each.file === mine && each.code === code) ? `left ${code}` : null;
  });
}, 120_000);
