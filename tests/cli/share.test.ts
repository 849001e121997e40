/** `fettle share`: the script on standard output, what was taken out on standard error. */
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";
import { wheel } from "./shed.ts";

const mine = `layer "Mine"

link
  pair-secret  "glaze before you fire"
`;
const crock = `craft "Crock"

use "wheel.fettle"
use "mine.fettle"

frame
  # found it? maud@pottery.example
  motors  4

modes
  arm  when TL is down
`;
const files = { "wheel.fettle": wheel, "mine.fettle": mine, "crock.fettle": crock };

async function share(folder: string, ...args: string[]) {
  const io = held(folder, "");
  const status = await run(["share", ...args], io);
  return { status, out: io.outText(), error: io.errorText() };
}

test("the script is one file that checks as the craft does, and what was taken out is told with its line", async () => {
  const folder = await folderOf(files);
  const { status, out, error } = await share(folder, "crock.fettle");
  expect(status).toBe(0);
  expect(out).toContain("# Shared with Fettle");
  expect(out).toContain("  # found it? (e-mail address taken out)\n  motors  4\n");
  expect(out).toContain("  # pair-secret: taken out before sharing\n");
  expect(out).toMatch(/\ncontrols\n {2}TL {2}switch ch5/);
  expect(out).not.toMatch(/^use |glaze|maud@/m);
  expect(error).toContain("crock.fettle:7  note: It holds an e-mail address.\n");
  expect(error).toContain("mine.fettle:4   link.pair-secret: Whoever knows the secret");
});

test("as JSON: the text, what was taken and what was kept, with lines from 0", async () => {
  const { status, out, error } = await share(await folderOf(files), "crock.fettle", "--format", "json");
  const report = JSON.parse(out);
  expect([status, error]).toEqual([0, ""]);
  expect(Object.keys(report)).toEqual(["text", "taken", "kept"]);
  expect(report.taken).toContainEqual({
    what: "link.pair-secret",
    why: "Whoever knows the secret can pair a handset of their own with this receiver.",
    file: "mine.fettle",
    line: 3,
  });
});

test("--out writes the script and leaves standard output empty; shared again it is the same", async () => {
  const folder = await folderOf(files);
  const { status, out } = await share(folder, "crock.fettle", "--out", "shared.fettle");
  const text = readFileSync(`${folder}/shared.fettle`, "utf8");
  expect([status, out]).toEqual([0, ""]);
  const again = await share(folder, "shared.fettle");
  expect(again).toEqual({ status: 0, out: text, error: expect.stringContaining("Nothing private was found") });
});

test("a craft whose layer is missing is not shared, and nothing is written", async () => {
  const folder = await folderOf({ ...files, "crock.fettle": crock.replace("mine.fettle", "gone.fettle") });
  const { status, out, error } = await share(folder, "crock.fettle", "--out", "shared.fettle");
  expect([status, out]).toEqual([2, ""]);
  expect(error).toMatch(/^fettle: .*gone\.fettle.*put that right first\.\n$/);
  expect(() => readFileSync(`${folder}/shared.fettle`)).toThrow();
});
