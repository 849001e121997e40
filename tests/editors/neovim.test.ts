/** Neovim with the README's lines, driven without a window: what a pilot sees there of all that the server offers. */
import { execFile, spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { promisify } from "node:util";
import { beforeAll, describe, expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { isInstalled, makeStand, readmeBlock } from "./stand.ts";

/** What `neovim.lua` wrote down, by the step that saw it; a step of something that the server does not offer is not there. */
interface Seen {
  readonly [step: string]: unknown;
  readonly capabilities: readonly string[];
}

const installed = isInstalled("nvim");

test("Neovim is tried where it is installed", (context) => {
  if (!installed) context.skip("Neovim is not installed: `apt-get install neovim` brings it");
  expect(installed).toBe(true);
});

test.skipIf(!installed)("the README's lines for a newer Neovim are Lua", () => {
  const load = `lua assert(loadstring(vim.env.FETTLE_LINES)) vim.cmd("qall!")`;
  const env = { ...process.env, FETTLE_LINES: readmeBlock("neovim-newer") };
  const { status, stderr } = spawnSync("nvim", ["--headless", "-u", "NONE", "-i", "NONE", "-c", load, "-c", "cquit"], {
    env,
    encoding: "utf8",
    timeout: 20_000,
  });
  expect([status, stderr]).toEqual([0, ""]);
});

describe.skipIf(!installed)("in Neovim", () => {
  let seen: Seen;
  beforeAll(async () => {
    const { folder, other, init, env } = await makeStand("neovim", "init.lua");
    const seenFile = join(folder, "..", "seen.json");
    const driver = inProject("tests/editors/neovim.lua");
    await promisify(execFile)("nvim", ["--headless", "-i", "NONE", "-n", "--noplugin", "-u", init, "-S", driver], {
      cwd: folder,
      env: { ...env, FETTLE_SEEN: seenFile, FETTLE_OTHER_FOLDER: other },
      timeout: 60_000,
    });
    seen = JSON.parse(readFileSync(seenFile, "utf8"));
  }, 90_000);

  test("a script is known as one, with what Neovim needs for it", () => {
    expect(seen.filetype).toEqual(["fettle", "v:lua.vim.lsp.omnifunc", "# %s"]);
    expect(seen.colours).toEqual(["Comment", "Statement", "Identifier", "String"]);
  });

  test("findings stand at their lines, and none on a craft that flies well", () => {
    expect(seen.findings).toEqual(
      expect.arrayContaining(["8:5 use-missing ERROR", "45:3 unknown-name ERROR", "56:23 arm-tilt-open HINT"]),
    );
    expect(seen["findings of a craft that flies well"]).toEqual([]);
  });

  test("they follow what is typed, beside letters of every width too", () => {
    expect(seen.edits).toEqual({ faulty: ["29:24 unknown-name ERROR"], mended: [] });
    expect(seen["edits of a line with wide letters"]).toEqual({
      faulty: ["34:5 duplicate-entry WARN", "34:14 wrong-type ERROR"],
      mended: [],
    });
  });

  test("a hover leads with this craft, in a window of its own", () => {
    expect(seen.hover).toMatch(/^\*\*`3\.3 V\/cell`\*\* on Wobbly jug/);
  });

  test("completion offers names in their column and units, and leaves no marks of a snippet", () => {
    expect(seen["completion of a name"]).toEqual({ offered: ["warn-at", "warn-after"], line: "  warn-at           " });
    expect(seen["completion of a unit"]).toEqual({ offered: ["mA"], line: "  hover-current  5 mA" });
    expect(seen["completion of several parts"]).toMatchObject({
      line: expect.stringMatching(/^ {2}roll +slope $/),
    });
  });

  test("the parts of a value are shown", () => {
    expect(seen.signature).toMatch(/^roll slope NUMBER deg\/s/);
  });

  test("the cursor goes to where a control is said", () => {
    expect(seen.definition).toEqual(["wheel.fettle", "  KN  dial      ch10  1000 us to 2000 us  lies middle face"]);
  });

  test("the symbols of a script are listed", () => {
    expect(seen["document symbols"]).toEqual(
      expect.arrayContaining(["wobbly-jug.fettle:27 [Namespace] pack Borrowed", "wobbly-jug.fettle:42 [Event] arm"]),
    );
  });

  test("a repair is applied, and its finding goes", () => {
    expect(seen["code action"]).toMatchObject({ line: "  level-blend when FL is up" });
    expect(seen["findings after it"]).not.toContain("45:3 unknown-name ERROR");
    expect(seen["findings after it"]).toContain("8:5 use-missing ERROR");
  });

  test("a second folder is a workspace of its own, served by the same server", () => {
    expect(seen["two roots"]).toEqual({
      findings: ["6:10 out-of-range ERROR"],
      definition: "small.fettle",
      clients: 1,
    });
  });

  test("the places where a control stands are listed, in all files", () => {
    expect(seen.references).toEqual(
      expect.arrayContaining([
        "tankard.fettle:98 overall  follows KN from 0.85 to 1.15",
        "wheel.fettle:25 KN  dial      ch10  1000 us to 2000 us  lies middle face",
      ]),
    );
  });
  test("the places of the name at the cursor are marked", () => {
    expect(seen.highlights).toEqual([57, 59, 63]);
  });
  test("names are found in the whole workspace", () => {
    expect(seen["workspace symbols"]).toContain("tankard.fettle:63 [Event] tail-lamp");
  });
  test("the modes that lean on a mode are listed", () => {
    expect(seen["incoming calls"]).toEqual(expect.arrayContaining([expect.stringMatching(/^habits\.fettle:1[12] /)]));
  });
  test("a script is laid out", () => {
    expect(seen.format).toEqual(["    cells 6   ", "  cells             6", []]);
  });
  test("a control is renamed in every file that shares it, or it is said why not", () => {
    expect(seen.rename).toEqual({
      line: "  overall  follows KW from 0.85 to 1.15",
      changed: expect.arrayContaining(["tankard.fettle", "wheel.fettle"]),
      findings: [],
    });
    expect(seen["rename refused"]).toEqual([expect.stringContaining("capacity")]);
  });

  test("nothing was reported as an error, and the server ends when it is told to", () => {
    expect(seen.messages).toEqual([]);
    expect(seen.end).toBe(true);
    expect(Object.entries(seen).filter(([, value]) => value && typeof value === "object" && "error" in value)).toEqual(
      [],
    );
  });
});
