/** Completion in dialects: what is offered first at a place, and the line once an offer was taken. */
import { expect, test } from "vitest";
import { KILN, kilnWith, offeredIn, takenIn } from "./kiln.ts";

/** A section and a line in it with the cursor, and below it what is offered first there. */
const OFFERED = `
text      |
          known-by · comment · blanks · ends · opening
text      kn|
          known-by · comment · blanks
text      blanks |
          loose · exact
text      ends |
          lf · crlf
text      known-by |
          -
text      known-by "kil|
          -
codes     |
          NAME number · NAME words · NAME letters · NAME list · NAME bits · NAME set · NAME text · axis · does · pot · alarm
codes     x |
          number · words · letters · list · bits · set · text
codes     x number |
          each · from · to · into · places · unset · base · digits
codes     x number 0 to 3 |
          each · from · into · places
codes     x number each |
          -
codes     x number each 0.1 |
          V · V/cell · mV
codes     x number each 0.1 V |
          from · to · into
codes     does words r |
          arm-permit · level-blend
codes     does words r recorder, |
          -
codes     axis words r |
          unset
codes     alarm words r |
          used-up · weak-link · weak-signal
codes     pot words 4 |
          cell-volts · rested-volts · watts
codes     x words r |
          arm · arm-permit · level
codes     x words "a, b" |
          arm · arm-permit
codes     x words |
          -
codes     x letters R |
          arm
codes     x list |
          glaze · draw · flue
codes     x list pot |
          by
codes     x bits 0-3 a:|
          glaze · draw · flue
codes     x bits 0-3 row, |
          base · digits · is · or
codes     x set 0 |
          arm · arm-permit
codes     x text |
          within · escape · longest
codes     x text within '"' |
          escape · longest
pack      |
          "…"  what it means · under · cannot
pack      ca|
          "…"  what it means · under · cannot
pack      "a |
          -
pack      "a {|
          # · tab · {
pack      "a {v} {|
          v · # · tab
pack      "a {v:|
          glaze · draw · flue
pack      "a {v:gl|} b" capacity {v}
          glaze · draw
pack      "a {v:glaze=|
          -
pack      "a {v:glaze}"|
          -
pack      "a {v:glaze}" |
          chemistry · cells · parallel · capacity
pack      "a {v:glaze}" warn-at |
          {v} · unset
pack      "a {v}" warn-at {|
          v
pack      "a {v}" warn-at {v} |
          V/cell
pack      "a {v}" capacity {v} |
          mAh · Ah
pack      "a {v}" chemistry |
          {v} · lipo · lihv · li-ion
pack      "a {v}" "b {v} {w}" |
          chemistry · cells
pack      "a {v}" "b {v} {w}" capacity |
          {v} · {w}
pack      cannot |
          all · chemistry · cells
pack      cannot plug |
          chemistry · cells
pack      cannot all |
          -
pack      under "|
          firing {n} · firing 1 · firing 2
modes     "a {c} {a} {b}" |
          arm · arm-permit · level
modes     "a {c} {a} {b}" {c} |
          when · unset
modes     "a {c} {a} {b}" arm |
          when · unset
modes     "a {c} {a} {b}" arm when |
          {c} · {a} · {b} · always · arm
modes     "a {c} {a} {b}" arm when {c} |
          in
modes     "a {c} {a} {b}" arm when {c} in {a} |
          to · us
osd       "a {p:spot}" |
          pack-volts · cell-volts
osd       "a {p:spot}" amps |
          at · {p.row} · {p.column}
osd       "a {p:spot}" amps at |
          {p.row} · {p.column}
osd       "a {p:spot}" amps at {|
          p.row · p.column · p
osd       "a {p:spot}" amps at {p.|
          row · column
osd       "a {w}" alert-on |
          {w} · low-pack
osd       "a {p:spot} {e:pot}" {e} |
          at · {p.row} · {p.column}
rates     "a {s}" |
          roll · pitch · yaw
rates     "a {s}" roll |
          {s} · slope · end · bend · curve · unset
rates     "a {s}" roll slope |
          {s} · end · bend
rates     "a {s}" roll slope {s} |
          deg/s · end · bend
rates     "a {s}" roll curve 10 * |
          stick · {s}
text      # a comment |
          -
pack      "a # b {|
          # · tab · {
`;

const cases = [...OFFERED.matchAll(/^(\S+) +(.*)\n +(.*)$/gm)].map(([, section, line, offers]) => ({
  section: section!,
  line: line!,
  offers: offers === "-" ? [] : offers!.split(" · "),
}));

test.each(cases)("$section: $line", ({ section, line, offers }) => {
  const found = offeredIn(kilnWith(section, line));
  // Where nothing is expected, nothing at all may be offered.
  expect(offers.length === 0 ? found : found.slice(0, offers.length)).toEqual(offers);
});

test("an empty file is offered a dialect beside craft, layer and handset; a dialect its sections", () => {
  expect(offeredIn("|")).toEqual(["craft", "layer", "handset", "dialect"]);
  const sections = offeredIn('dialect "A"\n\n|');
  expect(sections.slice(0, 4)).toEqual(["text", "codes", "board", "frame"]);
  expect(sections).not.toContain("use");
  expect(sections).not.toContain("controls");
  expect(sections).not.toContain("verbatim");
  expect(offeredIn(`${KILN}\n|`).slice(-2)).toEqual(["rates", "rates-second"]);
});

/** What a line becomes. */
test.each([
  ["known-by", "text", "|", `  known-by "$1"`],
  ["number", "codes", "x |", `  x number \${1:0} to \${2:255} each \${3:0.1 V}`],
  ["V", "codes", "x number each 0.1 |", "  x number each 0.1 V"],
  ["glaze", "pack", '"a {v:|', '  "a {v:glaze}'],
  ["glaze", "pack", '"a {v:gl|}" cells {v}', '  "a {v:glaze}" cells {v}'],
  ["#", "pack", '"a {|', `  "a {#:\${1:0} to \${2:9}\\}`],
  ["tab", "pack", '"a {|', '  "a {tab}'],
  ["warn-at", "pack", '"a {v:glaze}" |', `  "a {v:glaze}" warn-at {\${1:v}\\}`],
  ["capacity", "pack", '"a {v}" |', `  "a {v}" capacity {\${1:v}\\} mAh`],
  ["plug", "pack", '"a {v}" |', `  "a {v}" plug "{\${1:v}\\}"`],
  ["v", "pack", '"a {v}" warn-at {|', '  "a {v}" warn-at {v}'],
  ["arm", "modes", '"a {c} {a} {b}" |', '  "a {c} {a} {b}" arm when {c\\} in {a\\} to {b\\}'],
  ["amps", "osd", '"a {p:spot}" |', '  "a {p:spot}" amps at {p.column\\}, {p.row\\}'],
  [
    "roll",
    "rates",
    '"a {s:1 to 9} {e:1 to 9}" |',
    `  "a {s:1 to 9} {e:1 to 9}" roll slope {\${1:s}\\} deg/s end {\${2:e}\\} deg/s`,
  ],
])("“%s” in %s, at %s", (label, section, line, becomes) => {
  expect(takenIn(label, kilnWith(section, line))).toBe(becomes);
});
