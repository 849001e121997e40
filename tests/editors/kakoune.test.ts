/** Kakoune takes the README's lines for it; what serves them, kakoune-lsp, is another program, and is stood in for here. */
import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { isInstalled, makeStand } from "./stand.ts";

// Its options have one dash.
const installed = isInstalled("kak", "-version");

test("a script gets its type, its comments and the server's command", async (context) => {
  if (!installed) context.skip("Kakoune is not installed: `apt-get install kakoune` brings it");
  const { folder, init, env } = await makeStand("kakoune", "kakrc");
  const told = join(folder, "..", "told");
  const commands = [
    "declare-option str lsp_servers",
    "declare-option str comment_line",
    `source ${init}`,
    "edit craft/tankard.fettle",
    `echo -to-file ${told} "%opt{filetype} %opt{comment_line} %opt{lsp_servers}"`,
    "kill",
  ];
  spawnSync("kak", ["-n", "-ui", "dummy", "-e", commands.join("\n")], { cwd: folder, env, timeout: 20_000 });
  const [first, ...server] = readFileSync(told, "utf8").split("\n");
  expect(first).toBe("fettle # ");
  expect(server.map((line) => line.trim()).filter(Boolean)).toEqual([
    "[fettle]",
    'root_globs = [".git", ".fettle-root"]',
    'command = "fettle"',
    'args = ["serve", "--stdio"]',
  ]);
});
