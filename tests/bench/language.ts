/** How long the server takes for what an editor asks of a language: at every place of the demo and of a long script, and over a thousand craft. */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import type { InitializeParams } from "vscode-languageserver/node";
import { ms, percentile } from "./figures.ts";
import { askEach, askEverywhere, questionsOfFleet, questionsOfText, type Timing } from "./language-asks.ts";
import { craftOf, fleetOf, workspaceFiles } from "./scripts.ts";
import { inFolder, type Served, serveFolder } from "./served.ts";

/** A client of today. */
const CLIENT: InitializeParams["capabilities"] = {
  workspace: { workspaceEdit: { documentChanges: true, resourceOperations: ["rename"] } },
  textDocument: {
    diagnostic: {},
    completion: { completionItem: { snippetSupport: true } },
    rename: { prepareSupport: true },
    semanticTokens: {
      requests: { full: { delta: true }, range: true },
      tokenTypes: [],
      tokenModifiers: [],
      formats: [],
    },
  },
};
const DEMO = join(process.cwd(), "examples");
const LINES = 10_000;
const CRAFT = 1000;
/** Of so many places in a long script: all of them would take minutes. */
const PLACES = 4000;

function table(title: string, timings: readonly Timing[]): string {
  const rows = timings.map(({ name, targetMs, spent, told }) => {
    const figures = [0.5, 0.95, 1]
      .map((share) => (spent.length > 0 ? ms(percentile(spent, share)) : "     –"))
      .join(" ");
    const isLate = targetMs !== null && spent.length > 0 && percentile(spent, 0.95) > targetMs;
    return `  ${name.padEnd(26)} ${figures}  ${targetMs === null ? "      " : ms(targetMs)} ${isLate ? "late" : "    "}  ${told}`;
  });
  return [`${title}\n  ${"".padEnd(26)}    p50    p95    max  target`, ...rows].join("\n");
}

const untidy = (text: string) => text.replace(/^ {2}(\S+) +/gm, "   $1 ");

/** Opens a text and waits for its findings: the first answer that a pilot sees. */
async function firstFindings(served: Served, path: string, text: string): Promise<Timing> {
  const begun = performance.now();
  await served.open(path, text);
  await served.client.sendRequest("textDocument/diagnostic", { textDocument: { uri: served.uriOf(path) } });
  return { name: "opened to findings", targetMs: null, spent: [performance.now() - begun], told: path };
}

const ready = ({ readyMs }: Served): Timing => ({
  name: "started to ready",
  targetMs: 350,
  spent: [readyMs],
  told: "",
});

async function demo(): Promise<string> {
  const paths = readdirSync(DEMO, { recursive: true, encoding: "utf8" }).filter((path) => path.endsWith(".fettle"));
  const files = Object.fromEntries(paths.map((path) => [path, readFileSync(join(DEMO, path), "utf8")]));
  const served = await serveFolder(DEMO, CLIENT);
  try {
    const first = await firstFindings(served, "craft/tankard.fettle", files["craft/tankard.fettle"]!);
    for (const [path, text] of Object.entries(files)) await served.open(path, text);
    const texts = new Map(Object.entries(files).map(([path, text]) => [served.uriOf(path), text]));
    const everywhere = await askEverywhere(served, texts, Number.MAX_SAFE_INTEGER);
    return table(`The demo, every place of its ${paths.length} scripts`, [ready(served), first, ...everywhere]);
  } finally {
    await served.end();
  }
}

const long = () =>
  inFolder(workspaceFiles(craftOf(LINES)), async (folder) => {
    const served = await serveFolder(folder, CLIENT);
    const text = craftOf(LINES);
    const uri = served.uriOf("tankard.fettle");
    try {
      const first = await firstFindings(served, "tankard.fettle", text);
      const everywhere = await askEverywhere(served, new Map([[uri, text]]), PLACES);
      const rest = await askEach(served, questionsOfText(uri, text));
      // Each line is another one once it is laid out.
      await served.open("untidy.fettle", untidy(text));
      const [format] = questionsOfText(served.uriOf("untidy.fettle"), text).filter(({ name }) => name === "format");
      rest.push(...(await askEach(served, [{ ...format!, name: "format, all untidy" }])));
      return table(`A script of ${LINES} lines`, [ready(served), first, ...everywhere, ...rest]);
    } finally {
      await served.end();
    }
  });

const fleet = () => {
  const files = fleetOf(CRAFT);
  return inFolder(files, async (folder) => {
    const served = await serveFolder(folder, CLIENT);
    const [path, handset] = ["shelf-0/craft-0.fettle", "handsets/wheel.fettle"];
    try {
      const first = await firstFindings(served, path, files[path]!);
      await served.open(handset, files[handset]!);
      const questions = questionsOfFleet(served.uriOf(path), files[path]!, served.uriOf(handset), files[handset]!);
      const everywhere = await askEverywhere(served, new Map([[served.uriOf(path), files[path]!]]), PLACES);
      const rows = [ready(served), first, ...everywhere, ...(await askEach(served, questions))];
      return table(`A workspace of ${CRAFT} craft`, rows);
    } finally {
      await served.end();
    }
  });
};

export async function run(): Promise<string> {
  return [await demo(), await long(), await fleet(), "Milliseconds, over standard input and output."].join("\n\n");
}
