/** Some names of a craft are made the same as on another one: the lines that change, and those that stay. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { differencesOf } from "../../../shared/ide/compare/compare.ts";
import { type Adoption, adoptEdits } from "../../../shared/ide/edits/adopt.ts";
import { type FileView, memoryFiles } from "../../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../../shared/model/workspace.ts";
import { edited } from "../edits/scripts-edited.ts";

const HANDSET = `handset "Wheel"
transmitter
  power  100 mW
controls
  TL  switch  ch5  up 1000 us  down 2000 us
  TR  switch  ch6  up 1000 us  mid 1500 us  down 2000 us
  KN  dial    ch9  1000 us to 2000 us
`;
const MINE = "/shed/jug.fettle";
const THEIRS = "/shed/saucer.fettle";
const LAYER = "/shed/layer.fettle";
const head = 'craft "Jug"\nuse "wheel.fettle"\n';

const core = makeCore(makeCatalogue());

function workspaceOf(texts: Readonly<Record<string, string>>, view: Partial<FileView> = {}): Workspace {
  return core.at({ ...memoryFiles({ "/shed/wheel.fettle": HANDSET, ...texts }), ...view });
}

/** What is answered where these names are taken from the craft in `saucer.fettle`. */
function taken(workspace: Workspace, whats: readonly string[], into = MINE): Adoption {
  const [mine, theirs] = [workspace.craft(MINE)!, workspace.craftLike(THEIRS)!];
  return adoptEdits(workspace, mine, theirs, whats, into);
}

/** The texts, with the edits made; throws where they are refused. */
function after(texts: Readonly<Record<string, string>>, answer: Adoption): Record<string, string> {
  if (answer.kind === "refused") throw new Error(answer.message);
  const result: Record<string, string> = { ...texts };
  for (const { file, edits } of answer.files) result[file] = edited(texts[file]!, edits);
  return result;
}

interface Case {
  readonly title: string;
  readonly mine: string;
  readonly layer: string;
  readonly theirs: string;
  readonly whats: readonly string[];
  readonly intoLayer: boolean;
  readonly expected: string;
}

function casesIn(name: string): Case[] {
  const text = readFileSync(new URL(name, import.meta.url), "utf8");
  return text
    .split(/^=== /m)
    .slice(1)
    .map((block) => {
      const title = block.slice(0, block.indexOf("\n"));
      const [mine = "", ...parts] = block.slice(title.length + 1).split(/^--- /m);
      const part = (first: string) => parts.find((each) => each.startsWith(first))?.replace(/^.*\n/, "") ?? "";
      const take = /^take (.*)/.exec(parts.at(-1)!)![1]!;
      const intoLayer = take.endsWith(" into the layer");
      const whats = take.replace(" into the layer", "").split(" ");
      // The blank line before the next case belongs to none.
      const expected = part("take").replace(/\n\n$/, "\n");
      return { title, mine, layer: part("layer"), theirs: part("theirs"), whats, intoLayer, expected };
    });
}

test.each(casesIn("adopted.txt"))("$title", ({ mine, layer, theirs, whats, intoLayer, expected }) => {
  const own = intoLayer ? 'layer "Habits"\n' : head;
  const texts = {
    [MINE]: head + mine,
    [THEIRS]: head + theirs,
    [LAYER]: `layer "Habits"\n${layer}`,
  };
  const workspace = workspaceOf(texts);
  const into = intoLayer ? LAYER : MINE;
  const answer = taken(workspace, whats, into);
  const now = after(texts, answer);
  expect(now[into]).toBe(own + expected);
  if (answer.kind === "edits") expect(answer.left).toEqual([]);
  const craft = workspaceOf(now).craft(MINE)!;
  const left = differencesOf(craft, workspace.craft(THEIRS)!, workspace.catalogue).map(({ what }) => what);
  expect(left.filter((what) => whats.includes(what))).toEqual([]);
  // Once more there is nothing left to do.
  expect(taken(workspaceOf(now), whats, into)).toEqual({ kind: "edits", files: [], left: [] });
});

test("line ends, a byte-order mark and a missing last line end stay", () => {
  const theirs = `${head}pack\n  cells 6\nmodes\n  arm when TL is down\n`;
  const texts = {
    [MINE]: '\uFEFFcraft "Jug"\r\nuse "wheel.fettle"\r\npack\r\n\tcells 4\r\n\tparallel 1',
    [THEIRS]: theirs,
  };
  const now = after(texts, taken(workspaceOf(texts), ["pack.cells", "pack.parallel", "modes.arm"]));
  const expected = [
    '\uFEFFcraft "Jug"',
    'use "wheel.fettle"',
    "pack",
    "\tcells 6",
    "",
    "modes",
    "\tarm  when TL is down",
  ];
  expect(now[MINE]).toBe(expected.join("\r\n"));
});

