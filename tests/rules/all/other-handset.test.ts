/** A script that was written for another handset has one finding, whose fix makes it one for this. */
import { expect, test } from "vitest";
import { findingsOf } from "../../../shared/rules/engine/engine.ts";
import { WHEEL, workspaceOf } from "../check.ts";

const FRIENDS = `  arm    when SA is front
  level  when SB is back
  turtle when SB is front and SC is front
  finder when SH is held
  lights when S1 above 1500 us
  osd-hide when SA is back and SC is back
`;

function unknown(files: Record<string, string>) {
  const workspace = workspaceOf({ "wheel.fettle": WHEEL, ...files });
  return findingsOf(workspace, "jug.fettle").filter(({ code }) => code === "unknown-name");
}

function craft(modes: string, more = ""): Record<string, string> {
  return { "jug.fettle": `craft "Jug"\nuse "wheel.fettle"\n${more}\nmodes\n${modes}` };
}

test("one finding, at the first, beside it the others; the fix leaves no unknown name", () => {
  const files = craft(FRIENDS, "adjust\n  overall follows S1 from 0.9 to 1.1\n");
  const [found, ...others] = unknown(files);
  expect(others).toEqual([]);
  expect(found!.message).toBe(
    "This script is written for another handset: it names S1, SA, SB, SC and SH, and the craft's own has TL, TR, PB and KN. A quick fix renames them after those of this handset, and lists first which becomes which; look at every switch before you fly. Or name the handset that it was written for.",
  );
  expect(found!.range.start.line).toBe(6);
  expect(found!.related.map(({ range }) => range.start.line)).toEqual([7, 8, 8, 9, 10, 11, 11]);
  expect(found!.fixes.map(({ title }) => title)).toEqual([
    "Write for this handset: S1 → KN, SA → TL (front → down, back → up), SB → TR (back → up, front → down), SH → PB",
  ]);
  const lines = files["jug.fettle"]!.split("\n");
  for (const { range, text } of [...found!.fixes[0]!.edits].reverse()) {
    const line = lines[range.start.line]!;
    lines[range.start.line] = line.slice(0, range.start.character) + text + line.slice(range.end.character);
  }
  const left = unknown({ "jug.fettle": lines.join("\n") });
  // SC has no counterpart: the handset has no third switch.
  expect(left.map(({ message }) => message)).toEqual(
    Array(2).fill(expect.stringMatching(/^No handset of this craft has a control SC\./)),
  );
  expect(lines).toContain("  overall follows KN from 0.9 to 1.1");
});

test("of a layer, on its use line, with its file's name", () => {
  const [found, ...others] = unknown({
    "jug.fettle": 'craft "Jug"\nuse "wheel.fettle"\nuse "friend.fettle"\n',
    "friend.fettle": `layer "Friend"\nmodes\n${FRIENDS}`,
  });
  expect(others).toEqual([]);
  expect(found).toMatchObject({ range: { start: { line: 2 } } });
  expect(found!.message).toMatch(/^friend\.fettle is written for another handset: it names SA, SB, SC, SH and S1/);
  expect(found!.fixes[0]!.edits.every(({ file }) => file === "friend.fettle")).toBe(true);
});

test("where the layer brings its own handset along, controls go by channel", () => {
  const [found] = unknown({
    "jug.fettle": 'craft "Jug"\nuse "friend.fettle"\nuse "wheel.fettle"\n',
    "friend.fettle": `layer "Friend"\nuse "gas.fettle"\nmodes\n${FRIENDS}`,
    "gas.fettle": `handset "Gas"
controls
  SA switch ch6 back 1000 us half 1500 us front 2000 us
  SB switch ch5 back 1000 us front 2000 us
  SC switch ch8 back 1000 us front 2000 us
  SH button ch7 rest 1000 us held 2000 us
  S1 dial ch9 1000 us to 2000 us
`,
  });
  expect(found!.fixes[0]!.title).toBe(
    "Write for this handset: SA → TR (front → down, back → up), SB → TL (back → up, front → down), SH → PB, S1 → KN",
  );
});

test("one or two that are unknown among known ones are slips, each with a finding", () => {
  const found = unknown(
    craft("  arm when TL is down\n  level when TR is up\n  turtle when FR is near\n  finder when SH is held\n"),
  );
  expect(found.map(({ message }) => message)).toEqual([
    expect.stringMatching(/^No handset of this craft has a control FR\. Did you mean TR\?/),
    expect.stringMatching(/^No handset of this craft has a control SH\. Did you mean PB\?/),
  ]);
});
