/** The parts of a value, and the one at the cursor: it is shown in ⟨brackets⟩. */
import { expect, test } from "vitest";
import { signatureAt } from "../../../shared/ide/signature/signature.ts";
import { atCursor } from "../cursor.ts";

function helpAt(sections: string) {
  const { workspace, file, position } = atCursor(`craft "Jug"\nuse "wheel.fettle"\n\n${sections}`);
  return signatureAt(workspace, file, position);
}

/** The active signature with its active part marked; null where there is none. */
function shown(sections: string): string | null {
  const help = helpAt(sections);
  const signature = help?.signatures[help.active];
  const part = help && signature?.parameters[help.parameter];
  if (!signature || !part) return null;
  const { label } = signature;
  return `${label.slice(0, part.start)}⟨${label.slice(part.start, part.end)}⟩${label.slice(part.end)}`;
}

/** The documentation of the active part. */
function activePart(sections: string): string {
  const help = helpAt(sections)!;
  return help.signatures[help.active]!.parameters[help.parameter]!.markdown;
}

test("fields: the one that is being written, then the next that is not said", () => {
  const rates = (said: string) => shown(`rates\n  roll ${said}`);
  expect(rates("|")).toBe("roll ⟨slope NUMBER deg/s⟩  end NUMBER deg/s  [bend NUMBER]");
  expect(rates("slope |")).toBe("roll ⟨slope NUMBER deg/s⟩  end NUMBER deg/s  [bend NUMBER]");
  expect(rates("slope 100 |")).toBe("roll ⟨slope NUMBER deg/s⟩  end NUMBER deg/s  [bend NUMBER]");
  expect(rates("slope 100 deg/s |")).toBe("roll slope NUMBER deg/s  ⟨end NUMBER deg/s⟩  [bend NUMBER]");
  expect(rates("slope 100 deg/s b|")).toBe("roll slope NUMBER deg/s  end NUMBER deg/s  ⟨[bend NUMBER]⟩");
  expect(rates("end 700 deg/s |")).toBe("roll ⟨slope NUMBER deg/s⟩  end NUMBER deg/s  [bend NUMBER]");
  expect(rates("end 7|00 deg/s slope 100 deg/s")).toBe("roll slope NUMBER deg/s  ⟨end NUMBER deg/s⟩  [bend NUMBER]");
  expect(rates("slope 100 deg/s | end 700 deg/s")).toBe("roll slope NUMBER deg/s  end NUMBER deg/s  ⟨[bend NUMBER]⟩");
  expect(rates("slope 100 deg/s end 700 deg/s bend 3 |")).toBe(
    "roll slope NUMBER deg/s  end NUMBER deg/s  ⟨[bend NUMBER]⟩",
  );
});

test("a field shows what it is, its limits with their source, its default", () => {
  const cut = activePart("filters\n  smooth-gyro cut |");
  expect(cut).toContain("The frequency at which the filter lets half the power through.");
  expect(cut).toContain("- Takes a quantity in Hz, 1 Hz to 4000 Hz (");
  expect(activePart("filters\n  smooth-gyro cut 100 Hz order |")).toContain("Default: `1`");
  expect(shown("motors\n  motor1 direction |")).toMatch(/ {2}⟨direction [a-z-|]+⟩ {2}/);
});

test("a control: its kind, its channel, its positions, where it rests", () => {
  const controls = (said: string) => shown(`controls\n  TR ${said}`);
  expect(controls("|")).toBe(
    "TR ⟨switch⟩  CHANNEL  POSITION PULSE  POSITION PULSE  [POSITION PULSE]  [rests POSITION]  [lies PLACE]",
  );
  expect(controls("d|")).toBe("TR ⟨dial⟩  CHANNEL  PULSE  to PULSE  [lies PLACE]");
  expect(controls("button |")).toBe(
    "TR button  ⟨CHANNEL⟩  POSITION PULSE  POSITION PULSE  [rests POSITION]  [lies PLACE]",
  );
  expect(controls("button ch7 rest 1000 |")).toBe(
    "TR button  CHANNEL  ⟨POSITION PULSE⟩  POSITION PULSE  [rests POSITION]  [lies PLACE]",
  );
  expect(controls("switch ch6 up 1000 us mid 1500 us |")).toContain("⟨[POSITION PULSE]⟩");
  expect(controls("switch ch6 up 1000 us down 2000 us rests |")).toContain("⟨[rests POSITION]⟩");
  expect(controls("selector ch6 a 1000us b 1100us c 1200us d 1300us |")).toContain("⟨[POSITION PULSE …]⟩");
  expect(controls("switch ch6 up 1000 us down 2000 us rests up |")).toContain("⟨[lies PLACE]⟩");
  expect(controls("switch ch6 up 1000 us down 2000 us lies |")).toContain("⟨[lies PLACE]⟩");
  expect(controls("selector ch6 a 1000us b 1100us lies left sh|")).toContain("⟨[lies PLACE]⟩");
  expect(controls("dial ch9 1000 us to 2000 us |")).toContain("⟨[lies PLACE]⟩");
  expect(controls("dial ch9 1000 us |")).toContain("⟨PULSE⟩  to PULSE");
  expect(controls("dial ch9 1000 us to |")).toContain("PULSE  ⟨to PULSE⟩");
});

