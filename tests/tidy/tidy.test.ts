/** The tree is as DEVELOPERS.md says: which folders import which, names of files, their lengths. */
import { expect, test } from "vitest";
import { capabilities, mayImport } from "./layers.ts";
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

test.each([
  // [who, imports what, allowed]
  ["shared/model/merge.ts", "shared/syntax/tree.ts", true],
  ["shared/syntax/tree.ts", "shared/model/merge.ts", false],
  ["shared/rules/all/syntax.ts", "vscode", false],
  ["shared/rules/all/syntax.ts", "node:fs", false],
  ["shared/rules/all/syntax.ts", "zod", false],
  ["server/src/cli/check.ts", "server/src/lsp/server.ts", false],
  ["client/panel/main.tsx", "shared/model/craft.ts", false],
  ["shared/elsewhere/a.ts", "shared/syntax/tree.ts", false],
  // From rule to rule, and from a rule to who runs it.
  ["shared/rules/all/video-power.ts", "shared/rules/all/video-band.ts", false],
  ["shared/rules/all/video-power.ts", "shared/rules/engine/engine.ts", false],
  ["shared/rules/lib/locations.ts", "shared/rules/all/video-band.ts", false],
  ["shared/rules/all/video-power.ts", "shared/rules/engine/rule.ts", true],
  ["shared/rules/engine/registry.generated.ts", "shared/rules/all/video-band.ts", true],
  // The insides of a capability, its doors, and folders that it has no business with.
  ["shared/ide/hover/hover.ts", "shared/ide/consequences/pack.ts", false],
  ["shared/ide/hover/hover.ts", "shared/ide/consequences/consequences.ts", true],
  ["shared/ide/hover/hover.ts", "shared/ide/hover/file-hover.ts", true],
  ["shared/ide/hover/hover.ts", "shared/ide/panel/panel.ts", false],
  ["shared/ide/context/describe.ts", "shared/ide/hover/hover.ts", false],
  ["shared/ide/nowhere/a.ts", "shared/ide/hover/hover.ts", false],
  ["server/src/lsp/features.ts", "shared/ide/hover/hover.ts", true],
  ["server/src/lsp/features.ts", "shared/ide/hover/file-hover.ts", false],
  ["shared/rules/all/syntax.ts", "shared/ide/hover/hover.ts", false],
  ["client/src/pages.ts", "shared/ide/hover/hover.ts", false],
  ["tests/ide/hover/hover.test.ts", "shared/ide/hover/file-hover.ts", true],
])("%s may import %s: %s", (path, imported, allowed) => {
  expect(mayImport(path, imported)).toBe(allowed);
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

test("a planted import circle is found, however long", () => {
  const planted = new Map([
    ["shared/a.ts", ["shared/b.ts", "zod"]],
    ["shared/b.ts", ["shared/c.ts"]],
    ["shared/c.ts", ["shared/b.ts"]],
  ]);
  expect(circlesIn(planted)).toEqual(["shared/b.ts → shared/c.ts → shared/b.ts"]);
});

test("no module imports itself, however far around", () => {
  expect(circlesIn(new Map(code.map(({ path, imports }) => [path, imports])))).toEqual([]);
});

test("nor does a folder of shared/ide", () => {
  const uses = Object.entries(capabilities).map(([name, { uses = [] }]) => [name, uses] as const);
  expect(circlesIn(new Map(uses))).toEqual([]);
});

test("every folder of shared/ide is listed with its doors, and each door is there and is used from outside", () => {
  const folders = new Set(code.flatMap(({ path }) => /^shared\/ide\/([^/]+)\//.exec(path)?.[1] ?? []));
  expect([...folders].sort()).toEqual(Object.keys(capabilities).sort());
  const doors = Object.entries(capabilities).flatMap(([folder, each]) =>
    each.doors.map((door) => `shared/ide/${folder}/${door}.ts`),
  );
  const from = (path: string) => path.split("/").slice(0, 3).join("/");
  const entered = new Set(sources.flatMap(({ path, imports }) => imports.filter((each) => from(each) !== from(path))));
  expect(doors.filter((door) => !entered.has(door))).toEqual([]);
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
  ..."client server grammars tests shared examples biome.json vitest.config.mts".split(" "),
];

test("the top folder has no other files", () => {
  const tops = new Set(files.map((path) => path.split("/")[0] ?? ""));
  expect([...tops].filter((name) => !name.startsWith(".") && !topLevel.includes(name))).toEqual([]);
});

/** Every way by which something comes back to itself, as in “a → b → a”. */
function circlesIn(importsByPath: ReadonlyMap<string, readonly string[]>): string[] {
  const done = new Set<string>();
  const circles: string[] = [];
  const visit = (path: string, way: readonly string[]) => {
    if (way.includes(path)) circles.push([...way.slice(way.indexOf(path)), path].join(" → "));
    if (done.has(path) || way.includes(path)) return;
    for (const imported of importsByPath.get(path) ?? []) visit(imported, [...way, path]);
    done.add(path);
  };
  for (const path of importsByPath.keys()) visit(path, []);
  return circles;
}
