/** Emacs with eglot and the README's lines, driven without a window: what a pilot sees there of what the server offers. */
import { execFile, spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { promisify } from "node:util";
import { beforeAll, describe, expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { isInstalled, makeStand } from "./stand.ts";

/** What `emacs.el` wrote down, by the step that saw it; a step of something that the server does not offer is not there. */
interface Seen {
  readonly [step: string]: unknown;
  readonly capabilities: readonly string[];
}

/** As `emacs` begins it: with the packages that are installed, and nothing of the user's. */
const BATCH = ["--batch", "--eval", "(package-initialize)"];

const hasEglot =
  isInstalled("emacs") &&
  spawnSync("emacs", [...BATCH, "--eval", "(require 'eglot)"], { stdio: "ignore" }).status === 0;

test("Emacs is tried where it is installed, with eglot", (context) => {
  if (!hasEglot) context.skip("Emacs with eglot is not installed: `apt-get install emacs-nox elpa-eglot` brings both");
  expect(hasEglot).toBe(true);
});

describe.skipIf(!hasEglot)("in Emacs", () => {
  let seen: Seen;
  beforeAll(async () => {
    const { folder, init, env } = await makeStand("emacs", "init.el");
    const seenFile = join(folder, "..", "seen.json");
    await promisify(execFile)("emacs", [...BATCH, "-l", init, "-l", inProject("tests/editors/emacs.el")], {
      cwd: folder,
      env: { ...env, FETTLE_SEEN: seenFile },
      timeout: 60_000,
    });
    seen = JSON.parse(readFileSync(seenFile, "utf8"));
  }, 90_000);

  test("a script is known as one", () => {
    expect(seen.mode).toEqual(["fettle-mode", "# "]);
    expect(seen.colours).toEqual(
      ["comment", "keyword", "variable-name", "string"].map((name) => `font-lock-${name}-face`),
    );
  });

  test("findings stand at their lines, follow what is typed, and there are none on a craft that flies well", () => {
    expect(seen.findings).toEqual(
      expect.arrayContaining([expect.stringMatching(/^30 .*\[pack-chemistry\]/), expect.stringMatching(/^8 .*\[use-/)]),
    );
    expect(seen["findings of a craft that flies well"]).toEqual([]);
    expect(seen.edits).toEqual([[expect.stringMatching(/^29 .*🫖/)], null]);
  });

  test("a hover leads with this craft", () => {
    expect(seen.hover).toMatch(/^(?:\*\*`)?3\.3 V\/cell(?:`\*\*)? on Wobbly jug/);
  });

  test("completion offers names, and leaves no marks of a snippet", () => {
    expect(seen.completion).toEqual([["warn-at", "warn-after"], "  warn-at           ", null]);
  });

  test("the cursor goes to where a control is said, and its places are listed", () => {
    expect(seen.definition).toEqual(["wheel.fettle", "  KN  dial      ch10  1000 us to 2000 us  lies middle face"]);
    expect(seen.references).toEqual(["tankard.fettle:98", "wheel.fettle:25"]);
  });

  test("the sections of a script are listed", () => {
    expect(seen.symbols).toEqual(expect.arrayContaining(["Wobbly jug", "Wobbly jug::pack Borrowed"]));
  });

  test("a repair is applied, and its finding goes", () => {
    expect(seen["code action"]).toEqual(["Write level-blend", "  level-blend when FL is up"]);
    expect(seen["findings after it"]).not.toContainEqual(expect.stringContaining("levle"));
  });

  test("a script is laid out", () => {
    expect(seen.format).toBe("  cells             6");
  });
  test("a control is renamed in every file that shares it, or it is said why not", () => {
    expect(seen.rename).toEqual([
      "  overall  follows KW from 0.85 to 1.15",
      expect.arrayContaining(["tankard.fettle", "wheel.fettle"]),
      null,
    ]);
    expect(seen["rename refused"]).toContain("capacity");
  });

  test("nothing failed, and the server ends when it is told to", () => {
    expect(seen.end).toBe(true);
    expect(Object.entries(seen).filter(([, value]) => value && typeof value === "object" && "error" in value)).toEqual(
      [],
    );
  });
});
