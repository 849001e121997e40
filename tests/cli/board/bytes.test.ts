/** Encoding and line ends of a board's text stay as they are. */
import { readFileSync, writeFileSync } from "node:fs";
import { expect, test } from "vitest";
import { run } from "../../../server/src/cli/run.ts";
import { held } from "../held.ts";
import { boardShed } from "./shed.ts";

const write = async (folder: string, ...args: string[]) => {
  const io = held(folder, "");
  return { status: await run(["board", "write", ...args, "--out", "new.txt"], io), error: io.errorText() };
};

test("Latin-1 stays Latin-1, byte for byte", async () => {
  const folder = await boardShed();
  expect((await write(folder, "accent.fettle")).status).toBe(0);
  const bytes = readFileSync(`${folder}/new.txt`);
  expect(bytes.toString("latin1")).toContain("glaze of M\u00fcller\n");
  expect(bytes.includes(0xfc)).toBe(true);
  expect(bytes.includes(0xc3)).toBe(false);
});

test("a character that Latin-1 does not have is refused, and nothing is written", async () => {
  const folder = await boardShed();
  writeFileSync(
    `${folder}/kiln.fettle`,
    `${readFileSync(`${folder}/kiln.fettle`, "utf8")}\nosd\n  "of {p}"  pilot-name {p}\n`,
  );
  writeFileSync(
    `${folder}/accent.fettle`,
    `${readFileSync(`${folder}/accent.fettle`, "utf8")}\nosd\n  pilot-name "Zoltán Ő"\n`,
  );
  const { status, error } = await write(folder, "accent.fettle");
  expect(status).toBe(2);
  expect(error).toMatch(/the saved text is in Latin-1, which has no “Ő” \(line \d+ of the new text\)/);
  expect(() => readFileSync(`${folder}/new.txt`)).toThrow();
});

test("line ends of the base stay, also in lines that are new", async () => {
  const folder = await boardShed();
  expect((await write(folder, "jug.fettle", "--base", "crlf.txt")).status).toBe(0);
  const text = readFileSync(`${folder}/new.txt`, "utf8");
  expect(text).toContain("holds 1300\r\n");
  expect(text.replaceAll("\r\n", "")).not.toContain("\n");
});
