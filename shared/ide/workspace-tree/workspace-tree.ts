/** All scripts of a workspace: what each uses, which craft use it, and how many findings it has. */
import type { Script } from "../../model/script.ts";
import { leadsBack, planOf } from "../../model/uses.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { FindingCounts, TreeFile, TreeUse, WorkspaceTree } from "../../protocol/workspace-tree.ts";
import { fileNameOf } from "../../text/file-name.ts";
import { type CountedFindings, countFindings } from "./counted-findings.ts";
import { faultOf } from "./fault.ts";

export { countsOf, type Weighed } from "./counted-findings.ts";

/** Lets others have their turn, where it is called between two files and enough time has passed. */
export type Breathe = () => Promise<void> | undefined;

/** Makes trees of workspaces, and remembers the findings of files that are as they were. */
export interface TreeMaker {
  /** The scripts without their findings: quick also for a thousand craft. */
  files(workspace: Workspace, breathe?: Breathe): Promise<WorkspaceTree>;
  /**
   * With the findings of each. What somebody else has counted already is not counted again: `counted` gives it,
   * null for what is not known yet, and undefined for what is to be counted here.
   */
  withFindings(
    workspace: Workspace,
    breathe?: Breathe,
    counted?: (file: string) => FindingCounts | null | undefined,
  ): Promise<WorkspaceTree>;
}

/** Nothing remembered yet. */
export function makeTrees(): TreeMaker {
  const counted: CountedFindings = new Map();
  return {
    files: (workspace, breathe) => treeOf(workspace, breathe, () => null),
    async withFindings(workspace, breathe, countedOf = () => undefined) {
      const listed = new Set(workspace.view.list());
      for (const file of counted.keys()) if (!listed.has(file)) counted.delete(file);
      return treeOf(workspace, breathe, (script) => {
        const known = countedOf(script.file);
        return known === undefined ? countFindings(workspace, script, counted) : known;
      });
    },
  };
}

type CountsOf = (script: Script) => FindingCounts | null;

async function treeOf(
  workspace: Workspace,
  breathe: Breathe = () => undefined,
  countsOf: CountsOf,
): Promise<WorkspaceTree> {
  const paths = workspace.view.list();
  const index = new Map(paths.map((path, i) => [path, i]));
  const users = paths.map((): number[] => []);
  const files: Omit<TreeFile, "users">[] = [];
  for (const [i, path] of paths.entries()) {
    await breathe();
    const script = workspace.script(path);
    if (!script) {
      files.push(unreadFile(workspace, path));
      continue;
    }
    const plan = script.kind === "craft" ? planOf(workspace, script, null) : null;
    for (const part of plan?.parts ?? []) {
      const at = index.get(part.script.file);
      if (at !== undefined && part.script !== script) users[at]!.push(i);
    }
    files.push({
      file: path,
      kind: script.kind,
      name: script.name,
      line: script.tree.header ?? 0,
      fault: faultOf(script),
      uses: script.uses.map((use): TreeUse => {
        const target = workspace.target(script, use);
        const written = { line: use.line, path: use.path ?? "" };
        if (target.kind !== "script") {
          const why = target.kind === "none" ? target.why : "it has not been read yet";
          return { ...written, to: null, why };
        }
        const to = index.get(target.script.file) ?? null;
        return { ...written, to, why: whyNoPart(workspace, script, target.script) };
      }),
      handset: (plan?.handset && index.get(plan.handset.file)) ?? null,
      findings: countsOf(script),
    });
  }
  return { files: files.map((each, i) => ({ ...each, users: users[i]! })) };
}

function unreadFile(workspace: Workspace, path: string): Omit<TreeFile, "users"> {
  const answer = workspace.view.read(path);
  const fault = answer?.kind === "unreadable" ? answer.why : "it could not be read";
  const name = fileNameOf(path);
  return { file: path, kind: null, name, line: 0, fault, uses: [], handset: null, findings: null };
}

/** Why a script is no part of what uses it, by the rules on which kind may use which. */
function whyNoPart(workspace: Workspace, from: Script, used: Script): string | null {
  if (used.kind === "craft") return "it is a craft, and a craft cannot be used";
  if (used.kind !== "layer" && used.kind !== "handset") return `it is a ${used.kind}, which no file uses`;
  if (from.kind === "handset" && used.kind !== "handset") return "it is no handset, and a handset uses only handsets";
  if (leadsBack(workspace, from, used)) return "it leads back to this file, in a circle";
  return null;
}
