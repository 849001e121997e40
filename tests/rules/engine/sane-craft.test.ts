/** Four craft that fly well, with every setting said that can be said of them: not one finding. Values: common practice, no source. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { swapped } from "../../swapped.ts";
import { workspaceOf } from "../check.ts";

const CRAFT = ["five-inch.fettle", "whoop.fettle", "seven-inch.fettle", "ducted.fettle"];
const files = Object.fromEntries(
  ["wheel.fettle", "common.fettle", ...CRAFT].map((name) => [
    name,
    readFileSync(inProject("tests/fixtures/sane", name), "utf8"),
  ]),
);
const workspace = workspaceOf(files);

/** What cannot be said of any of them, or not of each: a fifth motor, a yaw servo, pulses beside a digital signal, a way home without satellites, the width of an analogue picture, files of a board. */
const NOT_SAID =
  /^(motors\.(motor[5-8]|yaw-servo-.*|pulse-rate|pulse-range|reverse-band)|video\.(standard|frame-rate|signal-width)|navigation\..*|board\.(dialect|text)|ports\.port3|verbatim\..*)$/;

test.each(Object.keys(files))("%s has no finding", (file) => {
  expect(findingsOf(workspace, file).map(({ code, message }) => `${code}: ${message}`)).toEqual([]);
});

test.each(CRAFT)("%s says every setting", (file) => {
  const craft = workspace.craft(file)!;
  const unsaid = workspace.catalogue.sections
    .filter(({ holds, like }) => (holds === "settings" || holds === "places") && !like)
    .flatMap(({ name, settings }) => settings.map((setting) => [name, setting.name] as const))
    .filter(([section, name]) => !craft.settings.get(section)?.has(name))
    .map(([section, name]) => `${section}.${name}`);
  expect(unsaid.filter((path) => !NOT_SAID.test(path))).toEqual([]);
  expect(unsaid.length).toBeLessThan(40);
});

// One wrong step each: the same craft with one value changed is found at once.
test.each([
  ["five-inch.fettle", "warn-at           3.5", "warn-at           3.2", "pack-order"],
  ["five-inch.fettle", "full-current      120 A", "full-current      300 A", "current-over-rating"],
  ["five-inch.fettle", "esc-rate        600", "esc-rate        400", null],
  ["five-inch.fettle", "esc-rate        600", "esc-rate        300", "loop-budget"],
  ["seven-inch.fettle", "return-height       60 m", "return-height       30 m", "return-unready"],
  ["seven-inch.fettle", "port3  gps", "port3  spare", "port-missing"],
  ["whoop.fettle", "cells             1", "cells             detect", null],
  ["ducted.fettle", "cells             4", "cells             9", "divider-clips"],
])("%s, with “%s” made “%s”", (file, from, to, code) => {
  const changed = workspaceOf({ ...files, [file]: swapped(files[file]!, from, to) });
  const codes = findingsOf(changed, file).map((finding) => finding.code);
  if (code === null) expect(codes).toEqual([]);
  else expect(codes).toContain(code);
});
