/** Lines that go into a layer, and a layer that is written out: on craft made at random the effective craft stays the same. */
import { expect, test } from "vitest";
import { inlineLayer } from "../../../shared/ide/origin/inline.ts";
import { extractLayer, type Moved, moveIntoLayer } from "../../../shared/ide/origin/move.ts";
import { diceOf } from "../compare/made-lines.ts";
import { madePair, workspaceOf } from "../compare/made-pairs.ts";
import type { Texts } from "../edits/scripts-edited.ts";
import { after, isLeft, lines, notesOf, saidBy } from "./moved.ts";

/** Craft that are tried for each kind of move. */
const MANY = 500;

interface Tried {
  readonly texts: Texts;
  readonly craft: string;
  readonly moved: Moved;
  readonly seed: number;
}

/** As many moves that are made as there are to be; what is refused says why, and that reason is no “another craft”. */
function made(many: number, move: (seed: number) => Omit<Tried, "seed"> | null): (Tried & { now: Texts })[] {
  const found: (Tried & { now: Texts })[] = [];
  let refused = 0;
  for (let seed = 1; found.length < many; seed++) {
    const tried = move(seed);
    if (!tried) continue;
    if (tried.moved.kind === "refused") {
      refused++;
      expect(tried.moved.message, `seed ${seed}`).toMatch(/^[“A-Z].*\.$/);
      expect(tried.moved.message, `seed ${seed}`).not.toContain("would be another craft");
      continue;
    }
    found.push({ ...tried, seed, now: after(tried.texts, tried.moved) });
  }
  expect(refused).toBeLessThan(many);
  return found;
}

function heldSame({ texts, now, craft, seed }: Tried & { now: Texts }): void {
  const [before, then] = [workspaceOf(texts), workspaceOf(now)];
  expect(saidBy(then.craft(craft)!, then), `seed ${seed}`).toBe(saidBy(before.craft(craft)!, before));
}

/** The lines of a text, but for blank ones and drops, which may go in part. */
function said(text: string): string[] {
  return text.split(/\r?\n/).filter((line) => line.trim() !== "" && !/^\s+drop\s/.test(line));
}

function selectionIn(texts: Texts, craft: string, seed: number) {
  const dice = diceOf(seed + 7);
  const count = workspaceOf(texts).script(craft)!.tree.lines.length;
  const start = dice.below(count);
  return lines(start, Math.min(count - 1, start + dice.below(9)));
}

test("lines that go into a new layer leave the craft as it was, and every other line byte for byte; written out again they are there again", () => {
  let along = 0;
  for (const tried of made(MANY, (seed) => {
    const { texts, mine } = madePair(seed);
    return {
      texts,
      craft: mine,
      moved: extractLayer(workspaceOf(texts), mine, selectionIn(texts, mine, seed), "Bits"),
    };
  })) {
    heldSame(tried);
    const { texts, now, craft, seed, moved } = tried;
    if (moved.kind === "edits") along += moved.notes.filter((note) => note.includes("along")).length;
    const [fresh, ...more] = Object.keys(now).filter((file) => !(file in texts));
    expect(more).toEqual([]);
    for (const file of Object.keys(texts)) if (file !== craft) expect(now[file]).toBe(texts[file]);
    const left = said(now[craft]!).filter((line) => !/^use "[^"]*bits/.test(line));
    expect(isLeft(`${left.join("\n")}\n`, `${said(texts[craft]!).join("\n")}\n`), `seed ${seed}`).toBe(true);
    expect(now[fresh!]!.includes("\r"), `seed ${seed}`).toBe(texts[craft]!.includes("\r"));
    const [before, then] = [workspaceOf(texts), workspaceOf(now)];
    const notes = notesOf(then.craft(craft)!, then);
    for (const [name, note] of notesOf(before.craft(craft)!, before))
      expect(notes.get(name), `seed ${seed} ${name}`).toContain(note);
    heldBack(tried);
  }
  expect(along).toBeGreaterThan(20);
}, 120_000);

test("lines that go into a layer of the craft leave it as it was", () => {
  let into = 0;
  for (const tried of made(MANY, (seed) => {
    const { texts, mine } = madePair(seed);
    const workspace = workspaceOf(texts);
    const layers = workspace.craft(mine)!.scripts.filter(({ kind }) => kind === "layer");
    if (layers.length === 0) return null;
    const layer = diceOf(seed + 9).pick(layers).file;
    return { texts, craft: mine, moved: moveIntoLayer(workspace, mine, selectionIn(texts, mine, seed), layer) };
  })) {
    heldSame(tried);
    const { texts, now, craft } = tried;
    const changed = Object.keys(texts).filter((file) => now[file] !== texts[file]);
    expect(changed).toContain(craft);
    expect(changed.length).toBeLessThanOrEqual(2);
    if (changed.length === 2) into++;
  }
  expect(into).toBeGreaterThan(MANY * 0.9);
}, 120_000);

