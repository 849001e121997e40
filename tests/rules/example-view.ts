/** The files of a rule's example as a view, with all that its rule may know besides: the craft flown together, and the habits of all. */
import { type FileView, memoryFiles } from "../../shared/model/files.ts";
import type { Core } from "../../shared/model/workspace.ts";
import type { ExampleFiles, Rule } from "../../shared/rules/engine/rule.ts";
import { withHabits } from "../../shared/rules/lib/fleet-habits.ts";
import { viewTogether } from "../../shared/rules/lib/flown.ts";

/** `files` are those of one of its examples, or what was made of them. */
export function exampleView({ examples }: Rule, files: ExampleFiles, core: Core): FileView {
  const plain = memoryFiles(files);
  const view = withHabits(plain, core, plain.list);
  return examples.together ? viewTogether(view, core, examples.together) : view;
}
