/** Reference pages: one for every name, and everything on it that the catalogue and the rules know. */
import { expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { namesLike, referencePage } from "../../../shared/ide/reference/page.ts";
import { listNames } from "../../../shared/ide/reference/page-names.ts";
import { rulesLookingAt } from "../../../shared/ide/reference/rules-of.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore } from "../../../shared/model/workspace.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import type { LookedAtKind } from "../../../shared/rules/engine/rule.ts";

const catalogue = makeCatalogue();
const all = listNames(catalogue);
const page = (name: string) => referencePage(catalogue, name) ?? "";

test("every name has a page that begins with it, says what it is, and leaves nothing unfilled", () => {
  expect(all.length).toBeGreaterThan(450);
  for (const { name, summary, kind } of all) {
    const text = page(name);
    expect(text, name).toContain(`# ${name}\n\n*${kind === "element" ? "element of the OSD" : kind}`);
    if (kind !== "unit") expect(text, name).toContain(`**${summary}**`);
    expect(text, name).not.toMatch(/undefined|null|NaN|\[object|\n{3}|## [^\n]+\n\n(##|$)/);
  }
});

test("a setting's page has its kind, every limit with its source, and every usual band", () => {
  for (const section of catalogue.sections)
    for (const setting of section.settings) {
      const text = page(`${section.name}.${setting.name}`);
      expect(text, setting.name).toContain(`*setting · ${setting.kind}`);
      JSON.stringify(setting.types, (key, value: unknown) => {
        if (key === "source") expect(text, setting.name).toContain(value);
        if (key === "at") expect(text, setting.name).toContain(String(value));
        return value;
      });
      for (const { reason } of [...(setting.needs ?? []), ...(setting.excludes ?? [])]) expect(text).toContain(reason);
    }
});

test("what a page refers to can be looked up", () => {
  const known = new Set(all.flatMap(({ name }) => [name, name.slice(name.indexOf(".") + 1)]));
  const dangling: string[] = [];
  for (const { name } of all) {
    const lines = page(name)
      .split("\n")
      .filter((line) => /^(See also|It looks at|Limits are given)/.test(line));
    for (const [, to = ""] of lines.join("\n").matchAll(/`([^`]+)`/g))
      if (!known.has(to)) dangling.push(`${name}: ${to}`);
  }
  expect(dangling).toEqual([]);
});

test("both sides of a need, and of an exclusion, mention it", () => {
  expect(page("turtle")).toContain("Needs `motors.reversible` yes");
  expect(page("motors.reversible")).toContain("- `turtle` (as `yes`): Only motors that can run backwards");
  for (const section of catalogue.sections)
    for (const { name, excludes = [] } of section.settings)
      for (const { setting } of excludes)
        expect(page(setting)).toContain(`Not together with \`${section.name}.${name}\``);
});

test("which mode goes before another is told with what undoes it", () => {
  expect(page("finder")).toContain(
    "Does nothing while `arm` is on, unless `finder.sounder` is said to be other than `none`: Armed, the motors",
  );
  expect(page("level")).toContain("Does nothing while `return-home` is on: On its way home");
});

test("the page of a name has the rules that declare it, and theirs has the name", () => {
  const rulesOn = (kind: LookedAtKind, name: string) => rulesLookingAt(catalogue, kind, name).map(({ code }) => code);
  expect(rulesOn("settings", "pack.warn-at")).toEqual([
    "cells-ambiguous",
    "pack-chemistry",
    "pack-order",
    "setting-needs",
  ]);
  expect(rulesOn("settings", "pack.full-current")).toEqual(["current-over-rating", "shunt-clips", "values-contradict"]);
  expect(rulesOn("settings", "video.signal")).toEqual([
    "fleet-video",
    "grid-mismatch",
    "osd-unsafe-area",
    "setting-needs",
    "video-band",
    "video-power",
  ]);
  expect(rulesOn("settings", "failsafe.descend-for")).toEqual([
    "descend-blind",
    "failsafe-holds-arm",
    "setting-needs",
    "values-contradict",
  ]);
  expect(rulesOn("settings", "ports.port7")).toEqual(["mode-needs", "port-clash", "port-missing", "setting-needs"]);
  expect(rulesOn("modes", "video-high")).toEqual(expect.arrayContaining(["mode-clash", "video-power"]));
  // An element of the same name as a rule, and as a setting in its section.
  expect(rulesOn("elements", "video-power")).not.toContain("video-power");
  expect(page("arm")).toContain("- `arm-at-rest` (error): ");
  expect(page("gains.pitch")).toContain("- `tune-hot` (warning): ");
  expect(page("gains-second.pitch")).toContain("- `tune-hot` (warning): ");
  expect(page("band-mismatch")).toContain("It looks at `link.band`, `transmitter.band`.");
  expect(page("osd-off-grid")).toContain(
    "It looks at `osd.grid`, every setting whose text an element shows, every element.",
  );
  expect(page("syntax")).not.toContain("It looks at");
  expect(page("drop-nothing")).not.toContain("It looks at");
  expect(page("rule-that-is-none")).toBe("");
});

test("an element's page has the rules that look at every such element", () => {
  const codesOn = (name: string) =>
    [...page(name).matchAll(/^- `([a-z-]+)` \((?:error|warning|hint|info)\)/gm)].map(([, code]) => code);
  const placed = ["osd-off-grid", "osd-unsafe-area"];
  expect(codesOn("cell-volts").sort()).toEqual(
    ["osd-centre-clutter", "osd-essentials", "osd-overlap", "setting-needs", ...placed].sort(),
  );
  expect(codesOn("satellites").sort()).toEqual(["osd-centre-clutter", "osd-overlap", "port-missing", ...placed].sort());
  expect(codesOn("sight").sort()).toEqual(placed);
});

test("units show their equivalents in others of their kind", () => {
  expect(page("kHz")).toContain("- 1 kHz is 1000 Hz (hertz)");
  expect(page("W")).toContain("- 1 W is 30 dBm");
  expect(page("V/cell")).toContain("No other unit is of its kind");
  expect(page("us")).toContain("Read as well as: `µs`");
});

test("a rule's page says whether a note may accept it", () => {
  expect(page("osd-overlap")).toContain("`# allow osd-overlap: why`");
  expect(page("use-missing")).toContain("no note can accept it");
});

test("a name is found by plain words and despite a typing error, also several at once", () => {
  expect(page("low battery warning")).toMatch(/^# pack\.warn-at\n/);
  expect(namesLike(catalogue, "wran-at")[0]?.name).toBe("pack.warn-at");
  expect(page("video-power").match(/^# /gm)).toHaveLength(2);
  expect(namesLike(catalogue, "warn at")[0]?.name).toBe("pack.warn-at");
});

test.each([
  ["history of a value", "Keeping configurations in git"],
  ["diff", "Keeping configurations in git"],
  ["conflict", "How merges go"],
  ["hook", "A hook before each commit"],
  ["github actions", "Checking each change on a server"],
])("“%s” leads to a page about git, and to no setting whose prose has the word", (asked, title) => {
  expect(page(asked).split("\n", 1)[0]).toBe(`# ${title}`);
});

test.each([
  ["number of cells", "pack.cells"],
  ["limit the throttle", "rates.throttle-limit"],
  ["how fast it flips", "rates.roll"],
  ["low voltage warning", "pack.warn-at"],
  ["camera angle", "camera-angle"],
  ["stick deadband", "link.deadband"],
  ["battery voltage on screen", "pack-volts"],
  ["flip over after a crash", "turtle"],
  ["signal lost", "failsafe"],
  ["warn at", "pack.warn-at"],
  ["vtx power", "video.power"],
  ["my quad wont arm", "arm"],
  ["find lost drone", "finder"],
  ["max throttle", "rates.throttle-limit"],
  ["osd position", "osd"],
  ["blackbox", "recorder"],
  ["arming angle", "safety.arm-tilt-limit"],
  ["turn off osd", "osd-hide"],
  ["second battery", "pack"],
  ["weight", "frame.mass"],
  ["jello", "board.soft-mount"],
  ["why does the screen flash", "alerts"],
  ["how high will it fly home", "navigation.return-height"],
  ["stop the motors", "arm"],
  ["how many volts when full", "pack.full-at"],
  ["shaky video", "board.soft-mount"],
  ["where is the gps plugged in", "ports"],
  ["receiver not found", "link"],
  ["slow it down for a beginner", "rates.throttle-limit"],
  ["how much battery left", "charge-left"],
  ["speed in goggles", "speed"],
  ["compass calibration", "sensors.compass"],
  ["level trim", "sensors.level-trim-roll"],
])("“%s” finds %s among the first", (asked, name) => {
  expect([...page(asked).matchAll(/^# (.+)$/gm)].map(([, found]) => found)).toContain(name);
});

test("a description fits few names or none", () => {
  expect(page("motor").match(/^# /gm)!.length).toBeLessThanOrEqual(5);
  expect(page("the of and")).toBe("");
  expect(page("glorious wholly unheard matter")).toBe("");
});

test.each([
  ["controls", 'handset "Wheel"'],
  ["outputs", 'craft "Jug"\nuse "wheel.fettle"'],
  ["adjust", 'craft "Jug"\nuse "wheel.fettle"'],
])("the page of “%s” shows entries in which nothing is wrong", (section, header) => {
  const written = /## How it is written\n\n```fettle\n(.*?)\n```/s.exec(referencePage(catalogue, section)!)![1]!;
  const shown = /```fettle\n(handset "Wheel"(.*?))```/s.exec(referencePage(catalogue, "handset")!)![1]!;
  const files = { "jug.fettle": `${header}\n${written}\n`, "wheel.fettle": shown };
  const found = findingsOf(makeCore(catalogue).at(memoryFiles(files)), "jug.fettle");
  expect(found.filter(({ severity }) => severity !== "info").map(({ message }) => message)).toEqual([]);
});

test("a name without its section, a plain word and a name of two kinds find their pages; an unknown word finds none", () => {
  expect(new Set(all.map(({ name, kind }) => `${kind} ${name}`)).size).toBe(all.length);
  expect(page("cells")).toContain("# pack.cells");
  expect(page("kill switch")).toContain("# arm\n\n*mode*");
  expect(page("mode-clash")).toContain("## It fires here\n\n`");
  expect(page("recorder")).toMatch(/\*section\*[\s\S]*---[\s\S]*\*mode\*/);
  expect(referencePage(catalogue, "zzzzzz")).toBeNull();
});
