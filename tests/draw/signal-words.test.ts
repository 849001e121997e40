/** A lost signal in words: nothing that is not known is left out, and nothing is claimed of it. */
import { describe, expect, test } from "vitest";
import {
  backInWords,
  courseName,
  deedInWords,
  gapsInWords,
  isLoose,
  lastsInWords,
  lengthInWords,
  phaseInWords,
  pictureInWords,
  signalStateInWords,
  startInWords,
  stepInWords,
  timeInWords,
  tracksInWords,
} from "../../shared/draw/signal-words.ts";
import { signalLossOf } from "../../shared/loss/signal-loss.ts";
import type { SignalLoss } from "../../shared/protocol/signal.ts";
import { filesOf } from "../loss/cases.ts";
import { workspaceOf } from "../rules/check.ts";

function lossOf(text: string): SignalLoss {
  const workspace = workspaceOf(filesOf(text.split("\n")));
  return signalLossOf(workspace.craft("jug.fettle")!, workspace);
}

/** The sentences of one phase, of the first course unless told. */
function told(text: string, phase: number, course = 0) {
  const at = lossOf(text).courses[course]!.phases[phase]!;
  return { words: phaseInWords(at), back: backInWords(at.back), gaps: gapsInWords(at.gaps) };
}

test.each([
  [0, "0 s"],
  [20, "0.02 s"],
  [250, "0.25 s"],
  [1500, "1.5 s"],
  [59_900, "59.9 s"],
  [60_000, "1 min"],
  [92_000, "1 min 32 s"],
])("%d ms is %s", (ms, words) => {
  expect(timeInWords(ms)).toBe(words);
});

const silent = "link\n  on-loss silent\n  lost-after 1 s\n";

describe("what the craft does", () => {
  test("a descent, with what is not known of it, and one that does not come down", () => {
    const descent = `${silent}failsafe\n  hold-for 0 s\n  then descend\n`;
    expect(
      told(`${descent}  descend-throttle 26 %\n  descend-for 20 s\n  descend-level yes\n  resume-after 2 s`, 1),
    ).toEqual({
      words: "Armed. It comes down at 26 % throttle, levelled.",
      back: "the pilot gets the craft back after 2 s of good signal.",
      gaps: "",
    });
    expect(told(descent, 1)).toEqual({
      words:
        "Armed. It comes down at a throttle that is not known; whether it levels itself is not known. For how long is not known.",
      back: "the pilot gets the craft back; after how long is not known.",
      gaps: "No line says failsafe.descend-throttle, failsafe.descend-level, failsafe.descend-for and failsafe.resume-after.",
    });
    expect(told(`${descent}  descend-throttle 35 %\n  descend-level no\nframe\n  hover-throttle 30 %`, 1).words).toBe(
      "Armed. It comes down at 35 % throttle, leaning as it did. But it hovers at 30 %: with no less than that it does not come down. For how long is not known.",
    );
    // A pulse and a share are compared by the ends of the stick.
    const pulse = told(`${descent}  descend-throttle 1250 us\nframe\n  hover-throttle 30 %`, 1).words;
    expect(pulse).not.toContain("But it hovers");
  });

  test("the way home", () => {
    const home = `${silent}failsafe\n  hold-for 0 s\n  then return\n`;
    expect(told(home, 1).words).toBe(
      "Armed. It flies home. How high and how fast are not known. It knows home only if it had a fix when it armed. How long depends on how far away it is.",
    );
    const whole = `${home}navigation\n  return-height 40 m\n  return-speed 12 m/s\n  return-climb on-the-way\nsafety\n  arm-needs-fix yes\n`;
    expect(told(whole, 1).words).toBe(
      "Armed. It flies home at 40 m and 12 m/s over the ground, climbing on the way. How long depends on how far away it is.",
    );
    expect(told(`${whole}sensors\n  accelerometer no`, 1).words).toContain("But it has no accelerometer");
    expect(told(`${whole}failsafe\n  resume-after 1 s\n  resume-stick 30 %`, 1).back).toBe(
      "the pilot gets the craft back after 1 s of good signal and a push of roll or pitch by 30 %.",
    );
  });

  test("a line with a fault is told as such, and not as missing", () => {
    expect(told(`${silent}failsafe\n  then hover`, 2).gaps).toBe("A line has a fault: failsafe.then.");
  });

  test("presets that leave it armed may arm one on the ground, if their throttle is closed", () => {
    const presets = (throttleUs: number) =>
      told(`link\n  on-loss preset\n  preset-channels 1500 us, 1700 us, ${throttleUs} us, 1500 us, 2000 us`, 1);
    expect(presets(1000).words).toContain("A craft on the ground may arm by itself.");
    expect(presets(1000).gaps).toBe("Taken as usual, since no line says it: link.order.");
    expect(presets(1400).words).toContain("The throttle is open, at 1400 us: nobody flies it.");
    expect(presets(1400).words).toContain("Roll, pitch or yaw is not in the middle.");
    expect(presets(1400).words).not.toContain("on the ground");
  });
});

