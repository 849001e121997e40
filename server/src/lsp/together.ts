/** The craft that the user has named to be flown together: looked for in the background, by their files or their names. */
import { isScriptFile } from "../../../shared/model/file-names.ts";
import type { FilePath } from "../../../shared/model/files.ts";
import type { FlownCraft } from "../../../shared/model/flown.ts";
import { resolvePath } from "../../../shared/model/uses.ts";
import type { Workspace } from "../../../shared/model/workspace.ts";
import { flownIn, steadyList } from "../../../shared/rules/lib/flown.ts";
import { debounce } from "./debounce.ts";

export interface Together {
  /** Files below a folder of the workspace, or names of craft, in the words of the user. */
  set(named: readonly string[]): void;
  /** Files, or what they hold, may be others now. */
  lookAgain(): void;
  /** All that fly together, if this craft is one of them; else none. */
  with(file: FilePath): readonly FilePath[];
  /** What they send, as the files are now: the same list for as long as that is the same. */
  flown(): readonly FlownCraft[];
}

interface Parts {
  readonly folders: () => readonly FilePath[];
  readonly now: () => Workspace;
  /** Once the scripts of the workspace are listed. */
  readonly listed: () => Promise<unknown>;
  /** Once all of them are read. */
  readonly loadWorkspace: () => Promise<void>;
  /** Once these files and all that they use are read. */
  readonly read: (files: readonly FilePath[]) => Promise<void>;
  /** Others fly together now. */
  readonly changed: () => void;
  /** Something that was named is not there: a sentence each. */
  readonly refused: (why: readonly string[]) => void;
  readonly failed: (error: unknown) => void;
}

/** After a start, and while somebody types, others have more to do. */
const PAUSE_MS = 250;

/** Nobody is named yet. */
export function makeTogether({ folders, now, listed, loadWorkspace, read, changed, refused, failed }: Parts): Together {
  let named: readonly string[] = [];
  let files: readonly FilePath[] = [];
  const steady = steadyList();
  let last: {
    readonly of: Workspace;
    readonly files: readonly FilePath[];
    readonly flown: readonly FlownCraft[];
  } | null = null;

  const byPath = async (path: string): Promise<readonly FilePath[]> => {
    for (const folder of folders()) {
      const at = resolvePath(`${folder}/-`, path.replaceAll("\\", "/"));
      if (at === null) continue;
      await read([at]);
      const file = now().view.realPath(at);
      if (now().craft(file)) return [file];
    }
    return [];
  };
  const byName = (name: string): readonly FilePath[] => {
    const workspace = now();
    return workspace.view.list().filter((file) => {
      const script = workspace.script(file);
      return script?.kind === "craft" && script.name === name;
    });
  };
  const lookUp = async (): Promise<void> => {
    const asked = named;
    await (asked.some((each) => !isScriptFile(each)) ? loadWorkspace() : listed());
    const found: FilePath[] = [];
    const why: string[] = [];
    for (const each of asked) {
      const those = isScriptFile(each) ? await byPath(each) : byName(each);
      if (those.length === 1) found.push(those[0]!);
      else why.push(whyNot(each, those.length));
    }
    if (asked !== named) return;
    refused(why);
    const before = files;
    files = [...new Set(found)];
    await read(files);
    if (before.join("\n") !== files.join("\n")) changed();
  };
  const run = debounce(() => void lookUp().catch(failed), PAUSE_MS);

  return {
    set(all) {
      if (all.join("\n") === named.join("\n")) return;
      named = all;
      run();
    },
    lookAgain() {
      if (named.length > 0) run();
    },
    with: (file) => (files.includes(file) ? files : []),
    flown() {
      if (files.length === 0) return [];
      const workspace = now();
      if (last?.of !== workspace || last.files !== files)
        last = { of: workspace, files, flown: steady(flownIn(workspace, files)) };
      return last.flown;
    },
  };
}

/** Says of each list what is in it, once for as long as it stays the same. */
export function toldOnce(tell: (all: string) => void): (why: readonly string[]) => void {
  let told = "";
  return (why) => {
    const all = why.map((each) => `In the setting fettle.together: ${each}`).join("\n");
    if (all !== told && all !== "") tell(all);
    told = all;
  };
}

function whyNot(named: string, count: number): string {
  if (count > 1) return `${count} craft are called “${named}”: name the file of the one that is meant.`;
  return isScriptFile(named)
    ? `“${named}” is no craft of this workspace: name it from a folder that is open, as in “craft/jug.fettle”.`
    : `No craft of this workspace is called “${named}”: write its name as the first line of its script does, or its file.`;
}
