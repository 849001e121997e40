/** What the fleet says of craft that are flown together: those that were named, as indices of all. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { fleetOf, scriptsOf } from "../../../shared/ide/fleet/fleet.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import type { FleetVideo } from "../../../shared/protocol/fleet.ts";
import { viewTogether } from "../../../shared/rules/lib/flown.ts";
import { finish } from "../../../shared/text/steps.ts";

const core = makeCore(makeCatalogue());

/** `NAME: entries` for each craft, those with a star in front flown together. */
function videoOf(...lines: readonly string[]): FleetVideo {
  const craft = lines.map((line) => {
    const [name = "", entries = ""] = line.replace(/^\*/, "").split(": ");
    const text = [`craft "${name}"`, "video", ...entries.split("; ").map((each) => `  ${each}`), ""].join("\n");
    return { file: `/shed/${name.toLowerCase()}.fettle`, text, flies: line.startsWith("*") };
  });
  const view = memoryFiles(Object.fromEntries(craft.map(({ file, text }) => [file, text])));
  const together = craft.filter(({ flies }) => flies).map(({ file }) => file);
  const workspace = core.at(together.length > 0 ? viewTogether(view, core, together) : view);
  return finish(fleetOf(scriptsOf(workspace))).video;
}

const ANALOGUE = "signal analogue; region europe; frequency";

test("without anybody named nothing is said of channels but what they are", () => {
  const { together, conflicts, plan, noPlan, table } = videoOf(
    `Jug: ${ANALOGUE} 5806 MHz`,
    `Urn: ${ANALOGUE} 5806 MHz`,
  );
  expect([together, conflicts, plan, noPlan]).toEqual([[], [], null, null]);
  expect(table.rows.map(({ cells }) => cells.map(({ text }) => text))).toEqual([
    ["analogue", "5806 MHz"],
    ["analogue", "5806 MHz"],
  ]);
});

test("conflicts and moves name craft by their places among all", () => {
  const { together, conflicts, plan, noPlan } = videoOf(
    `Bowl: ${ANALOGUE} 5806 MHz`,
    `*Cup: ${ANALOGUE} 5732 MHz`,
    `*Jug: ${ANALOGUE} 5769 MHz`,
    `*Urn: ${ANALOGUE} 5806 MHz; spare-frequency 5850 MHz`,
  );
  expect(together).toEqual([1, 2, 3]);
  expect(conflicts.map(({ kind, craft, message }) => [kind, craft, message.slice(0, 26)])).toEqual([
    ["product", [1, 2, 3], "Cup: On the picture at 573"],
    ["product", [3, 2, 1], "Urn: On the picture at 580"],
  ]);
  expect(plan).toEqual([{ craft: 3, fromMhz: 5806, toMhz: 5850, note: "its spare frequency" }]);
  expect(noPlan).toBeNull();
});

test("an overlap names all that it is with, and a plan that there is none has its reason", () => {
  const five = Array.from({ length: 5 }, (_, i) => `*Jug${i}: ${ANALOGUE} ${5800 + i} MHz`);
  const { conflicts, plan, noPlan } = videoOf(...five);
  expect(conflicts[0]).toMatchObject({ kind: "overlap", craft: [0, 1, 2, 3, 4] });
  expect(plan).toBeNull();
  expect(noPlan).toBe("No channels are free for all of them, as at most 4 go together there: fly fewer at a time.");
});

test("craft that are clear need no plan", () => {
  const { conflicts, plan } = videoOf(`*Jug: ${ANALOGUE} 5769 MHz`, `*Urn: ${ANALOGUE} 5806 MHz`);
  expect([conflicts, plan]).toEqual([[], []]);
});
