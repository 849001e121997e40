/** How long the program takes over craft that are hard to follow: from nothing read to each answer. */
import { makeCatalogue } from "../../shared/catalogue/catalogue.ts";
import { readinessOf } from "../../shared/ide/arming/readiness.ts";
import { lensesOf } from "../../shared/ide/editor/lenses.ts";
import { hoverAt } from "../../shared/ide/hover/hover.ts";
import { panelOf } from "../../shared/ide/panel/panel.ts";
import { switchReport } from "../../shared/ide/reports/switch-map.ts";
import { boardOf } from "../../shared/logic/from-craft.ts";
import { memoryFiles } from "../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../shared/model/workspace.ts";
import { findingsOf } from "../../shared/rules/engine/engine.ts";
import { TANGLED, tangledFiles } from "../logic/tangled.ts";

const FILE = "jug.fettle";

/** Of the processor, since others use the machine too; what V8 does beside it counts as well. */
function timeMs(work: () => void): number {
  const start = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1000;
}

/** Each answer in its turn, as a server gives them after an edit; each finds what the former left. */
const ANSWERS: readonly (readonly [string, (workspace: Workspace) => void])[] = [
  ["findings", (workspace) => findingsOf(workspace, FILE)],
  ["lenses", (workspace) => lensesOf(workspace, FILE)],
  ["panel", (workspace) => panelOf(workspace, FILE, 1)],
  ["hover", (workspace) => hoverAt(workspace, "desk.fettle", { line: 3, character: 3 })],
  ["ready", (workspace) => readinessOf(workspace.craft(FILE)!, workspace)],
  ["map", (workspace) => switchReport(workspace.craft(FILE)!, workspace.catalogue)],
  ["states", (workspace) => boardOf(workspace.craft(FILE)!, workspace).listStates(40)],
];

/** Processor times in ms for each craft of the corpus; the first answer also reads the files. */
export async function run(): Promise<string> {
  const report = [`${"".padEnd(62)}${ANSWERS.map(([name]) => name.padStart(9)).join("")}`];
  const chosen = process.env.TANGLED;
  for (const craft of TANGLED.filter(({ title }) => chosen === undefined || title === chosen)) {
    const core = makeCore(makeCatalogue());
    const workspace = core.at(memoryFiles(tangledFiles(craft)));
    const times = ANSWERS.map(([, answer]) =>
      timeMs(() => answer(workspace))
        .toFixed(0)
        .padStart(9),
    );
    report.push(`${craft.title.padEnd(62)}${times.join("")}`);
  }
  return report.join("\n");
}