test("the other side's handset is put to use where it is a file of the workspace", () => {
  const other = HANDSET.replace("Wheel", "Tiller").replace("100 mW", "25 mW").replace("ch9", "ch10");
  const texts = {
    [MINE]: `${head}pack\n  cells 4\n`,
    [THEIRS]: 'craft "Saucer"\nuse "hands/tiller.fettle"\npack\n  cells 6\n',
    "/shed/hands/tiller.fettle": other,
  };
  const workspace = workspaceOf(texts);
  const answer = taken(workspace, ["handset.name", "transmitter.power", "controls.KN"]);
  expect(answer).toMatchObject({ kind: "edits", left: [] });
  expect(after(texts, answer)[MINE]).toBe('craft "Jug"\nuse "hands/tiller.fettle"\npack\n  cells 4\n');
  expect(taken(workspace, ["transmitter.power"])).toEqual({
    kind: "refused",
    message: "“power” is said by the handset, in a file of its own: take the handset, and it comes along.",
  });
});

test("what another handset would change and was the same before stays the same", () => {
  const other = HANDSET.replace("Wheel", "Tiller").replace("ch9", "ch10");
  const texts = {
    [MINE]: `${head}pack\n  cells 4\n`,
    [THEIRS]: 'craft "Saucer"\nuse "tiller.fettle"\npack\n  cells 4\ncontrols\n  KN dial ch9 1000 us to 2000 us\n',
    "/shed/tiller.fettle": other,
  };
  expect(after(texts, taken(workspaceOf(texts), ["handset.name"]))[MINE]).toBe(
    'craft "Jug"\nuse "tiller.fettle"\npack\n  cells 4\n\ncontrols\n  KN  dial ch9 1000 us to 2000 us\n',
  );
});

test("a handset of another place is not put to use, and the rest is taken", () => {
  const texts = { [MINE]: `${head}pack\n  cells 4\n` };
  const elsewhere = workspaceOf({
    [THEIRS]: 'craft "Saucer"\nuse "tiller.fettle"\npack\n  cells 6\n',
    "/shed/tiller.fettle": 'handset "Tiller"\ntransmitter\n  power 25 mW\n',
  });
  const workspace = workspaceOf(texts);
  const whats = ["handset.name", "transmitter.power", "pack.cells"];
  const answer = adoptEdits(workspace, workspace.craft(MINE)!, elsewhere.craft(THEIRS)!, whats, MINE);
  const message = "The handset “Tiller” of the other side is no file of this workspace: save it as one, then use it.";
  expect(answer).toMatchObject({
    kind: "edits",
    left: [
      { what: "handset.name", isWritten: false, message },
      { what: "transmitter.power", isWritten: false, message },
    ],
  });
  expect(after(texts, answer)[MINE]).toBe(`${head}pack\n  cells 6\n`);
});

test("what the handset says is taken into its own file", () => {
  const wheel = "/shed/wheel.fettle";
  const elsewhere = workspaceOf({
    [THEIRS]: 'craft "Jug"\nuse "wheel.fettle"\n',
    [wheel]: HANDSET.replace("100 mW", "25 mW"),
  });
  const workspace = workspaceOf({ [MINE]: head });
  const [mine, theirs] = [workspace.craft(MINE)!, elsewhere.craft(THEIRS)!];
  const answer = adoptEdits(workspace, mine, theirs, ["transmitter.power"], wheel);
  expect(after({ [wheel]: HANDSET }, answer)[wheel]).toBe(HANDSET.replace("100 mW", "25 mW"));
  expect(adoptEdits(workspace, mine, theirs, ["transmitter.power"], MINE)).toEqual({
    kind: "refused",
    message: "“power” is said by the handset “Wheel”: take it into that file.",
  });
});

test("a handset file that says something else on the other side is not put to use as if it were that one", () => {
  const elsewhere = workspaceOf({
    [THEIRS]: 'craft "Saucer"\nuse "wheel.fettle"\n',
    "/shed/wheel.fettle": HANDSET.replace("Wheel", "Tiller"),
  });
  const workspace = workspaceOf({ [MINE]: head });
  expect(adoptEdits(workspace, workspace.craft(MINE)!, elsewhere.craft(THEIRS)!, ["handset.name"], MINE)).toEqual({
    kind: "refused",
    message: "The file of the handset “Tiller” says something else here than on the other side: change it there.",
  });
});

