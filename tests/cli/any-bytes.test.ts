import fc from "fast-check";
import { expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { buildProgram, folderOf, runProgram, temporaryFolder } from "./program.ts";
import { cup, wheel } from "./shed.ts";

const folder = temporaryFolder();
/** Bytes of any kind, and scripts into which some were dropped. */
const anyBytes = fc.oneof(
  fc.uint8Array({ maxLength: 400 }),
  fc
    .tuple(fc.constantFrom(cup, wheel), fc.nat(), fc.uint8Array({ minLength: 1, maxLength: 12 }))
    .map(([script, at, bytes]) => {
      const text = new TextEncoder().encode(script);
      const cut = at % text.length;
      return Buffer.concat([text.subarray(0, cut), bytes, text.subarray(cut)]);
    }),
);

test("any bytes end with findings, never with a fault of the program", async () => {
  await fc.assert(
    fc.asyncProperty(anyBytes, fc.constantFrom("text", "json", "sarif"), async (bytes, format) => {
      const io = held(folder, bytes);
      expect([0, 1]).toContain(await run(["check", "-", "--format", format], io));
      expect(io.errorText()).toBe("");
      if (format !== "text") JSON.parse(io.outText());
    }),
    { numRuns: 300 },
  );
});

test("any bytes are shown, or refused in one line", async () => {
  await fc.assert(
    fc.asyncProperty(anyBytes, fc.constantFrom("show", "switches"), async (bytes, command) => {
      const io = held(folder, bytes);
      const status = await run([command, "-", "--format", "json"], io);
      if (status === 0) JSON.parse(io.outText());
      else expect([status, io.errorText()]).toEqual([2, expect.stringMatching(/^fettle: - [^\n]+\n$/)]);
      const plain = held(folder, bytes);
      expect(await run([command, "-"], plain)).toBe(status);
      expect(plain.errorText()).toBe(io.errorText());
    }),
    { numRuns: 200 },
  );
});

test("any arguments end with a status and at most one line on standard error", async () => {
  const words = fc.constantFrom(
    "check",
    "show",
    "switches",
    "explain",
    "--format",
    "json",
    "--list",
    "-",
    "--",
    "--help",
    "arm",
  );
  await fc.assert(
    fc.asyncProperty(fc.array(fc.oneof(words, fc.string()), { maxLength: 5 }), async (args) => {
      // The server would take over this process's own streams; a working folder of / would be walked.
      fc.pre(args[0] !== "serve" && !args.some((arg) => arg.includes("/") || arg.includes("..")));
      const io = held(folder, cup);
      const status = await run(args, io);
      expect(io.errorText()).toMatch(status === 2 ? /^(fettle: [^\n]+\n)+$/ : /^$/);
      expect(io.errorText()).not.toContain("fault of the program");
    }),
    { numRuns: 300 },
  );
});

test("the program itself, on files of random bytes", async () => {
  const program = await buildProgram();
  const files = fc.sample(anyBytes, { numRuns: 20, seed: 7 });
  const below = await folderOf(Object.fromEntries(files.map((bytes, i) => [`pot${i}.fettle`, bytes])));
  const { status, out, error } = await runProgram(program, ["check", "--format", "json"], { folder: below });
  expect([status, error]).toEqual([1, ""]);
  expect(JSON.parse(out).summary.files).toBe(20);
}, 60_000);
