/** What the manifest promises is there, and what the code asks of it is promised. */
import { existsSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";

const manifest = JSON.parse(readFileSync("package.json", "utf8"));
const { contributes } = manifest;
const code = ["extension", "panel-host", "panel-faces", "pages", "open-at-start"].map((name) =>
  readFileSync(`client/src/${name}.ts`, "utf8"),
);

test("every file that the manifest names is there", () => {
  const names: string[] = [];
  JSON.stringify(contributes, (_, value) => {
    if (typeof value === "string" && /^(\.\/)?(client|grammars|snippets)\//.test(value)) names.push(value);
    return value;
  });
  names.push(manifest.icon);
  expect(names.length).toBeGreaterThan(5);
  expect(names.filter((name) => !existsSync(name))).toEqual([]);
});

test("every command of the manifest is registered, and no other", () => {
  const registered = [...code.join("\n").matchAll(/registerCommand\("([^"]+)"/g)].map((match) => match[1]);
  const promised = contributes.commands.map(({ command }: { command: string }) => command);
  expect(registered.sort()).toEqual(promised.sort());
});

test("every setting that the code reads is in the manifest", () => {
  const read = [...code.join("\n").matchAll(/\.get(?:<\w+>)?\("([^"]+)"/g)].map((match) => `fettle.${match[1]}`);
  expect(read.length).toBeGreaterThan(1);
  for (const name of read) expect(Object.keys(contributes.configuration.properties)).toContain(name);
});

test("the panel's page lets in its own script and styles and nothing else", () => {
  const page = readFileSync("client/src/panel-page.ts", "utf8");
  expect(page).toContain("default-src 'none'");
  expect(page).not.toMatch(/unsafe-|<style|style="|\son[a-z]+="|https?:/);
});

test("a tab of the panel wakes the extension when the editor opens with it", () => {
  const tabType = /const tabType = "([^"]+)"/.exec(code.join("\n"))?.[1];
  expect(manifest.activationEvents).toContain(`onWebviewPanel:${tabType}`);
});
