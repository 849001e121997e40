/** The bench list as the panel shows it. */
import type { Craft } from "../../model/craft.ts";
import type { Workspace } from "../../model/workspace.ts";
import type { BenchPicture, BenchShown } from "../../protocol/bench.ts";
import { benchList } from "./bench-list.ts";

/** As much of the list as is asked for; where nobody chose, what is due once some check has a day. */
export function benchPicture(craft: Craft, workspace: Workspace, asked: BenchShown | undefined): BenchPicture {
  const whole = benchList(craft, workspace);
  const canChoose = whole.checks.some(({ at }) => at !== null);
  const shown = canChoose ? (asked ?? "due") : "all";
  return { list: shown === "due" ? benchList(craft, workspace, { only: "due" }) : whole, shown, canChoose };
}
