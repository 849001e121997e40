/** What holds of any two craft that are compared, and of what is taken from one into the other. */
import { expect, test } from "vitest";
import { type Difference, differencesOf, nameOf, sectionOf } from "../../../shared/ide/compare/compare.ts";
import { type Adoption, adoptEdits } from "../../../shared/ide/edits/adopt.ts";
import { copyOf } from "../../../shared/model/listened-craft.ts";
import type { Script } from "../../../shared/model/script.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import type { TextEdit } from "../../../shared/syntax/span.ts";
import { edited } from "../edits/scripts-edited.ts";
import { diceOf } from "./made-lines.ts";
import { expectOfPairs, type MadePair, workspaceOf } from "./made-pairs.ts";

/** The differences of a pair, and those of a pair whose craft are none (as where lines are left out): none. */
function differencesIn({ mine, theirs }: MadePair, workspace: Workspace): readonly Difference[] {
  const [a, b] = [workspace.craft(mine), workspace.craft(theirs)];
  return a && b ? differencesOf(a, b, workspace.catalogue) : [];
}

function take(pair: MadePair, workspace: Workspace, whats: readonly string[], into: string): Adoption {
  return adoptEdits(workspace, workspace.craft(pair.mine)!, workspace.craft(pair.theirs)!, whats, into);
}

type Edits = Extract<Adoption, { kind: "edits" }>;

/** The pair with the edits made. */
function after(pair: MadePair, answer: Edits): MadePair {
  const texts: Record<string, string> = { ...pair.texts };
  for (const { file, edits } of answer.files) texts[file] = edited(texts[file]!, edits);
  return { ...pair, texts };
}

const namesOf = (differences: readonly Difference[]) => differences.map(({ what }) => what);

test("a craft does not differ from itself, and two differ alike from either side", () => {
  let found = 0;
  expectOfPairs(950, (pair) => {
    const workspace = workspaceOf(pair.texts);
    const [a, b] = [workspace.craft(pair.mine), workspace.craft(pair.theirs)];
    if (!a || !b) return null;
    const itself = differencesOf(a, { ...copyOf(a), memo: new Map() }, workspace.catalogue);
    if (itself.length > 0) return `itself ${namesOf(itself)}`;
    const there = differencesOf(a, b, workspace.catalogue);
    const back = differencesOf(b, a, workspace.catalogue);
    found += there.length;
    const forth = there.map((each) => [each.what, each.kind, each.risk, each.before, each.after].join(" | "));
    const mirrored = back.map((each) => [each.what, each.kind, each.risk, each.after, each.before].join(" | "));
    return forth.join("\n") === mirrored.join("\n") ? null : `mirror ${forth.join("; ")} <> ${mirrored.join("; ")}`;
  });
  expect(found).toBeGreaterThan(18_000);
});

/** Why something may be left: these kinds of reasons, and no others, are met where all is taken into the craft. */
const LEFT = [
  "has a fault, so there is no value to take",
  "uses no handset, so there is none to take",
  "uses none.",
  "in a file of its own: take the handset",
  "take it into that file",
];

test("where all is taken into the craft, nothing differs but what is said to be left", () => {
  let taken = 0;
  let left = 0;
  expectOfPairs(450, (pair) => {
    const workspace = workspaceOf(pair.texts);
    const whats = namesOf(differencesIn(pair, workspace));
    if (whats.length === 0) return null;
    const answer = take(pair, workspace, whats, pair.mine);
    if (answer.kind === "refused") return isKnown(answer.message) ? null : `refused ${answer.message}`;
    const odd = answer.left.filter(({ message }) => !isKnown(message));
    if (odd.length > 0) return `left ${JSON.stringify(odd)}`;
    const now = after(pair, answer);
    const fault = faultOfEdits(pair, answer, now, pair.mine);
    if (fault) return fault;
    const known = new Set(answer.left.map(({ what }) => what));
    const still = namesOf(differencesIn(now, workspaceOf(now.texts))).filter((what) => !known.has(what));
    if (still.length > 0) return `differs ${still}`;
    const again = take(now, workspaceOf(now.texts), whats, pair.mine);
    if (again.kind === "edits" && again.files.length > 0) return `again ${JSON.stringify(again.files)}`;
    taken += whats.length - answer.left.length;
    left += answer.left.length;
    return null;
  });
  expect(taken).toBeGreaterThan(8000);
  expect(left).toBeLessThan(taken * 0.03);
});

