/** `fettle git install` and `remove` undo each other to the byte, in repositories of all states. */
import { execFileSync } from "node:child_process";
import {
  chmodSync,
  existsSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import { run } from "../../../server/src/cli/run.ts";
import { held } from "../held.ts";
import { temporaryFolder } from "../program.ts";
import { makeRepository, type Repository } from "../repository.ts";
import { jug } from "../shed.ts";

const LINE = "*.fettle diff=fettle merge=fettle";

async function fettle(folder: string, args: string[], program = { node: "/usr/bin/node", script: "/opt/fettle.js" }) {
  const io = held(folder, "");
  const status = await run(["git", ...args], { ...io, program });
  return { status, out: io.outText(), error: io.errorText() };
}

async function done(folder: string, ...args: string[]) {
  const { status, out, error } = await fettle(folder, args);
  expect([status, error]).toEqual([0, ""]);
  return out;
}

/** Every file and link below a folder with what it holds and who may write it; git's store and its index apart. */
function pictureOf(folder: string, below = ""): Record<string, string> {
  const found: Record<string, string> = {};
  for (const name of readdirSync(join(folder, below))) {
    const path = below === "" ? name : `${below}/${name}`;
    if (/(^|\/)\.git(\/modules\/[^/]+|\/worktrees\/[^/]+)?\/(objects|index|logs|ORIG_HEAD)$/.test(path)) continue;
    const stat = lstatSync(join(folder, path));
    if (stat.isSymbolicLink()) found[path] = `-> ${readlinkSync(join(folder, path))}`;
    else if (stat.isDirectory()) Object.assign(found, pictureOf(folder, path));
    else found[path] = `${(stat.mode & 0o777).toString(8)} ${readFileSync(join(folder, path), "latin1")}`;
  }
  return found;
}

interface State {
  readonly title: string;
  /** What .gitattributes holds; null where it is not there. */
  readonly attributes?: string | null;
  /** What the configuration has at its end, or all of it made anew. */
  readonly config?: (text: string) => string;
  /** What is done in between, with and without an installation alike. */
  readonly between?: (repository: Repository) => void;
  readonly before?: (repository: Repository) => void;
  /** The folder in which the command runs. */
  readonly at?: string;
}

const bytes = (folder: string, path: string) => readFileSync(join(folder, path), "latin1");
const edit = (path: string, change: (text: string) => string) => (repository: Repository) =>
  writeFileSync(join(repository.folder, path), change(bytes(repository.folder, path)), "latin1");
const add = (path: string, text: string) => edit(path, (before) => before + text);

const states: readonly State[] = [
  { title: "no .gitattributes", attributes: null },
  { title: "an empty one", attributes: "" },
  { title: "one that is an empty line", attributes: "\n" },
  { title: "lines of others", attributes: "*.png binary\n*.txt text\n" },
  { title: "no line end at its end", attributes: "*.png binary" },
  { title: "CR LF", attributes: "*.png binary\r\n*.txt text\r\n" },
  { title: "CR LF, and none at its end", attributes: "*.png binary\r\n*.txt text" },
  { title: "line ends of both kinds", attributes: "*.png binary\r\n*.txt text\n" },
  { title: "blank lines at its end", attributes: "*.png binary\n\n\n" },
  { title: "blanks behind the last line", attributes: "*.png binary   " },
  { title: "a byte order mark", attributes: "\u00ef\u00bb\u00bf*.png binary\n" },
  { title: "bytes that are no UTF-8", attributes: "# caf\u00e9 \u00ff\n*.png binary\n" },
  { title: "comments", attributes: "# scripts\n# diff=fettle merge=fettle\n" },
  { title: "our line already", attributes: `${LINE}\n` },
  { title: "our line already, without a line end", attributes: `*.png binary\n${LINE}` },
  { title: "our line among others", attributes: `*.png binary\n${LINE}\n*.txt text\n` },
  { title: "our line with more behind it", attributes: `${LINE} text eol=lf\n` },
  { title: "our line in other columns", attributes: "*.fettle\t merge=fettle   diff=fettle\n" },
  { title: "half of our line", attributes: "*.fettle diff=fettle\n" },
  { title: "another driver for scripts", attributes: "*.fettle diff=other merge=union\n" },
  { title: "text attributes for scripts", attributes: "*.fettle text eol=crlf\n" },
  { title: "a pattern that only begins like ours", attributes: "*.fettle.bak diff=fettle merge=fettle\n" },
  {
    title: "it is untracked, and ignored",
    attributes: "*.png binary\n",
    before: add(".git/info/exclude", ".gitattributes\n"),
  },
  {
    title: "its rights are of its own",
    attributes: "a b\n",
    before: ({ folder }) => chmodSync(join(folder, ".gitattributes"), 0o640),
  },
  {
    title: "it is a link",
    attributes: null,
    before: ({ folder }) => {
      writeFileSync(join(folder, "shared-attributes"), "*.png binary\n");
      symlinkSync("shared-attributes", join(folder, ".gitattributes"));
    },
  },
  {
    title: "it is a link, and git's own attributes have lines",
    attributes: null,
    before: ({ folder }) => {
      symlinkSync("nowhere", join(folder, ".gitattributes"));
      writeFileSync(join(folder, ".git/info/attributes"), "*.png binary");
    },
  },
  {
    title: "it is a link, and git has no folder for attributes",
    attributes: null,
    before: ({ folder }) => {
      symlinkSync("nowhere", join(folder, ".gitattributes"));
      rmSync(join(folder, ".git/info"), { recursive: true });
    },
  },
  {
    title: "git's own attributes decide",
    attributes: "",
    before: ({ folder }) => writeFileSync(join(folder, ".git/info/attributes"), "*.txt text\n"),
  },
  { title: "a configuration without a line end at its end", config: (text) => text.trimEnd() },
  { title: "a configuration with CR LF", config: (text) => text.replaceAll("\n", "\r\n") },
  { title: "an empty configuration", config: () => "" },
  { title: "a configuration that ends in a comment", config: (text) => `${text}# mine\n` },
  { title: "a configuration that ends in blank lines", config: (text) => `${text}\n\n` },
  { title: "a configuration with bytes that are no UTF-8", config: (text) => `${text}[user]\n\tname = Caf\u00e9\n` },
  {
    title: "drivers of the same names, by hand",
    config: (text) => `${text}[diff "fettle"]\n\ttextconv = cat\n[merge "fettle"]\n\tdriver = false\n`,
  },
  { title: "drivers of other names", config: (text) => `${text}[diff "other"]\n\ttextconv = cat\n` },
  { title: "a heading without settings at the end", config: (text) => `${text}[alias]` },
  { title: "a configuration that is a link", before: linkedConfig },
  { title: "core.attributesFile", config: (text) => `${text}[core]\n\tattributesFile = ~/mine\n` },
  { title: "in a folder of the repository", at: "craft" },
  {
    title: "others write a section behind ours",
    between: (repository) => repository.git("config", "alias.st", "status"),
  },
  {
    title: "others write into a section before ours",
    between: (repository) => repository.git("config", "core.whitespace", "tabwidth=2"),
  },
  {
    title: "others write settings into our sections",
    between: (repository) => {
      repository.git("config", "diff.fettle.cachetextconv", "true");
      repository.git("config", "diff.fettle.wordRegex", "[^ ]+ \\\\ # ;");
      repository.git("config", "merge.fettle.recursive", "text");
    },
  },
  { title: "others add a comment and a section", between: add(".git/config", "# mine\n[alias]\n\tst = status\n") },
  {
    title: "others add a line of attributes",
    attributes: "*.png binary\n",
    between: add(".gitattributes", "*.txt text\n"),
  },
  {
    title: "others take out a line of attributes",
    attributes: "*.png binary\n*.txt text\n",
    between: edit(".gitattributes", (text) => text.replace("*.png binary\n", "")),
  },
  {
    title: "others put a line of attributes first",
    attributes: "*.png binary\n",
    between: edit(".gitattributes", (text) => `*.txt text\n${text}`),
  },
  {
    title: "branches and commits come and go",
    between: (repository) => repository.commit({ "craft/jug.fettle": `${jug}# more\n` }),
  },
  {
    title: "both, CR LF and no end",
    attributes: "a b\r\nc d",
    config: (text) => text.trimEnd().replaceAll("\n", "\r\n"),
  },
];

function linkedConfig({ folder }: Repository): void {
  renameSync(join(folder, ".git/config"), join(folder, ".git/real-config"));
  symlinkSync("real-config", join(folder, ".git/config"));
}

function inState({ attributes = null, config, before }: State): Repository {
  const repository = makeRepository({ "craft/jug.fettle": jug });
  const { folder } = repository;
  if (attributes !== null) writeFileSync(join(folder, ".gitattributes"), attributes, "latin1");
  if (config) edit(".git/config", config)(repository);
  before?.(repository);
  return repository;
}

test.each(states)("$title", async (state) => {
  const { between = () => {}, at = "" } = state;
  const untouched = inState(state);
  between(untouched);
  const expected = pictureOf(untouched.folder);

  const repository = inState(state);
  const folder = join(repository.folder, at);
  await done(folder, "install");
  const once = pictureOf(repository.folder);
  expect(await done(folder, "install")).toContain("Set up already");
  expect(pictureOf(repository.folder)).toEqual(once);
  const config = repository.git("config", "--get-regexp", "^(diff|merge)\\.fettle\\.");
  expect(config).toContain("diff.fettle.textconv n='/usr/bin/node';");
  expect(repository.git("check-attr", "diff", "merge", "--", "craft/jug.fettle")).toMatch(
    /diff: fettle\n.*merge: fettle\n$/,
  );
  between(repository);
  await done(folder, "remove");
  const dates = /^\.git\/(refs\/|COMMIT_EDITMSG)/;
  const without = (picture: Record<string, string>) => Object.entries(picture).filter(([path]) => !dates.test(path));
  expect(without(pictureOf(repository.folder))).toEqual(without(expected));
  const removed = pictureOf(repository.folder);
  expect(await done(folder, "remove")).toContain("Nothing is set up");
  expect(pictureOf(repository.folder)).toEqual(removed);
});

test("what others wrote into our sections stays where it is set up anew", async () => {
  const repository = makeRepository({ "craft/jug.fettle": jug });
  await done(repository.folder, "install");
  repository.git("config", "diff.fettle.cachetextconv", "true");
  edit(".git/config", (text) => text.replaceAll("/usr/bin/node", "/elsewhere/node"))(repository);
  await done(repository.folder, "install");
  expect(repository.git("config", "diff.fettle.cachetextconv").trim()).toBe("true");
  expect(repository.git("config", "--get-all", "diff.fettle.textconv").trim().split("\n")).toHaveLength(1);
  expect(await done(repository.folder, "install")).toContain("Set up already");
});

test("this list has as many states as it promises", () => expect(states.length).toBeGreaterThanOrEqual(45));

test("it says what was done, what else is needed, and how to undo it", async () => {
  const { folder } = makeRepository({ "craft/jug.fettle": jug });
  expect(
    await done(folder, "install"),
  ).toBe(`git now shows readable diffs of the scripts in this repository, and merges them entry by entry.

  .gitattributes: one line was added; commit it, so that other clones have it
  .git/config: how this program is run; each clone needs it once

To undo it: fettle git remove
`);
  expect(bytes(folder, ".gitattributes")).toBe(`${LINE}\n`);
  expect(await done(folder, "remove")).toBe(`git shows and merges scripts in this working tree as it does any text.

  .gitattributes: removed, as nothing else was in it
  .git/config: our part was taken out

To have it again: fettle git install
`);
});

test("a line that came with the clone stays, and what others wrote behind ours does", async () => {
  const { folder } = makeRepository({ ".gitattributes": `${LINE}\n` });
  await done(folder, "install");
  await done(folder, "remove");
  expect(bytes(folder, ".gitattributes")).toBe(`${LINE}\n`);
  expect(await done(folder, "remove")).toContain("Nothing is set up");
  rmSync(join(folder, ".gitattributes"));
  await done(folder, "install");
  writeFileSync(join(folder, ".gitattributes"), `${LINE} text\n`);
  await done(folder, "remove");
  expect(bytes(folder, ".gitattributes")).toBe("*.fettle text\n");
});

test("where another line decides, install says so", async () => {
  const { folder } = makeRepository({ "craft/jug.fettle": jug });
  writeFileSync(join(folder, ".git/info/attributes"), "*.fettle -diff\n");
  const { status, error } = await fettle(folder, ["install"]);
  expect([status, error]).toEqual([
    0,
    expect.stringMatching(/^fettle: another line of attributes decides here \(diff: unset/),
  ]);
});

test("another place of the program takes that of the one before", async () => {
  const { folder, git } = makeRepository({ "craft/jug.fettle": jug });
  const before = pictureOf(folder);
  await fettle(folder, ["install"]);
  const odd = { node: "C:\\Program Files\\nodejs\\node.exe", script: 'C:\\it\'s "here" 100% $HOME `x` ä\\fettle.js' };
  expect((await fettle(folder, ["install"], odd)).status).toBe(0);
  expect(git("config", "--get-all", "diff.fettle.textconv")).toBe(
    `n='C:/Program Files/nodejs/node.exe'; [ -x "$n" ] || n=node; f() { "$n" 'C:/it'\\''s "here" 100% $HOME \`x\` ä/fettle.js' git text -- "$1" 2>/dev/null || cat -- "$1"; }; f\n`,
  );
  expect(git("config", "merge.fettle.driver")).toContain("100%% $HOME");
  await done(folder, "remove");
  expect(pictureOf(folder)).toEqual(before);
});

test("what cannot be written is told in one line, and nothing is changed", async () => {
  const cases: readonly [(repository: Repository) => void, RegExp][] = [
    [
      ({ folder }) => chmodSync(join(folder, ".gitattributes"), 0o444),
      /\.gitattributes cannot be written: it is read-only/,
    ],
    [({ folder }) => chmodSync(join(folder, ".git/config"), 0o444), /\.git\/config cannot be written: it is read-only/],
    [
      ({ folder }) => writeFileSync(join(folder, ".git/config.lock"), ""),
      /git is writing its configuration: if it is not, remove .*config\.lock$/,
    ],
    [
      ({ folder }) => {
        rmSync(join(folder, ".gitattributes"));
        mkdirSync(join(folder, ".gitattributes"));
      },
      /\.gitattributes is a folder, and git keeps/,
    ],
  ];
  for (const [prepare, reason] of cases) {
    const repository = makeRepository({ ".gitattributes": "*.png binary\n" });
    prepare(repository);
    const before = pictureOf(repository.folder);
    const { status, error, out } = await fettle(repository.folder, ["install"]);
    expect([status, out]).toEqual([2, ""]);
    expect(error.trimEnd()).toMatch(reason);
    expect(pictureOf(repository.folder)).toEqual(before);
  }
});

test("outside of a repository, in a bare one, and with a path: refused in words", async () => {
  expect((await fettle(temporaryFolder(), ["install"])).error).toBe(
    "fettle: no git repository is around this folder\n",
  );
  const bare = join(temporaryFolder(), "bare.git");
  execFileSync("git", ["init", "-q", "--bare", bare]);
  const before = pictureOf(bare);
  for (const word of ["install", "remove"]) {
    const { status, error } = await fettle(bare, [word]);
    expect([status, error]).toEqual([
      2,
      "fettle: no working tree is around this folder, as in a bare repository, and only there git shows diffs: go to one\n",
    ]);
  }
  expect(pictureOf(bare)).toEqual(before);
  const { folder } = makeRepository();
  expect((await fettle(folder, ["install", "craft"])).error).toMatch(/takes no path/);
  expect((await fettle(folder, [])).error).toMatch(/^fettle: say which: fettle git install, or fettle git remove\n$/);
  expect((await fettle(folder, ["instal"])).error).toMatch(/there is no command “git instal”/);
});

test("a submodule and its repository are set up apart", async () => {
  const inner = makeRepository({ "inner.fettle": jug });
  const { folder, git } = makeRepository({ "craft/jug.fettle": jug });
  git("-c", "protocol.file.allow=always", "submodule", "add", "-q", inner.folder, "sub");
  const before = pictureOf(folder);
  await done(join(folder, "sub"), "install");
  expect(existsSync(join(folder, ".gitattributes"))).toBe(false);
  expect(bytes(folder, ".git/modules/sub/config")).toContain("textconv");
  expect(bytes(folder, ".git/config")).not.toContain("textconv");
  await done(folder, "install");
  await done(join(folder, "sub"), "remove");
  expect(bytes(folder, ".git/config")).toContain("textconv");
  await done(folder, "remove");
  expect(pictureOf(folder)).toEqual(before);
});

test("working trees share the configuration, which goes with the last of them", async () => {
  const { folder, git } = makeRepository({ "craft/jug.fettle": jug });
  const linked = join(temporaryFolder(), "linked");
  git("worktree", "add", "-q", linked);
  const [before, linkedBefore] = [pictureOf(folder), pictureOf(linked)];
  for (const order of [
    [folder, linked],
    [linked, folder],
  ]) {
    await done(folder, "install");
    await done(linked, "install");
    expect(await done(order[0]!, "remove")).toContain("still set up for");
    expect(git("config", "diff.fettle.textconv")).toContain("git text");
    await done(order[1]!, "remove");
    expect(pictureOf(folder)).toEqual(before);
    expect(pictureOf(linked)).toEqual(linkedBefore);
  }
});

test("a repository that was moved is set right again", async () => {
  const { folder } = makeRepository({ "craft/jug.fettle": jug });
  const before = pictureOf(folder);
  await done(folder, "install");
  const moved = join(temporaryFolder(), "moved");
  renameSync(folder, moved);
  await done(moved, "remove");
  expect(pictureOf(moved)).toEqual(before);
  mkdirSync(dirname(folder), { recursive: true });
});