test("a condition: the test at the cursor, and what it needs", () => {
  const when = (said: string) => shown(`modes\n  level when ${said}`);
  expect(when("|")).toBe("level when ⟨CONTROL⟩  is [not] POSITION  [and … | or …]");
  expect(when("TR |")).toBe("level when CONTROL  ⟨is [not] POSITION⟩  [and … | or …]");
  expect(when("TR is not |")).toBe("level when CONTROL  ⟨is [not] POSITION⟩  [and … | or …]");
  expect(when("TR is mid |")).toBe("level when CONTROL  is [not] POSITION  ⟨[and … | or …]⟩");
  expect(when("TR is mid and |")).toBe("level when ⟨CONTROL⟩  is [not] POSITION  [and … | or …]");
  expect(when("TR is mid or (KN |")).toBe("level when CONTROL  ⟨in PULSE⟩  to PULSE  [and … | or …]");
  expect(when("not KN above |")).toBe("level when CONTROL  ⟨above PULSE⟩  [and … | or …]");
  expect(when("ch9 in 1700 us to |")).toBe("level when CONTROL  in PULSE  ⟨to PULSE⟩  [and … | or …]");
  expect(when("ch9 in 1700 us to 1900 us |")).toBe("level when CONTROL  in PULSE  to PULSE  ⟨[and … | or …]⟩");
  expect(when("ar|")).toBe("level when ⟨MODE | always⟩  [and … | or …]");
  expect(when("arm |")).toBe("level when MODE | always  ⟨[and … | or …]⟩");
});

test("a condition lists the handset's own controls and positions", () => {
  expect(activePart("modes\n  level when |")).toContain("- `KN`: dial on ch9: 1000 us to 2000 us");
  expect(activePart("modes\n  level when TR is |")).toBe(
    "- `up`: 1000 us\n- `mid`: 1500 us, at rest\n- `down`: 2000 us",
  );
});

test("a place: column, then row, and which of them keep the element in the picture", () => {
  const osd = (said: string) => `osd\n  grid 30 x 16\n  link-quality ${said}\n`;
  expect(shown(osd("at |"))).toBe("link-quality at ⟨COLUMN⟩, ROW");
  expect(shown(osd("at left+2, |"))).toBe("link-quality at COLUMN, ⟨ROW⟩");
  expect(activePart(osd("at |"))).toMatch(
    /On this grid of 30 x 16 it takes \d+ columns: 0 to \d+ keep it in the picture/,
  );
  expect(activePart(osd("at left, |"))).toContain("it takes 1 row: 0 to 15 keep it in the picture");
});

test("a setting that follows a dial: the dials there are, and the setting's limits", () => {
  const adjust = (said: string) => `adjust\n  overall follows ${said}`;
  expect(shown(adjust("|"))).toBe("overall follows ⟨DIAL⟩  from VALUE  to VALUE");
  expect(activePart(adjust("|"))).toBe("- `KN`: dial on ch9: 1000 us to 2000 us");
  expect(shown(adjust("KN |"))).toBe("overall follows DIAL  ⟨from VALUE⟩  to VALUE");
  expect(shown(adjust("KN from 0.8 to |"))).toBe("overall follows DIAL  from VALUE  ⟨to VALUE⟩");
  expect(activePart(adjust("KN from |"))).toContain("0 to 10 (");
});

test("nothing in a name, in a note, in a value without parts, in board text, of a name nobody knows", () => {
  expect(helpAt("rates\n  ro|")).toBeNull();
  expect(helpAt("rates\n  roll slope 100 deg/s # so |")).toBeNull();
  expect(helpAt("pack\n  cells |")).toBeNull();
  expect(helpAt('verbatim "kiln"\n  | roll |')).toBeNull();
  expect(helpAt("rates\n  drop |")).toBeNull();
  expect(helpAt("adjust\n  nonsense follows |")).toBeNull();
  expect(helpAt("nonsense\n  roll |")).toBeNull();
});
