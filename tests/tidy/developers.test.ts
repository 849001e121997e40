/** DEVELOPERS.md says what is: its paths are there, and its table of capabilities is that of the layers. */
import { existsSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { capabilities } from "./layers.ts";
import { projectFiles } from "./sources.ts";

const text = readFileSync(inProject("DEVELOPERS.md"), "utf8");
const quoted = [...text.matchAll(/`([^`\n]+)`/g)].map(([, code = ""]) => code);

test("every file and folder that it names is there", () => {
  const inTree = quoted.filter((code) => /^(shared|server|client|tests|grammars|examples|\.dev|\.vscode)\//.test(code));
  const paths = inTree.map((code) => code.split(" ")[0]!).filter((path) => !/[A-Z*]{2,}/.test(path));
  expect(paths.length).toBeGreaterThan(50);
  expect(paths.filter((path) => !existsSync(inProject(path)))).toEqual([]);
});

test("every file that it names by its name alone is somewhere", () => {
  const names = new Set(projectFiles().map((path) => path.slice(path.lastIndexOf("/") + 1)));
  const named = quoted.filter((code) => /^[a-z-]+\.(ts|tsx|mjs|css)$/.test(code));
  expect(named.length).toBeGreaterThan(20);
  expect(named.filter((name) => !names.has(name))).toEqual([]);
});

test("every script of npm that it names is one", () => {
  const { scripts } = JSON.parse(readFileSync(inProject("package.json"), "utf8")) as {
    scripts: Record<string, string>;
  };
  const run = quoted.flatMap((code) => /^npm run ([\w:-]+)/.exec(code)?.[1] ?? []);
  expect(run.length).toBeGreaterThan(5);
  expect(run.filter((name) => !Object.hasOwn(scripts, name))).toEqual([]);
});

test("its table of capabilities has the doors and the uses of the layers", () => {
  const rows = [...text.matchAll(/^\| `([a-z-]+)` \| [^|]+ \| ([^|]+) \| ?([^|]*?) ?\|$/gm)];
  const documented = Object.fromEntries(
    rows.map(([, folder = "", doors = "", uses = ""]) => [folder, { doors: wordsOf(doors), uses: wordsOf(uses) }]),
  );
  const expected = Object.entries(capabilities).map(([folder, { doors, uses = [] }]) => {
    const every = folder === "context" || folder === "editor";
    return [folder, { doors: every ? ["every", "file"] : [...doors].sort(), uses: [...uses].sort() }] as const;
  });
  expect(documented).toEqual(Object.fromEntries(expected));
});

function wordsOf(cell: string): string[] {
  return [...cell.matchAll(/[a-z][a-z-]*/g)].map(([word]) => word).sort();
}
