import { spawn, spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { beforeAll, expect, test } from "vitest";
import { inProject } from "../../.dev/say.mjs";
import { mayColour } from "../../server/src/cli/io.ts";
import { run } from "../../server/src/cli/run.ts";
import { version } from "../../server/src/cli/version.ts";
import { held } from "./held.ts";
import { buildProgram, folderOf, runProgram } from "./program.ts";

let program: string;
beforeAll(async () => {
  program = await buildProgram();
}, 60_000);

async function say(...args: string[]) {
  const io = held("/", "");
  const status = await run(args, io);
  return { status, out: io.outText(), error: io.errorText() };
}

const commands = ["check", "show", "switches", "explain", "serve"];

test("--help lists every command, and each says how it is used", async () => {
  const { status, out } = await say("--help");
  expect(status).toBe(0);
  for (const name of commands) {
    expect(out).toMatch(new RegExp(`^  ${name} `, "m"));
    expect(await say(name, "--help")).toEqual({
      status: 0,
      out: expect.stringMatching(new RegExp(`^Usage: fettle ${name} `)),
      error: "",
    });
    expect(await say("help", name)).toEqual(await say(name, "--help"));
  }
});

test.each([
  [[], "say which command: fettle --help lists them"],
  [["chek"], "there is no command “chek”: did you mean check?"],
  [["kiln"], "there is no command “kiln”: fettle --help lists those that there are"],
  [["help", "chek"], "there is no command “chek”: did you mean check?"],
  [["toString"], "there is no command “toString”: fettle --help lists those that there are"],
  [["serve"], "say --stdio: the server speaks over standard input and output"],
  [["explain"], "say which name to explain, or --list for every name"],
  [["explain", "--list", "arm"], "--list lists every name, so it stands without one"],
  [["explain", "arm", "--format", "json"], "--format belongs to --list: a page is Markdown, for people"],
])("fettle %j cannot run, and says why", async (args, message) => {
  expect(await say(...args)).toEqual({ status: 2, out: "", error: `fettle: ${message}\n` });
});

test("it says the version of the manifest", async () => {
  expect(version).toBe(JSON.parse(readFileSync(inProject("package.json"), "utf8")).version);
  for (const asked of ["--version", "-v", "version"]) expect((await say(asked)).out).toBe(`${version}\n`);
});

test("explain also explains the words of the language", async () => {
  expect((await say("explain", "handset")).out).toMatch(
    /^# Handsets\n\n\*of the language\*\n\n```fettle\nhandset "Wheel"/,
  );
  expect((await say("explain", "when")).out).toMatch(/^# Conditions\n/);
  expect((await say("explain", "language")).out).toContain("\n## Grammar\n");
  // What has the name comes first.
  expect((await say("explain", "craft")).out).toMatch(/^# craft\n\n\*element of the OSD\*(.|\n)*\n---\n\n# Files\n/);
  expect((await say("explain", "use")).out).toMatch(/^# How files combine\n/);
  expect((await say("explain", "controls")).out).toMatch(/^# controls\n(.|\n)*\n {2}TR {2}switch {4}ch6 /);
});

test("explain gives the page of every thing of a name, also by plain words", async () => {
  const { status, out } = await say("explain", "arm");
  expect(status).toBe(0);
  expect(out).toMatch(/^# arm\n\n\*mode\*\n/);
  expect((await say("explain", "pack.warn-at")).out).toMatch(/^# pack\.warn-at\n/);
  expect((await say("explain", "kill", "switch")).out).toMatch(/^# arm\n/);
  expect(await say("explain", "zzzzqqqq")).toMatchObject({
    status: 2,
    error: expect.stringMatching(/^fettle: nothing is called “zzzzqqqq”: [^\n]+\n$/),
  });
});

test("explain offers the nearest names, with or without their section", async () => {
  expect(await say("explain", "wrn-at")).toEqual({
    status: 2,
    out: "",
    error: expect.stringMatching(/^fettle: nothing is called “wrn-at”: did you mean pack\.warn-at[,?]/),
  });
});

test("explain --list gives every name with its kind and a sentence", async () => {
  const names = JSON.parse((await say("explain", "--list", "--format", "json")).out) as Record<string, string>[];
  for (const each of names) {
    expect(Object.keys(each)).toEqual(["name", "kind", "summary"]);
    expect(["setting", "mode", "element", "rule", "unit", "section"]).toContain(each.kind);
    expect(each.summary).not.toBe("");
    if (each.kind === "setting") expect(each.name).toMatch(/^[a-z-]+\.[a-z0-9-]+$/);
  }
  expect(new Set(names.map(({ kind }) => kind)).size).toBe(6);
  expect((await say("explain", "--list")).out.split("\n")).toHaveLength(names.length + 1);
});

test.each([
  [true, {}, true],
  [true, { TERM: "xterm-256color", NO_COLOR: "" }, true],
  [true, { NO_COLOR: "1" }, false],
  [true, { TERM: "dumb" }, false],
  [false, {}, false],
])("at a terminal: %s, with %j: colour %s", (isTerminal, env, colour) => {
  expect(mayColour(isTerminal, env)).toBe(colour);
});

test.runIf(existsSync("/dev/full"))("a full disk is reported, and no success", () => {
  const { status, stderr } = spawnSync("sh", ["-c", `"$0" "$1" --help > /dev/full`, process.execPath, program], {
    encoding: "utf8",
  });
  expect({ status, stderr }).toEqual({
    status: 2,
    stderr: expect.stringMatching(/^fettle: standard output cannot be written: .*\n$/),
  });
});

test.runIf(existsSync("/proc/self"))("a folder that cannot be created is reported, without waiting", async () => {
  const { status, out, error } = await say("reference", "--out", "/proc/nowhere/reference");
  expect({ status, out }).toEqual({ status: 2, out: "" });
  expect(error).toMatch(/^fettle: .*\/proc\/nowhere.*\n$/);
});

test("colour stands in the text only where a terminal is", async () => {
  const coloured = held(await folderOf({}), 'craft "Mug"\n\nclay\n', "coloured");
  expect(await run(["check", "-"], coloured)).toBe(1);
  expect(coloured.outText()).toContain("\u001b[1;31merror\u001b[0m");
});

test("a reader that stops reading is no fault", async () => {
  const child = spawn(process.execPath, [program, "explain", "--list", "--format", "json"]);
  let error = "";
  child.stderr.setEncoding("utf8").on("data", (text: string) => {
    error += text;
  });
  child.stdout.once("data", () => child.stdout.destroy());
  const status = await new Promise((resolve) => child.on("close", resolve));
  expect([status, error]).toEqual([0, ""]);
});

test("the program runs as a process, and ends with the status of its command", async () => {
  const folder = await folderOf({ "mug.fettle": 'craft "Mug"\n' });
  expect(await runProgram(program, ["check", "mug.fettle"], { folder })).toEqual({
    status: 0,
    out: "1 file: nothing found\n",
    error: "",
  });
  expect(await runProgram(program, ["bake"], { folder })).toMatchObject({ status: 2, out: "" });
});

test("serve --stdio speaks the language server protocol", async () => {
  const child = spawn(process.execPath, [program, "serve", "--stdio"]);
  const send = (message: object) => {
    const body = JSON.stringify({ jsonrpc: "2.0", ...message });
    child.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`);
  };
  let out = "";
  const answered = (id: number) =>
    new Promise<void>((resolve) => {
      const look = () => out.includes(`"id":${id},"result"`) && resolve();
      child.stdout.setEncoding("utf8").on("data", (text: string) => {
        out += text;
        look();
      });
    });
  const first = answered(1);
  send({ id: 1, method: "initialize", params: { processId: null, rootUri: null, capabilities: {} } });
  await first;
  expect(out).toContain('"hoverProvider"');
  const second = answered(2);
  send({ id: 2, method: "shutdown" });
  await second;
  const closed = new Promise((resolve) => child.on("close", resolve));
  send({ method: "exit" });
  expect(await closed).toBe(0);
});
