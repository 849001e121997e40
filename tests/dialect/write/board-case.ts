/** A dialect, a craft and its handset, as the tests of board text use them. */
import { makeCatalogue } from "../../../shared/catalogue/catalogue.ts";
import type { Dialect } from "../../../shared/dialect/dialect.ts";
import { dialectOf } from "../../../shared/dialect/dialects.ts";
import type { Craft } from "../../../shared/model/craft.ts";
import { memoryFiles } from "../../../shared/model/files.ts";
import { makeCore, type Workspace } from "../../../shared/model/workspace.ts";

const HANDSET = `handset "Slab"

controls
  TL  switch ch5  down 1000 us  up 2000 us
  TR  switch ch6  down 1000 us  mid 1500 us  up 2000 us
  KN  dial ch7 1000 us to 2000 us
`;

const core = makeCore(makeCatalogue());

/** The dialect and the craft of these texts; the craft may use `handset.fettle`. */
export function boardCase(
  dialectText: string,
  craftText: string,
  handsetText = HANDSET,
): { dialect: Dialect; craft: Craft; workspace: Workspace } {
  const view = memoryFiles({
    "/dialect.fettle": dialectText,
    "/craft.fettle": craftText,
    "/handset.fettle": handsetText,
  });
  const workspace = core.at(view);
  return { dialect: dialectOf(workspace, "/dialect.fettle")!, craft: workspace.craft("/craft.fettle")!, workspace };
}
