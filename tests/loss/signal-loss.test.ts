/** What happens after a lost signal: craft of every kind, with the expected courses below them. */
import { describe, expect, test } from "vitest";
import { armedInWords, courseName, phaseLabel, spanInWords } from "../../shared/draw/signal-words.ts";
import { signalLossOf } from "../../shared/loss/signal-loss.ts";
import type { SignalLoss } from "../../shared/protocol/signal.ts";
import { workspaceOf } from "../rules/check.ts";
import { scriptsIn } from "../rules/fixtures.ts";
import { filesOf, lossCases } from "./cases.ts";

function lossOf(files: Readonly<Record<string, string>>): SignalLoss {
  const workspace = workspaceOf(files);
  return signalLossOf(workspace.craft("jug.fettle")!, workspace);
}

/** The courses, a line each. */
function told({ courses }: SignalLoss): string[] {
  return courses.map((course) => {
    const phases = course.phases.map(
      (each) => `${phaseLabel(each.deed)}, ${spanInWords(each)}, ${armedInWords(each.armed)}`,
    );
    const name = courseName(course);
    return `${name === "" ? "" : `${name}: `}${phases.join(" > ")}`;
  });
}

describe("craft of every kind", () => {
  test.each(lossCases())("$title", ({ files, expected }) => {
    expect(told(lossOf(files))).toEqual(expected);
  });
});

const silent = "link\n  on-loss silent\n  lost-after 1 s";
/** The lines of a phase as “NAME TEXT”, and what is missing of it. */
function restsOn(text: string, phase: number, course = 0) {
  const { lines, gaps } = lossOf(filesOf(text.split("\n"))).courses[course]!.phases[phase]!;
  return {
    lines: lines.map(({ name, text: said }) => `${name} ${said}`),
    gaps: gaps.map(({ name, why }) => `${name} ${why}`),
  };
}

test("every phase has the lines that it comes from, in whichever file they stand", () => {
  expect(restsOn(silent, 0)).toEqual({ lines: ["link.on-loss silent", "link.lost-after 1 s"], gaps: [] });
  const { courses } = lossOf(filesOf(['use "layers/habits.fettle"', ...silent.split("\n")]));
  expect(courses[0]!.phases[1]!.lines.map(({ at }) => `${at.file}:${at.line}`)).toEqual([
    "layers/habits.fettle:2",
    "layers/habits.fettle:3",
  ]);
  const home = `${silent}\nfailsafe\n  hold-for 0 s\n  then return\n  then-without-fix stop\n  resume-after 1 s
navigation\n  return-height 40 m\n  return-climb first\n  climb-speed 3 m/s\n  return-speed 9 m/s\n  arrival land\n  landing-speed 1 m/s\nsafety\n  arm-needs-fix yes`;
  expect(restsOn(home, 1).lines).toEqual([
    "failsafe.then return",
    "navigation.return-height 40 m",
    "navigation.return-climb first",
    "navigation.climb-speed 3 m/s",
    "failsafe.resume-after 1 s",
  ]);
  expect(restsOn(home, 2)).toEqual({
    lines: [
      "failsafe.then return",
      "navigation.return-height 40 m",
      "navigation.return-climb first",
      "navigation.return-speed 9 m/s",
      "safety.arm-needs-fix yes",
      "failsafe.resume-after 1 s",
    ],
    gaps: [],
  });
  expect(restsOn(home, 3).lines).toEqual(["navigation.arrival land", "navigation.landing-speed 1 m/s"]);
  expect(restsOn(home, 1, 1)).toEqual({
    lines: ["failsafe.then-without-fix stop"],
    gaps: ["failsafe.rearm-needs-off unsaid"],
  });
});

test("presets lead to their line, to arm and to the modes that they turn on", () => {
  const text = `link\n  on-loss preset\n  order roll pitch throttle yaw
  preset-channels 1500 us, 1500 us, 1000 us, 1500 us, 2000 us, 1500 us\nmodes\n  level when TR is mid`;
  expect(restsOn(text, 1)).toEqual({
    lines: [
      "arm TL is down",
      "level TR is mid",
      "link.preset-channels 1500 us, 1500 us, 1000 us, 1500 us, 2000 us, 1500 us",
      "link.order roll pitch throttle yaw",
    ],
    gaps: [],
  });
});

test("what is missing is told once, by its cause", () => {
  expect(restsOn(`${silent}\nfailsafe\n  then descend\n  descend-for 3`, 2).gaps).toEqual([
    "failsafe.descend-throttle unsaid",
    "failsafe.descend-level unsaid",
    "failsafe.descend-for faulty",
    "failsafe.resume-after unsaid",
  ]);
  expect(restsOn('use "layers/lost.fettle"', 0).gaps).toEqual([
    "link.on-loss unread",
    "link.lost-after unread",
    "failsafe.then unread",
  ]);
});

