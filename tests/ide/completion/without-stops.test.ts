/** What is completed where the editor has no tab stops. */
import { expect, test } from "vitest";
import { withoutStops } from "../../../shared/ide/completion/complete.ts";

/** A snippet, and what is left of it. */
const CASES = String.raw`
warn-at @{1} V/cell => warn-at _
cells @{1:6} => cells 6_
roll slope @{1} deg/s end @{2} deg/s bend @{3:3} => roll slope _
yaw-about @{1|craft,camera|} => yaw-about _
note "@{1}" => note "_
craft "@{1:NAME}" and use "@{2:handsets/NAME.fettle}" @0 => craft "NAME" and use "handsets/NAME.fettle" _
"@1"  @0 => "_
#:@{1:0} to @{2:9}\} => #:0 to 9}_
@{1:a\}b} costs 3 \@, \\ => a}b costs 3 @, \_
no stops => no stops_
`;

test.each(
  CASES.trim()
    .split("\n")
    .map((line) => line.replaceAll("@", "$").split(" => ") as [string, string]),
)("%s", (snippet, plain) => {
  // The mark shows a blank at the end.
  expect(`${withoutStops(snippet)}_`).toBe(plain);
});
