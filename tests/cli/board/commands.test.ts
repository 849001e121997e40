/** The command lines of `commands.txt`, each in a folder of its own. */
import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { inProject } from "../../../.dev/say.mjs";
import { run } from "../../../server/src/cli/run.ts";
import { held } from "../held.ts";
import { boardShed } from "./shed.ts";

interface Case {
  readonly command: string;
  readonly input: string[];
  status: number;
  /** Where, how, and the text. */
  readonly expected: (readonly [string, string, string])[];
}

function casesIn(text: string): Case[] {
  const cases: Case[] = [];
  for (const line of text.split("\n")) {
    const last = cases.at(-1);
    if (line.startsWith("$ ")) cases.push({ command: line.slice(2), input: [], status: -1, expected: [] });
    else if (!last || line === "" || line.startsWith("#")) continue;
    else if (line.startsWith("< ")) last.input.push(line.slice(2));
    else if (line.startsWith("= ")) last.status = Number(line.slice(2));
    else {
      const [, where, how, rest] = /^(\S+?)([|~!]) ?(.*)$/.exec(line) ?? expect.fail(`no expectation: ${line}`);
      last.expected.push([where!, how!, rest!]);
    }
  }
  return cases;
}

const cases = casesIn(readFileSync(inProject("tests/cli/board/commands.txt"), "utf8"));

describe("command lines", () => {
  test("there are at least fifty", () => {
    expect(cases.length).toBeGreaterThanOrEqual(50);
  });

  test.each(cases.map((each, i) => [i + 1, each.command, each] as const))("%i: %s", async (_, command, each) => {
    const folder = await boardShed();
    const io = held(folder, each.input.map((line) => `${line}\n`).join(""));
    const status = await run(command.split(" "), io);
    const texts: Record<string, () => string> = { out: io.outText, err: io.errorText };
    for (const [where, how, text] of each.expected) {
      const found = texts[where]?.() ?? readFileSync(`${folder}/${where}`, "utf8");
      if (how === "!") expect(found, command).toBe("");
      else if (how === "~") expect(found, command).not.toContain(text);
      else expect(found, command).toContain(text);
    }
    expect([status, io.errorText()]).toEqual([each.status, io.errorText()]);
  });
});