test.each([
  // The ends and the middle are the link's own, with a tolerance of 10 us or the deadband.
  ["1500 us, 1500 us, 1010 us, 1500 us", "", { us: 1010, is: "closed" }, "centred"],
  ["1510 us, 1490 us, 1011 us, 1500 us", "", { us: 1011, is: "open" }, "centred"],
  ["1511 us, 1500 us, 1000 us, 1500 us", "", { us: 1000, is: "closed" }, "off-centre"],
  ["1520 us, 1500 us, 1000 us, 1500 us", "  deadband 20 us", { us: 1000, is: "closed" }, "centred"],
  [
    "1520 us, 1520 us, 1100 us, 1520 us",
    "  centre 1520 us\n  endpoints 1100 us to 1940 us",
    { us: 1100, is: "closed" },
    "centred",
  ],
  ["1500 us, 1500 us, 1000 us, 1500 us", "  reversed throttle", { us: 1000, is: "open" }, "centred"],
  ["1500 us, 1500 us, 2000 us, 1500 us", "  reversed throttle", { us: 2000, is: "closed" }, "centred"],
  ["1500 us, 1500 us, 1000 us", "", { us: 1000, is: "closed" }, null],
  ["1500 us, 1500 us", "", null, null],
])("presets of %s with “%s”", (pulses, more, throttle, sticks) => {
  const lines = ["link", "  on-loss preset", `  preset-channels ${pulses}`, ...more.split("\n")];
  const deed = lossOf(filesOf(lines)).courses[0]!.phases[1]!.deed;
  expect(deed).toMatchObject({ kind: "obeys-presets", throttle, sticks });
});

test("packs: the lowest hover that a descent reaches, and the volts of each pack that ends a wait", () => {
  const descent = `${silent}\nfailsafe\n  hold-for 0 s\n  then descend\n  descend-throttle 26 %\n  descend-for 9 s\nframe\n  hover-throttle 30 %`;
  const hover = (text: string) => {
    const { deed } = lossOf(filesOf(text.split("\n"))).courses[0]!.phases[1]!;
    return deed.kind === "descends" ? deed.hover : deed;
  };
  expect(hover(descent)).toBeNull();
  expect(hover(`${descent}\npack "Light"\n  hover-throttle 24 %`)).toBe("24 % with pack “Light”");
  expect(hover(`${descent}\npack\n  hover-throttle 26 %`)).toBe("26 %");
  expect(hover(`${descent}\npack\n  hover-throttle 1250 us`)).toBe("1250 us");
  const wait = `${silent}\nfailsafe\n  hold-for 0 s\n  then return\nnavigation\n  arrival wait\npack\n  land-at 3.3 V/cell\npack "Orchard"\n  land-at 3 V/cell`;
  expect(lossOf(filesOf(wait.split("\n"))).courses[0]!.phases[2]!.deed).toEqual({
    kind: "waits-home",
    landAt: "3.3 V/cell, 3 V/cell with pack “Orchard”",
  });
});

test("a craft that calls by itself does so once the loss is noticed", () => {
  const calls = (finder: string, link = silent) =>
    lossOf(filesOf(`${link}\nfinder\n  after-lost ${finder}`.split("\n"))).calls?.text;
  expect(calls("30 s")).toBe("30 s");
  expect(calls("never")).toBeUndefined();
  expect(calls("30 s", "link\n  on-loss hold")).toBeUndefined();
});

describe("the shelf of whole craft", () => {
  const shelf = ["sound", "sane", "shelf"].flatMap((folder) => {
    const files = scriptsIn(folder);
    return Object.keys(files).flatMap((file) => (/^craft /m.test(files[file]!) ? [{ file, files }] : []));
  });

  test.each(shelf)("$file has courses of which every time and every line can be trusted", ({ file, files }) => {
    const workspace = workspaceOf(files);
    const craft = workspace.craft(file);
    if (!craft) throw new Error(`${file} is no craft.`);
    const { courses } = signalLossOf(craft, workspace);
    expect(courses.length).toBeGreaterThan(0);
    expect(new Set(courses.map(courseName)).size).toBe(courses.length);
    for (const { phases } of courses) {
      expect(phases[0]!.fromMs).toBe(0);
      for (const [i, { fromMs, length, lines }] of phases.entries()) {
        const before = phases[i - 1];
        if (before?.length.kind === "known" && before.fromMs !== null && fromMs !== null)
          expect(fromMs).toBe(before.fromMs + before.length.ms);
        if (length.kind === "open") expect(i).toBe(phases.length - 1);
        for (const { name, at } of lines)
          expect(files[at.file]!.split("\n")[at.line]).toContain(name.split(".").at(-1));
      }
    }
  });
});
