/** Codes held to what others have published: packings, bases, escapes and scales. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { decode, encode, splitSum } from "../../../shared/dialect/codes/codes.ts";
import { heldOfOurs, textOfHeld } from "../../../shared/dialect/codes/held.ts";
import { codeOf, codesOf, decoded, encoded } from "./code-of.ts";

/** IEEE 754-2019, binary16: sign, five bits of exponent with a bias of 15, ten of fraction. The values are its own. */
const HALF = "half bits base 16 digits 4 0-9 fraction, 10-14 exponent:bias, 15 negative:yes";
const HALF_CODES = [HALF, "bias number 0 to 31 from -15", "yes words 0 no, 1 yes"];
/** RGB565, as in the pixel formats of the Linux kernel (DRM_FORMAT_RGB565): [15:0] R:G:B 5:6:5. */
const RGB565 = ["rgb bits base 16 digits 4 0-4 blue, 5-10 green, 11-15 red"];
/** RFC 1035, section 4.1.1: the second word of a message's header. */
const DNS = [
  "flags bits base 16 digits 4 0-3 rcode:rcode, 7 ra, 8 rd, 9 tc, 10 aa, 11-14 opcode:opcode, 15 qr:qr",
  "rcode words 0 no-error, 1 format-error, 2 server-failure, 3 name-error",
  "opcode words 0 query, 1 iquery, 2 status",
  "qr words 0 query, 1 response",
];
/** RFC 791, section 3.1: version and header length in the first octet; example 1 of appendix A has 4 and 5. */
const IPV4 = ["first bits base 16 digits 2 0-3 length, 4-7 version"];

const PACKED: readonly (readonly [codes: readonly string[], board: string, parts: string])[] = [
  [HALF_CODES, "3C00", "fraction 0, exponent 0, negative no"],
  [HALF_CODES, "C000", "fraction 0, exponent 1, negative yes"],
  [HALF_CODES, "7BFF", "fraction 1023, exponent 15, negative no"],
  [HALF_CODES, "3555", "fraction 341, exponent -2, negative no"],
  [RGB565, "F800", "blue 0, green 0, red 31"],
  [RGB565, "07E0", "blue 0, green 63, red 0"],
  [RGB565, "FFE0", "blue 0, green 63, red 31"],
  [DNS, "0100", "rcode no-error, ra 0, rd 1, tc 0, aa 0, opcode query, qr query"],
  [DNS, "8180", "rcode no-error, ra 1, rd 1, tc 0, aa 0, opcode query, qr response"],
  [DNS, "8583", "rcode name-error, ra 1, rd 1, tc 0, aa 1, opcode query, qr response"],
  [IPV4, "45", "length 5, version 4"],
];

test.for(PACKED)("%s: %s is %s, both ways", ([lines, board, parts]) => {
  const code = codeOf(...lines);
  const held = decode(code, board);
  expect(held.kind === "bad" ? held.why : textOfHeld(held)).toBe(parts);
  if (held.kind !== "bad") expect(encode(code, held)).toEqual({ kind: "spelled", text: board, means: null });
});

/** RFC 4648, section 10: the test vectors of base 16, whose octets are those of “f”, “fo”, “foo” … */
const BASE_16 = [
  ["f", "66"],
  ["fo", "666F"],
  ["foo", "666F6F"],
  ["foob", "666F6F62"],
  ["fooba", "666F6F6261"],
  ["foobar", "666F6F626172"],
] as const;

test.for(BASE_16)("the octets of “%s” are %s in base 16, either case read", ([text, board]) => {
  const code = codeOf(`octets number base 16 digits ${board.length}`);
  const number = [...new TextEncoder().encode(text)].reduce((all, octet) => all * 256n + BigInt(octet), 0n);
  expect([decoded(code, board), decoded(code, board.toLowerCase()), encoded(code, number.toString())]).toEqual([
    number.toString(),
    number.toString(),
    board,
  ]);
});

