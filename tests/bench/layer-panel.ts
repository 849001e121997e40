/** How long the panel takes of a file that a thousand craft use, over the shipped server: at once, while it is typed in, and after a craft changed. */
import { ms, percentile } from "./figures.ts";
import { fleetOf } from "./scripts.ts";
import { inFolder, type Served, serveFolder, timed } from "./served.ts";

const CRAFT = 1000;
const KEYS = 60;
/** A pilot looks before he types; in that silence the server lists the workspace and warms up. */
const LOOK_MS = 3000;
const VIEWS = ["goggles", "switches", "numbers"] as const;

/** Files that all of the fleet use, each with a line to type in and the column at which that is done. */
const SHARED = [
  { path: "layers/habits.fettle", line: "  level ", column: 21 },
  { path: "layers/osd.fettle", line: "  alerts ", column: 29 },
  { path: "layers/rates.fettle", line: "  roll ", column: 16 },
  { path: "handsets/wheel.fettle", line: "  TL ", column: 23 },
];

const spread = (spent: readonly number[]) => `${ms(percentile(spent, 0.5))} ${ms(percentile(spent, 0.95))}`;

async function measure(served: Served, text: string, { path, line, column }: (typeof SHARED)[number]): Promise<string> {
  const { client } = served;
  const uri = served.uriOf(path);
  let version = 1;
  const type = (at: number, i: number) => {
    const start = { line: at, character: column };
    const range = { start, end: i % 2 === 0 ? start : { line: at, character: column + 1 } };
    const contentChanges = [{ range, text: i % 2 === 0 ? "1" : "" }];
    return client.sendNotification("textDocument/didChange", {
      textDocument: { uri, version: ++version },
      contentChanges,
    });
  };
  const panel = (view: string) => client.sendRequest("fettle/panel", { uri, view });
  await served.open(path, text);
  const [first = 0] = await timed(1, () => panel("goggles"));
  await new Promise((resolve) => setTimeout(resolve, LOOK_MS));
  const at = text.split("\n").findIndex((each) => each.startsWith(line));
  const cells = [path.padEnd(22), ms(first)];
  for (const view of VIEWS) {
    await panel(view);
    const spent: number[] = [];
    for (let i = 0; i < KEYS; i++) {
      await type(at, i);
      spent.push(...(await timed(1, () => panel(view))));
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
    cells.push(spread(spent.sort((a, b) => a - b)));
  }
  await client.sendNotification("textDocument/didClose", { textDocument: { uri } });
  return cells.join("  ");
}

export async function run(): Promise<string> {
  const files = fleetOf(CRAFT);
  return inFolder(files, async (folder) => {
    const served = await serveFolder(folder, { textDocument: { diagnostic: {} } });
    try {
      const rows = [
        `the panel of a file that ${CRAFT} craft use; after a key in it, p50 and p95 in ms`,
        `${"".padEnd(22)}   first  ${VIEWS.map((view) => view.padEnd(13)).join("  ")}`,
      ];
      for (const shared of SHARED) rows.push(await measure(served, files[shared.path]!, shared));
      return rows.join("\n");
    } finally {
      await served.end();
    }
  });
}
