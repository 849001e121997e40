import { readdirSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { run } from "../../server/src/cli/run.ts";
import { held } from "../cli/held.ts";

const folder = inProject("examples");
const filesIn = (part: string) => readdirSync(`${folder}/${part}`).map((name) => `${part}/${name}`);
const newcomer = "craft/wobbly-jug.fettle";
const sane = [...filesIn("craft"), ...filesIn("handsets"), ...filesIn("layers")].filter((file) => file !== newcomer);

async function check(...paths: string[]) {
  const io = held(folder, "");
  const status = await run(["check", ...paths, "--format", "json"], io);
  return { status, findings: JSON.parse(io.outText()).findings as { code: string; file: string; message: string }[] };
}

test("the shed holds two handsets, five layers and six craft", () => {
  expect(["handsets", "layers", "craft"].map((part) => filesIn(part).length)).toEqual([2, 5, 6]);
});

test.each(sane)("%s has no finding at all, not even a hint", async (file) => {
  expect(await check(file)).toEqual({ status: 0, findings: [] });
});

test("the newcomer's craft has at least ten different findings, and no other file has any", async () => {
  const { status, findings } = await check(".");
  expect(status).toBe(1);
  expect([...new Set(findings.map(({ file }) => file))]).toEqual([newcomer]);
  expect(new Set(findings.map(({ code }) => code)).size).toBeGreaterThanOrEqual(10);
});

test.each(filesIn("craft"))("%s can be shown, with its switches", async (file) => {
  for (const command of ["show", "switches"]) {
    const io = held(folder, "");
    expect(await run([command, file, "--format", "json"], io)).toBe(0);
  }
});

test("the shed's own words are read without an error, and find their names", async () => {
  for (const [asked, found] of [
    ["squealer", "finder"],
    ["first bell", "pack.warn-at"],
    ["belly lamp", "lights.belly-delay"],
  ] as const) {
    const io = held(folder, "");
    expect(await run(["explain", asked], io)).toBe(0);
    expect(io.errorText()).toBe("");
    expect(io.outText()).toMatch(new RegExp(`^# ${found.replace(".", "\\.")}\\n`));
  }
});
