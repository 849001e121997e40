/** The bench list as the panel shows it. */
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { BenchPicture, BenchShown } from "../../protocol/bench.ts";
import { benchList } from "./bench-list.ts";

/** As much of the list as is asked for; where nobody chose, what is due once some check has a day. */
export function benchPicture(craft: Craft, workspace: Workspace, asked: BenchShown | undefined): BenchPicture {
  // Of a craft without any day all of it is due.
  const list = benchList(craft, workspace, asked === "all" ? {} : { only: "due" });
  const canChoose = list.checks.some(({ at }) => at !== null);
  return { list, shown: canChoose && asked !== "all" ? "due" : "all", canChoose };
}
