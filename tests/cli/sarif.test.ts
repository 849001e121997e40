import { expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";
import { cup, shed } from "./shed.ts";

// Required properties, and the words that are admitted, by SARIF 2.1.0 (OASIS Standard, 27 March 2020):
// §3.13 sarifLog, §3.14 run, §3.18 tool, §3.19 toolComponent, §3.27 result, §3.29 physicalLocation,
// §3.30 region, §3.49 reportingDescriptor. From memory of the standard.
test("a SARIF log has what the standard requires", async () => {
  const folder = await folderOf(shed);
  const io = held(folder, cup);
  expect(await run(["check", "craft", "--format", "sarif"], io)).toBe(1);
  const log = JSON.parse(io.outText());
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
