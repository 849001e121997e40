import { expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { tangled, tangledFiles } from "../logic/tangled.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";

const craft = tangled("a tangled mode that all others name");
const files = tangledFiles({ ...craft, conditions: [...craft.conditions, ["outputs.lamp", "S0 is down"]] });

async function fettle(...args: string[]) {
  const io = held(await folderOf(files), "");
  const status = await run(args, io);
  return { status, out: io.outText(), error: io.errorText() };
}

test("the switch map says what is not in it, and why", async () => {
  const { status, out } = await fettle("switches", "jug.fettle");
  expect(status).toBe(0);
  expect(out).toContain("Not known, and not in this map: too tangled to follow (fettle check tells why): arm, level,");
  expect(out).not.toContain("has a fault");
  expect(out).toContain("Distinct states: 2");
  const json = JSON.parse((await fettle("switches", "jug.fettle", "--format", "json")).out);
  expect(json.tangled).toHaveLength(craft.conditions.length);
  expect(json.states).toBe(2);
});

test("ready does not know, and says why", async () => {
  const { status, out } = await fettle("ready", "jug.fettle");
  expect(status).toBe(0);
  expect(out).toContain("Armed or not: what is not known here decides.");
  expect(out).toContain("When arm is on is not known: its condition is too tangled to follow.");
  expect(out).toContain("Which moves arm it is not known.");
});

test("check has one finding for all of them", async () => {
  const { out } = await fettle("check", "jug.fettle", "--format", "json");
  const codes = JSON.parse(out).findings.map(({ code }: { code: string }) => code);
  expect(codes.filter((code: string) => code.startsWith("condition"))).toEqual(["condition-tangled"]);
});
