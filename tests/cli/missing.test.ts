/** Reports on a craft a part of which is missing say so first. */
import { expect, test } from "vitest";
import { run } from "../../server/src/cli/run.ts";
import { held } from "./held.ts";
import { folderOf } from "./program.ts";
import { shed } from "./shed.ts";

const bowl = `craft "Bowl"

use "../handsets/wheel.fettle"
use "../layers/gone.fettle"

modes
  arm  when TL is down
`;

async function report(command: string, text: string, format: string): Promise<string> {
  const folder = await folderOf({ ...shed, "craft/bowl.fettle": text });
  const io = held(folder, "");
  await run([command, "craft/bowl.fettle", "--format", format], io);
  expect(io.errorText()).toBe("");
  return io.outText();
}

test.each(["show", "switches", "ready"])("%s", async (command) => {
  expect(await report(command, bowl, "text")).toMatch(
    /^craft {4}Bowl\nhandset {2}Wheel.*\nmissing {2}“\.\.\/layers\/gone\.fettle” is missing: there is no such file\. \(craft\/bowl\.fettle:4\)\nWhat a missing part says is not in what follows\.\n/,
  );
  const told: unknown = JSON.parse(await report(command, bowl, "json"));
  expect(told).toMatchObject({
    missing: [
      {
        path: "../layers/gone.fettle",
        message: "“../layers/gone.fettle” is missing: there is no such file.",
        file: "craft/bowl.fettle",
        line: 3,
      },
    ],
  });
  const whole: unknown = JSON.parse(await report(command, bowl.replace(/^.*gone.*\n/m, ""), "json"));
  expect(whole).not.toHaveProperty("missing");
});

test("a comparison tells of lines that are not understood, as no difference can show them", async () => {
  const folder = await folderOf({
    "a.fettle": 'craft "A"\nglaze\n  coats 2\npack\n  cells 4\n  sheen 3\n',
    "b.fettle": 'craft "B"\npack\n  cells 4\n  sheen 3\n',
  });
  const io = held(folder, "");
  expect(await run(["compare", "a.fettle", "b.fettle"], io)).toBe(0);
  expect(
    io
      .outText()
      .split("\n")
      .filter((line) => line.startsWith("note")),
  ).toEqual([
    "note  a.fettle: 2 lines have a fault, the first is line 2, so what they were to say is not known.",
    "note  b.fettle: line 4 has a fault, so what it was to say is not known.",
  ]);
});
