import { expect, test } from "vitest";
import { run } from "../../../server/src/cli/run.ts";
import { held } from "../held.ts";
import { folderOf } from "../program.ts";
import { cup, shed, wheel } from "../shed.ts";
import { faultsOf, type SarifResult } from "./valid.ts";

// Required properties, and the words that are admitted, by SARIF 2.1.0 (OASIS Standard, 27 March 2020):
// §3.13 sarifLog, §3.14 run, §3.18 tool, §3.19 toolComponent, §3.27 result, §3.29 physicalLocation,
// §3.30 region, §3.49 reportingDescriptor. From memory of the standard.
test("a SARIF log has what the standard requires", async () => {
  const folder = await folderOf(shed);
  const io = held(folder, cup);
  expect(await run(["check", "craft", "--format", "sarif"], io)).toBe(1);
  const log = JSON.parse(io.outText());
  expect(faultsOf(log)).toEqual([]);
  expect(log.version).toBe("2.1.0");
  expect(log.$schema).toMatch(/^https:\/\/.*sarif.*2\.1\.0.*\.json$/);
  expect(log.runs).toHaveLength(1);
  const [only] = log.runs;
  expect(only.columnKind).toBe("utf16CodeUnits");
  const { driver } = only.tool;
  expect(driver.name).toBe("fettle");
  const ids: string[] = driver.rules.map(({ id }: { id: string }) => id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const rule of driver.rules) {
    expect(rule.shortDescription.text).not.toBe("");
    expect(["error", "warning", "note"]).toContain(rule.defaultConfiguration.level);
  }
  expect(only.results).toHaveLength(2);
  for (const result of only.results) {
    expect(ids[result.ruleIndex]).toBe(result.ruleId);
    expect(result.message.text).not.toBe("");
    for (const { physicalLocation } of [...result.locations, ...result.relatedLocations]) {
      expect(new URL(physicalLocation.artifactLocation.uri, "file:///shed/").protocol).toBe("file:");
      const { startLine, startColumn, endLine, endColumn } = physicalLocation.region;
      expect(startLine).toBeGreaterThan(0);
      expect(startColumn).toBeGreaterThan(0);
      expect(endLine).toBe(startLine);
      expect(endColumn).toBeGreaterThan(startColumn);
    }
  }
  expect(only.results[0]).toMatchObject({
    ruleId: "duplicate-entry",
    level: "warning",
    locations: [
      {
        physicalLocation: {
          artifactLocation: { uri: "craft/cup.fettle" },
          region: { startLine: 7, startColumn: 3, endLine: 7, endColumn: 8 },
        },
      },
    ],
  });
});

test("addresses: below the working folder from it, others whole, and both valid where names have letters of any kind", async () => {
  const folder = await folderOf({
    "mine/jug ä%#[1].fettle": 'craft "Jug"\n\nuse "../handsets/wheel.fettle"\n\nmodes\n  finder  when KN is up\n',
    "handsets/wheel.fettle": wheel,
    "other/cup.fettle": 'craft "Cup"\n\npack\n  cells  99\n',
  });
  const io = held(`${folder}/mine`, "");
  expect(await run(["check", ".", "../other", "../gone.fettle", "--format", "sarif"], io)).toBe(2);
  const log = JSON.parse(io.outText());
  expect(faultsOf(log)).toEqual([]);
  const [only] = log.runs;
  expect(only.originalUriBaseIds).toEqual({ "%SRCROOT%": { uri: `file://${folder}/mine/` } });
  const addresses = only.results.map((each: SarifResult) => each.locations[0]!.physicalLocation.artifactLocation);
  expect(addresses).toContainEqual({ uri: "jug%20%C3%A4%25%23%5B1%5D.fettle", uriBaseId: "%SRCROOT%" });
  expect(addresses).toContainEqual({ uri: `file://${folder}/other/cup.fettle` });
  expect(only.invocations).toMatchObject([
    {
      executionSuccessful: false,
      toolExecutionNotifications: [{ message: { text: expect.stringContaining("gone") } }],
    },
  ]);
});

test("a log says how it was made: every line end of a script, and rules with their pages", async () => {
  const io = held(await folderOf({ "a.fettle": 'craft "A"\r\rpack\r  cells  99\r' }), "");
  expect(await run(["check", "--format", "sarif"], io)).toBe(1);
  const log = JSON.parse(io.outText());
  expect(faultsOf(log)).toEqual([]);
  const [only] = log.runs;
  expect(only.newlineSequences).toEqual(["\r\n", "\n", "\r"]);
  expect(only.results[0].locations[0].physicalLocation.region.startLine).toBe(4);
  const rule = only.tool.driver.rules[only.results[0].ruleIndex];
  expect(rule.help.markdown).toContain(rule.shortDescription.text);
  expect(rule.help.markdown).toContain("It fires here");
});

test("info and hint become note, and a path is escaped as a URI asks", async () => {
  const folder = await folderOf({ "my cup #1.fettle": 'craft "Mug"\n\nmodes\n  drop arm\n' });
  const io = held(folder, "");
  expect(await run(["check", "--format", "sarif"], io)).toBe(0);
  const [result] = JSON.parse(io.outText()).runs[0].results;
  expect(result).toMatchObject({
    ruleId: "drop-nothing",
    level: "note",
    locations: [{ physicalLocation: { artifactLocation: { uri: "my%20cup%20%231.fettle" } } }],
  });
});
