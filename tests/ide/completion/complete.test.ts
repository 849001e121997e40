import { expect, test } from "vitest";
import { completionsAt, documentationOf } from "../../../shared/ide/completion/complete.ts";
import { atCursor, offered, taken } from "../cursor.ts";

const craft = (rest: string) => `craft "Jug"\nuse "wheel.fettle"\n\n${rest}`;

test("an empty file is offered headers, and then sections in the catalogue's order", () => {
  expect(offered("|")).toEqual(["craft", "layer", "handset", "dialect"]);
  const sections = offered(craft("|"));
  expect(sections.slice(0, 4)).toEqual(["use", "board", "frame", "pack"]);
  expect(sections).not.toContain("transmitter");
  expect(offered('handset "Wheel"\n|')).toEqual(["use", "transmitter", "controls", "allow"]);
});

test("what is written already comes last", () => {
  expect(offered(craft("pack\n  cells 4\n\n|")).slice(-2)).toEqual(["pack", "allow"]);
  const settings = offered(craft("pack\n  cells 4\n  |\n"));
  expect(settings[0]).toBe("chemistry");
  expect(settings.indexOf("cells")).toBeGreaterThan(settings.indexOf("hover-current"));
});

test("a setting brings a value to overwrite, unless one stands there", () => {
  expect(taken("cells", craft("pack\n  ce|\n"))).toContain("\n  cells  $1\n");
  expect(taken("chemistry", craft("pack\n  ch|\n"))).toContain(`\n  chemistry  \${1|lipo,lihv,li-ion|}\n`);
  expect(taken("cells", craft("pack\n  ce| 6\n"))).toContain("\n  cells 6\n");
  expect(taken("pack-volts", craft("osd\n  pack|\n"))).toContain(`\n  pack-volts  at \${1:left+1}, \${2:top+1}\n`);
});

test("what is completed stands in the column of the lines around it", () => {
  // Where the cursor stops is shown by a sign.
  const filled = (label: string, text: string) => taken(label, text).replace(/\$\{\d[^}]*\}|\$\d/g, "¤");
  const run = "pack\n  cells      6\n  # as printed\n  ca|\n  chemistry  lipo\n";
  expect(filled("capacity", craft(run))).toContain("\n  capacity   ¤ mAh\n");
  expect(filled("discharge-rating", craft(run))).toContain("\n  discharge-rating  ¤ C\n");
  expect(filled("capacity", craft("pack\n  cells 6\n  ca|\n"))).toContain("\n  capacity ¤ mAh\n");
  expect(filled("capacity", craft("pack\n\tcells\t6\n\tca|\n"))).toContain("\n\tcapacity\t¤ mAh\n");
  // A blank line begins another column, and so does another section.
  expect(
    filled("capacity", craft("pack\n  chemistry  lipo\n\n  ca|\nmodes\n  level-blend  when TL is up\n")),
  ).toContain("\n  capacity  ¤ mAh\n");
  expect(filled("level", craft("modes\n  level-blend  when TR is down\n  le|\n"))).toContain(
    "\n  level        when ¤\n",
  );
  expect(filled("roll", craft("rates\n  ro|\n"))).toMatch(/\n {2}roll {2}slope ¤ deg\/s {2}end /);
  const controls =
    "controls\n  TL  switch    ch5   up 1000 us  down 2000 us\n  SX  selector  ch10  one 1000 us  two 1500 us  three 2000 us\n  |\n";
  expect(filled("button", `handset "Wheel"\n\n${controls}`)).toContain(
    "\n  ¤  button    ch¤   rest 1000 us  held 2000 us\n",
  );
});

test("choices, yes and no, units of the family, the default first", () => {
  expect(offered(craft("pack\n  chemistry |\n"))).toEqual(["lipo", "lihv", "li-ion"]);
  expect(offered(craft("sensors\n  accelerometer |\n"))).toContain("yes");
  expect(offered(craft("pack\n  capacity 1300 |\n"))).toEqual(["mAh", "Ah"]);
  expect(taken("Ah", craft("pack\n  capacity 1300m|\n"))).toContain("capacity 1300Ah");
  expect(offered(craft("osd\n  picture |\n"))[0]).toBe("4:3");
  expect(offered(craft("lights\n  colour re|\n"))).toContain("red");
});

test("a grid: the viewer's own where the craft says it, the names of standards, and sizes as values", () => {
  const sizes = ["30 x 16", "30 x 13", "50 x 18", "53 x 20", "60 x 22"];
  expect(offered(craft("osd\n  grid |\n"))).toEqual(["pal", "ntsc", ...sizes]);
  expect(offered(craft("video\n  viewer-grid 40 x 19\nosd\n  grid |\n"))).toEqual(["40 x 19", "pal", "ntsc", ...sizes]);
  expect(offered(craft("video\n  standard ntsc\nosd\n  grid |\n"))[0]).toBe("30 x 13");
  expect(taken("53 x 20", craft("osd\n  grid |\n"))).toContain("\n  grid 53 x 20\n");
  expect(offered(craft("osd\n  grid 53 x |\n"))).toEqual([]);
});

test("fields that are not said yet, and the units of the one that is being written", () => {
  expect(offered(craft("rates\n  roll slope 100 deg/s |\n"))).toEqual(["end", "bend"]);
  expect(offered(craft("rates\n  roll end 700 |\n"))[0]).toBe("deg/s");
});

