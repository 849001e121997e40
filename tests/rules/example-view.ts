/** The files of a rule's example as a view, with the craft flown together that the rule has to be told of. */
import { type FileView, memoryFiles } from "../../shared/model/files.ts";
import type { Core } from "../../shared/model/workspace.ts";
import type { ExampleFiles, Rule } from "../../shared/rules/engine/rule.ts";
import { viewTogether } from "../../shared/rules/lib/flown.ts";

/** `files` are those of one of its examples, or what was made of them. */
export function exampleView({ examples }: Rule, files: ExampleFiles, core: Core): FileView {
  const view = memoryFiles(files);
  return examples.together ? viewTogether(view, core, examples.together) : view;
}