test("where one is taken, it differs no more, nothing else does, and no line of another name changes", () => {
  const times = { written: 0, refused: 0, layers: 0, others: 0 };
  expectOfPairs(400, (pair) => {
    const workspace = workspaceOf(pair.texts);
    const differences = differencesIn(pair, workspace);
    if (differences.length === 0) return null;
    const dice = diceOf(pair.seed);
    const { what } = dice.pick(differences);
    const into = dice.chance(0.6) ? pair.mine : dice.pick(workspace.craft(pair.mine)!.scripts).file;
    const answer = take(pair, workspace, [what], into);
    if (answer.kind === "refused") {
      times.refused++;
      return null;
    }
    const now = after(pair, answer);
    const after_ = workspaceOf(now.texts);
    const still = new Set(namesOf(differencesIn(now, after_)));
    if (still.has(what) && answer.left.length === 0) return `stays ${what}`;
    for (const name of namesOf(differences)) still.delete(name);
    // A mode that names the one which was taken follows it; a handset is taken with all that it says.
    if (still.size > 0 && !/^(modes|handset)\./.test(what)) return `appears ${what} brings ${[...still]}`;
    if (still.size > 0) times.others++;
    const fault = faultOfEdits(pair, answer, now, into) ?? otherLines(pair, now, into, what);
    if (fault) return fault;
    const again = take(now, after_, [what], into);
    if (again.kind === "edits" && again.files.length > 0) return `again ${what}`;
    times.written++;
    if (into !== pair.mine) times.layers++;
    return null;
  });
  expect(times.written).toBeGreaterThan(250);
  expect(times.layers).toBeGreaterThan(25);
  expect(times.refused).toBeLessThan(200);
  expect(times.others).toBeLessThan(5);
});

test("where some lines of a pasted part are taken, into the craft or a layer, those differ no more and no others", () => {
  const times = { taken: 0, left: 0, written: 0 };
  expectOfPairs(120, (pair) => {
    const dice = diceOf(pair.seed);
    const part = dice.pick(Object.keys(pair.texts).filter((file) => file.includes("/theirs/")));
    const headless = pair.texts[part]!.replace(/^\uFEFF/, "").replace(/^(craft|layer|use) .*$/gm, "");
    const workspace = workspaceOf({ ...pair.texts, "/shed/paste.fettle": headless });
    const mine = workspace.craft(pair.mine);
    if (!mine) return null;
    const laid = workspace.laidOver(mine, workspace.script("/shed/paste.fettle")!);
    const differing = namesOf(differencesOf(mine, laid, workspace.catalogue));
    if (differing.length === 0) return null;
    const whats = dice.chance(0.4) ? differing : dice.some(differing, 1 + dice.below(5));
    const into = dice.chance(0.6) ? pair.mine : dice.pick(mine.scripts.filter(({ kind }) => kind !== "handset")).file;
    const answer = adoptEdits(workspace, mine, laid, whats, into);
    if (answer.kind === "refused")
      return /has a fault|would win/.test(answer.message) ? null : `refused ${answer.message}`;
    const now = after(pair, answer);
    const fault = faultOfEdits(pair, answer, now, into);
    if (fault) return fault;
    const left = new Set(answer.left.map(({ what }) => what));
    const still = namesOf(differencesOf(workspaceOf(now.texts).craft(pair.mine)!, laid, workspace.catalogue));
    const stays = still.filter((what) => whats.includes(what) && !left.has(what));
    if (stays.length > 0) return `stays ${stays}`;
    const others = still.filter((what) => !differing.includes(what) && !/^(modes|outputs)\./.test(what));
    if (others.length > 0) return `appears ${others}`;
    times.taken += whats.length - left.size;
    times.left += left.size;
    times.written++;
    return null;
  });
  expect(times.written).toBeGreaterThan(60);
  expect(times.taken).toBeGreaterThan(times.left * 5);
});

test("a layer or a handset by itself can be made the same as any other file", () => {
  let taken = 0;
  expectOfPairs(100, (pair) => {
    const dice = diceOf(pair.seed);
    const workspace = workspaceOf(pair.texts);
    const [a, b] = [0, 1].map(() => workspace.craftLike(dice.pick(Object.keys(pair.texts)))!);
    const whats = namesOf(differencesOf(a!, b!, workspace.catalogue));
    const answer = adoptEdits(workspace, a!, b!, whats, a!.file);
    const isFine = (message: string) =>
      isKnown(message) || /A handset's file holds nothing|is a handset itself/.test(message);
    if (answer.kind === "refused") return isFine(answer.message) ? null : `refused ${answer.message}`;
    const odd = answer.left.filter(({ message }) => !isFine(message));
    if (odd.length > 0) return `left ${JSON.stringify(odd)}`;
    const left = new Set(answer.left.map(({ what }) => what));
    const now = workspaceOf(after(pair, answer).texts).craftLike(a!.file)!;
    const still = namesOf(differencesOf(now, b!, workspace.catalogue)).filter((what) => !left.has(what));
    taken += whats.length - left.size;
    // What the other file is made of may have changed with this one.
    return still.length > 0 && !b!.scripts.some(({ file }) => file === a!.file) ? `differs ${still}` : null;
  });
  expect(taken).toBeGreaterThan(800);
});

