/** The hover in the numbers view: what is to be expected, beside what the script says, and doubtful where the rule says so. */
import { expect, test } from "vitest";
import { numbersOf } from "../../../shared/ide/panel/numbers.ts";
import type { HoverPicture } from "../../../shared/protocol/numbers.ts";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { workspaceOf } from "../../rules/check.ts";

const saucer = `craft "Saucer"

frame
  motors               4
  propeller-diameter   5.1 in
  propeller-pitch      3.6 in
  propeller-blades     3
  mass                 640 g
  hover-throttle       24 %

pack
  chemistry      lipo
  cells          6
  hover-current  6.5 A

motors
  kv  1750 rpm/V
`;

/** A line for each figure, with the line of the script that says it, from 1. */
function inWords(hover: HoverPicture | null | undefined): string[] {
  return (hover?.figures ?? []).map(
    ({ name, expected, said, at, isDoubtful }) =>
      `${name}: ${expected}${said === null ? "" : `; ${said} in line ${at!.line + 1}`}${isDoubtful ? ", doubtful" : ""}`,
  );
}

function hoverOf(text: string) {
  const workspace = workspaceOf({ "saucer.fettle": text });
  const craft = workspace.craft("saucer.fettle")!;
  return inWords(numbersOf(craft, workspace)?.hover);
}

const without = (name: string) => saucer.replace(new RegExp(`^  ${name} .*\n`, "m"), "");
const withValue = (name: string, value: string) => saucer.replace(new RegExp(`^(  ${name} +).*$`, "m"), `$1${value}`);

test.each([
  [
    "all of it",
    saucer,
    ["throttle: 22 % to 33 % of the throttle; 24 % in line 9", "current: 3.6 A to 8.6 A; 6.5 A in line 14"],
  ],
  [
    "nothing said of the hover",
    without("hover-throttle").replace(/ {2}hover-current.*\n/, ""),
    ["throttle: 22 % to 33 % of the throttle", "current: 3.6 A to 8.6 A"],
  ],
  [
    "a throttle in pulses",
    withValue("hover-throttle", "1240 us"),
    ["throttle: 22 % to 33 % of the throttle; 24 % in line 9", "current: 3.6 A to 8.6 A; 6.5 A in line 14"],
  ],
  ["no kv", without("kv"), ["current: 3.6 A to 8.6 A; 6.5 A in line 14"]],
  ["no mass", without("mass"), []],
  ["rings round the propellers", saucer.replace("frame\n", "frame\n  ducts  yes\n"), []],
  [
    "a line with a fault",
    withValue("hover-throttle", "a bit"),
    ["throttle: 22 % to 33 % of the throttle", "current: 3.6 A to 8.6 A; 6.5 A in line 14"],
  ],
  [
    "a slip of a digit",
    withValue("hover-current", "65 A"),
    ["throttle: 22 % to 33 % of the throttle; 24 % in line 9", "current: 3.6 A to 8.6 A; 65 A in line 14, doubtful"],
  ],
  [
    "the same while a file is missing",
    withValue("hover-current", "65 A").replace("\nframe", '\nuse "gone.fettle"\n\nframe'),
    ["throttle: 22 % to 33 % of the throttle; 24 % in line 11", "current: 3.6 A to 8.6 A; 65 A in line 16"],
  ],
])("%s", (_title, text, expected) => {
  expect(hoverOf(text)).toEqual(expected);
});

// One after another over one core: what is kept of a pack must not outlive what the frame says.
test("what is called doubtful is what the rule tells of", () => {
  for (const [name, values] of [
    ["hover-throttle", ["3 %", "10 %", "14 %", "16 %", "24 %", "45 %", "52 %", "80 %", "1800 us"]],
    ["hover-current", ["0.6 A", "2.3 A", "2.5 A", "6 A", "12 A", "14 A", "65 A", "650 mA"]],
  ] as const)
    for (const value of values) {
      const text = withValue(name, value);
      const found = findingsOf(workspaceOf({ "saucer.fettle": text }), "saucer.fettle");
      const fires = found.some(({ code }) => code === "hover-doubtful");
      expect([value, hoverOf(text).some((line) => line.includes("doubtful"))]).toEqual([value, fires]);
    }
});
