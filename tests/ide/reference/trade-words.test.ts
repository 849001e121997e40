/** Words that the whole trade uses find what they mean here, on pages and in scripts, and nothing else. */
import { describe, expect, test } from "vitest";
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import { referencePage } from "../../../shared/ide/reference/page.ts";
import { reported } from "../../rules/check.ts";

const catalogue = makeCatalogue();
/** The names of the pages that a word leads to. */
const pages = (word: string) =>
  [...(referencePage(catalogue, word) ?? "").matchAll(/^# (.+)\n\n\*/gm)].map(([, name]) => name);

test.each([
  ["angle", "level"],
  ["angle mode", "level"],
  ["acro", "rates"],
  ["acro mode", "rates"],
  ["air", "grip-at-idle"],
  ["horizon", "level-blend", "horizon-line"],
  ["artificial horizon", "horizon-line"],
  ["pit", "video-low"],
  ["3D", "motors.reverse-band"],
  ["3D mode", "motors.reverse-band"],
  ["rth", "return-home"],
  ["altitude hold", "hold-height"],
  ["position hold", "hold-place"],
  ["headless", "heading-by-pilot"],
  ["expo", "rates"],
  ["pid", "gains"],
  ["pids", "gains"],
  ["stick deadzone", "link.deadband"],
  ["come home height", "navigation.return-height"],
  ["vtx", "video"],
  ["uart", "ports"],
  ["rssi", "signal"],
  ["lq", "link-quality"],
  ["black box", "recorder"],
])("%s leads to %s", (word, ...names) => {
  expect(pages(word)).toEqual(names);
});

describe("as a mode of a script", () => {
  const offer = (mode: string) =>
    / Did you mean (.*)\?$/.exec(reported("unknown-name", ["modes", `  ${mode} when TR is mid`])[0] ?? "")?.[1];

  test.each([
    ["angle", "“level”"],
    ["horizon", "“level-blend”"],
    ["air", "“grip-at-idle”"],
    ["pit", "“video-low”"],
    ["rth", "“return-home”"],
    ["beeper", "“finder”"],
    // What is flown while no mode is on is no mode.
    ["acro", undefined],
  ])("%s is offered %s", (mode, offered) => {
    expect(offer(mode)).toBe(offered);
  });
});
