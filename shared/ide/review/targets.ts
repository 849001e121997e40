/** The files into which a review can write. */
import type { Craft } from "../../model/craft.ts";
import type { FilePath } from "../../model/files.ts";
import type { Workspace } from "../../model/workspace.ts";
import { fileForNewLayer } from "../edits/new-layer-file.ts";

export interface Target {
  readonly file: FilePath;
  readonly name: string;
  readonly kind: "craft" | "layer" | "new-layer";
  /** Other craft that use it. */
  readonly alsoIn: readonly string[];
}

/** The craft itself, its layers from the nearest on, and a layer that does not exist yet. */
export function targetsOf(workspace: Workspace, mine: Craft): readonly Target[] {
  const layers = mine.scripts
    .filter(({ kind, file }) => kind === "layer" && file !== mine.file)
    .reverse()
    .map((script) => ({
      file: script.file,
      name: script.name,
      kind: "layer" as const,
      alsoIn: workspace
        .craftFilesWith(script.file)
        .filter((file) => file !== mine.file)
        .map((file) => workspace.script(file)!.name),
    }));
  const fresh = fileForNewLayer(workspace, mine.script, "Adopted");
  return [
    { file: mine.file, name: mine.name, kind: mine.script.kind === "craft" ? "craft" : "layer", alsoIn: [] },
    ...layers,
    ...(fresh ? [{ ...fresh, kind: "new-layer" as const, alsoIn: [] }] : []),
  ];
}