test("after a stop the arm switch decides", () => {
  const stop = `${silent}failsafe\n  hold-for 0 s\n  then stop\n`;
  expect(told(`${stop}  rearm-needs-off yes`, 1).back).toBe(
    "the motors stay off until the arm switch has been at off.",
  );
  expect(told(`${stop}  rearm-needs-off no`, 1).back).toContain("may start by themselves");
  expect(told(stop, 1).back).toContain("is not known");
});

test("the line above the switches, and a step for a screen reader", () => {
  const unsaid = lossOf("link\n  lost-after 1 s\nfailsafe\n  hold-for 2 s\n  hold-with level\n  then stop");
  expect(signalStateInWords(unsaid, { course: 0, phase: 1 })).toBe(
    "Signal lost. The script does not say what the receiver does. 1 s to 3 s: armed. It levels itself and flies on with its throttle as it was.",
  );
  expect(stepInWords(unsaid, { course: 0, phase: 2 })).toBe(
    "Phase 3 of 3, from 3 s: Motors off, not armed, receiver not said",
  );
  expect(unsaid.courses.map(courseName)).toEqual(["If the receiver falls silent", "If it goes on sending"]);
});

test("the time line says how long, and marks what is not to scale", () => {
  const [waits, held, stops] = lossOf(`${silent}failsafe\n  then stop`).courses[0]!.phases;
  expect([waits, held, stops].map((each) => [startInWords(each!), lastsInWords(each!), isLoose(each!)])).toEqual([
    ["0 s", "for 1 s", false],
    ["1 s", "how long: not known", true],
    ["then", "", false],
  ]);
  const flies = lossOf("link\n  on-loss hold").courses[0]!.phases[0]!;
  expect(lastsInWords(flies)).toBe("no line ends it");
  expect(lengthInWords(flies)).toContain("the pack is empty");
  expect(isLoose(flies)).toBe(true);
  // In a narrow panel a track says only what changes.
  expect(tracksInWords(waits!, undefined)).toBe("armed, receiver silent");
  expect(tracksInWords(held!, waits)).toBe("");
  expect(tracksInWords(stops!, held)).toBe("not armed");
});

test("the caption says where the picture cannot know of the loss", () => {
  const of = (text: string, phase: number) => pictureInWords(lossOf(text).courses[0]!.phases[phase]!);
  expect(of(`${silent}failsafe\n  then stop`, 0)).toContain("tells nothing of it yet");
  expect(of(`${silent}failsafe\n  then stop`, 2)).toBe("");
  expect(of("link\n  on-loss hold", 0)).toContain("takes this for a live link");
});

test("every deed has its sentence", () => {
  expect(deedInWords({ kind: "climbs", height: "40 m", when: "if lower" })).toBe(
    "Below 40 m it climbs on the spot to there; higher up it stays as high as it is.",
  );
  expect(deedInWords({ kind: "held", sticks: "level", canLevel: false })).toContain("no accelerometer");
  expect(deedInWords({ kind: "waits-home", landAt: null })).toContain("which are not known");
});
