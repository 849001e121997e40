import { expect, test } from "vitest";
import { NO_LINKS } from "../../../shared/ide/hover/links.ts";
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

test("a setting: its value and where that comes from, the note, and what it is", () => {
  const hover = hoverText(craft("pack\n  warn-at 3.5 V/cell\n  war|n-at 3.6 V/cell # later wins\n"), {
    "habits.fettle": habits,
  });
  expect(hover).toBe(
    [
      "**`3.6 V/cell`** on Jug, [jug.fettle:7](jug.fettle#7)",
      "> later wins",
      "What follows:",
      "- From the warning to landing are 0.2 V a cell",
      "**pack.warn-at** — Voltage of one cell, under load, at which the craft first warns.",
      "[Explain pack.warn-at](setting/pack.warn-at)",
    ].join("\n\n"),
  );
});

test("the note of the winning line is shown in the file that is overridden", () => {
  const over = 'craft "Kiln"\nuse "jug.fettle"\n\npack\n  # this pack is new\n  capacity 1300 mAh\n';
  const hover = hoverText('layer "Jug"\npack\n  cap|acity 900 mAh\n', { "kiln.fettle": over });
  expect(hover).toContain(
    "**`1300 mAh`** on Kiln, [kiln.fettle:6](kiln.fettle#6), which wins over this line  \n[Jug](jug.fettle#3) `900 mAh` → [Kiln](kiln.fettle#6) `1300 mAh`\n\n> this pack is new",
  );
});

test("of a layer, each value that differs with the craft that have it, first where the line counts", () => {
  const cup = (name: string, rest = "") => `craft "${name}"\nuse "jug.fettle"\n${rest}`;
  const said = (volts: number) => `pack\n  warn-at ${volts} V/cell\n`;
  const hover = hoverText('layer "Base"\npack\n  war|n-at 3.5 V/cell\n', {
    "ash.fettle": cup("Ash", said(3.7)),
    "bowl.fettle": cup("Bowl"),
    "cup.fettle": cup("Cup", said(3.6)),
    "dish.fettle": cup("Dish", said(3.8)),
    "ewer.fettle": cup("Ewer"),
    "flask.fettle": cup("Flask", "pack\n  drop warn-at\n"),
  });
  expect(hover?.split("\n\n")[0]?.split("  \n")).toEqual([
    "**`3.5 V/cell`** on Bowl and Ewer, [jug.fettle:3](jug.fettle#3)",
    "**`3.7 V/cell`** on Ash, [ash.fettle:4](ash.fettle#4), which wins over this line",
    "**`3.6 V/cell`** on Cup, [cup.fettle:4](cup.fettle#4), which wins over this line",
    "2 more values on other craft",
  ]);
});

test("of a layer that many craft use the first are looked at, and the others counted", () => {
  const more = Object.fromEntries(
    Array.from({ length: 23 }, (_, i) => [`cup${10 + i}.fettle`, `craft "Cup${i}"\nuse "jug.fettle"\n`]),
  );
  const hover = hoverText('layer "Base"\npack\n  war|n-at 3.5 V/cell\n', more);
  expect(hover).toMatch(/^\*\*`3\.5 V\/cell`\*\* on Cup0, Cup1, Cup2 and 17 more, \[jug\.fettle:3\]/);
  expect(hover).toContain("\n\n3 more craft use this file.\n\n");
});

