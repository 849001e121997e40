/** A thousand craft that each name a control of one handset: its references, another name for it, and a file that moves. */
import { spawn } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { pathToFileURL } from "node:url";
import { createProtocolConnection, StreamMessageReader, StreamMessageWriter } from "vscode-languageserver/node";
import { ms } from "./figures.ts";
import { fleetOf } from "./scripts.ts";

const CRAFT = 1000;
const TIMES = 5;

/** The fleet, each of whose craft has a condition of its own. */
function writeFleet(): { readonly folder: string; readonly habits: string } {
  const folder = mkdtempSync(join(tmpdir(), "fettle-rename-"));
  const files = fleetOf(CRAFT);
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    const own = text.startsWith("craft") ? `${text}\noutputs\n  lamp when TL is up  # to be seen\n` : text;
    writeFileSync(join(folder, path), own);
  }
  return { folder, habits: files["layers/habits.fettle"]! };
}

type Edit = { documentChanges: { edits?: unknown[] }[] };

async function measured(folder: string, habits: string): Promise<string[]> {
  const server = join(process.cwd(), "dist/server/node.cjs");
  const child = spawn(process.execPath, [server, "--stdio"], { stdio: ["pipe", "pipe", "inherit"] });
  const client = createProtocolConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
  client.listen();
  const root = pathToFileURL(folder).href;
  await client.sendRequest("initialize", {
    processId: process.pid,
    rootUri: root,
    // A client that pulls findings, and does not: else they are worked out meanwhile.
    capabilities: {
      textDocument: { diagnostic: {} },
      workspace: { workspaceEdit: { documentChanges: true, resourceOperations: ["rename"] } },
    },
    workspaceFolders: [{ uri: root, name: "fleet" }],
  });
  await client.sendNotification("initialized", {});
  const uri = `${root}/layers/habits.fettle`;
  await client.sendNotification("textDocument/didOpen", {
    textDocument: { uri, languageId: "fettle", version: 1, text: habits },
  });
  const lines = habits.split("\n");
  const line = lines.findIndex((each) => each.startsWith("  arm "));
  const position = { line, character: lines[line]!.indexOf("TL") };
  const textDocument = { uri };
  const spent = async <T>(method: string, params: object): Promise<[number, T]> => {
    const begun = performance.now();
    const answer = await client.sendRequest<T>(method, params);
    return [performance.now() - begun, answer];
  };
  const row = async <T>(what: string, method: string, params: object, count: (answer: T) => string) => {
    const all: number[] = [];
    let last: T | undefined;
    for (let i = 0; i < TIMES; i++) {
      // A key between two of them: what is known of the workspace before it is of no use after it.
      await client.sendNotification("textDocument/didChange", {
        textDocument: { uri, version: ++version },
        contentChanges: [{ text: `${habits}${"# more\n".repeat(version % 2)}` }],
      });
      const [took, answer] = await spent<T>(method, params);
      all.push(took);
      last = answer;
    }
    const sorted = [...all].sort((a, b) => a - b);
    return `${what}: first ${ms(all[0]!)} ms, then ${ms(sorted[TIMES >> 1]!)} ms; ${count(last!)}`;
  };
  let version = 1;
  const edited = ({ documentChanges }: Edit) =>
    `${documentChanges.reduce((sum, { edits = [] }) => sum + edits.length, 0)} edits in ${documentChanges.length} files`;
  try {
    const [took] = await spent("textDocument/rename", { textDocument, position, newName: "LA" });
    return [
      `rename over ${CRAFT} craft, right after the start, with all files read: ${ms(took)} ms`,
      await row<Edit>("rename", "textDocument/rename", { textDocument, position, newName: "LA" }, edited),
      await row<unknown[]>(
        "references",
        "textDocument/references",
        { textDocument, position, context: { includeDeclaration: true } },
        (places) => `${places.length} places`,
      ),
      await row<Edit>(
        "a layer that moves",
        "workspace/willRenameFiles",
        { files: [{ oldUri: uri, newUri: `${root}/layers/ours.fettle` }] },
        edited,
      ),
    ];
  } finally {
    const gone = new Promise((resolve) => child.once("exit", resolve));
    await client.sendRequest("shutdown");
    await client.sendNotification("exit");
    await gone;
    client.dispose();
  }
}

export async function run(): Promise<string> {
  const { folder, habits } = writeFleet();
  try {
    return (await measured(folder, habits)).join("\n");
  } finally {
    rmSync(folder, { recursive: true });
  }
}
