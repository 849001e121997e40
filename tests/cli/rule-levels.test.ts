/** `fettle check --rule CODE=LEVEL`: what is shown, what the exit status is, and what is refused. */
import { beforeAll, describe, expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";
import { shed } from "./shed.ts";

let folder: string;
beforeAll(async () => {
  folder = await folderOf(shed);
});

async function check(...args: string[]) {
  const io = held(folder, "");
  const status = await run(["check", "craft/cup.fettle", ...args], io);
  return { status, out: io.outText(), error: io.errorText() };
}

describe("the findings and the exit status", () => {
  test.each([
    [[], ["duplicate-entry warning", "band-mismatch error"], 1],
    [["--rule", "band-mismatch=off"], ["duplicate-entry warning"], 0],
    [["--rule=band-mismatch=off"], ["duplicate-entry warning"], 0],
    [["--rule", "band-mismatch=warning"], ["duplicate-entry warning", "band-mismatch warning"], 0],
    [["--rule", "band-mismatch=warning", "--strict"], ["duplicate-entry warning", "band-mismatch warning"], 1],
    [
      ["--rule", "band-mismatch=hint", "--strict", "--rule", "duplicate-entry=info"],
      ["duplicate-entry info", "band-mismatch hint"],
      0,
    ],
    [["--rule", "duplicate-entry=error", "--rule", "band-mismatch=off"], ["duplicate-entry error"], 1],
    [
      ["--rule", "band-mismatch=off", "--rule", "band-mismatch=error"],
      ["duplicate-entry warning", "band-mismatch error"],
      1,
    ],
    [["--rule", "band-mismatch=off", "--rule", "duplicate-entry=off", "--strict"], [], 0],
  ])("%j", async (args, codes, exit) => {
    const { status, out, error } = await check(...args, "--format", "json");
    expect(error).toBe("");
    const { findings, summary } = JSON.parse(out);
    expect(findings.map(({ code, severity }: Record<string, string>) => `${code} ${severity}`)).toEqual(codes);
    const counted = (severity: string) => codes.filter((each) => each.endsWith(` ${severity}`)).length;
    expect(summary).toEqual({
      files: 1,
      errors: counted("error"),
      warnings: counted("warning"),
      infos: counted("info"),
      hints: counted("hint"),
    });
    expect(status).toBe(exit);
  });
});

test("SARIF says at which level each rule was looked for, and which was not", async () => {
  const { out } = await check("--format", "sarif", "--rule", "band-mismatch=off", "--rule", "duplicate-entry=info");
  const [{ tool, results }] = JSON.parse(out).runs;
  const of = (id: string) => tool.driver.rules.find((rule: { id: string }) => rule.id === id).defaultConfiguration;
  expect(of("band-mismatch")).toEqual({ enabled: false, level: "none" });
  expect(of("duplicate-entry")).toEqual({ level: "note" });
  expect(of("arm-at-rest")).toEqual({ level: "error" });
  expect(results.map(({ ruleId, level }: Record<string, string>) => [ruleId, level])).toEqual([
    ["duplicate-entry", "note"],
  ]);
});

test.each([
  ["osd-overlp=off", "--rule osd-overlp=off: there is no rule “osd-overlp”: did you mean osd-overlap?"],
  ["osd-overlap", "--rule takes CODE=off|hint|info|warning|error, as in osd-overlap=off, and not “osd-overlap”"],
  [
    "osd-overlap=off=on",
    "--rule takes CODE=off|hint|info|warning|error, as in osd-overlap=off, and not “osd-overlap=off=on”",
  ],
  [
    "osd-overlap=quiet",
    "--rule osd-overlap=quiet: osd-overlap is set to off, hint, info, warning or error, not to “quiet”",
  ],
  [
    "unknown-name=off",
    "--rule unknown-name=off: unknown-name cannot be turned off, since its findings say what was not understood: set it to hint, info, warning or error",
  ],
  ["=off", "--rule =off: there is no rule “”"],
])("%s is refused before anything is checked", async (text, why) => {
  expect(await check("--rule", text)).toEqual({ status: 2, out: "", error: `fettle: ${why}\n` });
});

test("an option without its value is refused", async () => {
  expect((await check("--rule")).status).toBe(2);
});