test("of what is usual, only what may be so on this craft", () => {
  const frame = (size: string) => craft(`frame\n${size}  ma|ss 640 g\n`);
  const restOf = (text: string) => hoverText(text, {}, NO_LINKS);
  const known = restOf(frame("  motors 4\n  propeller-diameter 5.1 in\n"));
  expect(known).toMatch(/- Usual with propellers of 4\.5 to 6 in: 150 g to 1500 g with up to 4 motors \(/);
  expect(known?.match(/Usual/g)).toHaveLength(1);
  expect(restOf(frame("  propeller-diameter 5.1 in\n"))).toContain("with 5 to 6 motors");
  expect(restOf(frame(""))).toMatch(/- What is usual depends on the craft: .* has all \d+ bands/);
});

test("bands of several sizes share a line", () => {
  const hover = hoverText(craft("pack\n  cel|ls 6\n"), {}, NO_LINKS);
  expect(hover).toMatch(/- Usual with propellers of up to 1\.4 in: 1 to 2; of 1\.4 to 2\.2 in: 1 to 4; .* \(/);
});

test("quantities are shown in their other units", () => {
  expect(hoverText(craft("pack\n  capac|ity 1100 mAh\n"))).toContain("1100 mAh = 1.1 Ah");
  expect(hoverText(craft("pack\n  capacity 1100 m|Ah\n"))).toContain("**mAh** — milliampere hour");
});

test("fields name the line that each comes from", () => {
  const tune = 'layer "Habits"\nrates\n  roll slope 100 deg/s end 600 deg/s\n';
  const hover = hoverText(craft("rates\n  ro|ll end 700 deg/s\n"), { "habits.fettle": tune });
  expect(hover).toContain("on Jug, [habits.fettle:3](habits.fettle#3) (slope) and [jug.fettle:6](jug.fettle#6) (end)");
});

test("a control says where the hand finds it, on a craft and in its own file", () => {
  const wheel = (lies: string) =>
    `handset "Wheel"\ncontrols\n  TL switch ch5 up 1000 us down 2000 us${lies}\n  KN dial ch9 1000 us to 2000 us${lies}\n`;
  const ofCraft = (lies: string) =>
    hoverText(craft("modes\n  arm when T|L is down\n"), { "wheel.fettle": wheel(lies) });
  expect(ofCraft(" lies left shoulder")).toContain(
    "**TL** — a switch of the handset on channel 5, on the left shoulder.",
  );
  expect(ofCraft(" lies middle")).toContain("on channel 5, in the middle.");
  expect(ofCraft(" lies right back")).toContain("on channel 5, on the right of the back.");
  expect(ofCraft("")).toContain("**TL** — a switch of the handset on channel 5.");
  const own = hoverText(wheel(" lies middle shoulder").replace("KN", "K|N"));
  expect(own).toContain("**KN** — a dial of the handset on channel 9, in the middle of the upper edge.");
  for (const text of [" li|es left shoulder", " lies le|ft shoulder", " lies left should|er"])
    expect(() => hoverText(`handset "Wheel"\ncontrols\n  KN dial ch9 1000 us to 2000 us${text}\n`)).not.toThrow();
});

test("a mode: what it is, its danger, its condition", () => {
  const hover = hoverText(craft("modes\n  recorder when ar|m\n"), { "habits.fettle": habits });
  expect(hover).toContain("**arm** — Lets the motors run");
  expect(hover).toContain("⚠ From this moment the blades cut.");
  expect(hover).toMatch(/^\*\*`when TL is down`\*\* on Jug, \[habits\.fettle:9\]/);
});

test("a control and a position: pulses, and what they turn on", () => {
  const modes = "modes\n  arm when TL is down\n  level when TR is mid\n";
  const control = hoverText(craft(modes.replace("TR is", "T|R is")));
  expect(control).toMatch(/^\*\*`switch ch6 .*`\*\* on Jug, \[wheel\.fettle:9\]/);
  expect(control).toContain("**TR** — a switch of the handset on channel 6.");
  expect(control).toContain("- mid (1500 us), at rest: level");
  expect(control).toContain("- down (2000 us): nothing");
  expect(hoverText(craft(modes.replace("TL is down", "TL is do|wn")))).toBe(
    [
      "**`TL down`**, 2000 us on ch5, [wheel.fettle:8](wheel.fettle#8)",
      "Can be on here: arm.",
      "**TL** — a switch of the handset on channel 5.",
      "[Explain controls](section/controls)",
    ].join("\n\n"),
  );
});

test("a dial that adjusts says what it moves, and does nothing only if it does nothing", () => {
  const adjust = "adjust\n  overall follows KN from 0.85 to 1.15\n";
  const only = hoverText(craft(`modes\n  arm when TL is down\n\nadjust\n  overall follows K|N from 0.85 to 1.15\n`));
  expect(only).toContain(
    "on Jug, [wheel.fettle:10](wheel.fettle#10)\n\nIt moves:\n\n- overall, from 0.85 at 1000 us to 1.15 at 2000 us, [jug.fettle:9](jug.fettle#9)",
  );
  expect(only).not.toContain("nothing");
  const both = hoverText(craft(`modes\n  lights when K|N above 1700 us\n\n${adjust}`));
  expect(both).toContain("- 1000 us to 1700 us: nothing\n- 1701 us to 2000 us: lights");
  expect(both).toContain("It moves:\n\n- overall, from 0.85 at 1000 us");
  const condition = hoverText(craft(`modes\n  lig|hts when KN above 1700 us or ch9 below 1100 us\n\n${adjust}`));
  expect(condition).toContain("KN also moves overall: 1.06 at 1700 us and 0.88 at 1100 us.");
  const second = hoverText(craft(`modes\n  lights when K|N above 1 ms\n\ngains-second\n  overall 0.8\n\n${adjust}`));
  expect(second).toContain("; gains-second has its own, and whether it moves too is not said");
  const layered = hoverText(craft("modes\n  lights when K|N above 1700 us\n"), {
    "habits.fettle": `layer "H"\n${adjust}`,
  });
  expect(layered).toContain("[habits.fettle:3](habits.fettle#3)");
  const channel = hoverText(craft(`modes\n  lights when c|h9 above 1700 us\n\n${adjust}`));
  expect(channel).toContain("**KN** — a dial of the handset on channel 9.");
  const still = hoverText(craft("modes\n  level when T|R is mid\n\nadjust\n  overall follows TR from 0.85 to 1.15\n"));
  expect(still).toContain(
    "- not overall, though it is said to, [jug.fettle:9](jug.fettle#9): only a dial moves a setting, and this is a switch",
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
    "- **layer “Habits”**, [habits.fettle](habits.fettle#1)\n- **handset “Wheel”**, [wheel.fettle](wheel.fettle#1)\n",
  );
  expect(hoverText('craft "Jug"\nuse "whe|el.fettle"\n')).toMatch(/^\*\*handset “Wheel”\*\*, \[wheel\.fettle\]/);
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
    /^Accepted in all of `pack`\.\n\n\*\*pack-order\*\* — /,
  );
  expect(hoverText('layer "Base" # allow pack-|order: a bench supply\n')).toContain(
    "Accepted in this file, and so on every craft that uses it.",
  );
  expect(hoverText('craft "Jug"\npack\n  cells 4 # allow syn|tax: so\n')).toContain("No note can accept it.");
  expect(hoverText(craft("# allow pack-ord|r: a bench supply"))).toBeNull();
  expect(hoverText(craft("# allow pack-order: a be|nch supply"))).toBeNull();
});