test("a layer that is written out in the craft leaves it as it was, and is no part of it any more", () => {
  const seen = { nested: 0, crlf: 0 };
  for (const tried of made(MANY, (seed) => {
    const { texts, mine } = madePair(seed);
    const workspace = workspaceOf(texts);
    const script = workspace.script(mine)!;
    const uses = script.uses.filter((use) => {
      const target = workspace.target(script, use);
      return target.kind === "script" && target.script.kind === "layer";
    });
    if (uses.length === 0) return null;
    const { line } = diceOf(seed + 11).pick(uses);
    return { texts, craft: mine, moved: inlineLayer(workspace, mine, line) };
  })) {
    heldSame(tried);
    const { texts, now, craft, seed } = tried;
    const [before, then] = [workspaceOf(texts).craft(craft)!, workspaceOf(now).craft(craft)!];
    expect(then.scripts.length, `seed ${seed}`).toBe(before.scripts.length - 1);
    expect(Object.keys(texts).filter((file) => now[file] !== texts[file])).toEqual([craft]);
    if (then.script.uses.length >= before.script.uses.length) seen.nested++;
    if (texts[craft]!.includes("\r\n")) {
      seen.crlf++;
      expect(now[craft]).not.toMatch(/[^\r]\n/);
    }
  }
  for (const [what, times] of Object.entries(seen)) expect(times, what).toBeGreaterThan(5);
}, 120_000);

test.each([
  ['verbatim "kiln"\n  | b\nverbatim "kiln"\n  | c\n', 'verbatim "kiln"\n  | a\n  | b\nverbatim "kiln"\n  | c\n'],
  ['verbatim "kiln"\n  drop all\n  | b\n  drop all\n', 'verbatim "kiln"\n  | b\n'],
  [
    'verbatim "kiln"\n  # fired twice\n  | b\npack\n  cells  4\nverbatim "kiln"\n  | c\n',
    'verbatim "kiln"\n  | a\n  # fired twice\n  | b\npack\n  cells  4\nverbatim "kiln"\n  | c\n',
  ],
])("kept lines of a layer come before all that the craft keeps of that board: %j", (own, expected) => {
  const texts = {
    "a.fettle": `craft "Jug"\nuse "l.fettle"\n${own}`,
    "l.fettle": 'layer "Glaze"\nverbatim "kiln"\n  | a\n',
  };
  const moved = inlineLayer(workspaceOf(texts), "a.fettle", 1);
  if (moved.kind === "refused") throw new Error(moved.message);
  const now = after(texts, moved);
  expect(now["a.fettle"]).toBe(`craft "Jug"\n${expected}`);
  heldSame({ texts, now, craft: "a.fettle", moved, seed: 0 });
});

/** Writes the new layer out again: the same craft, with the same lines in its own file. */
function heldBack({ texts, now: between, craft, seed }: Tried & { now: Texts }): void {
  const workspace = workspaceOf(between);
  const use = workspace.script(craft)!.uses.find(({ path }) => path?.endsWith("bits.fettle"))!;
  const back = inlineLayer(workspace, craft, use.line);
  if (back.kind === "refused") throw new Error(`seed ${seed}: ${back.message}`);
  const [before, now] = [workspaceOf(texts), workspaceOf(after(between, back))];
  expect(saidBy(now.craft(craft)!, now), `seed ${seed}`).toBe(saidBy(before.craft(craft)!, before));
  const [was, is] = [before, now].map((each) => itemsIn(each.script(craft)!.tree.lines));
  // A line that a later one of the same file replaced does not come back.
  const repeated = before.script(craft)!.issues.filter(({ code }) => code === "duplicate-entry");
  expect(was!.length - is!.length, `seed ${seed}`).toBeLessThanOrEqual(repeated.length);
  expect(is!.filter((line) => !was!.includes(line)).slice(repeated.length), `seed ${seed}`).toEqual([]);
}

/** The lines that say something, without their layout, in an order of their own; a `drop` by its words. */
function itemsIn(all: readonly { readonly text: string; readonly node: { readonly kind: string } }[]): string[] {
  return all
    .filter(({ node }) => node.kind === "entry" || node.kind === "kept")
    .map(({ text, node }) => (node.kind === "kept" ? text : text.replace(/#.*/, "")).replace(/[ \t]+/g, " ").trim())
    .sort();
}
