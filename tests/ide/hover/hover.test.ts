import { expect, test } from "vitest";
import { hoverText } from "../cursor.ts";

const craft = (rest: string) => `craft "Jug"\nuse "wheel.fettle"\nuse "habits.fettle"\n\n${rest}`;
const habits = `layer "Habits"

pack
  # never below this, the cells are old
  land-at 3.4 V/cell

modes
  # arm is the left shoulder
  arm when TL is down
`;

test("a setting: what it is, its range, its default, its value and where that comes from", () => {
  const hover = hoverText(craft("pack\n  warn-at 3.5 V/cell\n  war|n-at 3.6 V/cell # later wins\n"), {
    "habits.fettle": habits,
  });
  expect(hover).toContain("**pack.warn-at** — ");
  expect(hover).toContain("- Takes a quantity in V/cell, ");
  expect(hover).toContain("Kind: ");
  expect(hover).toContain("On Jug: `3.6 V/cell` (line 7)");
  expect(hover).toContain("> later wins");
});

test("the note of the winning line is shown in the file that is overridden", () => {
  const over = 'craft "Kiln"\nuse "jug.fettle"\n\npack\n  # this pack is new\n  capacity 1300 mAh\n';
  const hover = hoverText('layer "Jug"\npack\n  cap|acity 900 mAh\n', { "kiln.fettle": over });
  expect(hover).toContain("On Kiln: `1300 mAh` (kiln.fettle:6)");
  expect(hover).toContain("> this pack is new");
});

