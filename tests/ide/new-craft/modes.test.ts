/** Which switch of a handset does what on a new craft. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { made, modesOf, only, wheel } from "./new-craft-made.ts";

/** A switch with two or three positions at any pulses, resting anywhere; or a control that cannot arm. */
const controlLine = fc.record({
  kind: fc.constantFrom("switch2", "switch3", "selector", "button", "dial"),
  pulses: fc.uniqueArray(fc.integer({ min: 20, max: 40 }), { minLength: 4, maxLength: 4 }),
  rests: fc.nat({ max: 2 }),
});

test("nothing is found whatever the handset, and arming is never at rest, in a middle or on a low pulse", () => {
  fc.assert(
    fc.property(
      fc.array(controlLine, { maxLength: 5 }),
      fc.constantFrom("beginner", "racing"),
      fc.constantFrom("yes", "no"),
      (controls, pilot, gps) => {
        const lines = controls.map(({ kind, pulses, rests }, i) => {
          const us = pulses.map((pulse) => pulse * 50);
          const positions = (names: string[]) => names.map((name, at) => `${name} ${us[at]} us`).join("  ");
          const head = `  K${i}  ${kind.replace(/\d/, "")}  ch${i + 5}  `;
          if (kind === "dial") return `${head}${us[0]} us to ${us[1]} us`;
          if (kind === "button") return `${head}${positions(["up", "held"])}`;
          const names = ["up", "mid", "down", "far"].slice(0, kind === "switch2" ? 2 : kind === "switch3" ? 3 : 4);
          return `${head}${positions(names)}  rests ${names[rests % names.length]}`;
        });
        const handset = `handset "Odd"\n\ncontrols\n${lines.join("\n")}\n`;
        const { text, findings } = made(
          { "handsets/odd.fettle": handset },
          { link: "handsets/odd.fettle", pilot, gps },
        );
        expect(findings, `${handset}\n${text}`).toEqual([]);
      },
    ),
    { numRuns: 150 },
  );
});

test("the first switch that can arm does, and a beginner's craft is level at rest", () => {
  const { text } = made({ "handsets/wheel.fettle": wheel }, { pilot: "beginner", gps: "yes" });
  expect(modesOf(text)).toEqual([
    "arm when TL is down",
    "level when TR is up",
    "level-blend when TR is mid",
    "return-home when FR is near",
  ]);
  expect(modesOf(made({ "handsets/wheel.fettle": wheel }, { pilot: "racing" }).text)).toEqual([
    "arm when TL is down",
    "level when TR is down",
    "level-blend when TR is mid",
  ]);
});

test.each([
  [
    "a switch of three positions",
    "up 1000 us  mid 1500 us  down 2000 us",
    "beginner",
    ["level when SB is up", "return-home when SB is down"],
  ],
  [
    "a switch of three positions",
    "up 1000 us  mid 1500 us  down 2000 us",
    "racing",
    ["level when SB is mid", "return-home when SB is down"],
  ],
  [
    "a switch of two positions",
    "up 1000 us  down 2000 us",
    "beginner",
    ["level when SB is up", "return-home when SB is down"],
  ],
  ["a switch of two positions", "up 1000 us  down 2000 us", "racing", ["return-home when SB is down"]],
])("where only %s (%s) is left, the way home shares it (%s)", (_, positions, pilot, expected) => {
  const controls = only("  SA  switch  ch5  up 1000 us  down 2000 us", `  SB  switch  ch6  ${positions}`);
  const { text, findings } = made(controls, { link: "Odd", pilot, gps: "yes" });
  expect(findings).toEqual([]);
  expect(modesOf(text)).toEqual(["arm when SA is down", ...expected]);
  expect(text).toContain("For want of a further switch it shares this one");
});

test("the way home is on a selector where no switch is left, and else a note says what to do", () => {
  const arm = "  SA  switch  ch5  up 1000 us  down 2000 us";
  const keys = "  SX  selector  ch7  one 1000 us  two 1500 us  three 2000 us";
  const level = "  SB  switch  ch6  up 1000 us  down 2000 us";
  const asked = { link: "Odd", gps: "yes", pilot: "beginner" };
  expect(modesOf(made(only(arm, level, keys), asked).text)).toEqual([
    "arm when SA is down",
    "level when SB is up",
    "return-home when SX is three",
  ]);
  const { text, findings } = made(only(arm), asked);
  expect(findings).toEqual([]);
  expect(text).toMatch(/# No switch is left for the way home: without one it flies home only when the signal is lost/);
});

test.each([
  ["a switch that rests at its high pulse", "  TL  switch  ch5  up 1000 us  down 2000 us  rests down"],
  ["a button", "  PB  button  ch5  rest 1000 us  held 2000 us"],
  ["a dial", "  KN  dial  ch5  1000 us to 2000 us"],
  ["a selector", "  SX  selector  ch5  one 1000 us  two 2000 us"],
])("nothing arms on %s, and a note says what is needed", (_, line) => {
  const { text, findings } = made(only(line), { link: "Odd" });
  expect(findings).toEqual([]);
  expect(modesOf(text)).toEqual([]);
  expect(text).toMatch(
    /# No switch of the handset can arm it: arming needs one with two or three positions(.|\n)*# arm /,
  );
});

test("a switch of three positions arms at its end where there is no other, and its middle stays free", () => {
  const { text, findings } = made(only("  SA  switch  ch5  up 1000 us  mid 1500 us  down 2000 us"), { link: "Odd" });
  expect(findings).toEqual([]);
  expect(modesOf(text)).toEqual(["arm when SA is down"]);
  expect(text).not.toContain("allow");
});

test("without a handset the modes are comments that say what to do", () => {
  const { text } = made({}, { link: "868 MHz" });
  expect(text).toContain("  band     868 MHz\n");
  expect(modesOf(text)).toEqual([]);
  expect(text).toMatch(/# No switch does anything yet(.|\n)*\n {2}# arm {4}when TL is down\n/);
});

test("the band is the handset's, and a handset that says none has it filled in by the pilot", () => {
  expect(made({ "handsets/wheel.fettle": wheel }, {}).text).toContain("  band     2.4 GHz\n");
  const { text } = made(only("  TL  switch  ch5  up 1000 us  down 2000 us"), { link: "odd" });
  expect(text).toContain(
    "# The handset's file does not say its band; as printed on the receiver:\n  # band  2.4 GHz\n",
  );
});

test("a mode is where most craft of the same handset have it", () => {
  const craft = (name: string, arm: string) =>
    `craft "${name}"\n\nuse "../handsets/wheel.fettle"\n\nmodes\n  arm    when ${arm}\n  level  when TL is down\n`;
  const files = {
    "handsets/wheel.fettle": wheel,
    "craft/a.fettle": craft("A", "FR is near"),
    "craft/b.fettle": craft("B", "FR is near"),
    "craft/c.fettle": craft("C", "TR is down"),
  };
  const { text, findings } = made(files, { link: "Wheel", pilot: "racing" });
  expect(findings).toEqual([]);
  expect(modesOf(text)).toEqual(["arm when FR is near", "level when TL is down"]);
  // A habit in which something is found is no example.
  const bad = Object.fromEntries(
    Object.entries(files).map(([path, file]) => [path, file.replaceAll("FR is near", "TL is up")]),
  );
  expect(modesOf(made(bad, { link: "Wheel" }).text)[0]).toBe("arm when TL is down");
});