/** ECMAScript's own typed arrays (ECMA-262, NumericToRawBytes) hold whole numbers in two's complement. */
test.for([
  ["base 16 digits 2", 8, 16],
  ["base 16 digits 4", 16, 16],
  ["base 16", 32, 16],
  ["base 2 digits 8", 8, 2],
  ["base 4 digits 4", 8, 4],
] as const)("two's complement in %s is that of a typed array", ([facts, bits, base]) => {
  const most = 2 ** (bits - 1) - 1;
  const code = codeOf(`signed number ${-most - 1} to ${most} ${facts}`);
  const digits = facts.includes("digits") ? bits / Math.log2(base) : 0;
  const whole = fc.oneof(fc.integer({ min: -most - 1, max: most }), fc.constantFrom(-most - 1, -1, 0, 1, most));
  fc.assert(
    fc.property(whole, (number) => {
      const view = new DataView(new ArrayBuffer(4));
      view.setInt32(0, number * 2 ** (32 - bits));
      const raw = (view.getUint32(0) / 2 ** (32 - bits)).toString(base).toUpperCase().padStart(digits, "0");
      expect([decoded(code, raw), encoded(code, String(number))]).toEqual([String(number), raw]);
    }),
    { seed: 13 },
  );
});

test("a text in quotes with backslashes is a JSON string of RFC 8259, but for control characters", () => {
  const code = codeOf(`name text within '"' escape '\\'`);
  const text = fc.string({ unit: fc.constantFrom(...'ab \\\\""\'{}äß😀,;') });
  fc.assert(
    fc.property(text, (said) => {
      const board = JSON.stringify(said);
      expect(encode(code, { kind: "text", text: said })).toEqual({ kind: "spelled", text: board, means: null });
      expect(decode(code, board)).toEqual({ kind: "text", text: said });
    }),
    { seed: 13 },
  );
});

/** RFC 4180, section 2, rules 5 to 7: the fields of its examples. */
test.for([
  ["aaa", '"aaa"'],
  ['b"bb', '"b""bb"'],
  ["", '""'],
  ['"', '""""'],
] as const)("a field of RFC 4180: %s is %s", ([said, board]) => {
  const code = codeOf(`field text within '"' escape '"'`);
  expect(encode(code, { kind: "text", text: said })).toEqual({ kind: "spelled", text: board, means: null });
  expect(decode(code, board)).toEqual({ kind: "text", text: said });
});

/** ISO 15031-5 (SAE J1979), service 01: 05 is A − 40 °C, 42 is (256·A + B) / 1000 V, 11 is A · 100 / 255 %. */
test.for([
  ["coolant number 0 to 255 base 16 digits 2 from -40 degC each 1 degC", "7B", "83 degC"],
  ["coolant number 0 to 255 base 16 digits 2 from -40 degC each 1 degC", "00", "-40 degC"],
  ["coolant number 0 to 255 base 16 digits 2 from -40 degC each 1 degC", "FF", "215 degC"],
  ["supply number 0 to 65535 base 16 digits 4 each 0.001 V", "3557", "13.655 V"],
] as const)("%s: %s is %s, both ways", ([line, board, ours]) => {
  const code = codeOf(line);
  expect([decoded(code, board), encoded(code, ours)]).toEqual([ours, board]);
});

test("high and low octets of ISO 15031-5 make one voltage, and are made of it", () => {
  const codes = codesOf(
    "a number 0 to 255 base 16 digits 2 each 0.256 V",
    "b number 0 to 255 base 16 digits 2 each 0.001 V",
  );
  const terms = ["a", "b"].map((name) => ({ code: codes.get(name)!, whole: null }));
  const split = splitSum(terms, heldOfOurs("13.655 V"))!;
  expect(split.map((share, i) => encode(terms[i]!.code, share))).toEqual([
    { kind: "spelled", text: "35", means: null },
    { kind: "spelled", text: "57", means: null },
  ]);
});