test("an output that is called “all” is never dropped with its whole section", () => {
  const texts = {
    [MINE]: `${head}use "layer.fettle"\n`,
    [LAYER]: 'layer "Habits"\noutputs\n  all when TL is down\n  lamp when TR is up\n',
    [THEIRS]: `${head}outputs\n  lamp when TR is up\n`,
  };
  expect(whyNot(texts, "outputs.all")).toContain("“drop all” takes the whole section");
  expect(after(texts, taken(workspaceOf(texts), ["outputs.all"], LAYER))[LAYER]).toBe(
    'layer "Habits"\noutputs\n  lamp when TR is up\n',
  );
});

/** The sentence with which taking a name is refused. */
function whyNot(texts: Readonly<Record<string, string>>, what: string, into = MINE, view: Partial<FileView> = {}) {
  const answer = taken(workspaceOf(texts, view), [what], into);
  return answer.kind === "refused" ? answer.message : answer.left.map(({ message }) => message).join();
}

const SIX = { [THEIRS]: `${head}pack\n  cells 6\n` };

test("a line that has a fault on the other side is not taken", () => {
  const texts = { [MINE]: `${head}pack\n  cells 4\n`, [THEIRS]: `${head}pack\n  cells many\n` };
  expect(whyNot(texts, "pack.cells")).toBe(
    "The line that says “cells” on the other side has a fault, so there is no value to take.",
  );
});

test("into a layer nothing is written over which a later file wins", () => {
  const used = `${head}use "layer.fettle"\n`;
  const layer = 'layer "Habits"\npack\n  cells 5\nrates\n  roll end 600 deg/s\n';
  const texts = { ...SIX, [MINE]: `${used}pack\n  cells 4\n`, [LAYER]: layer };
  expect(whyNot(texts, "pack.cells", LAYER)).toBe(
    "Line 5 of “Jug” says “cells” later and would win: take it there, or into the craft itself.",
  );
  const dropped = { ...texts, [MINE]: `${used}pack\n  drop all\n` };
  expect(whyNot(dropped, "pack.cells", LAYER)).toContain("Line 5 of “Jug”");
  const fields = {
    [THEIRS]: `${head}pack\n  cells 5\nrates\n  roll end 700 deg/s slope 100 deg/s\n`,
    [MINE]: `${used}rates\n  roll end 650 deg/s\n`,
    [LAYER]: layer,
  };
  expect(whyNot(fields, "rates.roll", LAYER)).toContain("says “roll end” later");
  const sameEnd = { ...fields, [MINE]: `${used}rates\n  roll end 700 deg/s\n` };
  expect(after(sameEnd, taken(workspaceOf(sameEnd), ["rates.roll"], LAYER))[LAYER]).toBe(
    layer.replace("end 600 deg/s", "end 600 deg/s  slope 100 deg/s"),
  );
});

test("a mode that names another one which differs is written, and it is said that it still differs", () => {
  const texts = {
    [MINE]: `${head}modes\n  arm when TL is down\n  recorder when TR is up\n`,
    [THEIRS]: `${head}modes\n  arm when TR is down\n  recorder when arm\n`,
  };
  const answer = taken(workspaceOf(texts), ["modes.recorder"]);
  expect(after(texts, answer)[MINE]).toBe(`${head}modes\n  arm when TL is down\n  recorder when arm\n`);
  expect(answer).toMatchObject({
    left: [
      {
        what: "modes.recorder",
        isWritten: true,
        message: "“recorder” is written as on the other side, and names “arm”, which is another here: take that too.",
      },
    ],
  });
});

test("no file is written that must not be, or takes no part", () => {
  const broken: Partial<FileView> = {
    read: (path) => {
      const texts: Record<string, string> = {
        ...SIX,
        "/shed/wheel.fettle": HANDSET,
        [MINE]: `${head}pack\n  cells 4\n`,
      };
      const text = texts[path];
      return text === undefined ? { kind: "missing" } : { kind: "text", text, validUtf8: path !== MINE };
    },
  };
  expect(whyNot({ ...SIX, [MINE]: "" }, "pack.cells", MINE, broken)).toContain("no UTF-8 text");
  expect(whyNot({ ...SIX, [MINE]: 'craft "Jug" edition 9\n' }, "pack.cells")).toContain("newer edition");
  const merged = `${head}pack\n<<<<<<< ours\n  cells 4\n=======\n  cells 5\n>>>>>>> theirs\n`;
  expect(whyNot({ ...SIX, [MINE]: merged }, "pack.cells")).toContain("unresolved merge");
  expect(whyNot({ ...SIX, [MINE]: head }, "pack.cells", LAYER)).toBe(
    "“Jug” is not made of /shed/layer.fettle, so nothing is written there.",
  );
});
