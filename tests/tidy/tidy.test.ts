/** The house is as DEVELOPERS.md says: who imports whom, how files are named, how long they may be. */
import { expect, test } from "vitest";
import { mayImport } from "./layers.ts";
import { importsOf, projectFiles, readSource } from "./sources.ts";

const files = projectFiles();
const sources = files
  .filter((path) => /\.(ts|tsx|mts|mjs|css)$/.test(path) && !path.startsWith("tests/fixtures/"))
  .flatMap((path) => readSource(path) ?? []);
const code = sources.filter(({ path }) => /^(shared|server|client)\/.*\.tsx?$/.test(path));

test("the imports of a module are found in every form, and not in comments", () => {
  const text = `// import "./not.ts"
/* import "./nor.ts" */
import { a } from "./a.ts";
import type { B } from "../b.ts";
import
  c, { d } from "zod";
import "./e.ts";
export { f } from "./f.ts";
const g = await import("./g.ts");`;
  const expected = ["shared/x/a.ts", "shared/b.ts", "zod", "shared/x/e.ts", "shared/x/f.ts", "shared/x/g.ts"];
  expect(importsOf("shared/x/x.ts", text)).toEqual(expected);
});

test("a wrong import is known as one", () => {
  expect(mayImport("shared/model/merge.ts", "shared/syntax/tree.ts")).toBe(true);
  expect(mayImport("shared/syntax/tree.ts", "shared/model/merge.ts")).toBe(false);
  expect(mayImport("shared/rules/all/syntax.ts", "vscode")).toBe(false);
  expect(mayImport("shared/rules/all/syntax.ts", "node:fs")).toBe(false);
  expect(mayImport("shared/rules/all/syntax.ts", "zod")).toBe(false);
  expect(mayImport("server/src/cli/check.ts", "server/src/lsp/server.ts")).toBe(false);
  expect(mayImport("client/panel/main.tsx", "shared/model/craft.ts")).toBe(false);
  expect(mayImport("shared/elsewhere/a.ts", "shared/syntax/tree.ts")).toBe(false);
});

test("imports run one way, and shared imports only the packages it may", () => {
  const wrong = code.flatMap(({ path, imports }) =>
    imports.filter((imported) => !mayImport(path, imported)).map((imported) => `${path} imports ${imported}`),
  );
  expect(wrong).toEqual([]);
});

test("the server's own modules take no more than types from the library of the protocol, which every host brings itself", () => {
  const taking = code.filter(
    ({ path, text }) =>
      path.startsWith("server/src/lsp/") && /^import (?!type )[^;]*? from "vscode-languageserver(\/\w+)?";/m.test(text),
  );
  expect(taking.map(({ path }) => path)).toEqual([]);
});

test("only server/src/node touches the file system", () => {
  const touching = code.filter(({ imports }) => imports.some((name) => /^(node:)?fs(\/promises)?$/.test(name)));
  expect(touching.map(({ path }) => path).filter((path) => !path.startsWith("server/src/node/"))).toEqual([]);
});

test("no module imports itself, however far around", () => {
  const importsByPath = new Map(code.map(({ path, imports }) => [path, imports]));
  const done = new Set<string>();
  const cycles: string[] = [];
  const visit = (path: string, way: readonly string[]) => {
    if (way.includes(path)) cycles.push([...way.slice(way.indexOf(path)), path].join(" → "));
    if (done.has(path) || way.includes(path)) return;
    for (const imported of importsByPath.get(path) ?? []) visit(imported, [...way, path]);
    done.add(path);
  };
  for (const { path } of code) visit(path, []);
  expect(cycles).toEqual([]);
});

test("a rule's file is named by its code", () => {
  const wrong = sources
    .filter(({ path }) => /^shared\/rules\/all\/[^/]+\.ts$/.test(path))
    .flatMap(({ path, text }) => {
      const codes = [...text.matchAll(/^ {2}code: "([^"]+)"/gm)].map((match) => match[1]);
      const name = path.slice("shared/rules/all/".length, -".ts".length);
      return codes.length === 1 && codes[0] === name ? [] : [`${path} has the code ${codes.join(", ")}`];
    });
  expect(wrong).toEqual([]);
});

test("no file passes 400 lines", () => {
  const long = sources
    .filter(({ path }) => !/\.generated\.[a-z]+$/.test(path))
    .map(({ path, text }) => ({ path, lines: text.split("\n").length - 1 }))
    .filter(({ lines }) => lines > 400);
  expect(long).toEqual([]);
});

const topLevel = [
  ..."README.md DEVELOPERS.md CHANGELOG.md LICENSE package.json package-lock.json tsconfig.json".split(" "),
  ..."client server grammars snippets tests shared examples biome.json vitest.config.mts".split(" "),
];

test("nothing lies about at the top", () => {
  const tops = new Set(files.map((path) => path.split("/")[0] ?? ""));
  expect([...tops].filter((name) => !name.startsWith(".") && !topLevel.includes(name))).toEqual([]);
});