function isKnown(message: string): boolean {
  return LEFT.some((reason) => message.includes(reason));
}

/** The lines of a file that are lost, each time it was there, and those that are new; line ends do not count. */
function changedLines(pair: MadePair, now: MadePair, file: string): readonly [lost: string[], gained: string[]] {
  const minus = (from: readonly string[], others: readonly string[]): string[] => {
    const counts = new Map<string, number>();
    for (const line of others) counts.set(line, (counts.get(line) ?? 0) + 1);
    return from.filter((line) => {
      const count = counts.get(line) ?? 0;
      counts.set(line, count - 1);
      return count <= 0;
    });
  };
  const [before, afterwards] = [linesOf(pair.texts[file]!), linesOf(now.texts[file]!)];
  return [minus(before, afterwards), minus(afterwards, before)];
}

/** The lines that stay are all there, in their order and with their ends, and none of them fails to parse now. */
function faultOfEdits(pair: MadePair, answer: Edits, now: MadePair, file: string): string | null {
  const [old, made] = [pair.texts[file]!, now.texts[file]!];
  if (old.startsWith("\uFEFF") !== made.startsWith("\uFEFF")) return "mark lost";
  const issues = (texts: MadePair["texts"]) =>
    workspaceOf(texts)
      .script(file)!
      .issues.filter(({ code }) => code === "syntax").length;
  if (issues(now.texts) > issues(pair.texts)) return `syntax ${issues(now.texts)}`;
  const untouched = untouchedLines(linesOf(old), answer.files.find((each) => each.file === file)?.edits ?? []);
  let found = 0;
  for (const line of linesOf(made)) if (line === untouched[found]) found++;
  if (found < untouched.length) return `order ${JSON.stringify(untouched[found])} is lost`;
  const ends = (text: string) => new Set(text.match(/\r\n|\n/g));
  return [...ends(made)].every((end) => ends(old).has(end)) ? null : "ends are others";
}

function linesOf(text: string): string[] {
  return text.replace(/^\uFEFF/, "").split(/\r\n|\n/);
}

/** The lines of which no edit writes a letter. */
function untouchedLines(lines: readonly string[], edits: readonly TextEdit[]): string[] {
  const touched = new Set<number>();
  for (const { start, end } of edits.map(({ range }) => range)) {
    // What begins behind the last letter of a line, or ends before the first, leaves that line alone.
    const first =
      start.character === lines[start.line]!.length && lines[start.line] !== "" ? start.line + 1 : start.line;
    const last = end.character === 0 ? end.line - 1 : end.line;
    for (let line = first; line <= last; line++) touched.add(line);
  }
  return lines.filter((_, line) => !touched.has(line));
}

/** A line that changed and is about another name. */
function otherLines(pair: MadePair, now: MadePair, file: string, what: string): string | null {
  const [lost, gained] = changedLines(pair, now, file);
  if (what === "handset.name") return lost.length > 1 ? `lines ${lost}` : null;
  const isOwn = (script: Script, text: string): boolean =>
    script.tree.lines.some(({ node, text: line }, number) => {
      if (line.replace(/^\uFEFF/, "") !== text) return false;
      if (node.kind === "comment" || node.kind === "blank" || node.kind === "section") return true;
      if (node.kind === "kept") return sectionOf(what) === "verbatim";
      if (node.kind === "drop")
        return (
          node.all !== null ||
          node.names.some((word) => word.text === nameOf(what)) ||
          script.drops.some((drop) => drop.line === number)
        );
      return node.kind === "entry" && node.head.text === nameOf(what);
    });
  const [before, afterwards] = [workspaceOf(pair.texts).script(file)!, workspaceOf(now.texts).script(file)!];
  const odd = [...lost.filter((line) => !isOwn(before, line)), ...gained.filter((line) => !isOwn(afterwards, line))];
  return odd.length > 0 ? `lines ${what} changes ${JSON.stringify(odd)}` : null;
}