test("a condition is completed word by word", () => {
  expect(offered(craft("modes\n  arm |\n"))).toEqual(["when"]);
  expect(offered(craft("modes\n  arm when |\n")).slice(0, 3)).toEqual(["TL", "TR", "KN"]);
  expect(offered(craft("modes\n  arm when |\n"))).toContain("always");
  expect(offered(craft("modes\n  arm when TL is |\n"))).toEqual(["up", "down", "not"]);
  expect(offered(craft("modes\n  arm when TR is not |\n"))).toEqual(["up", "mid", "down"]);
  expect(offered(craft("modes\n  arm when TL is do|\n"))).toEqual(["up", "down", "not"]);
  expect(offered(craft("modes\n  arm when TL is down |\n"))).toEqual(["and", "or"]);
  expect(offered(craft("modes\n  arm when TL is down and not (|\n"))).toContain("turtle");
  expect(offered(craft("modes\n  arm when KN |\n"))).toEqual(["in", "above", "below"]);
  expect(offered(craft("modes\n  arm when TL |\n"))[0]).toBe("is");
  expect(offered(craft("modes\n  arm when ch9 in 1000 us |\n"))).toEqual(["to"]);
  expect(taken("TL", craft("modes\n  arm when |\n"))).toContain("arm when TL is \n");
});

test("places: first the column, then the row", () => {
  expect(offered(craft("osd\n  amps |\n"))).toEqual(["at"]);
  expect(offered(craft("osd\n  amps at |\n"))).toEqual(["left", "centre", "right"]);
  expect(offered(craft("osd\n  amps at left+2, |\n"))).toEqual(["top", "middle", "bottom"]);
  expect(offered(craft("osd\n  amps at left+2|\n"))).toEqual([]);
});

test("files to use: by their path from this one, without craft and what is used already", () => {
  const more = {
    "layers/tune.fettle": 'layer "Tune"\n',
    "other.fettle": 'craft "Other"\n',
    "layers/osd wide.fettle": 'layer "Wide"\n',
  };
  expect(offered(craft('use "|"\n'), more)).toEqual(["layers/osd wide.fettle", "layers/tune.fettle"]);
  expect(taken("layers/tune.fettle", craft('use "lay|"\n'), more)).toContain('use "layers/tune.fettle"\n');
});

test("the line of a control: kind, free channel, positions, where it rests", () => {
  const handset = (line: string) => `handset "H"\ncontrols\n  TL switch ch5 up 1000 us down 2000 us\n  ${line}\n`;
  expect(offered(handset("TR |"))).toEqual(["switch", "selector", "button", "dial"]);
  expect(offered(handset("TR switch |"))).toEqual(["ch6"]);
  expect(offered(handset("TR switch ch6 up 1000 us down 2000 us rests |"))).toEqual(["up", "down"]);
  expect(offered(handset("TR switch ch6 up 1000 us down 2000 us |"))).toEqual(["mid", "rests", "lies"]);
  expect(offered(handset("TR switch ch6 up 1000 us down 2000 us rests down |"))).toEqual(["lies"]);
  expect(offered(handset("KN dial ch6 1000 us to 2000 us |"))).toEqual(["lies"]);
  expect(offered(handset("TR switch ch6 up 1000 us down 2000 us lies |"))).toEqual(["left", "right", "middle"]);
  expect(offered(handset("KN dial ch6 1000 us to 2000 us lies left |"))).toEqual(["shoulder", "face", "back"]);
  expect(offered(handset("KN dial ch6 1000 us to 2000 us lies left back |"))).toEqual([]);
});

test("a setting that follows a dial", () => {
  expect(offered(craft("adjust\n  throttle-fade follows |\n"))).toEqual(["KN"]);
  expect(offered(craft("adjust\n  throttle-fade follows KN |\n"))).toEqual(["from"]);
  expect(offered(craft("adjust\n  |\n"))).toEqual(expect.arrayContaining(["overall", "throttle-limit", "brightness"]));
  for (const fixed of ["capacity", "warn-at", "lost-after", "descend-throttle", "hold-for", "power"])
    expect(offered(craft("adjust\n  |\n"))).not.toContain(fixed);
});

test("codes to accept, but no codes that cannot be accepted; nothing in notes and strings", () => {
  const codes = offered(craft("pack\n  cells 4 # allow |\n"));
  expect(codes).toContain("out-of-range");
  for (const never of ["syntax", "allow-unused"]) expect(codes).not.toContain(never);
  expect(offered(craft("pack\n  # a note |\n"))).toEqual([]);
  expect(offered(craft('board\n  model "a |"\n'))).toEqual([]);
  expect(offered(craft("nonsense\n  |\n"))).toEqual([]);
});

test("every item offered in a craft's sections has a description, except words of the grammar and the handset's own", () => {
  for (const text of ["|", "pack\n  |", "modes\n  |", "osd\n  |", "modes\n  arm when |", "pack\n  capacity 3 |"]) {
    const { workspace, file, position } = atCursor(craft(text));
    const offers = completionsAt(workspace, file, position);
    const described = offers.filter(({ doc }) => doc);
    expect(described.length, text).toBeGreaterThan(1);
    for (const { label, doc } of described) expect(documentationOf(workspace.catalogue, doc!), label).toMatch(/\S/);
    expect(offers.filter(({ doc }) => !doc).map(({ label }) => label)).toEqual(
      text.includes("when") ? ["TL", "TR", "KN", "not", "always"] : [],
    );
  }
});