test("of what is usual, only what may be so on this craft", () => {
  const frame = (size: string) => craft(`frame\n${size}  ma|ss 640 g\n`);
  const known = hoverText(frame("  motors 4\n  propeller-diameter 5.1 in\n"));
  expect(known).toMatch(/- Usual with propellers of 4\.5 to 6 in: 150 g to 1500 g with up to 4 motors \(/);
  expect(known?.match(/Usual/g)).toHaveLength(1);
  expect(hoverText(frame("  propeller-diameter 5.1 in\n"))).toContain("with 5 to 6 motors");
  expect(hoverText(frame(""))).toMatch(/- What is usual depends on the craft: .* has all \d+ bands/);
});

test("bands of several sizes share a line", () => {
  const hover = hoverText(craft("pack\n  cel|ls 6\n"));
  expect(hover).toMatch(/- Usual with propellers of up to 1\.4 in: 1 to 2; of 1\.4 to 2\.2 in: 1 to 4; .* \(/);
});

test("quantities are shown in their other units", () => {
  expect(hoverText(craft("pack\n  capac|ity 1100 mAh\n"))).toContain("1100 mAh = 1.1 Ah");
  expect(hoverText(craft("pack\n  capacity 1100 m|Ah\n"))).toContain("**mAh** — milliampere hour");
});

test("fields name the line that each comes from", () => {
  const tune = 'layer "Habits"\nrates\n  roll slope 100 deg/s end 600 deg/s\n';
  const hover = hoverText(craft("rates\n  ro|ll end 700 deg/s\n"), { "habits.fettle": tune });
  expect(hover).toContain("(slope: habits.fettle:3, end: line 6)");
});

test("a control says where the hand finds it, on a craft and in its own file", () => {
  const wheel = (lies: string) =>
    `handset "Wheel"\ncontrols\n  TL switch ch5 up 1000 us down 2000 us${lies}\n  KN dial ch9 1000 us to 2000 us${lies}\n`;
  const ofCraft = (lies: string) =>
    hoverText(craft("modes\n  arm when T|L is down\n"), { "wheel.fettle": wheel(lies) });
  expect(ofCraft(" lies left shoulder")).toContain("**TL** — switch on ch5, on the left shoulder (wheel.fettle:3)");
  expect(ofCraft(" lies middle")).toContain("switch on ch5, in the middle (");
  expect(ofCraft(" lies right back")).toContain("switch on ch5, on the right of the back (");
  expect(ofCraft("")).toContain("switch on ch5 (wheel.fettle:3)");
  const own = hoverText(wheel(" lies middle shoulder").replace("KN", "K|N"));
  expect(own).toContain("**KN** — dial on ch9, in the middle of the upper edge");
  for (const text of [" li|es left shoulder", " lies le|ft shoulder", " lies left should|er"])
    expect(() => hoverText(`handset "Wheel"\ncontrols\n  KN dial ch9 1000 us to 2000 us${text}\n`)).not.toThrow();
});

test("a mode: what it is, its danger, its condition", () => {
  const hover = hoverText(craft("modes\n  recorder when ar|m\n"), { "habits.fettle": habits });
  expect(hover).toContain("**arm** — Lets the motors run");
  expect(hover).toContain("⚠ From this moment the blades cut.");
  expect(hover).toContain("On Jug: `when TL is down` (habits.fettle:9)");
});

test("a control and a position: pulses, and what they turn on", () => {
  const modes = "modes\n  arm when TL is down\n  level when TR is mid\n";
  const control = hoverText(craft(modes.replace("TR is", "T|R is")));
  expect(control).toContain("**TR** — switch on ch6 (wheel.fettle:9)");
  expect(control).toContain("- mid (1500 us), at rest: level");
  expect(control).toContain("- down (2000 us): nothing");
  expect(hoverText(craft(modes.replace("TL is down", "TL is do|wn")))).toBe(
    "**TL down** — 2000 us on ch5\n\nCan be on here: arm.",
  );
});

test("a dial that adjusts says what it moves, and does nothing only if it does nothing", () => {
  const adjust = "adjust\n  overall follows KN from 0.85 to 1.15\n";
  const only = hoverText(craft(`modes\n  arm when TL is down\n\nadjust\n  overall follows K|N from 0.85 to 1.15\n`));
  expect(only).toContain(
    "**KN** — dial on ch9 (wheel.fettle:10)\n\nIt moves, on Jug:\n\n- overall, from 0.85 at 1000 us to 1.15 at 2000 us (line 9)",
  );
  expect(only).not.toContain("nothing");
  const both = hoverText(craft(`modes\n  lights when K|N above 1700 us\n\n${adjust}`));
  expect(both).toContain("- 1000 us to 1700 us: nothing\n- 1701 us to 2000 us: lights");
  expect(both).toContain("It moves, on Jug:\n\n- overall, from 0.85 at 1000 us");
  const condition = hoverText(craft(`modes\n  lig|hts when KN above 1700 us or ch9 below 1100 us\n\n${adjust}`));
  expect(condition).toContain("KN also moves overall: 1.06 at 1700 us and 0.88 at 1100 us.");
  const second = hoverText(craft(`modes\n  lights when K|N above 1 ms\n\ngains-second\n  overall 0.8\n\n${adjust}`));
  expect(second).toContain("; gains-second has its own, and whether it moves too is not said");
  const layered = hoverText(craft("modes\n  lights when K|N above 1700 us\n"), {
    "habits.fettle": `layer "H"\n${adjust}`,
  });
  expect(layered).toContain("(habits.fettle:3)");
  const channel = hoverText(craft(`modes\n  lights when c|h9 above 1700 us\n\n${adjust}`));
  expect(channel).toContain("**KN** — dial on ch9");
  const still = hoverText(craft("modes\n  level when T|R is mid\n\nadjust\n  overall follows TR from 0.85 to 1.15\n"));
  expect(still).toContain(
    "- not overall, though it is said to (line 9): only a dial moves a setting, and this is a switch",
  );
  const faulty = hoverText(craft("modes\n  level when T|R is mid\n  lights when TR is dwn\n"));
  expect(faulty).toContain("- up (1000 us): nothing that is known");
});

test("a position that a channel of two levels loses says so", () => {
  const at = (position: string) =>
    hoverText(craft(`link\n  two-level 6\nmodes\n  arm when TL is down\n  level when TR is ${position}\n`));
  expect(at("m|id")).toContain("ch6 carries two levels only: this position arrives as one of its ends.");
  expect(at("do|wn")).not.toContain("two levels");
});

test("the words of a choice, fields, elements, outputs, sections, dropped names", () => {
  expect(hoverText(craft("pack\n  chemistry li|hv\n"))).toContain("4.35 V a cell");
  expect(hoverText(craft("rates\n  roll slo|pe 100 deg/s\n"))).toContain("**slope** — ");
  expect(hoverText(craft("osd\n  pack-v|olts at left, top\n"))).toContain("**pack-volts** — ");
  expect(hoverText(craft("outputs\n  # the lamp under the nose\n  la|mp when TL is up\n"))).toContain(
    "> the lamp under the nose",
  );
  expect(hoverText(craft("pa|ck\n  cells 4\n"))).toContain("**pack** — The battery");
  expect(hoverText(craft("pack\n  drop land-a|t\n"), { "habits.fettle": habits })).toContain("**pack.land-at** — ");
});

test("a header lists the files that count; a use says what the file is, or why it is not used", () => {
  const hover = hoverText('cra|ft "Jug"\nuse "wheel.fettle"\nuse "habits.fettle"\n', { "habits.fettle": habits });
  expect(hover).toContain(
    "- handset “Wheel” (wheel.fettle)\n- layer “Habits” (habits.fettle)\n- craft “Jug” (this file)",
  );
  expect(hoverText('craft "Jug"\nuse "whe|el.fettle"\n')).toContain("**handset “Wheel”** — wheel.fettle");
  expect(hoverText('craft "Jug"\nuse "gla|ze.fettle"\n')).toBe("Not used: there is no such file.");
});

test("without anything to say there is no hover; a pilot's own text is not read as Markdown", () => {
  expect(hoverText(craft("nonsense\n  he|re 3\n"))).toBeNull();
  expect(hoverText(craft("pack\n  # a no|te\n  cells 4\n"))).toBeNull();
  expect(hoverText(craft("pack\n  ce|lls 4 # *not* [a link](x)\n"))).toContain("> \\*not\\* \\[a link\\](x)");
  const control = craft("controls\n  # *worn* at the tip\n  T|L switch ch5 up 1000 us down 2000 us\n");
  expect(hoverText(control)).toContain("> \\*worn\\* at the tip");
});

test("the code of an accepted finding says what is accepted, and how far", () => {
  const craft = (note: string) => `craft "Jug"\n${note}\npack\n  cells 4\n`;
  expect(hoverText(craft("# allow pack-or|der: a bench supply"))).toMatch(
    /^\*\*pack-order\*\* — .*in all of `pack`\.$/s,
  );
  expect(hoverText('layer "Base" # allow pack-|order: a bench supply\n')).toContain(
    "Accepted in this file, and so on every craft that uses it.",
  );
  expect(hoverText('craft "Jug"\npack\n  cells 4 # allow syn|tax: so\n')).toContain("No note can accept it.");
  expect(hoverText(craft("# allow pack-ord|r: a bench supply"))).toBeNull();
  expect(hoverText(craft("# allow pack-order: a be|nch supply"))).toBeNull();
});
